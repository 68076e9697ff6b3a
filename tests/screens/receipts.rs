//! Receipts that don't agree, hauls of another day, and a haul entered twice.

use crate::table::Table;

const HAUL: &str = "at Corner Bazaar, 2027-10-12\n6 combs .60\n2 notebooks teal 1.00\n1 soap dish .40\nreceipt 2.30";

/// A season with one haul of the day before yesterday, whose receipt says 0.30 more than its lines.
fn short() -> Table {
    let mut table = Table::empty();
    table.paste(HAUL);
    table.keys("⏎");
    assert!(table.said().starts_with("Logged 3 lines, 2.00 paid, 2027-10-12, Corner Bazaar."), "{}", table.said());
    table
}

#[test]
fn what_a_receipt_says_more_is_seen_and_settled_later_by_one_key() {
    let mut table = short();
    table.keys("⎋⎋H").shows("Which hauls add up").shows("1 to settle · 1 haul");
    table.shows("2027-10-12  Corner Bazaar").shows("! receipt 0.30 more");
    table.keys("S").shows("? The receipt says 2.30, 0.30 more than the lines. What explains it?");
    table.shows("1  it was tax").shows("3  nobody knows: spread it over the lines").shows("0  leave it open");
    table.keys("0").shows("! receipt 0.30 more");
    table.keys("S1").shows("✓ adds up");
    assert_eq!(table.said(), "Settled Corner Bazaar, 2027-10-12: the 0.30 more was tax.");
    table.keys("S");
    assert_eq!(table.said(), "It adds up.");
    table.keys("u").shows("! receipt 0.30 more");
    table.keys("n").selected_has("Corner Bazaar");
}

#[test]
fn a_haul_of_another_day_opens_and_goes_on() {
    let mut table = short();
    table.keys("⎋⎋H⏎").shows("Haul of Tue 12 Oct · Corner Bazaar").shows("the receipt says 2.30: 0.30 more");
    table.keys("a3 rulers .30⏎");
    assert_eq!(table.said(), "Added 3 rulers. It adds up to the receipt.");
    table.shows("adds up to the receipt, 2.30");
    table.keys("⎋S");
    assert_eq!(table.said(), "It adds up.");
}

#[test]
fn a_haul_pasted_twice_is_noticed_before_it_is_kept() {
    let mut table = short();
    table.keys("⎋⎋").paste("6 combs .60\n2 notebooks teal 1.00\na soap dish .40\n1 kite 2.00\n");
    table.keys("G⏎").shows("This looks like Corner Bazaar, 2027-10-12: 3 of 4 lines are the same.");
    table.shows("1  it is another one: save it").shows("0  don't");
    table.keys("0").shows("Pasted lines, to look through");
    assert_eq!(table.keeper.season().hauls().unwrap().hauls.len(), 1);
    table.keys("⏎1");
    assert!(table.said().starts_with("Logged 4 lines, 4.00 paid"), "{}", table.said());
    assert_eq!(table.keeper.season().hauls().unwrap().hauls.len(), 2);
}

#[test]
fn a_haul_typed_twice_is_told_and_can_be_taken_back() {
    let mut table = short();
    table.keys("⎋⎋a6 combs .60⏎2 notebooks teal 1.00⏎");
    assert_eq!(table.said(), "Added 2 notebooks, teal.");
    table.keys("a soap dish .40⏎");
    assert_eq!(table.said(), "Added 1 soap dish. This looks like Corner Bazaar, 2027-10-12: all 3 lines are the same.");
}

#[test]
fn an_unknown_thing_is_asked_for_once_and_then_known() {
    let mut table = Table::empty();
    table.keys("a2 sundials 3.00⏎").shows("? \"sundials\": what does it count for?").shows("4  toy");
    table.keys("4");
    assert_eq!(table.said(), "Logged 1 line, 3.00 paid, 2027-10-14. Remembered: sundial counts for toy.");
    table.keys("1 brass sundial .50⏎");
    assert_eq!(table.said(), "Added 1 brass sundial.");
    // Taken back, it is unknown again.
    table.keys("⎋uu").keys("a1 sundial .50⏎").shows("? \"sundial\": what does it count for?");
}

#[test]
fn an_answer_is_remembered_for_its_kind_and_told() {
    let mut table = Table::empty();
    table.keys("a2 leggings 7-8 2.00⏎").shows("is it a size, or ages? I'll remember it for leggings.");
    table.keys("2");
    table.keys("3 leggings 5-6 3.00").shows("size 5-6 · as last time");
    table.keys("⏎");
    assert_eq!(table.said(), "Added 3 leggings, size 5-6.");
    // Taken back with the line that taught it, it is asked again.
    table.keys("⎋uu").keys("a1 leggings 7-8 2.00⏎").shows("is it a size, or ages?");
}

#[test]
fn one_answer_settles_the_same_doubt_of_pasted_lines() {
    let mut table = Table::empty();
    table.paste("2 leggings 7-8 2.00\n1 legging 5-6 1.00\n1 shirt 7-8 1.00");
    table.shows("after 3 doubts");
    table.keys("2").shows("after 1 doubt").shows("shirt");
    table.keys("2⏎");
    assert!(table.said().starts_with("Logged 3 lines"), "{}", table.said());
    table.keys("⎋⎋a1 legging 9-10 1.00").shows("size 9-10 · as last time");
}

#[test]
fn a_correction_says_which_boxes_it_reprices_before_it_is_kept() {
    let mut table = Table::empty();
    table.paste("4 combs 1.00\n1 soap .40\n1 kite 2.00");
    table.keys("⏎⎋⎋b1 girl 6-8⏎⏎⏎comb⏎⎋⎋⎋");
    assert_eq!(table.keeper.season().costs().unwrap().by_box.len(), 1, "{}", table.said());
    table.keys("H⏎ge").shows("mend › 4 combs");
    table.key(brimful::tui::app::key::Key::Ctrl('u'));
    table.keys("4 combs 2.00⏎").shows("Box 1 would cost 0.50 instead of 0.25.").shows("1  mend it so");
    table.keys("0");
    assert_eq!(table.keeper.season().costs().unwrap().by_box[0].cost.known, "0.25");
    table.keys("⏎1");
    assert_eq!(table.keeper.season().costs().unwrap().by_box[0].cost.known, "0.50");
}
