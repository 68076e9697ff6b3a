//! A haul pasted at once: its doubts one after another, what is left out, and one act for all.

use brimful::tui::app::key::Key;
use unicode_width::UnicodeWidthStr;

use crate::table::Table;

const TWO_DOUBTS: &str = "12 toothbrushes 1.50 tote 4\n2 leggings 7-8 2.00\n5 soaps 2 for 3.00\n3 combs .60";

/// What is on hand, and how many.
fn stock(table: &Table) -> Vec<(String, u32)> {
    let shelf = table.keeper.season().shelf().expect("the shelf can be read");
    shelf.wares().iter().filter(|ware| ware.on_hand > 0).map(|ware| (ware.title.to_string(), ware.on_hand)).collect()
}

fn named(expected: &[(&str, u32)]) -> Vec<(String, u32)> {
    expected.iter().map(|(title, units)| ((*title).to_owned(), *units)).collect()
}

#[test]
fn doubts_are_asked_one_after_another_and_one_enter_keeps_all() {
    let mut table = Table::empty();
    table.paste(TWO_DOUBTS).shows("Pasted lines, to look through").shows("4 of 4 lines · 4.10");
    table.shows("? \"7-8\": is it a size, or ages?").shows("Save 4 lines, 4.10, after 2 doubts");
    table.keys("1").shows("5 is no multiple of 2").shows("after 1 doubt");
    table.keys("1");
    table.selected_has("Save 4 lines, 11.60");
    assert!(stock(&table).is_empty(), "nothing is kept before it is said");
    table.keys("⏎");
    assert_eq!(table.said(), "Logged 4 lines, 11.60 paid, 2027-10-14.");
    assert_eq!(stock(&table), named(&[("combs", 3), ("leggings", 2), ("soaps", 5), ("toothbrushes", 12)]));
    table.keys("u");
    assert_eq!(stock(&table), []);
    table.key(Key::Ctrl('r'));
    assert_eq!(stock(&table).len(), 4);
}

#[test]
fn enter_before_the_doubts_are_settled_asks_them_again() {
    let mut table = Table::empty();
    table.paste(TWO_DOUBTS).keys("⎋G⏎");
    table.selected_or_was("2 leggings");
    table.shows("is it a size, or ages?");
    assert!(stock(&table).is_empty());
}

#[test]
fn x_leaves_a_line_out_and_n_goes_to_the_next_doubt() {
    let mut table = Table::empty();
    table.paste(TWO_DOUBTS).keys("⎋x").shows("left out: 2 leggings 7-8 2.00").shows("3 of 4 lines · 2.10");
    table.keys("x").shows("4 of 4 lines · 4.10");
    table.keys("xn").shows("5 is no multiple of 2");
    table.keys("1⏎");
    assert_eq!(table.said(), "Logged 3 lines, 9.60 paid, 2027-10-14.");
    assert_eq!(stock(&table), named(&[("combs", 3), ("soaps", 5), ("toothbrushes", 12)]));
    let mut table = Table::empty();
    table.paste("3 combs .60\n2 caps 1.00").keys("gx↓x↓⏎");
    assert_eq!(table.said(), "Every line is left out; Esc goes back.");
}

#[test]
fn e_mends_a_line_in_its_own_words() {
    let mut table = Table::empty();
    table.paste(TWO_DOUBTS).keys("⎋e").shows("mend › 2 leggings 7-8 2.00");
    table.key(Key::Ctrl('u'));
    table.keys("2 leggings size 7-8 2.40⏎").shows("5 is no multiple of 2");
    table.keys("1⏎");
    assert_eq!(table.said(), "Logged 4 lines, 12.00 paid, 2027-10-14.");
    assert!(stock(&table).contains(&("leggings, size 7-8".to_owned(), 2)), "{:?}", stock(&table));
}

#[test]
fn esc_keeps_the_lines_and_a_brings_them_back_with_what_was_answered() {
    let mut table = Table::empty();
    table.paste(TWO_DOUBTS).keys("1⎋⎋");
    assert_eq!(table.said(), "The pasted lines wait: a opens them again.");
    table.keys("a").shows("Pasted lines, to look through").shows("after 1 doubt").shows("5 is no multiple of 2");
    table.keys("1⏎");
    assert_eq!(stock(&table).len(), 4);
    table.keys("a").shows("bought ›");
    table.lacks("Pasted lines");
}

#[test]
fn a_line_that_is_too_long_is_told_by_its_number_and_holds_up_only_itself() {
    let mut table = Table::empty();
    // 4 letters 150 times and 12 more.
    let long = format!("{}long 1 2.00", "very ".repeat(120));
    assert_eq!(long.len(), 611);
    table.paste(&format!("12 toothbrushes 1.50\n{long}\n3 combs .60"));
    table.selected_has("Line 2 has 611 letters; 500 is the most.");
    assert!(table.said().ends_with("e mends it, x leaves it out."), "{}", table.said());
    table.keys("x").shows("Save 2 lines, 2.10");
    table.keys("G⏎");
    assert_eq!(stock(&table), named(&[("combs", 3), ("toothbrushes", 12)]));
    let mut table = Table::empty();
    table.paste(&format!("{long}\n{long}"));
    assert_eq!(table.said(), "Nothing in it can be read: every line is over 500 letters.");
}

#[test]
fn headings_inside_hold_for_the_lines_after_them_and_windows_line_ends_do_no_harm() {
    let mut table = Table::empty();
    table.paste("at Mill Lane Market, yesterday\r\ntote 4\r\n12 toothbrushes 1.50\r\n\r\ntax .10\r\nreceipt 1.60\r\n");
    table.shows("✓ Haul of Wed 13 Oct at Mill Lane Market.").shows("✓ What follows goes into tote 4.");
    table.shows("✓ The receipt says 1.60.").selected_has("Save 1 line, 1.50");
    table.keys("⏎");
    let hauls = table.keeper.season().hauls().expect("hauls can be read").hauls;
    let haul = &hauls[0];
    assert_eq!((haul.date.as_str(), haul.shop.as_str()), ("2027-10-13", "Mill Lane Market"));
    assert_eq!((haul.paid.known.as_str(), haul.receipt.as_str(), haul.over.as_str()), ("1.60", "1.60", ""));
    table.keys("/toothb").shows("12 left   tote 4");
}

#[test]
fn wide_letters_keep_the_prices_in_their_column() {
    let mut table = Table::empty();
    table.paste("2 日本 cups 1.00 tote 9\n2 e\u{301}toile combs 1.00 tote 9\n2 socks 1.00 tote 9");
    let at: Vec<usize> = table.rows().iter().filter_map(|row| row.find("1.00").map(|at| row[..at].width())).collect();
    assert_eq!(at, [60, 60, 60], "{}", table.screen());
}

#[test]
fn one_pasted_line_goes_into_the_open_line_and_nothing_is_kept() {
    let mut table = Table::empty();
    table.paste("3 combs .60\n").shows("bought › 3 combs .60");
    assert!(stock(&table).is_empty());
    table.keys("⏎");
    assert_eq!(stock(&table), named(&[("combs", 3)]));
}
