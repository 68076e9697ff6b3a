//! Answers by hand-typed examples, and the laws that each answer holds.

use proptest::prelude::*;

use crate::reading::corpus::{FILES, rows};
use crate::reading::laws::{config, line_of_words, phrases};
use crate::reading::question::{About, Question};
use crate::reading::report::Reading;
use crate::reading::testing::read;

/// `line => about: label <- line so written | …`, the first two answers at most.
const EXAMPLES: &str = include_str!("examples.txt");

/// Lines of the other tests.
fn known_lines() -> Vec<String> {
    FILES.iter().flat_map(|(_, text)| rows(text)).map(|(line, _)| line).collect()
}

fn asks(reading: &Reading, about: About) -> bool {
    reading.questions.iter().any(|question| question.about == about)
}

/// The amount or number behind a word of a label.
fn behind<'a>(label: &'a str, word: &str) -> Option<&'a str> {
    let (_, rest) = label.split_once(word)?;
    rest.split([' ', ',']).next()
}

/// Every answer's line reads as its label says and settles its question.
fn holds(line: &str) {
    let before = read(line);
    for question in &before.questions {
        assert!((1..=4).contains(&question.choices.len()), "{line}: {question:?}");
        for choice in &question.choices {
            let Some(written) = &choice.line else { continue };
            let after = read(written);
            let told = format!("{line}\n{written}\n{}\n{:?}", choice.label, after.questions);
            assert!(!asks(&after, question.about), "{told}");
            for about in [About::Units, About::Paid, About::Name] {
                assert!(!asks(&after, about) || asks(&before, about), "{told}");
            }
            agrees(&before, question, &choice.label, &after, &told);
        }
    }
}

fn agrees(before: &Reading, question: &Question, label: &str, after: &Reading, told: &str) {
    let plain = |money: Option<crate::model::money::Money>| money.map(|money| money.plain(after.currency));
    let units = after.units.map(|units| units.count().to_string());
    let says_units = label.split(' ').nth(1).is_some_and(|word| word.starts_with("unit"));
    if says_units {
        assert_eq!(label.split(' ').next(), units.as_deref(), "{told}");
    } else if let Some(count) = behind(label, " for ") {
        assert_eq!(Some(count), units.as_deref(), "{told}");
    } else {
        assert_eq!(before.units, after.units, "{told}");
    }
    if let Some(paid) = behind(label, "paid ") {
        assert_eq!(Some(paid.to_owned()), plain(after.paid), "{told}");
        assert_eq!(behind(label, "regular ").map(str::to_owned), plain(after.regular), "{told}");
    } else if label.contains("it was free") {
        assert_eq!(after.paid, Some(crate::model::money::Money::ZERO), "{told}");
    } else {
        assert_eq!((before.paid, before.regular), (after.paid, after.regular), "{told}");
    }
    let kept =
        |reading: &Reading| (reading.colours.clone(), reading.for_whom, reading.flags.clone(), reading.kind.clone());
    assert_eq!(kept(before), kept(after), "{told}");
    if question.about != About::Date {
        assert_eq!((&before.shop, before.date), (&after.shop, after.date), "{told}");
    }
}

/// Takes first answers until none is left that can be taken.
fn settled(line: &str) -> Reading {
    let mut line = line.to_owned();
    for _ in 0..6 {
        let reading = read(&line);
        let first = reading.questions.iter().find_map(|question| question.choices.first()?.line.clone());
        let Some(next) = first else { return reading };
        line = next;
    }
    let reading = read(&line);
    let more = reading.questions.iter().any(|question| question.choices.iter().any(|choice| choice.line.is_some()));
    assert!(!more, "{line}: {:?}", reading.questions);
    reading
}

#[test]
fn answers_by_hand() {
    let mut wrong = Vec::new();
    let rows: Vec<&str> = EXAMPLES.lines().filter(|row| !row.is_empty() && !row.starts_with('#')).collect();
    assert!(rows.len() >= 40, "{}", rows.len());
    for row in rows {
        let (line, expected) = row.split_once(" => ").unwrap_or_else(|| panic!("no row: {row}"));
        let (about, choices) = expected.split_once(": ").unwrap_or_else(|| panic!("no row: {row}"));
        let reading = read(line);
        let question = reading.questions.iter().find(|question| question.about.word() == about);
        let found: Vec<String> = question.map(|question| &question.choices).into_iter().flatten().map(told).collect();
        if choices.split(" | ").ne(found.iter().map(String::as_str).take(choices.split(" | ").count())) {
            wrong.push(format!("{line} => {about}: {}", found.join(" | ")));
        }
    }
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
}

fn told(choice: &crate::reading::Choice) -> String {
    choice.line.as_ref().map_or_else(|| choice.label.clone(), |line| format!("{} <- {line}", choice.label))
}

#[test]
fn every_answer_to_the_known_lines_holds() {
    let lines = known_lines();
    assert!(lines.len() > 700, "{}", lines.len());
    for line in lines {
        holds(&line);
    }
}

#[test]
fn first_answers_settle_the_known_lines() {
    let mut stuck = Vec::new();
    for line in known_lines() {
        let reading = settled(&line);
        let open = reading.questions.iter().filter(|question| !question.can_wait() && question.about != About::Name);
        stuck.extend(open.map(|question| format!("{line} -> {}: {}", reading.line, question.why)));
    }
    assert!(stuck.is_empty(), "{}", stuck.join("\n"));
}

#[test]
fn how_many_and_what_cannot_wait() {
    let waits = |about| Question::new(about, String::new()).can_wait();
    assert!(!waits(About::Units) && !waits(About::Name));
    assert!(waits(About::Paid) && waits(About::Ages) && waits(About::Size) && waits(About::Place));
}

#[test]
fn answers_are_no_part_of_the_json() {
    let json = serde_json::to_value(read("leggings 7-8 2.00")).unwrap();
    let question = json["questions"][0].as_object().unwrap();
    assert_eq!(question.keys().collect::<Vec<_>>(), ["about", "why"]);
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn every_answer_to_any_phrases_holds(phrases in phrases()) {
        let line = phrases.join(", ");
        holds(&line);
        settled(&line);
    }

    #[test]
    fn every_answer_to_any_words_holds(line in line_of_words()) {
        holds(&line);
        settled(&line);
    }

    #[test]
    fn every_answer_to_any_signs_holds(line in "[0-9a-cxtsoz .,$%/()'&+#-]{0,40}") {
        holds(&line);
        settled(&line);
    }
}
