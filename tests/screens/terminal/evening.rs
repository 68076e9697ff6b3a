//! A whole evening: from a haul pasted in to boxes half full, and all of it there the next day.

use super::paste::paste_and_keep;
use super::seat::Home;

#[test]
fn an_evening_from_a_haul_to_a_full_box_is_there_the_next_day() {
    let home = Home::new();
    let mut seat = home.open(&[]);
    paste_and_keep(&mut seat);

    seat.types("b3 girl 6-8 ocean, teal⏎").waits_for("Planned boxes 1, 2, 3: girl 6–8, ocean, teal.");
    seat.waits_for("0 of 3 boxes full").waits_for("Checklist of box 3");

    // The best thing for each of the five lines, one Enter each; then three by name.
    seat.types("⏎").waits_for("Box 3 · girl 6–8");
    seat.types("⏎").waits_for("hygiene still needs 1");
    for (next, line) in ["school", "clothing", "toy", "wow item"].iter().zip(1..) {
        seat.types("⏎").waits_for(&format!("{next} still needs 1")).waits_for(&format!("{line} in ·"));
    }
    seat.types("⏎").waits_for("5 in ·").waits_for("Enter on hand");
    seat.types("⏎").waits_for("put in ›");
    for (words, offered, count) in
        [("2 star", "star stickers", 7), ("mirr", "small mirrors", 8), ("brac", "bracelets", 9)]
    {
        seat.types(words).waits_for(&format!("▸ {offered}"));
        seat.types("⏎");
        if offered == "small mirrors" {
            seat.waits_for("? Look twice: small mirrors. There is usually glass in it");
            seat.types("1");
        }
        seat.waits_for(&format!("{count} in ·"));
    }
    seat.back_to("Enter on hand").back_to("1 of 3 boxes full");

    // Who lacks hygiene: one into each.
    seat.types("r").waits_for("Which boxes lack what");
    seat.types("1").waits_for("2 boxes lack a hygiene item.");
    seat.types("*+").waits_for("into each of boxes 1, 2.").waits_for("No box lacks a hygiene item.");
    seat.back_to("1 of 3 boxes full").waits_for("271 on hand");

    // Ten acts taken back, the latest first: all since the haul.
    for act in [
        "Put 1 washcloth, teal into each of boxes",
        "Put 1 bracelet into box 3.",
        "Put 1 small mirror into box 3.",
        "Put 2 star stickers into box 3.",
        "Put 1 plush otter into box 3.",
        "Put 1 spinning top into box 3.",
        "Put 1 striped socks into box 3.",
        "Put 1 notebook, teal into box 3.",
        "Put 1 washcloth, teal into box 3.",
        "Planned boxes 1, 2, 3",
    ] {
        seat.types("u").waits_for(&format!("Took back: {act}"));
    }
    seat.waits_for("282 on hand").waits_for("no box planned yet").waits_for("Ctrl-R brings it again.");
    seat.quits();

    let mut next_day = home.open(&[]);
    next_day.waits_for("282 on hand").waits_for("No box planned.");
    // And what was taken back can be brought again.
    next_day.sends(b"\x12");
    next_day.waits_for("Brought again: Planned boxes 1, 2, 3").waits_for("0 of 3 boxes full");
    next_day.quits();
    assert!(home.told(&["check"]).starts_with("All is well"));
}
