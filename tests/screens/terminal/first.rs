//! The first time, and coming back.

use super::seat::{Home, PROGRAM, Seat};

#[test]
fn a_line_logged_on_the_first_evening_is_there_on_the_second() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.waits_for("The table is empty. Three things to begin with, in any order:");
    assert!(seat.ask(vt100::Screen::alternate_screen), "it must not write over what stands on the screen");
    assert!(!seat.takes_lines_as_before(), "it must take keys one by one");
    seat.types("a12 toothbrushes 1.50 tote 4⏎").waits_for("Logged 1 line, 1.50 paid, 2027-10-14.");
    seat.back_to("› a writes what you bought").back_to("Items");
    seat.quits();

    let mut again = home.open(&[]);
    again.waits_for("12 on hand").waits_for("toothbrushes");
    again.quits();
    assert!(home.told(&["stock"]).contains("toothbrushes"));
}

#[test]
fn what_stood_in_the_terminal_before_stands_there_again() {
    let home = Home::new();
    let script = format!("echo here before; {PROGRAM} --by mira");
    let mut seat = Seat::run(home.command("/bin/sh", &["-c", &script]), 80, 24);
    seat.waits_for("The table is empty.").waits_without("here before");
    seat.quits();
    assert_eq!(seat.screen().trim(), "here before");
}

#[test]
fn the_sample_opens_on_its_own_and_leaves_the_own_season_alone() {
    let home = Home::new();
    let mut seat = home.open(&["sample"]);
    seat.waits_for("Quillhaven").waits_for("Checklist of box");
    seat.quits();
    assert!(!home.file().exists(), "looking at the sample made a season");
}

#[test]
fn an_empty_table_lets_one_look_around_in_the_sample_at_one_key() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.types("1").waits_for("Quillhaven").waits_for("Checklist of box");
    // The very first key goes to the sample, none is lost on the way.
    seat.types("?").waits_for("letters are letters");
    seat.back_to("Checklist of box");
    seat.quits();
    assert!(home.told(&["stock"]).contains("Nothing on hand"), "{}", home.told(&["stock"]));
}

#[test]
fn a_q_in_an_open_line_is_a_letter() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.types("aquilt squares q").waits_for("bought › quilt squares q");
    seat.back_to("› a writes what you bought").back_to("The table is empty.");
    seat.quits();
}

#[test]
fn whoever_gives_no_name_is_not_asked_again_for_the_sample() {
    let home = Home::new();
    let mut seat = Seat::run(home.command(PROGRAM, &[]), 80, 24);
    seat.waits_for("Who writes?");
    seat.types("⏎").waits_for("The table is empty.");
    seat.types("1").waits_for("Quillhaven").waits_for("Checklist of box");
    assert_eq!(seat.wrote().matches("Who writes?").count(), 1);
    seat.quits();
}

#[test]
fn a_name_is_asked_for_once_and_stands_in_the_history() {
    let home = Home::new();
    let start = || Seat::run(home.command(PROGRAM, &[]), 80, 24);
    let mut first = start();
    first.waits_for("Who writes? A short name for the history, or just Enter:");
    first.types("odile⏎").waits_for("The table is empty.");
    first.types("acomb .50⏎").waits_for("Logged 1 line, 0.50 paid");
    first.back_to("› a writes").back_to("Items");
    first.quits();

    let mut second = start();
    second.waits_for("1 on hand");
    assert!(!second.screen().contains("Who writes?"));
    second.types("U").waits_for("What was done").waits_for("odile");
    second.back_to("Items");
    second.quits();
}
