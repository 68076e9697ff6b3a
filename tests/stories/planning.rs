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

/// A drive whose boxes hold two school things and a toothbrush each; two girls' boxes and one boy's are open.
fn three_boxes() -> Computer {
    let home = Computer::new();
    let rules = "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\n\
                 checklist = [{ category = \"school\", count = 2 }, { kind = \"toothbrush\", count = 1 }]\n\
                 [[band]]\nages = [6, 8]\n[[band]]\nages = [9, 12]\n";
    home.write("rules.toml", rules);
    home.ok(&["profile", "rules.toml"]);
    home.ok(&["log", "--tote", "tote 12", "2 toothbrushes .40"]);
    home.ok(&["log", "--tote", "tote 3", "3 rulers .30", "1 eraser for girls .10"]);
    home.ok(&["box", "plan", "2 girl 6-8 ocean"]);
    home.ok(&["box", "plan", "boy 6-8"]);
    home
}

#[test]
fn of_three_boxes_two_can_be_finished_and_the_third_costs_40_cents() {
    let home = three_boxes();
    // 4 school things and 2 toothbrushes are enough for 2 boxes of 2 and 1; the third lacks 2 at 0.10 and 1 at 0.20.
    let said = home.say(&["plan"]);
    let told = "You can finish 2 of 3 boxes; that is the most you can finish.\n";
    assert!(said.code == 1 && said.out.starts_with(told), "{}{}", said.out, said.err);
    let way = "1 more toothbrush and 2 more school things finish 1 more box, about 0.40.\n\
               To finish all of them: buy 3 things, about 0.40.\n\
               `brimful plan --apply` sets aside what they still need.\n";
    assert!(said.out.contains(way), "{}", said.out);
    let plan = home.json(&["plan"]);
    assert_eq!((&plan["open"], &plan["can_finish"], &plan["at_most"]), (&json!(3), &json!(2), &json!(2)));
    assert_eq!(
        plan["categories"],
        json!([
            {"category": "hygiene", "needed": 3, "on_hand": 2, "short": 1, "if_never_short": 2},
            {"category": "school", "needed": 6, "on_hand": 4, "short": 2, "if_never_short": 2},
        ])
    );
    for (budget, boxes) in [("0.39", 2), ("0.40", 3)] {
        let plan = home.json(&["plan", "--budget", budget]);
        assert_eq!((&plan["ways"][0]["boxes"], &plan["ways"][0]["at_most"]), (&json!(boxes), &json!(boxes)));
    }
    assert_eq!(home.json(&["plan", "--boxes", "3"])["ways"][0]["cost"]["known"], "0.40");
    assert!(home.no(2, &["plan", "--band", "7-8"]).contains("there is 6–8, 9–12"));
    assert_eq!(home.json(&["plan", "--band", "9-12"])["open"], 0);
}

#[test]
fn applied_it_is_set_aside_in_one_act_and_counts_from_then_on() {
    let home = three_boxes();
    let said = home.say(&["plan", "--apply"]);
    assert!(said.code == 1 && said.out.starts_with("Set aside 6 things for 2 boxes. "), "{}{}", said.out, said.err);
    assert!(said.out.contains("tote 12\n □ 2 toothbrushes   boxes "), "{}", said.out);
    assert!(said.out.ends_with(" 6 things to fetch\n"), "{}", said.out);
    let plan = home.json(&["plan"]);
    assert_eq!((&plan["can_finish"], &plan["categories"][1]["needed"]), (&json!(2), &json!(2)));
    assert!(plan["boxes"].as_array().unwrap().iter().all(|giftbox| giftbox["things"] == json!([])));
    assert!(home.no(1, &["plan", "--apply"]).contains("has what it needs"));
    home.ok(&["undo"]);
    assert_eq!(home.ok(&["pull"]), "Nothing is set aside.\n");
    // The boy's box has its toothbrush; a second one is left for two girls.
    home.ok(&["put", "3", "toothbrush"]);
    let hygiene = &home.json(&["plan"])["categories"][0];
    assert_eq!((&hygiene["needed"], &hygiene["on_hand"]), (&json!(2), &json!(1)));
}

#[test]
fn what_may_not_go_in_and_what_counts_for_something_else_finishes_nothing() {
    let home = Computer::new();
    let rules = "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\n\
                 checklist = [{ category = \"toy\", count = 1 }, { category = \"wow\", count = 1 }]\n\
                 [[band]]\nages = [3, 5]\n[[band]]\nages = [9, 12]\n";
    home.write("rules.toml", rules);
    home.ok(&["profile", "rules.toml"]);
    home.ok(&["box", "plan", "girl 3-5"]);
    home.ok(&["box", "plan", "girl 9-12"]);
    home.ok(&["log", "4 kites 4.00"]);
    // No toy is given away as a wow item.
    assert_eq!(home.json(&["plan"])["can_finish"], 0);
    home.ok(&["log", "2 music boxes 6.00 as wow"]);
    assert_eq!(home.json(&["plan"])["can_finish"], 2);
    // Balloons stop at the small child's box, kites for boys at both.
    home.ok(&["lose", "4 kites"]);
    home.ok(&["log", "5 balloons .50, as toy", "3 kites for boys 3.00"]);
    let plan = home.json(&["plan"]);
    assert_eq!((&plan["can_finish"], &plan["boxes"][0]["box"]), (&json!(1), &json!("2")));
}

#[test]
fn the_shopping_page_says_what_to_buy_and_what_to_leave() {
    let home = three_boxes();
    home.ok(&["box", "drop", "3"]);
    home.ok(&["lose", "eraser"]);
    let page = "To finish all 2 open boxes\n1 thing, about 0.10\n\n\
                school: buy 1\n □ 1 for girls 6–8\n   at most 0.10 each, 0.10 in all\n   need 4, have 3\n   \
                paid before: eraser 0.10, ruler 0.10\n\n\
                toothbrush: need 2, have 2: leave it\n";
    assert_eq!(home.ok(&["buy"]), page);
    home.ok(&["lose", "2 toothbrushes"]);
    home.ok(&["log", "2 packs of 4 toothbrushes 1.60"]);
    home.ok(&["lose", "8 toothbrushes"]);
    // Bought as two singles at 0.20 and as packs at 0.20 each: of two middle ones at one price the pack.
    let page = home.json(&["buy"]);
    let brush = page["rows"].as_array().unwrap().iter().find(|row| row["what"] == "toothbrush").unwrap();
    assert_eq!((&brush["buy"], &brush["packs"], &brush["pack"]), (&json!(2), &json!(1), &json!(4)));
    assert_eq!((&brush["at_most"], &page["total"]["known"]), (&json!("0.80"), &json!("0.90")));
    assert!(home.ok(&["buy"]).lines().all(|line| line.chars().count() <= 40));
    let html = home.ok(&["buy", "--as", "html"]);
    assert!(html.starts_with("<!DOCTYPE html>") && html.contains("<h2>toothbrush: buy 2</h2>"), "{html}");
}

#[test]
fn room_is_a_second_number_and_says_what_it_does_not_know() {
    let home = Computer::new();
    let rules = |toys: u32, inside: &str| {
        format!(
            "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\n\
             checklist = [{{ category = \"toy\", count = {toys} }}]\n{inside}[[band]]\nages = [6, 8]\n"
        )
    };
    let set = |toys: u32, inside: &str| {
        home.write("rules.toml", &rules(toys, inside));
        home.ok(&["profile", "rules.toml"]);
    };
    set(1, "");
    home.ok(&["log", "2 wooden puzzles 90x90x90mm 2.00"]);
    home.ok(&["box", "plan", "girl 6-8"]);
    assert!(home.no(1, &["plan", "--room"]).contains("how large the box is inside"));
    // One takes 729 of 1,000 cubic centimetres, two take 1,458; 850 can be filled.
    set(1, "[box]\ninside_mm = [100, 100, 100]\n");
    let said = home.say(&["plan", "--room"]);
    assert!(
        said.code == 0 && said.out.contains("By their sizes there is room in the box for all it gets."),
        "{}",
        said.out
    );
    set(2, "[box]\ninside_mm = [100, 100, 100]\n");
    let plan = home.json(&["plan", "--room"]);
    assert_eq!(plan["can_finish"], 1);
    assert_eq!(plan["room"], json!({"fit": 0, "of": 1, "too_full": ["1"], "sizes_unknown": 0}));
    // With one in it already there is less room for the other.
    home.ok(&["put", "1", "puzzle"]);
    assert_eq!(home.json(&["plan", "--room"])["room"]["too_full"], json!(["1"]));
    assert_eq!(home.json(&["plan"])["room"], json!(null), "it is told only where it was asked for");
}

#[test]
fn clothes_of_a_plainly_wrong_size_finish_no_box() {
    let home = Computer::new();
    let rules = "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\n\
                 checklist = [{ category = \"clothing\", count = 1 }]\n[[band]]\nages = [3, 5]\n[[band]]\nages = [6, 8]\n";
    home.write("rules.toml", rules);
    home.ok(&["profile", "rules.toml"]);
    home.ok(&["log", "3 t-shirts size 7-8 3.00"]);
    home.ok(&["box", "plan", "girl 3-5"]);
    home.ok(&["box", "plan", "girl 6-8"]);
    let plan = home.json(&["plan"]);
    assert_eq!((&plan["can_finish"], &plan["boxes"][0]["box"]), (&json!(1), &json!("2")));
    home.ok(&["log", "1 t-shirt size 4T 1.00"]);
    assert_eq!(home.json(&["plan"])["can_finish"], 2);
}

#[test]
fn what_is_left_over_makes_boxes_more_even() {
    let home = three_boxes();
    home.ok(&["box", "drop", "3"]);
    // Each girl's box gets 2 school things and a toothbrush; of 4 school things none is left.
    assert!(home.ok(&["plan", "--even"]).contains("Each of these boxes has 3 things."));
    // With two balls in it the first has 5; of three stickers two go to the other, since no box is to have more than 5.
    home.ok(&["log", "2 balls .50", "3 stickers .30"]);
    home.ok(&["put", "1", "2 balls"]);
    let even = &home.json(&["plan", "--even"])["even"];
    assert_eq!((&even["fewest"], &even["most"], &even["fewest_then"]), (&json!(3), &json!(5), &json!(5)));
    assert_eq!(even["boxes"], json!([{"box": "2", "things": [{"name": "stickers", "units": 2}]}]));
    assert!(home.ok(&["plan", "--even"]).contains("with 2 extras from what is left over each has at least 5."));
}
