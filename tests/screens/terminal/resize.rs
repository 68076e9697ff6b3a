//! Another size of the terminal, at any moment.

use super::seat::Home;

#[test]
fn words_being_written_outlive_every_size() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    seat.types("a12 toothbrushes 1.5").waits_for("bought › 12 toothbrushes 1.5");
    seat.resizes(40, 10);
    seat.waits("the words stand on the small screen", |screen| {
        screen.contents().contains("12 toothbrushes 1.5") && screen.cursor_position().0 < 10
    });
    seat.types("0 to").waits_for("1.50 to");
    seat.resizes(20, 5);
    seat.types("te").waits_for("1.50 tote");
    seat.resizes(80, 24);
    seat.types(" 4").waits_for("bought › 12 toothbrushes 1.50 tote 4");
    seat.types("⏎").waits_for("Logged 1 line, 1.50 paid");
    assert!(home.told(&["where-is", "toothbrushes"]).contains("tote 4"));
}

#[test]
fn a_question_and_the_selected_row_outlive_every_size() {
    let home = Home::new();
    let mut seat = home.open(&["sample"]);
    seat.waits_for("Checklist of box 10");
    seat.types("↓↓").waits_for("Checklist of box 12");
    seat.resizes(40, 10);
    seat.waits_for("2 of 3, Tab");
    seat.resizes(20, 5);
    seat.waits_without("2 of 3, Tab");
    seat.resizes(80, 24);
    seat.waits_for("Checklist of box 12").waits_for("▸ 12 girl");

    seat.types("a2 leggings 7-8 2.00⏎").waits_for("is it a size, or ages?");
    seat.resizes(40, 10);
    seat.waits_for("1  ages 7 to 8");
    seat.resizes(80, 24);
    seat.waits_for("is it a size, or ages?").waits_for("bought › 2 leggings 7-8 2.00");
    seat.types("2").waits_for("leggings, size 7-8");
}

#[test]
fn one_cell_is_survived() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    for (w, h) in [(1, 1), (2, 1), (1, 24), (80, 1), (500, 3)] {
        seat.resizes(w, h);
    }
    for (w, h) in [(20, 5), (200, 60), (1, 1), (80, 24)] {
        seat.resizes_at_once(w, h);
    }
    seat.waits_for("The table is empty.").waits_for("? help");
    seat.quits();
}

#[test]
fn drawing_afresh_puts_right_what_another_program_wrote_over_it() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    let before = seat.screen();
    seat.is_written_over("\x1b[5;1Hmail for you \x1b[6;1Hmore of it");
    seat.waits_for("mail for you");
    seat.sends(b"\x0c");
    seat.waits_without("mail for you").waits_without("more of it");
    seat.waits("all stands as before", |screen| screen.contents() == before);
    seat.quits();
}
