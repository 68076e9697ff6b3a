//! What to be careful of, at the table: seen where one chooses, asked once, overruled with a reason.

use crate::table::Table;

/// A box for a six year old, and things to choose from.
fn packing(lines: &str) -> Table {
    let mut table = Table::empty();
    table.paste(lines);
    table.keys("⏎⎋⎋b1 girl 6-8⏎⏎");
    table.shows("Box 1 · girl 6–8");
    table
}

#[test]
fn what_may_not_go_in_is_not_offered_and_says_why_when_it_is_called() {
    let mut table = packing("12 balloons .60\n1 kite 2.00");
    table.keys("jjj⏎").shows("kite").lacks("balloons");
    table.keys("balloon").shows("✗ not for this age");
    table.keys("⏎");
    table.shows("? balloons: not for this age, box 1 for 6–8.").shows("1  allow it here, with a reason");
    table.keys("0");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 0);
    table.keys("⏎1").shows("allowed, because ›");
    table.keys("⏎");
    assert_eq!(table.said(), "A reason is needed; it is kept, and shown on the box.");
    table.keys("blown up by a helper⏎");
    let card = table.keeper.season().box_card("1").unwrap();
    assert_eq!((card.line.things, card.cautions[0].allowed.as_str()), (1, "blown up by a helper"));
    table
        .keys("!")
        .shows("What to be careful of: box 1")
        .shows("not for this age; allowed")
        .shows("Allowed by mira: blown up by a helper.");
}

#[test]
fn what_wants_a_look_is_asked_once() {
    let mut table = packing("4 shampoos 2.00\n4 combs .40");
    table.keys("⏎shampoo").shows("! look twice");
    table.keys("⏎").shows("? Look twice: shampoos.");
    table.keys("0");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 0);
    table.keys("⏎1");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 1);
    // One more of it was looked at already.
    table.keys("shampoo⏎");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 2, "{}", table.said());
    table.keys("⎋").shows("! careful    1").shows("shampoos !");
}

#[test]
fn one_key_tells_all_of_it_and_one_act_mends_it() {
    let mut table = packing("6 balloons .60\n1 kite 2.00");
    table.keys("⏎balloon⏎1for a helper⏎!");
    table.shows("Source: 16 CFR 1500.19(b)(2).").shows("The drive's own list and local law decide");
    table.keys("⏎").shows("1  take it out, keep it for a child of 8 or older").shows("2  allow it no longer");
    table.keys("1").shows("Nothing known to be careful of.");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 0);
    let ages = table
        .keeper
        .season()
        .stock(&brimful::season::StockWish::default())
        .unwrap()
        .things
        .iter()
        .find(|t| t.name == "balloons")
        .unwrap()
        .ages
        .clone();
    assert_eq!(ages, "8 and up");
    table.keys("⎋u");
    assert_eq!(table.keeper.season().box_card("1").unwrap().line.things, 1, "one act, one undo");
}

#[test]
fn a_thing_is_looked_over_for_each_age_group_from_its_card() {
    let mut table = packing("6 balloons .60\n1 kite 2.00");
    table
        .keys("⎋/balloon⏎!")
        .shows("What to be careful of: balloons")
        .shows("for 3–5")
        .shows("for 6–8")
        .shows("for 9–12   tell the parent");
}

#[test]
fn the_part_in_hand_says_what_is_looked_over() {
    let mut table = packing("6 balloons .60\n4 shampoos 2.00");
    table.keys("⏎shampoo⏎1⎋⎋");
    table.keys("!").shows("What to be careful of: box 1").shows("shampoos").lacks("balloons");
    table.keys("⎋⇥⇥!").shows("What to be careful of: balloons");
    table.keys("⎋r!").shows("What to be careful of: box 1").shows("shampoos");
}
