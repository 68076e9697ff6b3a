//! An evening at the kitchen table, from the first haul to a full box.

use crate::table::Table;

#[test]
fn an_empty_file_greets_with_the_few_things_to_do_first() {
    let mut table = Table::empty();
    table.shows("The table is empty. Three things to begin with").shows("1   Look around in a made-up drive first.");
    table.keys("a12 toothbrushes 1.50 tote 4⏎");
    assert_eq!(table.said(), "Logged 1 line, 1.50 paid, 2027-10-14.");
    table.shows("12  toothbrushes").shows("0.125 each").shows("tote 4");
    table.keys("⎋⎋").shows("Items").shows("12 on hand");
}

#[test]
fn a_doubt_is_asked_and_answered_by_one_digit() {
    let mut table = Table::empty();
    table.keys("a2 leggings 7-8 2.00⏎");
    table.shows("?").shows("ages 7 to 8").shows("size 7-8");
    table.keys("2");
    table.shows("Haul of Thu 14 Oct").shows("leggings, size 7-8");
    assert_eq!(table.keys, 22);
}
