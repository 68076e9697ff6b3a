//! Settings, and an editor, in a real terminal.

use std::path::Path;

use super::seat::{Home, Seat};

/// Brimful with these settings.
fn seat(home: &Home, settings: &str, more: &[&str]) -> Seat {
    std::fs::create_dir_all(home.path("config")).unwrap();
    std::fs::write(home.path("config/settings.toml"), settings).unwrap();
    let command = home.brimful(more);
    Seat::run(command, 80, 24)
}

#[test]
fn settings_are_followed_and_the_call_has_the_last_word() {
    let home = Home::new();
    let mut ascii = seat(&home, "signs = \"ascii\"\nmouse = false\ntheme = \"dark\"\n[keys]\nleave = \"Q\"\n", &[]);
    ascii.waits_for(": a writes what you bought").waits_for("? help");
    let quiet = |seat: &Seat| seat.ask(|screen| screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None);
    let coloured = |seat: &Seat| String::from_utf8_lossy(&seat.bytes()).contains("38;5;6");
    assert!(quiet(&ascii) && coloured(&ascii), "{:?}", String::from_utf8_lossy(&ascii.bytes()));
    ascii.types("q").types("?").waits_for("while you write");
    ascii.back_to("The table is empty");
    ascii.types("Q");
    assert!(ascii.ends().success());

    let plain = seat(&home, "theme = \"dark\"\nsigns = \"unicode\"\n", &["--color", "never", "--ascii"]);
    plain.waits_for(": a writes what you bought").waits_for("? help");
    assert!(!quiet(&plain) && !coloured(&plain));
}

#[test]
fn what_is_wrong_is_said_before_the_terminal_is_entered() {
    let home = Home::new();
    let mut seat = seat(&home, "mouse = true\n[keys]\nundo = \"r\"\n", &[]);
    let ended = seat.ends();
    assert_eq!(ended.exit_code(), 2);
    // The terminal breaks the line where its row ends.
    let told = seat.screen().replace('\n', "");
    assert!(told.contains("settings.toml, line 3: r means \"lacks what\" already"), "{told}");
    assert!(!String::from_utf8_lossy(&seat.bytes()).contains("\x1b["), "it entered the terminal");
    assert!(!home.file().exists(), "it made a season");
}

/// A little editor: it shows what it was given, takes one line, and puts it in place of that.
const EDITOR: &str = "#!/bin/sh\necho \"it says: $(cat \"$1\")\"\nread -r line\nprintf '%b' \"$line\" > \"$1\"\n";

/// What earlier editors said still stands on the usual screen.
fn asks(times: usize) -> impl Fn(&vt100::Screen) -> bool {
    move |screen| screen.contents().matches("it says:").count() == times
}

fn with_editor(home: &Home, editor: Option<&Path>) -> Seat {
    let mut command = home.brimful(&[]);
    if let Some(editor) = editor {
        command.env("VISUAL", format!("sh {}", editor.display()));
    }
    let seat = Seat::run(command, 80, 24);
    seat.waits_for("? help");
    seat
}

#[test]
fn an_editor_has_the_terminal_to_itself_and_its_words_come_back() {
    let home = Home::new();
    let script = home.path("editor.sh");
    std::fs::write(&script, EDITOR).unwrap();
    let mut seat = with_editor(&home, Some(&script));
    for (round, paid) in ["0.50 paid", "1.00 paid", "1.50 paid"].iter().enumerate() {
        seat.types("a2 combs").waits_for("bought › 2 combs");
        seat.sends(b"\x1bOS");
        seat.waits_for("do ›");
        seat.types("your editor").waits_for("do › your editor");
        seat.types("⏎").waits("the editor is there", asks(round + 1));
        seat.waits_for("it says: 2 combs");
        assert!(!seat.ask(vt100::Screen::alternate_screen) && seat.takes_lines_as_before(), "round {round}");
        // Not one key of these may go elsewhere.
        seat.types("2 green combs .50").waits_for("2 green combs .50");
        seat.types("⏎").waits_for("bought › 2 green combs .50");
        seat.types("⏎").waits_for(paid);
        seat.back_to("› a writes what you bought").back_to("Items");
    }
    seat.types(":your editor⏎").waits("the editor is there", asks(4));
    seat.types("2 soaps .50\\n3 pens .30\\n⏎").waits_for("Save 2 lines, 0.80");
    seat.types("⏎").waits_for("Logged 2 lines, 0.80 paid");
    seat.back_to("11 on hand");
    seat.quits();
}

#[test]
fn ctrl_c_in_an_editor_ends_the_editor_alone() {
    let home = Home::new();
    let script = home.path("editor.sh");
    std::fs::write(&script, EDITOR).unwrap();
    let mut seat = with_editor(&home, Some(&script));
    seat.types(":your editor⏎").waits_for("it says:");
    seat.sends(b"\x03");
    seat.waits_for("ended without saying that all is well").waits_for("The table is empty");
    seat.quits();
}

#[test]
fn without_an_editor_one_is_told_so() {
    let home = Home::new();
    let mut seat = with_editor(&home, None);
    seat.types(":your editor⏎").waits_for("$EDITOR is not set.");
    seat.quits();
}
