//! Which boxes lack what: columns, filters, filling a gap and coming back.

use crate::table::{Table, held, in_all};

/// The numbers of the boxes in sight.
fn shown(table: &Table) -> Vec<String> {
    let rows = table.rows();
    let boxes = rows.iter().skip(4).filter(|row| row.contains('–') && !row.contains("Of "));
    let number = |row: &String| row.chars().skip(3).take(4).filter(char::is_ascii_digit).collect::<String>();
    boxes.map(number).filter(|number| !number.is_empty()).collect()
}

#[test]
fn a_digit_shows_who_lacks_it_and_again_or_0_all() {
    let mut table = Table::sample(80, 30);
    table.keys("r").shows("Which boxes lack what").shows("all · 24 of 24");
    table.keys("1");
    assert_eq!(table.said(), "11 boxes lack a hygiene item.");
    assert_eq!(shown(&table), ["11", "14", "16", "17", "18", "19", "20", "21", "22", "23", "24"]);
    table.shows("lacks hygiene · all · 11 of 24");
    table.keys("4");
    assert_eq!(table.said(), "9 boxes lack a toy item.");
    assert_eq!(shown(&table), ["13", "17", "18", "19", "20", "21", "22", "23", "24"]);
    table.keys("4");
    assert_eq!(table.said(), "All boxes are shown.");
    table.shows("all · 24 of 24");
    table.keys("2").shows("10 of 24");
    table.keys("0").shows("all · 24 of 24");
    table.keys("9");
    assert_eq!(table.said(), "Nothing has that number here.");
}

#[test]
fn the_sums_below_tell_how_many_boxes_lack_it_and_how_many_things_that_is() {
    let mut table = Table::sample(80, 24);
    table.keys("r");
    // By hand from the boxes of the sample: 17 to 24 hold nothing yet, one of them of 3–5 years.
    let lack = table.row_with("boxes lack it");
    assert_eq!(lack.split_whitespace().collect::<Vec<_>>().join(" "), "Of 24 boxes lack it 11 10 10 9 10");
    let needs = table.row_with("Things they need");
    assert_eq!(needs.split_whitespace().collect::<Vec<_>>().join(" "), "Things they need 30 37 18 17 10");
}

#[test]
fn w_shows_only_some_boxes_one_sort_after_another() {
    let mut table = Table::sample(80, 30);
    let mut told = Vec::new();
    table.keys("r");
    for _ in 0..8 {
        table.keys("w");
        told.push((table.said(), shown(&table).len()));
    }
    let expected = [
        ("open ones", 23),
        ("for girls", 11),
        ("for boys", 10),
        ("for either", 3),
        ("ages 3–5", 6),
        ("ages 6–8", 12),
        ("ages 9–12", 6),
        ("all", 24),
    ];
    let expected: Vec<(String, usize)> =
        expected.iter().map(|(words, count)| (format!("Boxes shown: {words}."), (*count).min(18))).collect();
    let told: Vec<(String, usize)> = told.into_iter().map(|(words, count)| (words, count.min(18))).collect();
    assert_eq!(told, expected);
}

#[test]
fn enter_fills_the_gap_and_comes_back_to_the_next_row() {
    let mut table = Table::sample(80, 24);
    table.keys("r2").selected_has("12 girl 6–8");
    table.keys("⏎").shows("Box 12 · girl 6–8 · ocean").shows("school still needs 2");
    table.keys("2 plain⏎").shows("Which boxes lack what").shows("lacks school · all · 9 of 24");
    table.selected_has("14 girl 6–8");
    assert_eq!(held(&table, "12", "plain pencils"), 2);
    // Esc comes back as well, with nothing done.
    table.keys("⏎").shows("Box 14 · girl 6–8 · ballet");
    table.keys("⎋").shows("lacks school · all · 9 of 24").selected_has("14 girl 6–8");
    // In all boxes: back on the very row, since nothing went out of sight.
    table.keys("0g⏎");
    assert_eq!(table.said(), "Box 1 is closed; c opens it.");
}

#[test]
fn plus_serves_the_ticked_boxes_as_one_act() {
    let mut table = Table::sample(80, 24);
    table.keys("r4").selected_has("13 boy 3–5");
    table.keys("  ").selected_has("18 boy 9–12");
    let before = ["13", "17", "18"].map(|label| in_all(&table, label));
    table.keys("+");
    let after = ["13", "17", "18"].map(|label| in_all(&table, label));
    assert_eq!(after, [before[0] + 1, before[1] + 1, before[2]], "{}", table.said());
    table.keys("u");
    assert_eq!(["13", "17", "18"].map(|label| in_all(&table, label)), before);
    // All ticked, and none again.
    table.keys("**+");
    assert_eq!(in_all(&table, "18"), before[2] + 1, "the one in hand alone");
    assert_eq!(in_all(&table, "17"), before[1]);
}

#[test]
fn a_closed_box_is_not_ticked_with_all_the_others() {
    let mut table = Table::sample(80, 24);
    table.keys("*").shows("23 ticked");
    table.keys("/folding⏎+");
    assert_eq!(table.said(), "Only 2 folding fans on hand that no box holds, 23 asked.");
    table.keys("⎋*").shows("23 open");
}

#[test]
fn arrows_choose_the_column_and_plus_goes_by_it() {
    let mut table = Table::sample(80, 24);
    table.keys("r→→G").selected_has("24 girl 6–8");
    table.keys("+");
    let card = table.keeper.season().box_card("24").expect("the box is there");
    let got: Vec<String> =
        card.contents.iter().filter_map(|held| held.category.as_ref().map(ToString::to_string)).collect();
    assert_eq!(got, ["clothing"]);
    table.keys("←←←←+");
    let card = table.keeper.season().box_card("24").expect("the box is there");
    assert_eq!(
        card.contents.iter().filter(|held| held.category.as_ref().is_some_and(|c| c.word() == "hygiene")).count(),
        1
    );
    // More columns than there is room for come by going on.
    table.keys("→→→→→").shows("6 toothbrush");
}

#[test]
fn when_nothing_lacks_it_that_is_said() {
    let mut table = Table::empty();
    table.keys("bgirl 6-8⏎a5 toothbrushes free⏎⎋⎋⏎⏎3⏎⎋⎋r1");
    assert_eq!(table.said(), "No box lacks a hygiene item.", "{}", table.screen());
}
