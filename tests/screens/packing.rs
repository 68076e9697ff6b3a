//! Packing a box: gap after gap, holders, what is set aside, moving, closing, fetching.

use brimful::tui::app::key::Key;

use crate::table::{Table, aside, held, in_all};

/// The sample with box 12 open: it needs two for school, and socks wait for it.
fn box_12() -> Table {
    let mut table = Table::sample(80, 24);
    table.keys("↓↓⏎");
    table.shows("Box 12 · girl 6–8 · ocean · teal, coral").selected_has("school     needs 2 of 4");
    table
}

/// What is in a box: how many of what, in the order in which it came.
fn contents(table: &Table, label: &str) -> Vec<(u32, String)> {
    let card = table.keeper.season().box_card(label).expect("the box is there");
    card.contents.iter().map(|held| (held.units, held.name.clone())).collect()
}

/// The holder that a thing is in.
fn holder(table: &Table, label: &str, name: &str) -> Option<String> {
    let card = table.keeper.season().box_card(label).expect("the box is there");
    card.contents.iter().rev().find(|held| held.name == name).map(|held| held.inside.clone())
}

#[test]
fn a_filled_gap_moves_on_by_itself_and_after_the_last_the_drawer_shuts() {
    let mut table = Table::sample(80, 24);
    table.keys("bgirl 6-8 ocean, teal⏎⏎⏎");
    table.shows("put in ›").shows("hygiene still needs 3");
    table.keys("⏎⏎⏎").shows("school still needs 4");
    table.keys("4 star pen⏎");
    // Only two star pencils are there: that is asked, not guessed.
    table.shows("? Only 2 on hand.").shows("1  put 2 in    0  none");
    table.keys("1").shows("school still needs 2");
    assert_eq!((held(&table, "25", "star pencils"), in_all(&table, "25")), (2, 5));
    table.keys("2 fish er⏎").shows("clothing still needs 2");
    table.keys("hood⏎navy leg⏎⏎⏎").shows("wow item still needs 1");
    table.keys("⏎").lacks("put in ›");
    // A run of Enters can't spill into anything: the next one only opens the drawer again.
    let before = in_all(&table, "25");
    table.keys("⏎").shows("put in ›").shows("anything else");
    assert_eq!(in_all(&table, "25"), before);
}

#[test]
fn a_number_before_words_puts_several_in() {
    let mut table = box_12();
    table.keys("⏎2 plain⏎");
    assert_eq!(table.said(), "Put 2 plain pencils into box 12. Box 12 has all that it must hold, in it or set aside.");
    assert_eq!(held(&table, "12", "plain pencils"), 2);
    table.lacks("put in ›");
    table.keys("u");
    assert_eq!(held(&table, "12", "plain pencils"), 0);
    // A number alone: so many of what is offered first.
    let mut table = box_12();
    table.keys("⏎2⏎");
    assert_eq!(held(&table, "12", "pencils, teal"), 2);
}

#[test]
fn more_than_there_are_is_asked_and_none_is_an_answer() {
    let mut table = box_12();
    table.keys("⏎300 plain⏎").shows("? Only 25 on hand.");
    table.keys("0").shows("put in › 300 plain");
    assert_eq!(in_all(&table, "12"), 17);
    table.keys("⏎1");
    assert_eq!((held(&table, "12", "plain pencils"), in_all(&table, "12")), (25, 42));
    let mut table = box_12();
    table.keys("z300 plain⏎").shows("1  set 25 aside    0  none");
}

#[test]
fn whatever_is_typed_ticks_the_line_it_belongs_to() {
    let mut table = box_12();
    table.keys("⏎").shows("school still needs 2");
    table.keys("beach⏎").shows("school still needs 2");
    assert_eq!(held(&table, "12", "beach balls"), 1);
    table.shows("✓ toy        full, 4");
    table.keys("zzzq⏎");
    assert_eq!(table.said(), "Nothing on hand is called \"zzzq\".");
}

#[test]
fn z_holds_a_thing_in_its_tote_and_enter_puts_just_that_in() {
    let mut table = box_12();
    table.keys("zglue⏎");
    assert_eq!(table.said(), "Set aside 1 glue stick, white for box 12. Box 12 still needs 1 school.");
    assert_eq!((aside(&table, "12", "glue sticks, white"), in_all(&table, "12")), (1, 17));
    // What is held already is not the first to be set aside once more.
    table.shows("▸ pencils, teal");
    table.keys("⎋⏎").shows("▸ glue sticks, white         1 set aside here");
    table.keys("⏎");
    assert_eq!((aside(&table, "12", "glue sticks, white"), held(&table, "12", "glue sticks, white")), (0, 1));
    assert_eq!(in_all(&table, "12"), 18);
}

#[test]
fn what_is_put_in_goes_inside_the_holder_until_esc() {
    let mut table = box_12();
    table.keys("⇥↓").selected_has("soap dishes, teal");
    table.keys("i").shows("inside soap dishes, teal ›");
    table.keys("2 hair cl⏎wide⏎").shows("inside soap dishes, teal ›");
    assert_eq!(holder(&table, "12", "wide combs").as_deref(), Some("cups with lids, blue"), "those there before");
    let card = table.keeper.season().box_card("12").expect("the box is there");
    let inside: Vec<(u32, &str)> = card
        .contents
        .iter()
        .filter(|held| held.inside == "soap dishes, teal")
        .map(|held| (held.units, held.name.as_str()))
        .collect();
    assert_eq!(inside, [(1, "travel soaps, white"), (2, "hair clips"), (1, "wide combs")]);
    table.keys("⎋⇥⏎glue⏎");
    assert_eq!(holder(&table, "12", "glue sticks, white").as_deref(), Some(""), "after Esc it lies in the box itself");
}

#[test]
fn moving_to_another_box_tells_which_gap_opens() {
    let mut table = box_12();
    table.keys("⇥↓↓↓↓↓").selected_has("fish erasers");
    table.keys(">").shows("to box ›").lacks("box 1 boy");
    table.keys("14").shows("▸ box 14 girl 6–8 ballet");
    table.keys("⏎");
    assert_eq!(table.said(), "Moved 1 fish eraser from box 12 to box 14. Box 12 still needs 3 school.");
    assert_eq!((held(&table, "12", "fish erasers"), held(&table, "14", "fish erasers")), (0, 1));
    table.keys("u");
    assert_eq!((held(&table, "12", "fish erasers"), held(&table, "14", "fish erasers")), (1, 0));
    table.keys("⇥⇥G>nowhere⏎");
    assert_eq!(table.said(), "There is no box \"nowhere\".");
}

#[test]
fn a_toy_becomes_the_wow_item_of_its_box_and_no_longer() {
    let mut table = Table::sample(80, 24);
    table.keys("⏎").selected_has("wow item   needs 1 of 1");
    table.keys("⏎↓⏎");
    let wow = |table: &Table| {
        let card = table.keeper.season().box_card("10").expect("the box is there");
        card.contents.iter().filter(|held| held.wow).map(|held| held.name.clone()).collect::<Vec<_>>()
    };
    assert_eq!(wow(&table), ["magnifying glass"], "{}", table.screen());
    table.shows("✓ wow item   full, 1");
    table.keys("⇥G").selected_has("magnifying glass, wow item");
    table.keys("v");
    assert_eq!(table.said(), "magnifying glass is no longer the wow item of box 10. Box 10 still needs 1 wow item.");
    assert!(wow(&table).is_empty());
    table.keys("v");
    assert_eq!(wow(&table), ["magnifying glass"]);
}

#[test]
fn why_it_was_chosen_is_noted_and_read_again() {
    let mut table = box_12();
    table.keys("⇥↓↓↓↓").selected_has("spiral notebooks, teal");
    table.keys("y").shows("why ›");
    table.keys("(for her whale list)⏎");
    let card = table.keeper.season().box_card("12").expect("the box is there");
    let why = card.contents.iter().find(|held| held.name == "spiral notebooks, teal").map(|held| held.why.as_str());
    assert_eq!(why, Some("for her whale list"));
    table.selected_has("(for her whale…");
    table.keys("y").shows("why › for her whale list");
}

#[test]
fn minus_takes_one_out_and_x_all_of_it() {
    let mut table = box_12();
    table.keys("⏎2 plain⏎⇥G").selected_has("2 plain pencils");
    table.keys("-");
    assert_eq!(table.said(), "Took 1 plain pencil back out of box 12. Box 12 still needs 1 school.");
    assert_eq!(held(&table, "12", "plain pencils"), 1);
    table.keys("x");
    assert_eq!((held(&table, "12", "plain pencils"), in_all(&table, "12")), (0, 17));
}

#[test]
fn a_box_that_is_not_full_is_closed_in_two_steps_and_closed_it_refuses_at_the_key() {
    let mut table = box_12();
    table.keys("c");
    assert_eq!(table.said(), "Box 12 still needs 2 school. c again closes it as it is.");
    // Any other key in between: it is asked anew.
    table.keys("↓c");
    assert_eq!(table.said(), "Box 12 still needs 2 school. c again closes it as it is.");
    table.keys("c");
    assert!(table.said().starts_with("Closed box 12."), "{}", table.said());
    table.shows("closed · 17 in, 1 aside");
    let before = contents(&table, "12");
    for key in ["⏎", "z", "⇥+", "-", "x", "v", "i", ">"] {
        table.keys(key);
        assert_eq!(table.said(), "Box 12 is closed; c opens it.", "{key}");
        assert!(table.app.desk.line.is_none(), "{key}");
    }
    assert_eq!(contents(&table, "12"), before);
    table.keys("c");
    assert_eq!(table.said(), "Opened box 12 again.");
    table.keys("⇥⏎").shows("put in ›");
}

#[test]
fn n_goes_to_the_next_gap_and_then_to_the_next_box_that_waits() {
    let mut table = box_12();
    table.keys("n").shows("Box 13 · boy 3–5 · farm");
    table.selected_has("toy        needs 1 of 2");
    table.keys("n").shows("Box 14 · girl 6–8 · ballet");
    table.keys("n").selected_has("school     needs 4 of 4");
    table.keys("N").selected_has("hygiene    needs 3 of 3");
}

#[test]
fn the_pull_list_turns_what_is_set_aside_into_what_is_in_tick_by_tick() {
    let mut table = Table::sample(80, 24);
    table.keys("T").shows("What to fetch from which tote").shows("10 things set aside");
    table.shows("tote 3").selected_has("1 cap, orange   box 11");
    table.keys(" ");
    assert_eq!(table.said(), "Put 1 cap, orange into box 11.");
    assert_eq!((aside(&table, "11", "caps, orange"), held(&table, "11", "caps, orange")), (0, 2));
    table.shows("9 things set aside").selected_has("1 cap, red   box 10");
    table.keys("u").shows("10 things set aside");
    table.keys("*").shows("Nothing is set aside.").shows("0 things set aside");
    let in_for = [("10", "combs, green"), ("12", "striped socks"), ("13", "toy tractors"), ("16", "maracas")];
    for (label, name) in in_for {
        assert_eq!((aside(&table, label, name), held(&table, label, name)), (0, 1), "{name}");
    }
    table.keys("*");
    assert_eq!(table.said(), "Nothing is set aside.");
    table.keys("u").shows("10 things set aside");
    assert_eq!(aside(&table, "12", "striped socks"), 1, "one undo for all of it");
}

#[test]
fn the_last_night_tells_what_stops_each_box_and_mends_it_there() {
    let mut table = Table::sample(80, 24);
    table.keys("d").shows("What stops which box").shows("drop-off in 35 days");
    table.selected_has("Box 2 · girl 6–8, space, navy and coral: not closed");
    table.keys("nnnnnnnn").selected_has("Box 10 · boy 9–12, ocean, navy and teal: needs 1 wow item");
    table.shows("harmonica is on hand");
    table.keys("+");
    assert_eq!(held(&table, "10", "harmonica"), 1);
    table.selected_has("Box 10 · boy 9–12, ocean, navy and teal: 2 set aside never went in");
    table.keys("⏎").shows("Box 10 · boy 9–12 · ocean");
    table.keys("⎋").selected_has("Box 10");
    table.keys("gc");
    assert_eq!(table.said(), "Closed box 2.");
    assert_eq!(table.keeper.season().box_card("2").expect("the box is there").line.state, "closed");
}

#[test]
fn a_thing_can_be_counted_moved_and_given_away_from_its_card() {
    let mut table = Table::sample(80, 24);
    table.keys("/jumbo⏎=").shows("how many › 6");
    table.key(Key::Backspace);
    table.keys("4⏎").shows("Where      tote 2: 4 on hand");
    table.keys("t").shows("tote › tote 2");
    table.key(Key::Ctrl('u'));
    table.keys("tote 9⏎").shows("Where      tote 9: 4 on hand");
    table.keys("x").shows("1  given loose    2  lost or broken    3  back to the shop    0  nothing");
    table.keys("1").shows("given loose › 1");
    table.keys(" to the reading club⏎").shows("Where      tote 9: 3 on hand");
    let place = table.keeper.season().where_is("jumbo glue sticks").expect("it is known");
    assert!(format!("{place:?}").contains("tote 9"), "{place:?}");
    table.keys("x2⏎").shows("Where      tote 9: 2 on hand");
    table.keys("uuuu").shows("Where      tote 2: 6 on hand");
}
