//! Near the drop-off: what to fetch from which tote, and what still stops each box.

use crate::shell::Computer;

/// Two boxes for girls, a drive that takes boxes in two days later, and things in two totes.
fn near_the_end() -> Computer {
    let home = Computer::new();
    let rules = "name = \"Otter Bay Drive\"\ncurrency = \"USD\"\ndrop_off = [\"2027-10-16\"]\n\
                 checklist = [{ category = \"school\", count = 2 }, { kind = \"toothbrush\", count = 1 }]\n\
                 [[band]]\nages = [6, 8]\n";
    home.write("rules.toml", rules);
    home.ok(&["profile", "rules.toml"]);
    home.ok(&["log", "--tote", "tote 12", "2 toothbrushes .40"]);
    home.ok(&["log", "--tote", "tote 3", "3 rulers .30", "1 eraser for girls .10"]);
    home.ok(&["box", "plan", "2 girl 6-8 ocean"]);
    home
}

#[test]
fn from_the_pull_list_into_the_boxes() {
    let home = near_the_end();
    assert_eq!(home.ok(&["pull"]), "Nothing is set aside.\n");
    home.ok(&["aside", "2", "2 rulers"]);
    home.ok(&["aside", "1", "toothbrush"]);
    home.ok(&["aside", "1", "ruler"]);
    let told = "tote 3\n □ 3 rulers   boxes 1, 2 (2)\ntote 12\n □ 1 toothbrush   box 1\n\n 4 things to fetch\n";
    assert_eq!(home.ok(&["pull"]), told);
    home.ok(&["put", "2", "2 rulers"]);
    let list = home.json(&["pull"]);
    assert_eq!(list["totes"][0]["rows"][0]["boxes"], serde_json::json!([{"box": "1", "units": 1}]));
    home.ok(&["box", "close", "1"]);
    assert_eq!(home.ok(&["pull"]), "Nothing is set aside.\n");
}

#[test]
fn the_last_night_names_what_stops_each_box_and_its_fix() {
    let home = near_the_end();
    home.ok(&["put", "2", "2 rulers"]);
    let told = "Drop-off 2027-10-16, 2 days left.\n\n\
                Box 2 · girl 6–8, ocean\n   needs 1 toothbrush; not closed\n   fix: toothbrush is on hand\n\n\
                Box 1 · girl 6–8, ocean\n   needs 2 school, 1 toothbrush; not closed\n   \
                fix: toothbrush, eraser and ruler are on hand\n\n\
                2 of 2 boxes not handed in; for 2 of them all that it takes is on hand.\n";
    assert_eq!(home.ok(&["last-night"]), told);
    home.ok(&["lose", "2", "toothbrushes"]);
    let night = home.json(&["last-night"]);
    assert_eq!(night["rows"][1]["fix"], "eraser and ruler are on hand; buy 1 toothbrush for a girl of 6–8");
    assert_eq!((&night["rows"][1]["fix_from_stock"], &night["days_left"]), (&false.into(), &2.into()));
    for step in ["close", "hand-in"] {
        home.ok(&["box", step, "1"]);
        home.ok(&["box", step, "2"]);
    }
    assert_eq!(
        home.ok(&["last-night"]),
        "Drop-off 2027-10-16, 2 days left.\nNothing is left to do: 2 boxes handed in.\n"
    );
}

#[test]
fn without_boxes_it_says_how_to_plan_one() {
    let home = Computer::new();
    home.ok(&["log", "4 combs .40"]);
    assert_eq!(home.ok(&["last-night"]), "No boxes. `brimful box plan \"girl 6-8 ocean, teal\"` plans one.\n");
    assert_eq!(home.ok(&["pull"]), "Nothing is set aside.\n");
}
