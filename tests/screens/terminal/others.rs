//! Others at the same file, and no terminal at all.

use super::seat::{Home, Seat};

#[test]
fn what_another_program_keeps_is_shown_by_itself() {
    let home = Home::new();
    home.told(&["log", "12 toothbrushes 1.50 tote 4"]);
    home.told(&["box", "plan", "2 girl 6-8 ocean"]);
    let mut seat = home.open(&[]);
    seat.waits_for("12 on hand");
    seat.types("↓").waits_for("Checklist of box 2");

    let file = home.file();
    home.told(&["--file", file.to_str().unwrap(), "log", "9 combs .90 tote 4"]);
    seat.waits_for("21 on hand").waits_for("combs");
    home.told(&["put", "1", "comb"]);
    home.told(&["box", "plan", "girl 3-5 farm"]);
    seat.waits_for("20 on hand").waits_for(" 3 girl 3–5");
    assert!(seat.screen().contains("Checklist of box 2"), "the selection moved:\n{}", seat.screen());

    // While one writes, nothing of it is taken away.
    seat.types("a2 soaps .4").waits_for("bought › 2 soaps .4");
    home.told(&["log", "5 rulers .50"]);
    seat.types("0⏎").waits_for("Added 2 soaps.");
    seat.back_to("› a writes").back_to("27 on hand");
    seat.quits();
}

#[test]
fn without_a_terminal_it_tells_how_the_season_stands() {
    let home = Home::new();
    home.told(&["log", "12 toothbrushes 1.50"]);
    let piped = home.told(&[]);
    assert!(piped.contains("12") && !piped.contains('\x1b'), "{piped}");

    let script = format!("{} --by mira | cat", super::seat::PROGRAM);
    let mut seat = Seat::run(home.command("/bin/sh", &["-c", &script]), 80, 24);
    seat.ends();
    assert_eq!(seat.wrote().replace('\r', ""), piped);

    let mut dumb = home.brimful(&[]);
    dumb.env("TERM", "dumb");
    let mut seat = Seat::run(dumb, 80, 24);
    assert!(seat.ends().success());
    assert_eq!(seat.wrote().replace('\r', ""), piped);
}
