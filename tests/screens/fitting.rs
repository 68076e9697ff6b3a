//! Does it fit: small boxes whose answer anybody can work out, and the sample's, in every size.

use brimful::model::measure::Units;
use brimful::season::{LogHow, PutHow};
use brimful::tui::app::key::Key;
use brimful::tui::draw::look::Look;

use crate::table::{Table, empty_season, in_all};

/// A drive with a box of 33 × 20 × 12 cm, one box, and in it these things; the others are on hand.
fn packed(inside: &[&str], on_hand: &[&str]) -> Table {
    packed_in("33 x 20 x 12 cm", inside, on_hand)
}

fn packed_in(size: &str, inside: &[&str], on_hand: &[&str]) -> Table {
    let mut season = empty_season();
    season.plan("girl 6-8 ocean").unwrap();
    if !size.is_empty() {
        season.mend_rule("box, inside", size).unwrap();
    }
    for words in inside.iter().chain(on_hand) {
        season.log(&format!("{words} 1.00"), &LogHow::default()).unwrap();
    }
    for words in inside {
        let end = words.find(|c: char| c.is_ascii_digit()).or_else(|| words.find(" as ")).unwrap_or(words.len());
        season.put("1", Units::ONE, words[..end].trim(), &PutHow::default()).unwrap();
    }
    Table::over(season, 80, 24)
}

/// The answer, which may take several rows.
fn answer(table: &Table) -> String {
    let rows = table.rows();
    let told = rows.iter().skip(1).take_while(|row| !row.contains(['┌', '▸', '▹']) && !row.trim().is_empty());
    told.map(|row| row.trim()).collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn answers(table: &Table, text: &str) {
    let told = answer(table);
    assert!(told.contains(text), "\"{told}\" lacks \"{text}\":\n{}", table.screen());
}

const MAT_AND_BOOK: [&str; 2] = ["mat 330x200x10 mm as toy", "storybook 240x170x12 mm"];
/// Beside each other they are too wide, on each other too high: 70 + 60 mm of 120.
const GAME_AND_PUZZLE: [&str; 2] = ["board game 300x190x70 mm", "puzzle 280x190x60 mm"];

#[test]
fn a_mat_and_a_book_are_drawn_as_they_lie() {
    let mut table = packed(&MAT_AND_BOOK, &[]);
    table.keys("f");
    table.shows("Box 1 · girl 6–8 · ocean · does it fit?").shows("33.0 × 20.0 × 12.0 cm inside");
    // The mat is as long as the box; 120 − 10 − 12 = 98.
    let told = "It all fits, but tightly: less than 1 mm is left in length. The lid closes, with 98 mm to spare.";
    assert_eq!(answer(&table), format!("✓ {told}"));
    table.selected_has("Layer 1 of 2   on the bottom");
    let picture = |table: &Table| -> Vec<String> {
        table.rows()[3..17].iter().map(|row| row.chars().take(42).collect::<String>()).collect()
    };
    // 12 rows for 200 mm, so 2 × 12 × 330 ÷ 200 = 39 columns for 330: 28 for the book's 240, and 10 rows for its 170.
    let drawn = picture(&table);
    assert_eq!(drawn[0], format!(" ┌{}┐", "─".repeat(39)));
    assert_eq!(drawn[3], format!(" │┌{}┐{}│", "─".repeat(26), " ".repeat(11)));
    assert_eq!(drawn[12], format!(" │└{}┘{}│", "─".repeat(26), " ".repeat(11)));
    table.shows("A storybook").lacks("mat").shows("Now: lay in 1 A");
    // 330 × 200 × 10 and 240 × 170 × 12 of 330 × 200 × 120: 1149600 of 7920000.
    table.shows("stiff  15").shows("soft    0").shows("free   85 of 100");
    table.shows("Room left: 33.0 × 20.0 × 9.8 cm.");
    table.keys("↓").selected_has("Layer 2 of 2   from 1.2 cm up");
    table.shows("B mat").lacks("storybook").shows("Now: lay in 2 B");
    let drawn = picture(&table);
    assert_eq!(drawn[1], format!(" │┌{}┐│", "─".repeat(37)));
    assert_eq!(drawn[12], format!(" │└{}┘│", "─".repeat(37)));
    table.keys("↓").selected_has("Layer 2 of 2");
    table
        .keys("s")
        .shows("in which order")
        .shows("1. Lay in storybook, on the bottom")
        .shows("2. Lay in mat, 12 mm up");
    table.keys("⎋⎋").shows("Items");
}

#[test]
fn what_is_left_out_here_is_in_the_box_all_the_same() {
    let mut table = packed(&GAME_AND_PUZZLE, &[]);
    table.keys("f");
    answers(&table, "✗ It can't fit: board game and puzzle each go in, but never both. It does without puzzle.");
    table.keys("⇥").selected_has("board game");
    table.keys("↓").selected_has("puzzle");
    table.keys("x").selected_has("left out");
    table.shows("✓ Tried without puzzle: It all fits.");
    assert_eq!(table.said(), "Only tried here: the box stays as it is. x again: back in.");
    assert_eq!(in_all(&table, "1"), 2);
    table.keys("s").lacks("puzzle");
    table.keys("⎋x").shows("never both");
    assert_eq!(table.said(), "puzzle is back in.");
}

#[test]
fn another_thing_on_hand_is_tried_in_place_of_one() {
    let mut table = packed(&GAME_AND_PUZZLE, &["toy car 60x60x40 mm", "toy castle 300x195x90 mm"]);
    table.keys("f⇥↓⏎");
    table.shows("? puzzle: what is tried? Nothing is changed by it.");
    table.shows("1  leave it out").shows("2  keep it on top").shows("3  say its size");
    // Only what is smaller helps a box that is too full.
    table.shows("4  toy car instead, 6 × 6 × 4 cm").lacks("toy castle");
    table.keys("4").shows("✓ Tried toy car for puzzle: It all fits.").selected_has("toy car");
    assert_eq!(in_all(&table, "1"), 2);
    table.keys("⏎").shows("4  what was there before");
    table.keys("4").shows("never both").selected_has("puzzle");
    table.keys("⏎0").selected_has("puzzle");
}

#[test]
fn what_is_kept_on_top_has_nothing_on_it() {
    let mut table = packed(&MAT_AND_BOOK, &[]);
    table.keys("f⇥").selected_has("mat");
    table.keys("↓").selected_has("layer 1");
    table.keys("v").selected_has("top, layer 2");
    answers(&table, "✓ Tried storybook on top: It all fits");
    assert_eq!(table.said(), "Tried on top, with nothing on it; the box stays as it is.");
    table.keys("v").selected_has("layer 1").lacks("Tried storybook");
}

#[test]
fn whoever_saw_the_lid_close_has_the_last_word() {
    let mut table = packed(&GAME_AND_PUZZLE, &[]);
    table.keys("f=");
    assert_eq!(table.said(), "Noted that the lid of box 1 closes. It holds until something more goes in.");
    table.shows("✓ The lid closes: mira said so. By the sizes: It can't fit");
    table.keys("u").shows("✗ It can't fit");
    let mut aside = packed(&[], &["storybook 240x170x12 mm"]);
    aside.keys("⏎z").keys("story⏎⎋f=");
    assert_eq!(aside.said(), "Nothing is in it yet: what is only set aside says nothing of the lid.");
}

#[test]
fn a_size_that_nobody_knows_is_measured_and_said() {
    let mut table = packed(&["storybook 240x170x12 mm", "thingamajig as toy"], &[]);
    table.keys("f");
    answers(&table, "? Nobody can tell yet: the size isn't known of thingamajig. Without it: It all fits.");
    table.keys("n").selected_has("? size");
    table.keys("e").shows("size ›").shows("20 x 15 x 2 cm");
    table.keys("⏎");
    assert_eq!(table.said(), "How long, wide and high is it? For example: 20 x 15 x 2 cm.");
    table.keys("28 x 19 x 7 cm⏎");
    assert!(table.said().starts_with("Thingamajig is 280 × 190 × 70 mm from now on."), "{}", table.said());
    table.shows("✓ It all fits.").selected_has("thingamajig").shows("28 × 19 × 7 cm, measured");
    table.keys("u").shows("? Nobody can tell yet");
    // What was said of a batch is mended where it was said.
    table.keys("g").selected_has("storybook");
    table.keys("e").lacks("size ›");
    assert!(table.said().starts_with("Its size was said when it was logged"), "{}", table.said());
}

#[test]
fn without_a_box_size_or_anything_in_it_the_key_says_so() {
    let mut table = packed_in("", &["storybook 240x170x12 mm"], &[]);
    table.keys("f").shows("Items");
    assert_eq!(table.said(), "No box size known. In : \"the drive\" e on \"box, inside\" says it: 33 x 20 x 12 cm.");
    let mut table = packed(&[], &[]);
    table.keys("f").shows("Items");
    assert_eq!(table.said(), "Nothing in it yet.");
    // What is taken back while one looks at it leaves an empty box, not an empty screen.
    let mut table = packed(&["storybook 240x170x12 mm"], &[]);
    table.keys("fu").shows("○ Nothing is in it or set aside for it yet.");
    table.keys("s");
    assert_eq!(table.said(), "There is nothing to pack yet.");
    table.keys("⇥x");
    assert_eq!(table.said(), "Nothing in it yet.");
}

#[test]
fn what_weighs_too_much_is_told_first() {
    let mut table = packed(&["storybook 240x170x12 mm 620 g"], &[]);
    table.keys(":the drive⏎jjjjjj").selected_has("box, weight");
    table.keys("e500 g⏎⎋f");
    answers(&table, "! Too heavy: it weighs 0.620 kg, 0.120 kg over the 0.500 kg that the drive allows. It all fits.");
    table.shows("Weighs 0.6 kg, 120 g over the 0.5 allowed.");
}

#[test]
fn what_is_inside_a_holder_is_told_with_it() {
    let mut table = packed(&["pencil case 210x90x40 mm"], &["erasers 40x20x10 mm"]);
    table.keys("⏎⇥i").keys("eraser⏎⎋f");
    table.shows("A pencil case").shows("inside: eraser").shows("Now: fill 1 A · lay in 2 A");
    table.keys("⇥↓").selected_has("inside").shows("inside pencil case");
    table.keys("v");
    assert!(table.said().starts_with("It is inside the pencil case;"), "{}", table.said());
}

#[test]
fn reasons_are_told_in_full() {
    let mut table = Table::sample(80, 24);
    table.keys("↓↓fy").shows("it does without").lacks("`");
    table.shows("Sizes that are only typical: wavy toothbrush;").shows("1 thing is only set aside for it.");
    table.keys("⎋").shows("Layer 1 of");
}

/// Box 12 of the sample: no way is found at first.
fn looking() -> Table {
    let mut table = Table::sample(80, 24);
    table.keys("↓↓");
    table.hold_answers();
    table.keys("f").shows("Looking how it goes in.");
    // The box and its things, then the first answer.
    table.answer_comes();
    table.answer_comes();
    table
}

#[test]
fn the_first_answer_comes_at_once_and_esc_stops_without_losing_it() {
    let mut table = looking();
    table.shows("◒ Not all of it so far; it does without").shows("Tried 1 way; a better one is shown");
    table.keys("⎋").shows("does it fit?").shows("then stopped; f goes on.");
    table.answers_come();
    table.shows("then stopped; f goes on.").shows("Layer 1 of");
    table.keys("f").shows("Couldn't make it fit; it does without").shows("Tried 3000 ways; f tries ten times as many.");
    table.keys("f").shows("Tried 30000 ways");
    table.keys("⎋").shows("Items");
}

#[test]
fn an_act_in_the_middle_of_a_search_begins_it_anew() {
    let mut table = Table::sample(80, 24);
    table.keys("↓↓⏎⏎2 plain⏎⎋⎋");
    let before = in_all(&table, "12");
    table.hold_answers();
    table.keys("f");
    table.answer_comes();
    table.answer_comes();
    table.shows("so far");
    table.keys("u");
    table.answers_come();
    assert_eq!(in_all(&table, "12"), before - 2);
    table.keys("⇥G").lacks("2 × plain pencil").shows("Tried 3000 ways");
    table.key(Key::Ctrl('r'));
    table.keys("G").shows("2 × plain pencil");
}

#[test]
fn another_screen_ends_the_search_and_coming_back_begins_it() {
    let mut table = looking();
    table.keys("?").shows("Keys");
    table.answers_come();
    table.keys("⎋").shows("Tried 3000 ways");
}

#[test]
fn every_size_shows_what_matters_there() {
    let mut table = Table::sample(120, 36);
    table.keys("↓↓f");
    let rows = table.rows();
    assert!(rows.iter().any(|row| row.contains("Layer 1 of 4") && row.contains("Layer 2 of 4")), "{}", table.screen());
    table
        .resize(80, 24)
        .shows("full by room")
        .shows("Now:")
        .shows("Not in this picture:")
        .shows("Weighs 1.1 kg of the 3.0 allowed.");
    table.resize(60, 16).selected_has("1  A ").shows("Layer 1, on the bottom:");
    table.keys("→").shows("┌─").selected_has("Layer 1 of 4");
    table.keys("→").selected_has("A ").lacks("┌─");
    table.keys("←←").shows("Layer 1, on the bottom:");
    table.resize(40, 10).shows("◒ Couldn't make it fit").selected_has("1  A ");
    table.keys("⇥").selected_has("A soap dish");
    table.resize(30, 5).shows("Couldn't make it fit");
    table.resize(80, 24);
    table.look = Look { ascii: true, ..Look::default() };
    table.keys("⇥↓").shows("~ Couldn't make it fit").shows("+--").shows("::").shows("> Layer 2 of 4");
}

#[test]
fn it_is_opened_from_where_a_box_is_chosen() {
    for keys in ["↓↓f", "↓↓⏎f", "/box 12⏎⇥f", "rjjf"] {
        let mut table = Table::sample(80, 24);
        table.keys(keys).shows("does it fit?");
        table.keys("⎋").lacks("does it fit?");
    }
    let mut table = Table::sample(80, 24);
    table.keys("↓↓f").shows("Box 12");
    table.keys("f⎋⎋");
    assert!(table.troubles.is_empty());
}

#[test]
fn each_box_of_the_sample_is_shown_to_its_last_layer() {
    for label in 1..=16 {
        let mut table = Table::sample(80, 24);
        table.keys(&format!("/box {label}⏎f")).shows("does it fit?").shows("Weighs");
        for _ in 0..12 {
            table.keys("↓").shows("▸ Layer").shows("full by room");
        }
        table.keys("⇥G").shows("▸");
    }
}
