//! Whether things go into a box, asked with a file of sizes.

use serde_json::Value;

use crate::shell::Computer;

const BOOK_AND_BALLS: &str = r#"{"container": [330, 200, 120], "things": [
    {"name": "book", "size": [240, 170, 12], "upright": [false, false, true]},
    {"name": "ball", "size": [70, 70, 70], "count": 2}]}"#;

fn asked(problem: &str) -> Value {
    let said = Computer::new().tell(&["fit", "--problem", "-"], problem);
    assert_eq!((said.code, said.err.as_str()), (0, ""), "{problem}");
    serde_json::from_str(&said.out).unwrap()
}

#[test]
fn each_thing_is_given_its_place() {
    let told = asked(BOOK_AND_BALLS);
    assert_eq!((&told["version"], &told["verdict"], &told["why"]), (&1.into(), &"fits".into(), &"It all fits.".into()));
    let placed = told["placed"].as_array().unwrap();
    let things: Vec<u64> = placed.iter().map(|place| place["thing"].as_u64().unwrap()).collect();
    assert_eq!(things.iter().filter(|thing| **thing == 1).count(), 2);
    let book = placed.iter().find(|place| place["thing"] == 0).unwrap();
    assert_eq!(book["size"][2], 12);
    for place in placed {
        for (axis, side) in [330, 200, 120].into_iter().enumerate() {
            let (at, size) = (place["at"][axis].as_i64().unwrap(), place["size"][axis].as_i64().unwrap());
            assert!(at >= 0 && at + size <= side, "{place}");
        }
    }
    // 240 × 170 × 12 and twice 70 × 70 × 70, of 330 × 200 × 120.
    let share = told["volume_share"].as_f64().unwrap();
    assert!((share - 1_175_600.0 / 7_920_000.0).abs() < 1e-9, "{share}");
}

#[test]
fn an_answer_is_an_answer_whatever_it_is() {
    let verdict = |problem: &str| asked(problem)["verdict"].as_str().unwrap().to_owned();
    let exact = r#"{"container": [100, 100, 100], "things": [{"size": [100, 100, 100]}]}"#;
    assert_eq!(verdict(exact), "tight");
    let full = r#"{"container": [100, 100, 100], "things": [{"size": [50, 50, 50], "count": 9}], "all_or_most": "most", "seconds": 0.05}"#;
    let told = asked(full);
    assert_eq!((told["verdict"].as_str(), told["placed"].as_array().unwrap().len()), (Some("impossible"), 8));
    let unknown = r#"{"container": [100, 100, 100], "things": [{"name": "scarf", "size": null}]}"#;
    assert_eq!(asked(unknown)["why"], "Nobody can tell yet: the size isn't known of scarf.");
    assert_eq!(verdict(unknown), "sizes_unknown");
    // No time to look for a way.
    assert_eq!(verdict(&BOOK_AND_BALLS.replace("2}]}", "2}], \"seconds\": 0}")), "not_found");
}

#[test]
fn a_search_ends_when_its_time_is_up() {
    let many = r#"{"container": [330, 200, 120], "things": [{"size": [41, 37, 29], "count": 200}], "seconds": 0.2}"#;
    let spent = asked(many)["cpu_seconds"].as_f64().unwrap();
    assert!(spent < 0.5, "{spent}");
}

#[test]
fn what_is_wrong_with_a_file_is_told_with_its_place() {
    let home = Computer::new();
    for (text, why) in [
        ("{\"container\": [1, 2, 3]", "EOF while parsing"),
        ("{\"container\": [1, 2], \"things\": []}", "invalid length 2"),
        ("{\"things\": []}", "missing field `container`"),
        ("{\"container\": [9, 9, 9], \"things\": [], \"colour\": 1}", "unknown field `colour`"),
        ("{\"container\": [9, 0, 9], \"things\": []}", "container: 0 is no length; give 1 to 30000 millimetres"),
        (
            "{\"container\": [9, 9, 9], \"things\": [{\"name\": \"cup\", \"size\": [1, -2, 3]}]}",
            "things[0].size (cup): -2 is no length",
        ),
        ("{\"container\": [9, 9, 9], \"things\": [{\"size\": [1, 2.5, 3]}]}", "invalid type: floating point `2.5`"),
        (
            "{\"container\": [9, 9, 9], \"things\": [{\"size\": [1, 2, 3], \"upright\": [false, false, false]}]}",
            "things[0].upright: no side may be upright",
        ),
        (
            "{\"container\": [9, 9, 9], \"things\": [{\"size\": [1, 2, 3], \"count\": 99999}]}",
            "things: 99999 pieces are too many; give at most 10000",
        ),
        ("{\"container\": [9, 9, 9], \"things\": [], \"seconds\": -1}", "seconds: -1 is no time to search"),
        ("{\"container\": [9, 9, 9], \"things\": [], \"all_or_most\": \"some\"}", "unknown variant `some`"),
    ] {
        home.write("sizes.json", text);
        let err = home.no(2, &["fit", "--problem", "sizes.json"]);
        assert!(err.starts_with("brimful: sizes.json: ") && err.contains(why), "{text}: {err}");
    }
    assert!(home.no(2, &["fit", "--problem", "nowhere.json"]).contains("nowhere.json: "));
    assert_eq!(home.say(&["fit"]).code, 2);
}
