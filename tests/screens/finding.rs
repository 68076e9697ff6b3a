//! Finding things, boxes, totes and actions; help, and the ways back.

use brimful::tui::app::key::Key;
use brimful::tui::app::keymap::Keymap;
use brimful::tui::app::table::{Kind, TABLE};

use crate::table::Table;

#[test]
fn a_thing_is_found_by_a_few_letters_with_a_slip_and_where_it_lies_stands_there() {
    let mut table = Table::sample(80, 24);
    table.keys("/").shows("find ›");
    table.keys("glu").shows("▸ glue sticks, white                 4 left    tote 2");
    table.keys("⎋/gleu stick").shows("▸ glue sticks, white                 4 left    tote 2");
    table.keys("⏎").shows("Where      tote 2: 4 on hand");
    table.keys("⎋").shows("Items").shows("Checklist of box 10");
}

#[test]
fn a_box_is_found_by_its_number_and_by_its_theme() {
    for words in ["12", "box 12", "Box 12"] {
        let mut table = Table::sample(80, 24);
        table.keys("/").keys(words);
        table.shows("▸ box 12 girl 6–8 ocean");
        table.keys("⏎").shows("Box 12 · girl 6–8 · ocean · teal, coral");
        table.keys("⎋").shows("9 of 24 boxes full");
    }
    let mut table = Table::sample(80, 24);
    table.keys("/ballet").shows("ballet doll, pink").shows("box 14 girl 6–8 ballet");
}

#[test]
fn a_tote_is_found_with_all_that_lies_in_it() {
    let mut table = Table::sample(80, 24);
    table.keys("/tote 9");
    table.shows("▸ tote 9");
    table.keys("⏎");
    // The wow items of the sample that were not packed: ten things in tote 9, one of them twice.
    table.shows("harmonica").shows("aprons, red").shows("moon bear plush, navy").lacks("glue sticks");
    table.keys("g⏎").shows("aprons, red").shows("Where      tote 9: 2 on hand");
    table.keys("⎋").shows("harmonica");
    table.keys("⎋").shows("9 of 24 boxes full");
}

#[test]
fn what_is_not_there_is_said_in_words() {
    let mut table = Table::sample(80, 24);
    table.keys("/zzzqx").shows("Nothing is called \"zzzqx\".");
    table.keys("⏎");
    assert_eq!(table.said(), "Nothing is called \"zzzqx\".");
    table.keys("⎋/⏎");
    assert_eq!(table.said(), "What is it called? A few letters will do.");
}

#[test]
fn n_goes_to_the_next_found_and_to_the_next_that_waits() {
    let mut table = Table::sample(80, 24);
    table.keys("/comb⏎⎋⇥⇥n");
    table.selected_has("combs, blue");
    table.keys("n").selected_has("combs, green");
    table.keys("n").selected_has("wide combs");
    table.keys("n").selected_has("combs, blue");
    table.keys("N").selected_has("wide combs");
    // Under Boxes: the next that is not full. 10 is in hand at first; from the first one on it is 10 again.
    table.keys("⇥gn").selected_has("▸ 10 boy 9–12");
    table.keys("n").selected_has("▸ 11 either 6–8");
    table.keys("NN").selected_has("▸ 24 girl 6–8");
}

#[test]
fn every_action_can_be_done_by_its_name() {
    let mut table = Table::sample(80, 24);
    table.keys(":lacks what⏎").shows("Which boxes lack what");
    table.keys("⎋:pull⏎").shows("What to fetch from which tote");
    table.keys("⎋:what was done⏎").shows("What was done");
    table.keys("⎋:last night⏎").shows("What stops which box");
    table.keys("⎋:the drive⏎").shows("How your drive does it").shows("Quillhaven Gift Box Drive 2027");
    table.keys("⎋:help⏎").shows("Keys");
    table.keys("⎋:find⏎").shows("find ›");
    table.keys("⎋:where⏎");
    assert_eq!(table.said(), "All is kept in season.brimful");
    table.keys(":close⏎");
    assert_eq!(table.said(), "Box 10 still needs 1 wow item. c again closes it as it is.");
    table.keys(":another like⏎");
    assert!(table.said().starts_with("Planned box 25"), "{}", table.said());
    table.keys(":undo⏎");
    assert!(table.said().starts_with("Took back: Planned box 25"), "{}", table.said());
    table.keys(":redo⏎");
    assert!(table.said().starts_with("Brought again: Planned box 25"), "{}", table.said());
    table.keys(":made-up⏎");
    assert_eq!(table.outside, ["Sample"]);
}

#[test]
fn all_actions_of_a_screen_stand_in_the_list_with_their_keys() {
    let mut table = Table::sample(80, 50);
    table.keys("⏎:");
    let mut told = String::new();
    for _ in 0..80 {
        told.push_str(&table.screen());
        table.keys("↓");
    }
    let named =
        [("one out", "−"), ("set aside", "z"), ("to another box", ">"), ("inside", "i"), ("wow item, on top", "v")];
    for (label, key) in named {
        assert!(told.lines().any(|row| row.contains(&format!("{label:<20} {key} "))), "{label} {key}");
    }
    for label in ["another like it", "handed in", "came back", "unpack", "opening count", "where is the file"] {
        assert!(told.contains(&format!(" {label} ")), "{label}");
    }
}

#[test]
fn help_shows_every_key_of_the_screen_and_the_whole_sentence_of_the_chosen_one() {
    for (keys, kind) in [("", Kind::Home), ("⏎", Kind::Packing), ("r", Kind::Review), ("T", Kind::Pull)] {
        let mut table = Table::sample(80, 24);
        table.keys(keys).keys("?");
        let mut told = String::new();
        for _ in 0..70 {
            told.push_str(&table.screen());
            told.push('\n');
            table.keys("↓");
        }
        for row in TABLE.iter().filter(|row| row.is_on(kind) && !row.looking.is_empty()) {
            let names = Keymap::default().names(row);
            let start: String = row.help.chars().take(40).collect();
            assert!(told.contains(names.as_str()), "{kind:?}: {names}");
            let sentence = told.contains(&start);
            assert!(sentence, "{kind:?}: {start}");
        }
        table.keys("⎋");
        assert_eq!(table.app.top().kind(), kind);
    }
    let mut table = Table::sample(80, 24);
    table.keys("?").shows("Open what is selected; where there is one thing to do next, do it.");
}

#[test]
fn esc_goes_back_one_step_always_and_q_leaves_only_from_home() {
    let mut table = Table::sample(80, 24);
    // Home, review, packing with the drawer open, help above it: four steps.
    table.keys("r2⏎");
    table.key(Key::F(1));
    table.shows("Keys");
    table.keys("⎋").shows("put in ›");
    table.keys("⎋").shows("Which boxes lack what");
    table.keys("q");
    assert_eq!(table.said(), "q leaves from home; Esc goes back there.");
    assert!(table.outside.is_empty());
    table.keys("⎋").shows("Checklist of box");
    table.keys("⎋");
    assert_eq!(table.said(), "You are home; q leaves.");
    table.keys("q");
    assert_eq!(table.outside, ["Leave"]);
}

#[test]
fn a_key_that_cannot_act_says_why() {
    let cases = [
        (" 5", "Nothing has that number here."),
        ("/glu⏎⏎", "It is in no box. + puts one into the box chosen at home."),
        ("rv", "wow item, on top: not on this screen. ? shows what can be done here."),
        ("r9", "Nothing has that number here."),
        ("r⇥", "This screen has one part."),
        ("⏎v", "First Tab to what is in the box, then this key."),
        ("gx", "Things are in box 1 or set aside for it; : \"unpack\" takes them out first."),
        ("⇥⇥-", "Box 10 holds no activity books."),
    ];
    for (keys, why) in cases {
        let mut table = Table::sample(80, 24);
        table.keys(keys);
        assert_eq!(table.said(), why, "{keys}");
    }
    let mut table = Table::empty();
    for (key, why) in [
        ("r", "No boxes yet: b plans one."),
        ("d", "No boxes yet: b plans one."),
        ("⏎", "The table is empty: a writes what you bought, b plans a box."),
        ("u", "Nothing to undo: this computer has done nothing here yet."),
    ] {
        table.keys(key);
        assert_eq!(table.said(), why, "{key}");
    }
}

#[test]
fn a_click_selects_a_second_one_opens_and_keys_at_the_foot_can_be_clicked() {
    let mut table = Table::sample(80, 24);
    table.click(30, 5);
    table.selected_has("▸  1 boy 3–5");
    table.click(30, 5);
    table.shows("Box 1 · boy 3–5 · dinosaur");
    table.keys("⎋");
    let rows = table.rows();
    let foot = &rows[23];
    let x = foot[..foot.find("r lacks").expect("the key is shown")].chars().count();
    table.click(u16::try_from(x).expect("it is on the screen"), 23);
    table.shows("Which boxes lack what");
}
