//! However it ends, what was half written waits.

use super::paste::HAUL;
use super::seat::{Home, Seat};

#[track_caller]
fn comes_back_to_the_words(home: &Home) {
    let mut again = home.open(&[]);
    again.waits_for("A half-written line waits for you: a opens it.");
    again.types("a").waits_for("bought › 12 toothbrushes 1.5");
    again.types("0⏎").waits_for("Logged 1 line, 1.50 paid");
    again.back_to("› a writes").back_to("Items");
    again.quits();
    let mut third = home.open(&[]);
    third.waits_for("12 on hand");
    assert!(!third.screen().contains("waits"), "what was logged still waits:\n{}", third.screen());
    third.quits();
}

fn half_written(home: &Home) -> Seat {
    let mut seat = home.open(&[]);
    seat.types("a12 toothbrushes 1.5").waits_for("bought › 12 toothbrushes 1.5");
    seat
}

#[test]
fn a_half_written_line_survives_being_killed() {
    let home = Home::new();
    let mut seat = half_written(&home);
    home.waits_for_draft("12 toothbrushes 1.5");
    seat.signals("KILL");
    assert!(seat.ends().signal().is_some());
    comes_back_to_the_words(&home);
}

#[test]
fn a_half_written_line_survives_ctrl_c() {
    let home = Home::new();
    let mut seat = half_written(&home);
    seat.sends(b"\x03");
    assert!(seat.ends().success());
    seat.is_left_tidy();
    comes_back_to_the_words(&home);
}

#[test]
fn a_half_written_line_survives_being_asked_to_end() {
    let home = Home::new();
    let mut seat = half_written(&home);
    seat.signals("TERM");
    seat.ends();
    comes_back_to_the_words(&home);
}

#[test]
fn a_pasted_list_and_its_answers_survive_being_killed() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.pastes(HAUL).waits_for("3 is no multiple of 2");
    seat.types("1").waits_for("is it a size, or ages?");
    home.waits_for_draft("small mirrors");
    home.waits_for_draft("3 sketchbooks 1.50");
    seat.signals("KILL");
    seat.ends();

    let mut again = home.open(&[]);
    again.waits_for("Pasted lines wait to be saved: a opens them.");
    again.types("a").waits_for("is it a size, or ages?");
    again.types("2").waits_for("▸ Save 40 lines, 74.65");
    again.types("⏎").waits_for("Logged 40 lines, 74.65 paid");
}
