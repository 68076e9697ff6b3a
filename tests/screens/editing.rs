//! Words that go out to an editor, and what comes back.

use brimful::tui::app::key::{Input, Key};

use crate::table::Table;

fn comes_back(table: &mut Table, text: &str) {
    table.input(Input::Edited(Ok(text.to_owned())));
}

#[test]
fn the_words_of_the_open_line_go_out_and_come_back_into_it() {
    let mut table = Table::empty();
    table.keys("a2 combs");
    table.key(Key::F(4));
    table.keys("your editor⏎");
    assert_eq!(table.outside, ["Edit(\"2 combs\")"]);
    comes_back(&mut table, "2 combs, green .50\n");
    table.shows("bought › 2 combs, green .50");
    table.keys("⏎");
    assert_eq!(table.said(), "Logged 1 line, 0.50 paid, 2027-10-14.");
}

#[test]
fn several_lines_are_looked_through_like_pasted_ones_and_go_out_again_whole() {
    let mut table = Table::empty();
    table.keys(":your editor⏎");
    assert_eq!(table.outside, ["Edit(\"\")"]);
    comes_back(&mut table, "2 combs .50\r\n\r\n3 soaps .90\n");
    table.shows("Save 2 lines, 1.40");
    table.keys(":your editor⏎");
    assert_eq!(table.outside[1], "Edit(\"2 combs .50\\n3 soaps .90\")");
    comes_back(&mut table, "2 combs .50\n3 soaps .80\n4 pens .40\n");
    table.shows("Save 3 lines, 1.70");
    table.keys("⏎");
    assert_eq!(table.said(), "Logged 3 lines, 1.70 paid, 2027-10-14.");
    table.keys("⎋⎋⎋").shows("9 on hand");
}

#[test]
fn what_does_not_come_back_leaves_all_as_it_was() {
    let mut table = Table::empty();
    table.keys("a2 combs");
    table.key(Key::F(4));
    table.keys("your editor⏎");
    table.input(Input::Edited(Err("$EDITOR is not set.".to_owned())));
    table.shows("bought › 2 combs").shows("$EDITOR is not set.");
    let mut home = Table::empty();
    home.keys(":your editor⏎");
    comes_back(&mut home, "\n \n");
    home.lacks("bought ›").shows("Nothing was written; all is as it was.");
}

#[test]
fn a_box_written_over_several_rows_is_one_line() {
    let mut table = Table::empty();
    table.keys("bgirl");
    table.key(Key::F(4));
    table.keys("your editor⏎");
    comes_back(&mut table, "girl 6-8\nocean,   teal\u{1b}[2J\n");
    table.shows("box › girl 6-8 ocean, teal[2J");
}
