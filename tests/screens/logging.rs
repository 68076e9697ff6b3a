//! Writing what was bought: what is said once, doubts, prices, mending, and going on later.

use brimful::report::hauls::HaulLine;
use brimful::tui::app::key::Key;

use crate::table::Table;

fn hauls(table: &Table) -> Vec<HaulLine> {
    table.keeper.season().hauls().expect("hauls can be read").hauls
}

/// Title, category, tote and units on hand of all that was logged.
fn stock(table: &Table) -> Vec<(String, String, String, u32)> {
    let shelf = table.keeper.season().shelf().expect("the shelf can be read");
    let told = |ware: &std::sync::Arc<brimful::season::Ware>| {
        let category = ware.category.as_ref().map(ToString::to_string).unwrap_or_default();
        (ware.title.to_string(), category, ware.tote.to_string(), ware.on_hand)
    };
    shelf.wares().iter().map(told).collect()
}

#[test]
fn shop_day_and_tote_are_said_once_for_all_lines() {
    let mut table = Table::empty();
    table.keys("aat Mill Lane Market, yesterday⏎");
    assert_eq!(table.said(), "Haul of Wed 13 Oct at Mill Lane Market. Its lines come next.");
    assert!(hauls(&table).is_empty(), "a haul without lines is none yet");
    table.keys("tote 4⏎");
    assert_eq!(table.said(), "What follows goes into tote 4.");
    table.keys("12 toothbrushes 1.50⏎2 combs .50 tote 7⏎");
    table.shows("Haul of Wed 13 Oct · Mill Lane Market").shows("2 lines · 2.00 paid");
    let kept = hauls(&table);
    assert_eq!((kept.len(), kept[0].date.as_str(), kept[0].shop.as_str()), (1, "2027-10-13", "Mill Lane Market"));
    let totes: Vec<(String, String)> = stock(&table).into_iter().map(|(title, _, tote, _)| (title, tote)).collect();
    let expected = [("combs", "tote 7"), ("toothbrushes", "tote 4")];
    assert_eq!(totes, expected.map(|(title, tote)| (title.to_owned(), tote.to_owned())));
}

#[test]
fn a_receipt_adds_up_to_the_cent_or_says_by_how_much_not() {
    let mut table = Table::empty();
    table.keys("a12 toothbrushes 1.50⏎tax 0.12⏎");
    table.shows("tax 0.12").shows("no receipt yet");
    table.keys("receipt 1.62⏎");
    assert_eq!(table.said(), "Corrected the haul. It adds up to the receipt.");
    table.shows("adds up to the receipt, 1.62");
    table.keys("2 combs .40⏎");
    table.shows("the receipt says 1.62: 0.40 less").shows("tax 0.12");
    table.keys("receipt 2.03⏎");
    table.shows("the receipt says 2.03: 0.01 more");
    let kept = &hauls(&table)[0];
    assert_eq!((kept.paid.known.as_str(), kept.receipt.as_str(), kept.over.as_str()), ("2.02", "2.03", "0.01"));
}

#[test]
fn an_opening_count_asks_no_price_and_shows_none_as_missing() {
    let mut table = Table::empty();
    table.keys("aopening count, tote 7⏎9 combs⏎4 soaps⏎");
    assert!(table.app.desk.asked.is_none(), "{}", table.screen());
    table.shows("Opening count of Thu 14 Oct").shows("9  combs").lacks("open ").lacks("────  ");
    let expected = [("combs", "hygiene", "tote 7", 9), ("soaps", "hygiene", "tote 7", 4)];
    assert_eq!(
        stock(&table),
        expected.map(|(title, category, tote, units)| (title.to_owned(), category.to_owned(), tote.to_owned(), units))
    );
}

#[test]
fn a_known_thing_comes_with_colour_category_and_tote_by_tab() {
    let mut table = Table::sample(80, 24);
    table.keys("a2 tri sun⇥");
    table.keys("⎋").shows("Haul of Thu 14 Oct");
    let mut table = Table::sample(80, 24);
    table.keys("a12 tbr").shows("▸ toothbrushes, purple").shows("last 0.16, 11 Sep");
    table.keys("⇥").shows("bought › 12 toothbrushes, purple, tote 4");
    table.shows("12 toothbrushes · hygiene · purple · tote 4");
    // Another one is taken by going down first.
    let mut table = Table::sample(80, 24);
    table.keys("a12 tbr↓⇥").shows("bought › 12 toothbrushes with covers, tote 4");
    table.keys("1.20⏎").shows("12  toothbrushes with…").shows("1.20");
}

#[test]
fn a_missing_price_is_asked_and_may_stay_open() {
    let mut table = Table::empty();
    table.keys("a2 combs⏎");
    table.shows("what did it cost?").shows("1  it was free    2  I'll write it    0  don't know");
    table.keys("0");
    table.shows("2  combs").shows("open").shows("1 line · at least 0.00 paid").shows("2 things unpriced");
    assert_eq!((hauls(&table)[0].paid.unpriced, hauls(&table)[0].paid.known.as_str()), (2, "0.00"));
    // It was free: that is no open price.
    table.keys("3 soaps⏎1").shows("free");
    assert_eq!(hauls(&table)[0].paid.unpriced, 2);
    // Or back to the words, to write it.
    table.keys("4 caps⏎2").shows("bought › 4 caps");
    table.keys(" 1.00⏎").shows("4  caps").shows("at least 1.00 paid");
}

#[test]
fn an_unknown_kind_is_asked_what_it_counts_for() {
    let mut table = Table::empty();
    table.keys("a3 blorks 1.00⏎");
    table.shows("\"blorks\": what does it count for?").shows("4  toy");
    table.keys("4");
    assert_eq!(stock(&table), [("blorks".to_owned(), "toy".to_owned(), String::new(), 3)]);
    // How many there are can't wait.
    table.keys("some caps 2.00⏎0");
    assert_eq!(table.said(), "This can't wait: answer it, or Esc.");
    assert_eq!(stock(&table).len(), 1);
}

#[test]
fn the_price_is_held_against_what_was_paid_before_while_one_types() {
    let mut table = Table::sample(80, 24);
    table.keys("a6 toothbrushes 3.00");
    let sentence = table.row_with("than you");
    assert!(sentence.starts_with(" 0.50 each is more than you"), "{sentence}");
    // The check in the aisle: nothing was kept, and the words wait.
    let before = hauls(&table);
    table.keys("⎋⎋");
    assert_eq!(hauls(&table).len(), before.len());
    table.keys("a").shows("bought › 6 toothbrushes 3.00");
}

#[test]
fn up_out_of_an_empty_line_reaches_what_is_saved_and_e_mends_it() {
    let mut table = Table::empty();
    table.keys("a12 toothbrushes 1.50⏎3 caps 1.00⏎");
    table.keys("↑").selected_has("caps");
    table.keys("↑").selected_has("toothbrushes");
    table.keys("e").shows("mend › 12 toothbrushes, 1.50");
    for _ in 0.."1.50".len() {
        table.key(Key::Backspace);
    }
    table.keys("1.80⏎");
    assert_eq!(table.said(), "Corrected toothbrushes: price.");
    table.shows("1.80  0.15 each").shows("2 lines · 2.80 paid");
    assert_eq!(hauls(&table)[0].paid.known, "2.80");
    // What can't be read stays in the line, and why is said without a line number.
    table.keys("e");
    for _ in 0.."1.80".len() {
        table.key(Key::Backspace);
    }
    table.keys("1.80 2.80⏎").shows("mend ›");
    assert!(!table.said().starts_with("line"), "{}", table.said());
    assert_eq!(hauls(&table)[0].paid.known, "2.80");
}

#[test]
fn more_than_500_letters_are_refused_and_stay_in_the_line() {
    let mut table = Table::empty();
    table.keys("a3 combs .60 ").keys(&"x".repeat(490)).keys("⏎");
    assert_eq!(table.said(), "It has over 500 letters.");
    assert!(stock(&table).is_empty());
    table.shows("bought › xxx");
    table.key(Key::Ctrl('w'));
    table.keys("⏎");
    assert_eq!(table.said(), "Logged 1 line, 0.60 paid, 2027-10-14.");
}

#[test]
fn f5_in_the_line_takes_back_line_by_line_and_leaves_the_words_alone() {
    let mut table = Table::empty();
    table.keys("a12 toothbrushes 1.50⏎3 caps 1.00⏎2 sc");
    table.key(Key::F(5));
    assert_eq!(table.said(), "Took back: Added 3 caps.");
    table.shows("Took back: Added 3 caps. Ctrl-R brings it again.").shows("bought › 2 sc").shows("1 line · 1.50 paid");
    table.key(Key::F(5));
    assert!(stock(&table).iter().all(|(.., units)| *units == 0), "{:?}", stock(&table));
    table.key(Key::Ctrl('r'));
    table.key(Key::Ctrl('r'));
    table.shows("2 lines · 2.50 paid").shows("bought › 2 sc");
}

#[test]
fn todays_haul_goes_on_after_leaving_the_screen() {
    let mut table = Table::empty();
    table.keys("a12 toothbrushes 1.50⏎3 ca⎋⎋");
    table.shows("Items").shows("12 on hand");
    table.keys("a").shows("bought › 3 ca").shows("1 line · 1.50 paid");
    table.keys("ps 1.00⏎").shows("2 lines · 2.50 paid");
    assert_eq!(hauls(&table).len(), 1);
    // Yesterday's shopping is another haul.
    table.keys("at Corner Bazaar, yesterday⏎2 combs .50⏎");
    assert_eq!(hauls(&table).len(), 2);
    table.shows("Haul of Wed 13 Oct · Corner Bazaar").shows("1 line · 0.50 paid");
}

#[test]
fn keys_pressed_while_an_act_is_on_its_way_wait_for_it() {
    let mut table = Table::empty();
    table.keys("a12 toothbrushes 1.50");
    table.hold_answers();
    table.keys("⏎3 caps 1.00⏎u⎋");
    assert!(stock(&table).iter().any(|(title, ..)| title == "toothbrushes"));
    table.answers_come();
    let titles: Vec<String> = stock(&table).into_iter().map(|(title, ..)| title).collect();
    assert_eq!(titles, ["caps", "toothbrushes"], "both lines were kept, one after the other");
    table.keys("⎋").shows("15 on hand");
}
