//! Forty lines pasted at once.

use super::seat::{Home, Seat};

/// Forty lines for 74.65; two of them leave a doubt.
pub const HAUL: &str = include_str!("haul.txt");

/// Pastes the forty lines and settles their doubts.
pub fn paste_and_keep(seat: &mut Seat) {
    seat.pastes(HAUL).waits_for("\"3 sketchbooks 2 for 1.00 tote 2\": 3 is no multiple of 2");
    seat.types("1").waits_for("\"7-8\": is it a size, or ages?");
    seat.types("2").waits_for("▸ Save 40 lines, 74.65");
    seat.types("⏎").waits_for("Logged 40 lines, 74.65 paid, 2027-10-14. u takes it back.");
}

#[test]
fn a_pasted_haul_is_one_list_and_one_undo() {
    assert_eq!(HAUL.lines().count(), 40);
    let home = Home::new();
    let mut seat = home.open(&[]);
    paste_and_keep(&mut seat);
    assert_eq!(seat.keys, 4, "a paste, two answers, Enter");
    seat.waits_for("282 on hand");
    seat.types("u").waits_for("Took back: Logged 40 lines, 74.65 paid, 2027-10-14.");
    seat.waits_for("0 on hand");
    assert!(home.told(&["stock"]).contains("Nothing on hand"));
}

#[test]
fn a_line_pasted_into_an_open_line_is_only_words() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.types("a2 ").waits_for("bought › 2");
    seat.pastes("soap dishes .40 each\n").waits_for("bought › 2 soap dishes .40 each");
    seat.types("⏎").waits_for("Logged 1 line, 0.80 paid");
}

#[test]
fn escapes_and_other_signs_in_a_paste_do_nothing_to_the_terminal() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.pastes("2 combs\x1b[?1049l\x1b]0;title\x07 .50\n3 soaps\x08\x08 .90\n").waits_for("Save 2 lines");
    assert!(seat.ask(vt100::Screen::alternate_screen), "a pasted escape left the screen");
}
