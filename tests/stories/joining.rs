//! Several computers, one season: joined in any order, all end equal, and what clashes is told.

use crate::shell::Computer;

/// A season that several computers have a copy of.
fn copies(count: usize) -> Vec<Computer> {
    let first = Computer::new();
    first.ok(&["log", "--tote", "tote 1", "1 plush otter 2.00", "12 combs 1.20", "10 notebooks 2.00"]);
    first.ok(&["box", "plan", "5 6-8"]);
    let mut all = vec![first];
    while all.len() < count {
        let next = Computer::new();
        std::fs::copy(all[0].file(), next.file()).unwrap();
        all.push(next);
    }
    all
}

#[test]
fn two_computers_joined_both_ways_show_the_same() {
    let pair = copies(2);
    let (here, there) = (&pair[0], &pair[1]);
    here.ok(&["put", "1", "2 combs"]);
    here.ok(&["log", "--at", "Corner Bazaar", "4 erasers 0.40"]);
    there.ok(&["put", "2", "3 combs"]);
    there.ok(&["mend", "notebook", "--paid", "3.00"]);
    assert!(here.join(&there.file()).starts_with("Brought in 2 acts from that file."));
    there.join(&here.file());
    assert_eq!(here.shown(), there.shown());
    assert_eq!(here.join(&there.file()), "Nothing new in that file.\n");
    assert_eq!(here.json(&["stock", "comb"])["on_hand"], 7);
    for computer in &pair {
        assert!(computer.ok(&["check"]).starts_with("All is well"));
    }
}

#[test]
fn five_computers_end_equal_in_whatever_order() {
    let all = copies(5);
    for (number, computer) in (1..).zip(&all) {
        let label = number.to_string();
        computer.ok(&["put", &label, "3 combs"]);
        computer.ok(&["aside", &label, "notebook"]);
        computer.ok(&["mend", "otter", "--paid", &format!("{number}.50")]);
        computer.ok(&["lose", "notebook"]);
    }
    all[3].ok(&["undo"]);
    // A ring, then back and forth, with repeats: in the end everybody has been told everything.
    for (to, from) in
        [(0, 1), (1, 2), (2, 3), (3, 4), (4, 0), (2, 4), (2, 4), (1, 3), (0, 2), (4, 0), (3, 0), (1, 4), (2, 1)]
    {
        all[to].join(&all[from].file());
    }
    let shown = all[0].shown();
    for computer in &all[1..] {
        assert_eq!(computer.shown(), shown);
    }
    // Fifteen combs were packed of twelve.
    let review = all[2].ok(&["review"]);
    assert!(review.contains("3 more combs packed or given than there were (boxes 1, 2, 3, 4, 5)."), "{review}");
    assert!(review.contains("Take the ones that aren't there back out"), "{review}");
    let costs = all[0].json(&["cost"]);
    // 1.20 + 2.00 + the otter's price as said last, by the fifth computer.
    assert_eq!(costs["spent"]["known"], "8.70");
}

#[test]
fn the_last_one_packed_twice_is_told_and_settled() {
    let pair = copies(2);
    pair[0].ok(&["put", "1", "otter"]);
    pair[1].ok(&["put", "2", "otter"]);
    let said = pair[0].join(&pair[1].file());
    assert!(said.contains("1 thing wants a look: `brimful review` lists them."), "{said}");
    let review = pair[0].ok(&["review"]);
    assert!(review.contains("1 more plush otter packed or given than there were (boxes 1, 2)."), "{review}");
    pair[0].ok(&["take", "2", "otter"]);
    assert!(!pair[0].ok(&["review"]).contains("packed or given"));
    assert_eq!(pair[0].json(&["box", "show", "1"])["cost"]["known"], "2.00");
}

#[test]
fn an_act_that_rests_on_a_withdrawn_one_is_told() {
    let pair = copies(2);
    pair[0].ok(&["log", "yo-yo 1.00"]);
    pair[1].join(&pair[0].file());
    pair[1].ok(&["put", "3", "yo-yo"]);
    pair[0].ok(&["undo"]);
    pair[0].join(&pair[1].file());
    let review = pair[0].ok(&["review"]);
    assert!(review.contains("yo-yo was taken back, yet it is still used (boxes 3)."), "{review}");
}

#[test]
fn what_others_built_on_is_not_undone() {
    let pair = copies(2);
    pair[0].ok(&["log", "yo-yo 1.00"]);
    pair[1].join(&pair[0].file());
    pair[1].ok(&["put", "3", "yo-yo"]);
    pair[0].join(&pair[1].file());
    let err = pair[0].no(1, &["undo"]);
    assert!(err.contains("Can't take back: Logged 1 line"), "{err}");
    assert!(err.contains("Put 1 yo-yo into box 3."), "{err}");
    // Each computer takes back its own acts only.
    assert!(pair[1].ok(&["undo"]).starts_with("Took back: Put 1 yo-yo into box 3."));
    pair[0].join(&pair[1].file());
    assert!(pair[0].ok(&["undo"]).starts_with("Took back: Logged 1 line"));
}

#[test]
fn two_boxes_of_one_number_and_two_counts_at_once_are_told() {
    let pair = copies(2);
    pair[0].ok(&["box", "plan", "girl 6-8 ocean"]);
    pair[1].ok(&["box", "plan", "boy 6-8 space"]);
    pair[0].ok(&["count", "9 notebooks"]);
    pair[1].ok(&["count", "9 notebooks"]);
    pair[0].join(&pair[1].file());
    pair[1].join(&pair[0].file());
    let list = pair[0].ok(&["box", "list"]);
    assert!(list.contains("  6b  boy 6–8"), "{list}");
    pair[1].ok(&["put", "6b", "comb"]);
    let review = pair[0].ok(&["review"]);
    assert!(review.contains("Two computers planned a box 6: the later one is now 6b."), "{review}");
    assert!(review.contains("notebooks was counted on two computers at once"), "{review}");
}

#[test]
fn packing_into_a_box_that_was_closed_elsewhere_is_told() {
    let pair = copies(2);
    pair[0].ok(&["box", "close", "4"]);
    pair[1].ok(&["put", "4", "comb"]);
    pair[0].join(&pair[1].file());
    let review = pair[0].ok(&["review", "--all"]);
    assert!(review.contains("Things moved in or out of box 4 while it was closed elsewhere."), "{review}");
    assert_eq!(pair[0].json(&["box", "show", "4"])["things"], 1);
}

#[test]
fn seasons_in_different_money_are_not_joined() {
    let (here, there) = (Computer::new(), Computer::new());
    here.ok(&["log", "comb .30"]);
    there.write("drive.toml", "name = \"D\"\ncurrency = \"JPY\"\n[[band]]\nages = [6, 8]\n");
    there.ok(&["profile", "drive.toml"]);
    there.ok(&["log", "comb ¥30"]);
    let before = std::fs::read(there.file()).unwrap();
    let err = here.no(2, &["join", there.file().to_str().unwrap()]);
    assert!(err.contains("counts in JPY, this one in USD"), "{err}");
    assert_eq!(std::fs::read(there.file()).unwrap(), before, "the other file is only read");
}

#[test]
fn logging_without_rules_does_not_overrule_anothers_rules() {
    let (here, there) = (Computer::new(), Computer::new());
    here.write("drive.toml", "name = \"Our drive\"\ncurrency = \"USD\"\n[[band]]\nages = [6, 8]\n");
    here.ok(&["profile", "drive.toml"]);
    there.ok(&["log", "comb .30"]);
    here.join(&there.file());
    there.join(&here.file());
    assert!(here.ok(&["profile"]).contains("Our drive"));
    assert_eq!(here.ok(&["profile"]), there.ok(&["profile"]));
    assert_eq!(here.shown(), there.shown());
}

#[test]
fn a_restored_copy_goes_on_without_two_events_at_one_count() {
    let home = Computer::new();
    home.ok(&["log", "2 combs .30"]);
    let backup = home.path("backup");
    std::fs::copy(home.file(), &backup).unwrap();
    home.ok(&["box", "plan", "6-8"]);
    let gone_on = home.path("gone-on");
    std::fs::copy(home.file(), &gone_on).unwrap();
    std::fs::copy(&backup, home.file()).unwrap();
    home.ok(&["box", "plan", "3-5"]);
    home.join(&gone_on);
    assert!(home.ok(&["check"]).starts_with("All is well"));
    assert_eq!(home.json(&["box", "list"])["boxes"].as_array().unwrap().len(), 2);
}
