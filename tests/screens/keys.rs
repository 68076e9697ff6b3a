//! Keys that were moved: they work, and wherever keys are shown, they are.

use brimful::tui::app::action::Action;
use brimful::tui::app::key::{Hit, Key};
use brimful::tui::app::keymap::Way;

use crate::table::Table;

/// An empty season at a table where keys were moved.
fn table(moved: &[(&str, &[Key])]) -> Table {
    let mut table = Table::empty();
    for (name, keys) in moved {
        table.app.desk.keys.give(Way::of_name(name).unwrap(), keys);
    }
    table
}

#[test]
fn a_moved_key_works_and_the_one_it_had_does_nothing() {
    let mut table = table(&[("bought", &[Key::Char('o')]), ("undo", &[Key::Char('m'), Key::F(8)])]);
    table.keys("a").lacks("bought ›");
    table.keys("o2 combs .50⏎");
    assert_eq!(table.said(), "Logged 1 line, 0.50 paid, 2027-10-14.");
    table.keys("⎋⎋").shows("2 on hand").shows("m takes it back.");
    table.keys("u").shows("2 on hand");
    table.keys("m").shows("0 on hand");
    table.keys("oa mum puzzle").shows("bought › a mum puzzle");
    table.lacks("o takes").shows("F5 undo");
}

#[test]
fn the_foot_the_help_and_the_list_of_actions_show_where_a_key_is_now() {
    let mut table = table(&[("undo", &[Key::Char('m'), Key::F(8)]), ("review", &[]), ("box-same", &[Key::Char('s')])]);
    table.keys("bgirl 6-8⏎");
    let foot = |table: &Table| table.rows().last().unwrap().clone();
    assert!(foot(&table).contains("m undo") && !foot(&table).contains("u undo"), "{}", foot(&table));
    assert!(!foot(&table).contains("lacks what"), "it has no key to be shown: {}", foot(&table));
    table.keys(":another like it");
    assert!(table.row_with("▸ another like it").contains(" s "), "{}", table.screen());
    table.keys("⎋:lacks what").shows("lacks what");
    table.keys("⎋?");
    let mut help = String::new();
    for _ in 0..50 {
        help = help + &table.screen() + "\n";
        table.key(Key::Down);
    }
    let row = |words: &str| help.lines().find(|row| row.contains(words)).unwrap_or_else(|| panic!("no {words}"));
    assert!(row("Take back the last thing done").contains("m F8 F5  "), "{help}");
    assert!(row("Boxes and categories").contains(": by name"), "{help}");
    assert!(row("Plan a box like this one").trim_start_matches([' ', '▸']).starts_with("s "), "{help}");
}

#[test]
fn a_click_on_the_foot_presses_the_key_that_is_shown_there() {
    let mut table = table(&[("bought", &[Key::Char('o')])]);
    let row = u16::try_from(table.rows().len() - 1).unwrap();
    let foot = table.rows().pop().unwrap();
    let at = foot.find("o bought").map(|at| foot[..at].chars().count()).unwrap();
    assert_eq!(table.click(u16::try_from(at).unwrap(), row), Some(Hit::Press(Key::Char('o'))));
    table.shows("bought ›");
}

#[test]
fn sentences_name_the_key_as_it_is() {
    let mut table = table(&[("bought", &[Key::Char('o')]), ("leave", &[Key::Char('Q')]), ("plan-box", &[])]);
    table
        .shows("  o   Write what you bought")
        .shows("  : \"plan a box\" Plan a box")
        .shows("› o writes what you bought");
    table.keys("⎋");
    assert_eq!(table.said(), "You are home; Q leaves.");
    table.keys("q");
    assert!(table.outside.is_empty(), "q still leaves");
    table.keys("Q");
    assert_eq!(table.outside, ["Leave"]);
    assert_eq!(table.app.desk.key(Action::Leave), "Q");
}
