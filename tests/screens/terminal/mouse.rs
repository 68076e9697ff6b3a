//! The mouse: everything works without it, and it works too.

use vt100::{MouseProtocolEncoding, MouseProtocolMode};

use super::seat::Home;

#[test]
fn a_click_selects_a_row_and_a_second_one_opens_it() {
    let home = Home::new();
    home.told(&["box", "plan", "3 girl 6-8 ocean"]);
    let mut seat = home.open(&[]);
    seat.waits_for("Checklist of box 1");
    let second = seat.spot(" 2 girl 6–8");
    seat.clicks((second.0 + 3, second.1));
    seat.waits_for("Checklist of box 2").waits_for("▸  2 girl 6–8");
    seat.clicks((second.0 + 3, second.1));
    seat.waits_for("Box 2 · girl 6–8 · ocean");
}

#[test]
fn a_click_on_a_key_at_the_foot_presses_it() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    let key = seat.spot("b plan a box");
    seat.clicks(key);
    seat.waits_for("box ›");
    seat.back_to("The table is empty.").waits_without("box ›");
    let help = seat.spot("? help");
    seat.clicks((help.0 + 3, help.1));
    seat.waits_for("letters are letters");
}

#[test]
fn a_turn_of_the_wheel_moves_the_selection() {
    let home = Home::new();
    home.told(&["box", "plan", "9 girl 6-8 ocean"]);
    let mut seat = home.open(&[]);
    seat.waits_for("Checklist of box 1");
    seat.sends(b"\x1b[<65;30;8M");
    seat.waits_for("Checklist of box 4");
    seat.sends(b"\x1b[<64;30;8M");
    seat.waits_for("Checklist of box 1");
}

#[test]
fn the_mouse_is_left_to_the_terminal_where_that_is_wanted() {
    let home = Home::new();
    let asks = |args: &[&str]| {
        let seat = home.open(args);
        let modes = seat.ask(|screen| (screen.mouse_protocol_mode(), screen.mouse_protocol_encoding()));
        (modes, seat.wrote())
    };
    let ((mode, encoding), _) = asks(&[]);
    assert!(mode != MouseProtocolMode::None && encoding == MouseProtocolEncoding::Sgr, "{mode:?} {encoding:?}");
    let ((mode, _), wrote) = asks(&["--no-mouse"]);
    assert_eq!(mode, MouseProtocolMode::None);
    assert!(!wrote.contains("\x1b[?1000h") && !wrote.contains("\x1b[?1003h") && !wrote.contains("\x1b[?1006h"));
}
