//! Laws that hold for any line.

use proptest::prelude::*;

use super::testing::{read, with_context};
use super::{Reading, Said, read_line, read_said};

/// Words of all families, in no order.
const WORDS: [&str; 64] = [
    "6",
    "12",
    "2",
    "a",
    "a dozen",
    "few",
    "combs",
    "crayons",
    "pencils",
    "t-shirts",
    "1.25",
    ".50",
    "$3",
    "50c",
    "a dollar",
    "a penny",
    "each",
    "a pack",
    "a pair",
    "half off",
    "50% off",
    "was 6.99",
    "2 for $3",
    "4/$1",
    "free",
    "12 pack",
    "2 12-packs",
    "pack of 12",
    "x4",
    "4x",
    "in bundles of 8",
    "girls",
    "boy",
    "6-8",
    "7-9",
    "ages 6-8",
    "4+",
    "size 10-12",
    "2T",
    "medium",
    "navy",
    "forest green",
    "and",
    ",",
    "theme ocean",
    "tote 7",
    "in tote",
    "market",
    "neighbour",
    "feb 15",
    "exp 2027-03",
    "03/2027",
    "5x3x2 in",
    "3 oz",
    "as toy",
    "wow",
    "used",
    "with battery",
    "(a note)",
    "for",
    "pairs of",
    "100 piece",
    "€2",
    "in",
];

pub(super) fn config() -> ProptestConfig {
    ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() }
}

pub(super) fn line_of_words() -> impl Strategy<Value = String> {
    proptest::collection::vec(proptest::sample::select(&WORDS[..]), 1..9).prop_map(|words| words.join(" "))
}

/// Any characters, those of the rules and those that a terminal obeys more often than others.
fn odd_text() -> impl Strategy<Value = String> {
    let odd: Vec<char> =
        "0123456789.,$€¢%/@#x×-–½\"'();\u{1b}\u{9b}\u{202e}\u{2066}\u{85}\u{a0}\u{200b}٣²".chars().collect();
    let char = prop_oneof![any::<char>(), proptest::sample::select(odd), proptest::char::range(' ', '~')];
    proptest::collection::vec(char, 0..600).prop_map(|chars| chars.into_iter().collect())
}

/// What is bought: counts and packs that stand whole between commas.
const THINGS: [&str; 14] = [
    "6 combs",
    "a comb",
    "a few combs",
    "combs x4",
    "wallet 5",
    "2 packs of 5 vests",
    "12 pack pencils",
    "box of 16 crayons",
    "24 crayons",
    "12 pencils 12 pack",
    "3 pairs of socks",
    "24 pencils in bundles of 8",
    "100 piece jigsaw",
    "a dozen gift bags",
];
/// Prices with their words.
const PRICES: [&str; 12] = [
    "1.25",
    "$3 each",
    "50c",
    "a dollar fifty",
    "2 for $3",
    "10 cents a pack",
    "at 10 cents",
    "2.50 half off",
    "was 8.00 half off 3.00",
    "3.00 was 6.99",
    "free",
    "€2",
];
/// What else may be said.
const OTHERS: [&str; 12] = [
    "girls",
    "boys large",
    "ages 6-8",
    "4+",
    "size 10-12",
    "pink",
    "forest green",
    "theme ocean",
    "from neighbour",
    "feb 15",
    "exp 2027-03",
    "5x3x2 in",
];

/// Whole phrases in any order: a thing, its price, and up to three more.
pub(super) fn phrases() -> impl Strategy<Value = Vec<&'static str>> {
    let others = proptest::sample::subsequence(OTHERS.to_vec(), 0..=3);
    let all = (proptest::sample::select(&THINGS[..]), proptest::sample::select(&PRICES[..]), others);
    all.prop_map(|(thing, price, others)| [vec![thing, price], others].concat()).prop_shuffle()
}

/// What a change of spaces or letters must not touch.
fn sums(reading: &Reading) -> impl PartialEq + std::fmt::Debug + use<> {
    let about: Vec<_> = reading.questions.iter().map(|question| question.about).collect();
    (reading.units, reading.packs, reading.per_pack, reading.pieces, reading.paid, reading.regular, about)
}

/// Units and paid stand, or a question says why not; and words say where they are.
fn is_sound(reading: &Reading) {
    let asks = |word: &str| reading.questions.iter().any(|question| question.about.word() == word);
    assert_eq!(reading.units.is_none(), asks("units"), "{reading:?}");
    assert!(reading.paid.is_some() || asks("paid") || asks("units"), "{reading:?}");
    assert!(!(reading.paid.is_some() && asks("paid")), "{reading:?}");
    assert_eq!(reading.name.is_empty(), asks("name"), "{reading:?}");
    assert!(reading.paid.is_none() || reading.regular.is_none() || reading.paid <= reading.regular, "{reading:?}");
    for taken in &reading.taken {
        assert!(reading.line.get(taken.span.clone()).is_some_and(|words| !words.is_empty()), "{reading:?}");
    }
    assert!(reading.taken.is_sorted_by_key(|taken| taken.span.start));
}

fn has_no_control(said: &impl serde::Serialize) {
    let json = serde_json::to_value(said).unwrap();
    let mut open = vec![&json];
    while let Some(value) = open.pop() {
        match value {
            serde_json::Value::String(text) => {
                let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
                assert!(!text.contains(|c: char| c.is_control() || turns(c)), "{text:?}");
            }
            serde_json::Value::Array(items) => open.extend(items),
            serde_json::Value::Object(map) => open.extend(map.values()),
            _ => {}
        }
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn any_text_is_read_without_a_panic(text in any::<String>()) {
        with_context(|ctx| {
            let said = read_said(&text, ctx);
            said.iter().for_each(has_no_control);
            said.iter().filter_map(Said::reading).for_each(is_sound);
        });
    }

    #[test]
    fn odd_text_is_read_without_a_panic(text in odd_text()) {
        with_context(|ctx| {
            read_said(&text, ctx).iter().for_each(has_no_control);
            has_no_control(&read_line(1, &text, ctx));
        });
    }

    #[test]
    fn full_stops_and_a_place_change_no_sum(phrases in phrases()) {
        let line = phrases.join(", ");
        let plain = sums(&read(&line));
        prop_assert_eq!(&plain, &sums(&read(&format!("{line}."))), "{}", line);
        prop_assert_eq!(&plain, &sums(&read(&format!("{line}, tote 4"))), "{}", line);
        prop_assert_eq!(&plain, &sums(&read(&format!("{line} tote 4"))), "{}", line);
    }

    #[test]
    fn words_in_any_order_are_sound(line in line_of_words()) {
        is_sound(&read(&line));
    }

    #[test]
    fn signs_in_any_order_are_sound(line in "[0-9a-cxtsoz .,$%/()'\u{1b}\u{9b}&+#-]{0,60}") {
        with_context(|ctx| {
            let outcome = read_line(1, &line, ctx);
            has_no_control(&outcome);
            outcome.reading().into_iter().for_each(is_sound);
        });
    }

    #[test]
    fn spaces_and_letters_change_no_sum(line in line_of_words()) {
        let plain = sums(&read(&line));
        prop_assert_eq!(&plain, &sums(&read(&line.replace(' ', "   "))), "{}", line);
        prop_assert_eq!(&plain, &sums(&read(&line.to_uppercase())), "{}", line);
        prop_assert_eq!(&plain, &sums(&read(&format!("  {line}  "))), "{}", line);
        prop_assert_eq!(&plain, &sums(&read(&format!("{line}."))), "{}", line);
    }
}

#[test]
fn long_lines_are_read_again_and_again() {
    let long: Vec<String> = WORDS.iter().map(|word| format!("{word} ").repeat(500 / (word.len() + 1))).collect();
    for line in long.iter().chain([&"1 ".repeat(250), &"(".repeat(500), &"a dozen ".repeat(62), &"-1".repeat(250)]) {
        read(line);
    }
}
