//! Colours and signs as they really reach the terminal.

use vt100::Color;

use super::seat::{Home, Seat};

fn sample_with(names: &[(&str, &str)], args: &[&str]) -> (Home, Seat) {
    let home = Home::new();
    home.told(&["sample", "--no-tui"]);
    let mut command = home.brimful(&["sample"]);
    command.args(args);
    for (name, value) in names {
        command.env(name, value);
    }
    let seat = Seat::run(command, 80, 24);
    seat.waits_for("Checklist of box");
    (home, seat)
}

/// Goes through several screens, and leaves.
fn looks_around(seat: &mut Seat) {
    seat.types("r").waits_for("Which boxes lack what");
    seat.back_to("Checklist of box");
    seat.types("⏎").waits_for("In the box");
    seat.types("⏎").waits_for("put in ");
    seat.types("zzzz").waits_for("zzzz");
    seat.types("⏎").waits_for("Nothing on hand is called");
    seat.back_to("Enter on hand").back_to("Checklist of box");
    seat.quits();
}

/// The numbers of all sequences that set colours or styles.
fn styles(bytes: &[u8]) -> Vec<String> {
    let text = String::from_utf8(bytes.to_vec()).unwrap();
    let after_start = text.split("\x1b[").skip(1);
    let whole = after_start.filter_map(|rest| {
        let end = rest.find(|c: char| !c.is_ascii_digit() && c != ';' && c != ':')?;
        rest[end..].starts_with('m').then(|| rest[..end].to_owned())
    });
    whole.collect()
}

fn is_colour(style: &str) -> bool {
    style.split([';', ':']).any(|number| {
        // 39 and 49 take a colour away; 30 to 48 and 90 to 107 set one; 58 colours an underline.
        matches!(number.parse::<u16>(), Ok(30..=38 | 40..=48 | 58 | 90..=97 | 100..=107))
    })
}

/// Whether it sets no other colour than one of the terminal's own sixteen.
fn is_of_sixteen(style: &str) -> bool {
    let mut numbers = style.split([';', ':']);
    while let Some(number) = numbers.next() {
        // A colour by its number, 38;5;6, is its own only below 16; 38;2 mixes one.
        let is_own = match number {
            "38" | "48" | "58" => {
                numbers.next() == Some("5") && numbers.next().and_then(|n| n.parse().ok()).is_some_and(|n: u16| n < 16)
            }
            _ => true,
        };
        if !is_own {
            return false;
        }
    }
    true
}

/// Whether the row with this text is reversed.
fn is_reversed(seat: &Seat, text: &str) -> bool {
    let (x, y) = seat.spot(text);
    seat.ask(|screen| screen.cell(y, x).unwrap().inverse())
}

#[test]
fn without_colour_none_is_written_and_the_selected_row_is_still_plain_to_see() {
    for (names, args) in [
        (&[("NO_COLOR", "1")][..], &[][..]),
        (&[("NO_COLOR", "1"), ("COLORFGBG", "15;0")], &["--theme", "dark"]),
        (&[], &["--color", "never", "--theme", "light"]),
    ] {
        let (_home, mut seat) = sample_with(names, args);
        assert!(is_reversed(&seat, "▸"), "{names:?} {args:?}: the selected row is like the others");
        looks_around(&mut seat);
        let styles = styles(&seat.bytes());
        assert!(styles.iter().any(|style| style == "7"), "nothing was reversed: {styles:?}");
        let coloured: Vec<_> = styles.iter().filter(|style| is_colour(style)).collect();
        assert!(coloured.is_empty(), "{names:?} {args:?}: {coloured:?}");
    }
}

#[test]
fn on_a_dark_or_light_ground_only_the_terminals_own_sixteen_colours_are_used() {
    for theme in ["dark", "light"] {
        let (_home, mut seat) = sample_with(&[], &["--theme", theme]);
        let shown = seat.ask(|screen| {
            let cells = (0..24).flat_map(|y| (0..80).map(move |x| (y, x)));
            cells.filter_map(|(y, x)| screen.cell(y, x).map(vt100::Cell::fgcolor)).collect::<Vec<_>>()
        });
        assert!(shown.iter().any(|colour| matches!(colour, Color::Idx(_))), "{theme}: no colour at all");
        looks_around(&mut seat);
        for style in styles(&seat.bytes()) {
            assert!(is_of_sixteen(&style), "{theme}: {style:?} is none of the sixteen");
        }
    }
}

#[test]
fn a_terminal_that_speaks_only_ascii_gets_only_ascii() {
    for names in [&[("LANG", "C")][..], &[("LC_ALL", "POSIX")]] {
        let (_home, mut seat) = sample_with(names, &[]);
        seat.waits_for("> ").waits_for("girl 6-8");
        seat.types("r").waits_for("Which boxes lack what");
        seat.back_to("Checklist of box");
        seat.types("/glu").waits_for("glue");
        seat.back_to("Checklist of box");
        seat.quits();
        let bytes = seat.bytes();
        let other: Vec<u8> = bytes.into_iter().filter(|byte| !byte.is_ascii()).collect();
        assert!(other.is_empty(), "{}", String::from_utf8_lossy(&other));
    }
}
