//! How many keys the everyday things take, each counted against the number typed here, and what
//! came of them in the season, not only on the screen.

use brimful::tui::app::key::Key;
use brimful::tui::app::line::Offered;

use crate::table::{Table, held, in_all};

/// What is on hand of the things called just so.
fn on_hand(table: &Table, title: &str) -> u32 {
    let shelf = table.keeper.season().shelf().expect("the shelf can be read");
    shelf.wares().iter().filter(|ware| *ware.title == *title).map(|ware| ware.on_hand).sum()
}

fn budget(table: &Table, before: usize, keys: usize) {
    assert_eq!(table.keys - before, keys, "{}", table.screen());
}

#[test]
fn a_known_thing_takes_12_keys_and_the_next_one_11() {
    let mut table = Table::sample(80, 24);
    table.keys("a12 tbr⇥.99⏎");
    budget(&table, 0, 12);
    assert_eq!(on_hand(&table, "toothbrushes, purple"), 9 + 12);
    table.shows("12  toothbrushes, purple   hygiene       0.99").shows("11.84 paid");
    let before = table.keys;
    table.keys("12 tbr⇥.99⏎");
    budget(&table, before, 11);
    assert_eq!(on_hand(&table, "toothbrushes, purple"), 9 + 12 + 12);
}

#[test]
fn a_new_thing_with_a_doubt_takes_22_of_which_the_doubt_1() {
    let mut table = Table::empty();
    table.keys("a2 leggings 7-8 2.00⏎");
    budget(&table, 0, 21);
    assert_eq!(on_hand(&table, "leggings, size 7-8"), 0, "nothing is kept before the doubt is answered");
    table.keys("2");
    budget(&table, 0, 22);
    assert_eq!(on_hand(&table, "leggings, size 7-8"), 2);
}

#[test]
fn a_pasted_haul_of_40_lines_with_two_doubts_takes_4() {
    let things = [
        "toothbrushes",
        "combs",
        "pencils",
        "erasers",
        "rulers",
        "cups",
        "socks",
        "caps",
        "scarves",
        "yo-yos",
        "kites",
        "whistles",
        "bracelets",
        "washcloths",
        "notebooks",
        "glue sticks",
        "soap dishes",
        "hair ties",
        "stickers",
    ];
    let mut lines: Vec<String> = things.iter().map(|thing| format!("2 red {thing} 1.00 tote 1")).collect();
    lines.extend(things.iter().map(|thing| format!("3 blue {thing} 0.50 tote 2")));
    lines.insert(5, "2 leggings 7-8 2.00".to_owned());
    lines.insert(30, "5 soaps 2 for 3.00".to_owned());
    assert_eq!(lines.len(), 40);
    let mut table = Table::empty();
    table.paste(&lines.join("\n")).keys("11⏎");
    budget(&table, 0, 4);
    // 19 lines at 1.00, 19 at 0.50, the leggings 2.00, the soaps 7.50.
    assert_eq!(table.said(), "Logged 40 lines, 38.00 paid, 2027-10-14.");
    assert_eq!((on_hand(&table, "glue sticks, blue"), on_hand(&table, "soaps")), (3, 5));
    let hauls = table.keeper.season().hauls().expect("hauls can be read");
    assert_eq!((hauls.hauls.len(), hauls.hauls[0].lines, hauls.hauls[0].paid.known.as_str()), (1, 40, "38.00"));
    table.keys("u");
    assert!(table.keeper.season().hauls().expect("hauls can be read").hauls.is_empty(), "one undo");
}

/// Presses keys in an open drawer; tells how many Enters took the first that was offered for the gap.
fn pack(table: &mut Table, keys: &str, first: &mut usize) {
    for c in keys.chars() {
        let line = table.app.desk.line.as_ref();
        let offered = line.is_some_and(|line| matches!(line.offered(), Some(Offered::Thing(_))));
        let unsought = line.is_some_and(|line| line.words().is_empty() && line.marked == 0);
        *first += usize::from(c == '⏎' && offered && unsought);
        table.keys(&c.to_string());
    }
}

#[test]
fn a_box_of_25_things_takes_no_more_than_60() {
    let mut table = Table::sample(80, 24);
    // A new box: at home the finger lies on it.
    table.keys("bgirl 6-8 ocean, teal⏎");
    let before = table.keys;
    let mut first = 0;
    table.keys("⏎⏎");
    // Three for hygiene, with the toothbrush that the checklist asks for among them.
    pack(&mut table, "⏎⏎⏎", &mut first);
    table.shows("school still needs 4");
    pack(&mut table, "⏎⏎⏎⏎", &mut first);
    table.shows("clothing still needs 2");
    // What is offered first is not of her size: what is looked for is found by name.
    pack(&mut table, "hood⏎navy leg⏎", &mut first);
    assert_eq!((held(&table, "25", "hoodie, navy, size 7-8"), held(&table, "25", "leggings, navy, size 7-8")), (1, 1));
    table.shows("toy still needs 2");
    pack(&mut table, "⏎⏎⏎", &mut first);
    // All is met, and the drawer is shut; the last Enter opens it for anything else.
    assert_eq!(in_all(&table, "25"), 12);
    pack(&mut table, "⏎4 star sti⏎3 plain⏎", &mut first);
    assert_eq!(in_all(&table, "25"), 19);
    pack(&mut table, "⏎⏎⏎⏎⏎⏎", &mut first);
    let keys = table.keys - before;
    println!("25 things by {keys} keys; the first that was offered was taken {first} times");
    assert_eq!(in_all(&table, "25"), 25, "{}", table.screen());
    assert!(keys <= 60, "{keys} keys");
    assert_eq!((held(&table, "25", "star stickers"), held(&table, "25", "plain pencils")), (4, 3));
    let card = table.keeper.season().box_card("25").expect("the box is there");
    assert!(card.line.full, "{:?}", card.line.checklist);
}

#[test]
fn a_slip_in_a_box_takes_5_more() {
    let mut table = Table::sample(80, 24);
    table.keys("bgirl 6-8 ocean, teal⏎⏎⏎⏎");
    assert_eq!(held(&table, "25", "toothbrushes, purple"), 1);
    let before = table.keys;
    table.key(Key::F(5));
    assert_eq!(in_all(&table, "25"), 0);
    table.keys("wav⏎");
    budget(&table, before, 5);
    assert_eq!((in_all(&table, "25"), held(&table, "25", "wavy toothbrushes")), (1, 1));
}

#[test]
fn one_of_a_thing_into_each_of_24_boxes_takes_7() {
    let mut table = Table::empty();
    table.keys("b24 girl 6-8⏎a30 soft toothbrushes 3.00⏎⎋⎋");
    let before = table.keys;
    table.keys("*/too⏎+");
    budget(&table, before, 7);
    for number in 1..=24 {
        assert_eq!(held(&table, &number.to_string(), "soft toothbrushes"), 1, "box {number}");
    }
    assert_eq!(on_hand(&table, "soft toothbrushes"), 6);
    table.keys("u");
    budget(&table, before, 8);
    assert_eq!((on_hand(&table, "soft toothbrushes"), in_all(&table, "24")), (30, 0), "one undo for all");
}

#[test]
fn who_lacks_hygiene_takes_2_and_one_for_each_of_them_2_more() {
    let mut table = Table::sample(80, 24);
    table.keys("r1");
    budget(&table, 0, 2);
    assert_eq!(table.said(), "11 boxes lack a hygiene item.");
    let lacking = ["11", "14", "16", "17", "18", "19", "20", "21", "22", "23", "24"];
    let before: Vec<u32> = lacking.iter().map(|label| in_all(&table, label)).collect();
    table.keys("*+");
    budget(&table, 0, 4);
    let after: Vec<u32> = lacking.iter().map(|label| in_all(&table, label)).collect();
    assert_eq!(after, before.iter().map(|things| things + 1).collect::<Vec<_>>());
    assert_eq!(in_all(&table, "12"), 17, "who lacks none got none");
    table.keys("u");
    assert_eq!(lacking.iter().map(|label| in_all(&table, label)).collect::<Vec<_>>(), before, "one undo");
}

#[test]
fn to_fill_the_first_that_lacks_hygiene_takes_3_or_4() {
    let mut table = Table::sample(80, 24);
    let before = in_all(&table, "11");
    table.keys("r1+");
    budget(&table, 0, 3);
    assert_eq!(in_all(&table, "11"), before + 1);
    let mut table = Table::sample(80, 24);
    table.keys("r1⏎⏎");
    budget(&table, 0, 4);
    assert_eq!(in_all(&table, "11"), before + 1);
    table.shows("Which boxes lack what");
}

#[test]
fn where_a_thing_lies_and_what_it_cost_take_4_and_all_prices_5() {
    let mut table = Table::sample(80, 24);
    table.keys("/glu");
    budget(&table, 0, 4);
    table.shows("glue sticks, white                 4 left    tote 2");
    table.shows("jumbo glue sticks, purple          6 left    tote 2        last 0.244, 7 Aug");
    table.keys("↓⏎");
    budget(&table, 0, 6);
    table.shows("jumbo glue sticks, purple").shows("last 0.244 each, 2027-08-07");
}

#[test]
fn undo_takes_1_and_while_one_writes_too() {
    let mut table = Table::sample(80, 24);
    table.keys("a3 combs .60⏎");
    let before = table.keys;
    assert_eq!(on_hand(&table, "combs"), 3);
    table.key(Key::F(5));
    budget(&table, before, 1);
    assert_eq!(on_hand(&table, "combs"), 0);
    table.keys("⎋⎋");
    table.key(Key::Ctrl('r'));
    assert_eq!(on_hand(&table, "combs"), 3);
    let before = table.keys;
    table.keys("u");
    budget(&table, before, 1);
    assert_eq!(on_hand(&table, "combs"), 0);
}

#[test]
fn three_boxes_are_planned_by_24() {
    let mut table = Table::sample(80, 24);
    table.keys("b3 girl 6-8 ocean, teal⏎");
    budget(&table, 0, 24);
    let boxes = table.keeper.season().box_list().expect("boxes can be read").boxes;
    let planned: Vec<(&str, &str, &str)> =
        boxes.iter().skip(24).map(|line| (line.label.as_str(), line.ages.as_str(), line.theme.as_str())).collect();
    assert_eq!(planned, [("25", "6–8", "ocean"), ("26", "6–8", "ocean"), ("27", "6–8", "ocean")]);
}

#[test]
fn a_full_box_is_closed_by_1() {
    let mut table = Table::sample(80, 24);
    table.keys("g↓");
    let before = table.keys;
    table.keys("c");
    budget(&table, before, 1);
    assert_eq!(table.keeper.season().box_card("2").expect("the box is there").line.state, "closed");
}
