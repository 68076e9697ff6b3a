//! Boxes: planned, packed, looked over, closed, handed in; each step can be taken back.

use crate::shell::Computer;

/// Things for a few boxes.
fn stocked() -> Computer {
    let home = Computer::new();
    home.ok(&[
        "log",
        "--tote",
        "tote 4",
        "6 toothbrushes 0.60",
        "5 notebooks, teal 1.00",
        "3 notebooks, coral 0.30",
        "4 t-shirts, girls size 7-8 4.00",
        "2 foam balls 1.00",
        "2 pencil cases 1.00",
        "2 plush otters 5.00 wow",
    ]);
    home
}

#[test]
fn a_box_from_plan_to_full() {
    let home = stocked();
    assert_eq!(
        home.ok(&["box", "plan", "girl 6-8 ocean, teal and coral"]),
        "Planned box 1: girl 6–8, ocean, teal and coral. `brimful undo` takes it back.\n"
    );
    home.ok(&["put", "1", "toothbrush"]);
    home.ok(&["put", "1", "notebook", "teal"]);
    home.ok(&["aside", "1", "t-shirt"]);
    home.ok(&["put", "1", "ball"]);
    let before = home.json(&["box", "show", "1"]);
    let met: Vec<&str> = before["checklist"].as_array().unwrap().iter().map(|c| c["met"].as_str().unwrap()).collect();
    assert_eq!(met, ["full", "full", "once_in", "full", "nothing_yet"]);
    assert_eq!(before["full"], false);
    home.ok(&["put", "1", "otter"]);
    home.ok(&["put", "1", "t-shirt"]);
    let after = home.json(&["box", "show", "1"]);
    assert_eq!((&after["full"], &after["things"], &after["aside"]), (&true.into(), &5.into(), &0.into()));
    // 0.10 + 0.20 + 0.50 + 2.50 + 1.00
    assert_eq!(after["cost"]["known"], "4.30");
    assert_eq!(home.ok(&["review", "--lacks", "clothing"]), "No box lacks a clothing item.\n");
}

#[test]
fn what_is_set_aside_goes_in_first_and_is_kept_from_others() {
    let home = stocked();
    home.ok(&["box", "plan", "2 girl 6-8"]);
    home.ok(&["aside", "1", "2 balls"]);
    let err = home.no(1, &["put", "2", "ball"]);
    assert_eq!(err, "brimful: Only 0 foam balls on hand that no box holds, 1 asked (2 more set aside for boxes).\n");
    home.ok(&["put", "1", "ball"]);
    let card = home.json(&["box", "show", "1"]);
    assert_eq!((&card["things"], &card["aside"]), (&1.into(), &1.into()));
    home.ok(&["take", "1", "2 balls"]);
    let card = home.json(&["box", "show", "1"]);
    assert_eq!((&card["things"], &card["aside"]), (&0.into(), &0.into()));
    home.ok(&["put", "2", "2 balls"]);
}

#[test]
fn words_that_fit_several_things_are_asked_back() {
    let home = stocked();
    home.ok(&["box", "plan", "6-8"]);
    let err = home.no(1, &["put", "1", "notebook"]);
    assert!(
        err.contains("notebooks, teal (5 on hand, tote 4)") && err.contains("notebooks, coral (3 on hand"),
        "{err}"
    );
    let err = home.no(1, &["put", "1", "trumpet"]);
    assert_eq!(err, "brimful: Nothing on hand is called \"trumpet\".\n");
    home.ok(&["put", "1", "3 notebooks coral"]);
    // Only one kind of notebook is left, so the word is clear now.
    assert!(home.ok(&["put", "1", "notebook"]).starts_with("Put 1 notebook, teal into box 1."));
    assert_eq!(home.no(2, &["put", "7", "ball"]), "brimful: There is no box 7; `brimful box list` shows them.\n");
}

#[test]
fn one_into_each_is_one_act_and_one_undo() {
    let home = stocked();
    home.ok(&["box", "plan", "6 either 3-5"]);
    let said = home.ok(&["each", "1-4,6", "toothbrush"]);
    assert_eq!(said, "Put 1 toothbrush into each of boxes 1, 2, 3, 4, 6. `brimful undo` takes it back.\n");
    assert_eq!(home.ok(&["where-is", "toothbrush"]).matches("in box").count(), 5);
    let err = home.no(1, &["each", "1-6", "toothbrush"]);
    assert!(err.contains("Only 1 toothbrushes on hand"), "{err}");
    home.ok(&["undo"]);
    assert_eq!(home.ok(&["where-is", "toothbrush"]), "toothbrushes: 6 in tote 4\n");
    home.ok(&["redo"]);
    assert_eq!(home.ok(&["where-is", "toothbrush"]).matches("in box").count(), 5);
}

#[test]
fn things_go_into_holders_and_say_why() {
    let home = stocked();
    home.ok(&["box", "plan", "6-8"]);
    home.ok(&["put", "1", "pencil case"]);
    home.ok(&["put", "1", "toothbrush", "--inside", "pencil case", "--why", "it stays clean there"]);
    let card = home.ok(&["box", "show", "1"]);
    let lines: Vec<&str> = card.lines().map(str::trim).collect();
    let case = lines.iter().position(|line| line.starts_with("pencil cases")).unwrap();
    assert!(lines[case + 1].starts_with("inside it: toothbrushes"), "{card}");
    assert!(lines[case + 1].ends_with("(it stays clean there)"), "{card}");
    home.ok(&["note", "1", "toothbrush", "she asked for it"]);
    assert!(home.ok(&["box", "show", "1"]).contains("(she asked for it)"));
}

#[test]
fn moving_says_which_gap_opens() {
    let home = stocked();
    home.ok(&["box", "plan", "2 girl 6-8"]);
    home.ok(&["put", "1", "ball"]);
    home.ok(&["aside", "1", "otter"]);
    let said = home.ok(&["move", "1", "2", "ball"]);
    assert!(said.starts_with("Moved 1 foam ball from box 1 to box 2."), "{said}");
    assert!(said.contains("Box 1 still needs 1 hygiene, 1 school, 1 clothing, 1 toy."), "{said}");
    home.ok(&["move", "1", "2", "otter"]);
    let card = home.json(&["box", "show", "2"]);
    assert_eq!((&card["things"], &card["aside"], &card["cost"]["known"]), (&1.into(), &1.into(), &"0.50".into()));
    assert!(home.no(1, &["move", "1", "2", "ball"]).contains("Nothing in box 1 is called \"ball\""));
    assert!(home.no(1, &["move", "2", "1", "2 balls"]).contains("Box 2 holds only 1 of that, 2 asked"));
}

#[test]
fn a_copy_sets_the_same_things_aside_as_far_as_they_last() {
    let home = stocked();
    home.ok(&["box", "plan", "girl 6-8 ocean, teal"]);
    home.ok(&["put", "1", "2 balls"]);
    home.ok(&["put", "1", "t-shirt"]);
    let said = home.ok(&["box", "copy", "1"]);
    assert!(
        said.starts_with("Planned box 2: girl 6–8, ocean, teal. Set aside 1 t-shirt, size 7-8 for box 2."),
        "{said}"
    );
    assert!(said.contains("Not on hand for it: 2 foam balls."), "{said}");
}

#[test]
fn the_steps_of_a_box_follow_each_other() {
    let home = stocked();
    home.ok(&["box", "plan", "6-8"]);
    home.ok(&["put", "1", "ball"]);
    home.ok(&["box", "close", "1"]);
    assert!(home.no(1, &["take", "1", "ball"]).contains("Box 1 is closed; open it again first."));
    assert!(home.no(1, &["box", "came-back", "1"]).contains("Box 1 is closed, so it can't be said to have come back"));
    home.ok(&["box", "hand-in", "1", "--on", "2027-11-18"]);
    assert!(home.no(1, &["box", "reopen", "1"]).contains("handed in"));
    home.ok(&["box", "came-back", "1"]);
    home.ok(&["box", "unpack", "1"]);
    assert_eq!(home.ok(&["where-is", "ball"]), "foam balls: 2 in tote 4\n");
    home.ok(&["box", "drop", "1"]);
    assert!(home.ok(&["box", "list"]).starts_with("No boxes."));
}

#[test]
fn undoing_everything_is_the_start_and_redoing_it_the_end() {
    let home = stocked();
    home.ok(&["box", "plan", "2 6-8"]);
    home.ok(&["put", "1", "2 toothbrushes"]);
    home.ok(&["move", "1", "2", "toothbrush"]);
    home.ok(&["lose", "1", "ball", "--how", "burst"]);
    home.ok(&["mend", "otter", "--paid", "1.00"]);
    home.ok(&["box", "close", "2"]);
    let end = home.shown();
    for _ in 0..7 {
        home.ok(&["undo"]);
    }
    assert!(home.no(1, &["undo"]).contains("Nothing to undo"));
    assert_eq!(home.json(&["stock"])["on_hand"], 0);
    assert_eq!(home.json(&["cost"])["spent"]["known"], "0.00");
    for _ in 0..7 {
        home.ok(&["redo"]);
    }
    assert!(home.no(1, &["redo"]).contains("Nothing to bring again"));
    assert_eq!(home.shown(), end);
    assert!(home.ok(&["check"]).starts_with("All is well"));
}
