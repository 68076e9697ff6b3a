//! Laws that hold for any line.

use proptest::prelude::*;

use super::testing::{read, with_context};
use super::{Outcome, Reading, read_text};

/// What must never be silently wrong.
fn weighty(reading: &Reading) -> (Option<u32>, Option<i64>, Option<i64>) {
    let minor = |money: Option<crate::model::money::Money>| money.map(crate::model::money::Money::minor);
    (reading.units.map(crate::model::measure::Units::count), minor(reading.paid), minor(reading.regular))
}

/// Words and numbers that the rules know, in any order: far more likely to meet than letters by chance.
fn line() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        Just("6"),
        Just("2"),
        Just("12"),
        Just("combs"),
        Just("soap"),
        Just("crayons"),
        Just("pack of 6"),
        Just("12 pack"),
        Just("1.25"),
        Just("$3"),
        Just("50c"),
        Just("each"),
        Just("a pack"),
        Just("2 for"),
        Just("half off"),
        Just("was 4.00"),
        Just("free"),
        Just("girls"),
        Just("6-8"),
        Just("size 7-8"),
        Just("ages 3-5"),
        Just("tote 4"),
        Just("at Corner Bazaar"),
        Just("red"),
        Just("wow"),
        Just("as hygiene"),
        Just("a dozen"),
        Just("x4"),
        Just("in bundles of 8"),
        Just("exp 2027-03"),
        Just("(a note)"),
        Just(","),
    ];
    prop::collection::vec(word, 1..8).prop_map(|words| words.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,600}|[\\x00-\\x7f\\u{80}-\\u{9f}\\u{202e}€½×]{0,600}") {
        let outcomes = with_context(|ctx| read_text(&text, ctx));
        let json = serde_json::to_string(&outcomes).unwrap();
        prop_assert!(!json.chars().any(char::is_control));
        for reading in outcomes.iter().filter_map(Outcome::reading) {
            prop_assert!(!reading.to_string().chars().any(|c| c.is_control() && c != '\n'));
        }
    }

    #[test]
    fn spaces_capitals_and_a_full_stop_change_nothing(line in line()) {
        let plain = weighty(&read(&line));
        prop_assert_eq!(weighty(&read(&line.replace(' ', "  "))), plain, "double spaces: {}", line);
        prop_assert_eq!(weighty(&read(&format!(" {line} . "))), plain, "a full stop: {}", line);
        // A shop is known by its capitals, so capitals alone may be added where no shop is named.
        if !line.contains("Corner") {
            prop_assert_eq!(weighty(&read(&line.to_uppercase())), plain, "capitals: {}", line);
        }
    }

    #[test]
    fn what_is_marked_down_never_cost_more_than_before(line in line()) {
        let reading = read(&line);
        if let (Some(paid), Some(regular)) = (reading.paid, reading.regular) {
            let asked = reading.questions.iter().any(|question| question.about == super::About::Paid);
            prop_assert!(asked || line.contains("was") || paid <= regular, "{}: {} of {}", line, paid, regular);
        }
        prop_assert!(reading.paid.is_none_or(|paid| !paid.is_negative()));
    }

    #[test]
    fn without_an_amount_nothing_is_known_to_be_paid(words in prop::collection::vec("(combs|soap|red|girls|tote 4|pack of 6|wow)", 1..5)) {
        let line = words.join(" ");
        prop_assert_eq!(read(&line).paid, None, "{}", line);
    }
}
