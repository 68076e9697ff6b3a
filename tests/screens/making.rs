//! Making something else of what is on hand: kits, bundles, parts, one batch of several; and what nobody counts.

use crate::table::Table;

/// A season with a few things, the first of them chosen under Items.
fn things(lines: &str) -> Table {
    let mut table = Table::empty();
    table.paste(lines);
    table.keys("⏎");
    assert!(table.said().starts_with("Logged"), "{}", table.said());
    table.keys("⎋⎋");
    table
}

fn each(table: &Table, words: &str) -> (u32, String) {
    let stock = table.keeper.season().stock(&brimful::season::StockWish::default()).unwrap();
    let item = stock.things.iter().find(|item| item.name == words);
    let item =
        item.unwrap_or_else(|| panic!("no {words}: {:?}", stock.things.iter().map(|i| &i.name).collect::<Vec<_>>()));
    (item.on_hand, item.cost.known.clone())
}

#[test]
fn a_kit_is_made_in_words_and_costs_what_its_parts_cost() {
    let mut table = things("4 pencil cases 2.00\n12 pencils 1.20\n4 erasers .40");
    table
        .keys(":make a kit⏎")
        .shows("make a kit ›")
        .shows("For example: 2 filled pencil cases: pencil case, 3 pencils");
    table.keys("2 school starters: pencil case, 3 pencils, eraser");
    table.shows("2 school starters, each of 1 pencil case, 3 pencils, 1 eraser");
    table.keys("⏎");
    assert!(table.said().contains("school starter"), "{}", table.said());
    // 2 of 4 cases at 2.00, 6 of 12 pencils at 1.20, 2 of 4 erasers at .40.
    assert_eq!(each(&table, "school starters"), (2, "1.80".to_owned()));
    assert_eq!(each(&table, "pencils"), (6, "0.60".to_owned()));
    table.keys("u");
    assert_eq!(each(&table, "pencils"), (12, "1.20".to_owned()));
}

#[test]
fn a_pack_is_split_and_what_does_not_part_says_so() {
    let mut table = things("24 pencils 2.40");
    table.keys("⇥⇥:split⏎").shows("pencils into bundles of ›").shows("For example: 8");
    table.keys("7⏎");
    assert_eq!(table.said(), "24 does not part into 7s.");
    table.keys("⎋:split⏎8").shows("bundles of 8, from all that are free");
    table.keys("⏎");
    let stock = table.keeper.season().stock(&brimful::season::StockWish::default()).unwrap();
    assert_eq!((stock.things[0].on_hand, stock.things[0].cost.known.as_str()), (3, "2.40"), "{stock:?}");
}

#[test]
fn a_part_comes_out_of_sets_with_its_share_and_a_kit_comes_apart() {
    let mut table = things("2 art sets 10.00");
    table.keys("⇥⇥:take parts⏎").shows("out of each art set");
    table.keys("2 sharpeners 15%").shows("2 sharpeners out of each, with 15 of every 100 cents of its cost");
    table.keys("⏎");
    assert_eq!(each(&table, "sharpeners"), (4, "1.50".to_owned()));
    table.keys(":make a kit⏎2 points: 2 sharpeners⏎");
    assert_eq!(each(&table, "points"), (2, "1.50".to_owned()));
    table.keys("/points⏎:take a kit⏎").shows("points taken apart ›");
    table.keys("all⏎");
    assert_eq!(each(&table, "sharpeners"), (4, "1.50".to_owned()));
}

#[test]
fn two_batches_become_one() {
    let mut table = things("4 combs 1.00\n6 combs 1.20");
    table.keys("⇥⇥:put together⏎");
    assert!(table.said().contains("10 combs"), "{}", table.said());
    assert_eq!(each(&table, "combs"), (10, "2.20".to_owned()));
    table.keys(":put together⏎");
    assert_eq!(table.said(), "combs is one batch already.");
}

#[test]
fn what_nobody_counts_is_plenty_or_low() {
    let mut table = things("500 beads 2.00");
    table.keys("⇥⇥:plenty⏎").shows("? beads: how much is there?").shows("2  low").shows("0  leave it as it is");
    table.keys("2").shows("beads          low");
    assert_eq!(table.said(), "beads: low.");
    table.keys(":plenty⏎").shows("4  count it again");
    table.keys("4");
    assert_eq!(table.said(), "beads: counted again.");
    table.shows("beads          500");
}

#[test]
fn a_thing_goes_back_to_the_shop_from_where_one_sees_it() {
    let mut table = things("4 combs 1.00\n1 kite 2.00");
    table.keys("⇥⇥x").shows("? combs: what became of it?").shows("3  back to the shop");
    table.keys("3").shows("bought › returned 1 combs");
    table.key(brimful::tui::app::key::Key::Ctrl('u'));
    table.keys("returned 2 combs .50⏎");
    assert_eq!(each(&table, "combs"), (2, "0.50".to_owned()), "{}", table.said());
    // A line that is half written is not written over.
    table.keys("a3 kites⎋⎋⎋x3");
    assert_eq!(table.said(), "A half-written line waits here: save it or rub it out first.");
}
