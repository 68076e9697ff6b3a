//! Every screen in every size: nothing falls over, nothing is cut in the middle of a key, and one
//! always sees where one is.

use brimful::tui::app::keymap::{Gesture, Keymap};
use brimful::tui::app::table::{row, writing};
use brimful::tui::draw::look::Look;
use unicode_width::UnicodeWidthStr;

use crate::table::Table;

const SIZES: [(u16, u16); 8] = [(80, 24), (140, 40), (120, 36), (79, 23), (60, 16), (40, 10), (20, 5), (1, 1)];

/// Each screen, and what is typed at home to get there.
const SCREENS: [(&str, &str); 29] = [
    ("home", ""),
    ("home, items", "⇥⇥"),
    ("home, checklist", "⇥"),
    ("haul", "a⎋"),
    ("haul, writing", "a2 leggings 7-8 2.00"),
    ("haul, asked", "a2 leggings 7-8 2.00⏎"),
    ("packing", "⏎"),
    ("packing, contents", "⏎⇥"),
    ("packing, drawer", "⏎⏎"),
    ("packing, looked for", "⏎⏎3 pen"),
    ("packing, too many", "⏎⏎300 plain⏎"),
    ("review", "r"),
    ("review, lacks", "r2"),
    ("card", "/jumbo⏎"),
    ("tote", "/tote 4⏎"),
    ("pull list", "T"),
    ("history", "U"),
    ("last night", "d"),
    ("drive", ":the drive⏎"),
    ("fit", "↓↓f"),
    ("fit, up", "↓↓fj"),
    ("fit, things", "↓↓f⇥"),
    ("fit, asked", "↓↓f⇥⏎"),
    ("fit, size", "↓↓f⇥e"),
    ("fit, order", "↓↓fs"),
    ("fit, why", "↓↓fy"),
    ("help", "?"),
    ("all actions", ":"),
    ("plan", "bgirl 6-8 ocean, teal"),
];

fn there(keys: &str) -> Table {
    let mut table = Table::sample(80, 24);
    table.keys(keys);
    table
}

/// Screens with a paste too, whose keys can't be typed.
fn every_screen() -> Vec<(String, Table)> {
    let mut screens: Vec<(String, Table)> =
        SCREENS.iter().map(|(name, keys)| ((*name).to_owned(), there(keys))).collect();
    let mut pasted = Table::sample(80, 24);
    pasted.paste("12 toothbrushes 1.50 tote 4\n2 leggings 7-8 2.00\n3 combs .60");
    screens.push(("pasted, asked".to_owned(), pasted));
    screens.push(("first".to_owned(), Table::empty()));
    screens
}

#[test]
fn no_screen_leaves_its_rows_or_loses_the_cursor() {
    for (name, mut table) in every_screen() {
        for (w, h) in SIZES {
            table.resize(w, h);
            let rows = table.rows();
            assert_eq!(rows.len(), usize::from(h), "{name} {w}×{h}");
            for row in &rows {
                assert!(row.width() <= w.into(), "{name} {w}×{h}: {row}");
            }
            let (_, drawn) = table.drawn();
            let (x, y) = drawn.cursor.unwrap_or_else(|| panic!("{name} {w}×{h} has no cursor"));
            assert!(x < w && y < h, "{name} {w}×{h}: the cursor is at {x}, {y}");
            assert!(!rows.concat().is_empty(), "{name} {w}×{h} shows nothing");
        }
    }
}

#[test]
fn the_keys_at_the_foot_are_never_cut() {
    for (name, mut table) in every_screen() {
        for (w, h) in SIZES.into_iter().filter(|(w, _)| *w >= 40) {
            table.resize(w, h);
            let rows = table.rows();
            let shown: Vec<&str> = rows[usize::from(h) - 1].trim().split("  ").map(str::trim).collect();
            let shown: Vec<&str> = shown.into_iter().filter(|words| !words.is_empty()).collect();
            let whole: Vec<String> = match table.app.gesture() {
                Gesture::Looking => table
                    .app
                    .foot()
                    .map(|(row, label)| {
                        format!("{} {label}", Keymap::default().names(row).split(' ').next().unwrap_or_default())
                    })
                    .collect(),
                Gesture::Writing => writing(table.app.desk.line.as_ref().map(|line| &line.purpose))
                    .iter()
                    .map(|(action, label)| {
                        let row = row(*action);
                        let label = if label.is_empty() { row.label } else { label };
                        format!("{} {label}", row.writing[0].0)
                    })
                    .collect(),
                Gesture::Asked => {
                    let words = [
                        "0–1 answer",
                        "0–2 answer",
                        "0–3 answer",
                        "0–4 answer",
                        "Esc back to the words",
                        "Esc leave it",
                    ];
                    words.iter().chain(&["F1 help"]).map(|words| (*words).to_owned()).collect()
                }
            };
            for words in &shown {
                assert!(whole.iter().any(|whole| whole == words), "{name} {w}×{h}: \"{words}\" in {shown:?}");
            }
            let least = if table.app.gesture() == Gesture::Asked || w < 60 { 1 } else { 4.min(whole.len()) };
            assert!((least..=8).contains(&shown.len()), "{name} {w}×{h}: {shown:?}");
        }
    }
}

#[test]
fn one_sees_what_is_selected_however_far_one_went() {
    let lists = ["", "⇥⇥", "⏎⇥", "r", "/tote 4⏎", "T", "U", "d", ":the drive⏎", "?", "↓↓f", "↓↓f⇥", "↓↓fs"];
    for keys in lists {
        let mut table = there(keys);
        for (w, h) in SIZES.into_iter().filter(|(w, _)| *w >= 40) {
            table.resize(w, h);
            for moved in ["", "jjjj", "G", "kk", "g"] {
                table.keys(moved);
                let marked = table.rows().iter().filter(|row| row.contains('▸')).count();
                assert_eq!(marked, 1, "\"{keys}\" \"{moved}\" {w}×{h}:\n{}", table.screen());
            }
        }
    }
}

#[test]
fn a_marked_offer_is_in_sight_however_far_one_went() {
    for keys in ["⏎⏎", ":", "⏎⇥>"] {
        let mut table = there(keys);
        for (w, h) in SIZES.into_iter().filter(|(w, _)| *w >= 40) {
            table.resize(w, h);
            for _ in 0..9 {
                table.keys("↓");
                let marked = table.rows().iter().filter(|row| row.contains('▸')).count();
                assert_eq!(marked, 1, "\"{keys}\" {w}×{h}:\n{}", table.screen());
            }
        }
    }
}

#[test]
fn without_other_signs_only_ascii_is_shown() {
    for (name, mut table) in every_screen() {
        for (w, h) in SIZES {
            table.resize(w, h);
            table.look = Look { ascii: true, ..Look::default() };
            let screen = table.screen();
            let other: String = screen.chars().filter(|c| !c.is_ascii()).collect();
            assert!(other.is_empty(), "{name} {w}×{h} shows \"{other}\":\n{screen}");
        }
    }
}

/// The columns in which a text begins, by cells, in the rows that have it.
fn columns_of(table: &Table, text: &str) -> Vec<usize> {
    table.rows().iter().filter_map(|row| row.find(text).map(|at| row[..at].width())).collect()
}

#[test]
fn wide_letters_and_accents_keep_the_columns() {
    let mut table = Table::empty();
    table.paste(
        "2 日本 cups 1.00 tote 9\n2 e\u{301}toile combs 1.00 tote 9\n2 ☐ pencils 1.00 tote 9\n2 socks 1.00 tote 9",
    );
    while table.app.desk.asked.is_some() {
        table.keys("0");
    }
    table.keys("⏎");
    assert!(table.said().starts_with("Logged 4 lines"), "{}", table.screen());
    table.keys("a⎋");
    for (text, column) in [("tote 9", 67), ("0.50 each", 51)] {
        assert_eq!(columns_of(&table, text), vec![column; 4], "{}", table.screen());
    }
    table.shows("日本 cups").shows("e\u{301}toile combs");
    // The caret goes over a wide letter and an accent in one step each.
    table.keys("a日e\u{301}");
    let at = |table: &Table| table.drawn().1.cursor.map(|(x, _)| x);
    let end = at(&table);
    table.keys("←");
    assert_eq!(at(&table).zip(end).map(|(now, end)| end - now), Some(1));
    table.keys("←");
    assert_eq!(at(&table).zip(end).map(|(now, end)| end - now), Some(3));
}

#[test]
fn a_narrow_terminal_keeps_the_words_and_the_question() {
    let mut table = Table::sample(80, 24);
    table.keys("a2 leggings 7-8 2.00⏎");
    table.resize(40, 10).shows("size 7-8");
    table.resize(20, 5).shows("?");
    table.keys("2");
    table.resize(80, 24).shows("leggings, size 7-8");
    table.keys("3 com").resize(40, 10).shows("3 com");
    table.resize(80, 24).shows("bought › 3 com");
}

#[test]
fn too_small_says_what_is_lacking_and_how_much_shows_more() {
    let mut table = Table::sample(80, 24);
    table.keys("↓↓⏎").resize(30, 5);
    table.shows("Box 12 still needs 2 school.").shows("40×10 shows more");
    table.keys("⏎").shows("put in ›");
    table.keys("⏎").resize(80, 24).shows("school still needs 1");
}
