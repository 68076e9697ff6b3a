//! Stock outside boxes: bundles, kits, counts, and what leaves or turns up.

use crate::shell::{Computer, line};

#[test]
fn a_pack_becomes_bundles_that_carry_its_cost() {
    let home = Computer::new();
    home.ok(&["log", "pencils 24 pack 60 cents"]);
    assert_eq!(home.no(1, &["split", "pencils", "--of", "7"]), "brimful: 24 does not part into 7s.\n");
    let said = home.ok(&["split", "pencils", "--of", "8", "--name", "pencil bundles"]);
    assert_eq!(said, "Made 3 pencil bundles of 8 out of 24 pencils. `brimful undo` takes it back.\n");
    let stock = home.json(&["stock"]);
    assert_eq!((&stock["on_hand"], &stock["cost"]["known"]), (&3.into(), &"0.60".into()));
    // The price was wrong: the bundles follow.
    home.ok(&["mend", "pencils", "--paid", "0.90"]);
    assert_eq!(home.json(&["stock"])["cost"]["known"], "0.90");
    assert_eq!(home.json(&["cost"])["spent"]["known"], "0.90");
}

#[test]
fn a_set_is_broken_up_by_its_pieces() {
    let home = Computer::new();
    home.ok(&["log", "coloured pencils 24 pack 60 cents"]);
    assert_eq!(home.json(&["stock"])["on_hand"], 1);
    let said = home.ok(&["split", "coloured pencils", "--of", "8", "--name", "coloured pencils, 8s"]);
    assert!(said.starts_with("Made 3 coloured pencils, 8s of 8 out of 1 coloured pencil."), "{said}");
}

#[test]
fn a_kit_costs_what_its_parts_cost() {
    let home = Computer::new();
    home.ok(&["log", "2 pencil cases 1.00", "10 pencils 0.50", "4 erasers 0.40"]);
    home.ok(&["kit", "filled case", "--make", "2", "--with", "pencil case", "--with", "3 pencils", "--with", "eraser"]);
    let out = home.ok(&["stock"]);
    // (1.00 + 0.30 + 0.20) / 2
    assert!(line(&out, "filled case").contains("0.75"), "{out}");
    assert!(line(&out, "pencils").contains(" 4 "), "{out}");
    let err = home.no(1, &["kit", "filled case", "--with", "5 pencils"]);
    assert!(err.contains("Only 4 pencils on hand"), "{err}");
    home.ok(&["undo"]);
    assert_eq!(home.json(&["stock"])["on_hand"], 16);
}

#[test]
fn a_tote_is_counted_and_what_was_not_counted_is_named() {
    let home = Computer::new();
    home.ok(&["log", "--tote", "tote 7", "9 combs 0.90", "4 soaps 1.00", "2 rulers .50"]);
    home.ok(&["log", "--tote", "tote 2", "5 combs 0.50"]);
    let said = home.ok(&["count", "--tote", "tote 7", "7 combs", "5 soaps"]);
    assert!(said.contains("7 combs: 2 fewer than expected."), "{said}");
    assert!(said.contains("5 soaps: 1 more than expected."), "{said}");
    assert!(said.contains("Not counted, left as it was: 2 rulers."), "{said}");
    let places = home.ok(&["where-is", "comb"]);
    assert_eq!(places, "combs: 5 in tote 2; 7 in tote 7\n");
    let out = home.ok(&["cost"]);
    assert!(line(&out, "lost").ends_with("0.20"), "{out}");
    assert!(home.no(2, &["count", "combs"]).contains("is no count"));
}

#[test]
fn loose_lost_and_found() {
    let home = Computer::new();
    home.ok(&["log", "10 stickers 1.00"]);
    home.ok(&["loose", "3 stickers", "--to", "the twins"]);
    home.ok(&["lose", "2 stickers"]);
    home.ok(&["found", "1 sticker"]);
    let out = home.ok(&["cost"]);
    for (place, cost) in [("on hand", "0.50"), ("given loose", "0.30"), ("lost", "0.20")] {
        assert!(line(&out, place).ends_with(cost), "{out}");
    }
    assert_eq!(home.json(&["stock"])["on_hand"], 6);
    assert!(home.no(1, &["loose", "7 stickers"]).contains("Only 6 stickers on hand"));
    assert!(home.ok(&["history", "3"]).contains("Gave 3 stickers loose to the twins."));
}

#[test]
fn the_batch_that_expires_sooner_goes_first_then_the_older_one() {
    let home = Computer::new();
    home.ok(&["log", "--on", "2027-01-05", "2 wipes 0.20"]);
    home.ok(&["log", "--on", "2027-03-05", "2 wipes 0.60, exp 2028-01"]);
    home.ok(&["log", "--on", "2027-01-01", "2 wipes 1.00"]);
    home.ok(&["box", "plan", "6-8"]);
    let cost = || home.json(&["box", "show", "1"])["cost"]["known"].as_str().unwrap().to_owned();
    let mut costs = Vec::new();
    for _ in 0..6 {
        home.ok(&["put", "1", "wipes"]);
        costs.push(cost());
    }
    assert_eq!(costs, ["0.30", "0.60", "1.10", "1.60", "1.70", "1.80"]);
}

#[test]
fn prices_are_remembered() {
    let home = Computer::new();
    home.ok(&["log", "--at", "Corner Bazaar", "--on", "2027-01-05", "4 combs 1.00"]);
    home.ok(&["log", "--at", "Mill Lane Market", "--on", "2027-05-05", "4 combs 0.40"]);
    home.ok(&["log", "--at", "Corner Bazaar", "--on", "2027-07-05", "2 combs 0.60"]);
    let prices = home.json(&["cost", "--of", "comb"]);
    let each: Vec<&str> =
        prices["times"].as_array().unwrap().iter().map(|time| time["each"].as_str().unwrap()).collect();
    assert_eq!(each, ["0.25", "0.10", "0.30"]);
    // 2.00 for 10.
    assert_eq!(
        (&prices["lowest"], &prices["middle"], &prices["average"]),
        (&"0.10".into(), &"0.25".into(), &"0.20".into())
    );
}
