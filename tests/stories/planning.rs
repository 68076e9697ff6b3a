//! `plan --problem`: a problem written as JSON, and its answers.

use serde_json::{Value, json};

use crate::shell::Computer;

/// Two girls' boxes and one boy's want a toy each; there are a puzzle for either and a doll.
fn problem() -> Value {
    json!({
        "note": "what isn't known is passed over",
        "age_rule": "covers",
        "categories": ["toy", "wow"],
        "kinds": {"puzzle": "toy"},
        "groups": [
            {"id": "girls", "sex": "girl", "age_from": 6, "age_to": 8, "count": 2, "need": {"toy": 1}, "must": {}},
            {"id": "boys", "sex": "boy", "age_from": 6, "age_to": 8, "count": 1, "need": {"toy": 1},
             "must": {"puzzle": 1}}
        ],
        "lots": [
            {"id": "L1", "category": "toy", "kind": "puzzle", "quantity": 1, "age_from": 3, "age_to": 9, "sex": "either"},
            {"id": "L2", "category": "toy", "kind": "doll", "quantity": 1, "age_from": 3, "age_to": 9, "sex": "girl"}
        ],
        "price_list": [
            {"category": "toy", "kind": "puzzle", "sex": "either", "age_from": 0, "age_to": 18, "unit_price": 250},
            {"category": "toy", "kind": "doll", "sex": "girl", "age_from": 0, "age_to": 18, "unit_price": 175}
        ],
        "ask": {"boxes": [2, 3, 4], "budgets": [174, 175]}
    })
}

#[test]
fn a_written_problem_is_answered_in_one_line_of_json() {
    let said = Computer::new().tell(&["plan", "--problem", "-"], &problem().to_string());
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    assert_eq!(said.out.lines().count(), 1);
    let answers: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(
        answers,
        json!({
            "max_complete": 2, "upper": 2, "proven": true,
            "max_if_unlimited": {"toy": 3, "wow": 2},
            "short_items_by_category": {"toy": 1, "wow": 0},
            "min_cost_all": 175, "min_cost_all_by_category": {"toy": 175, "wow": 0},
            "min_cost_for": [[2, 0, 0], [3, 175, 175], [4, null, null]],
            "max_with_budget": [[174, 2, 2], [175, 3, 3]],
            "plan": {"boys": 1, "girls": 1}
        })
    );
}

#[test]
fn no_time_at_all_still_brings_an_honest_answer() {
    let said = Computer::new().tell(&["plan", "--problem", "-", "--seconds", "0"], &problem().to_string());
    assert_eq!(said.code, 0);
    let answers: Value = serde_json::from_str(&said.out).unwrap();
    assert!(answers["max_complete"].as_u64().unwrap() <= 2 && answers["upper"].as_u64().unwrap() >= 2);
    assert_eq!(answers["proven"], answers["max_complete"] == answers["upper"]);
}

type Change = dyn Fn(&mut Value);

#[test]
fn a_bad_file_is_told_with_what_where_and_what_to_do() {
    let computer = Computer::new();
    let with = |change: &dyn Fn(&mut Value)| {
        let mut problem = problem();
        change(&mut problem);
        computer.tell(&["plan", "--problem", "-"], &problem.to_string())
    };
    let cases: [(&Change, &str); 8] = [
        (&|it| it["groups"][0]["count"] = json!(-1), "can't be read: invalid value"),
        (&|it| it["groups"][0]["age_to"] = json!(3), "group \"girls\": ages 6 to 3 are not in order"),
        (&|it| it["groups"][0]["id"] = json!("boys"), "two groups \"boys\"; give each its own id"),
        (&|it| it["groups"][0]["need"]["school"] = json!(1), "add it to \"categories\""),
        (&|it| it["groups"][1]["must"]["kite"] = json!(1), "must have \"kite\"; add that kind to \"kinds\""),
        (&|it| it["groups"][0]["need"]["toy"] = json!(4_000_000), "a box holds at most 1000"),
        (&|it| it["price_list"][0]["unit_price"] = json!(-5), "price_list: puzzle at -5"),
        (&|it| it["ask"]["budgets"] = json!([-1]), "an amount can't be below 0"),
    ];
    for (change, told) in cases {
        let said = with(change);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{told}");
        assert!(said.err.contains(told), "{told}: {}", said.err);
    }
    let missing = computer.tell(&["plan", "--problem", "nowhere.json"], "");
    assert!(missing.code == 2 && missing.err.contains("nowhere.json"), "{}", missing.err);
    let garbage = computer.write("half.json", "{\"categories\": [");
    let said = computer.tell(&["plan", "--problem", garbage.to_str().unwrap()], "");
    assert!(said.code == 2 && said.err.contains("half.json: it can't be read: EOF"), "{}", said.err);
    assert!(!computer.file().exists(), "no season was begun");
}
