//! The example lines, every expected field of each.

use serde_json::Value;

use super::testing::{read, with_context};
use super::{Outcome, read_text};

const EXAMPLES: &str = include_str!("../../tests/examples.jsonl");

/// Examples that are not fully read yet, each with the reason. One that passes must leave the list.
const PENDING: &[(&str, &str)] = &[];

fn differences(example: &Value) -> Vec<String> {
    let line = example["line"].as_str().unwrap();
    let got = serde_json::to_value(read(line)).unwrap();
    let mut wrong = Vec::new();
    for (field, expected) in example["expect"].as_object().unwrap() {
        let questions = got["questions"].as_array().unwrap();
        let found = match field.as_str() {
            "questions" => Value::from(questions.len()),
            "about" => questions.iter().map(|question| question["about"].clone()).collect(),
            other => got[other].clone(),
        };
        if found != *expected {
            wrong.push(format!("{line}: {field} is {found}, not {expected}; {questions:?}"));
        }
    }
    wrong
}

#[test]
fn the_examples_are_read() {
    let mut wrong = Vec::new();
    for example in EXAMPLES.lines().map(|line| serde_json::from_str::<Value>(line).unwrap()) {
        let line = example["line"].as_str().unwrap();
        let differences = differences(&example);
        match PENDING.iter().find(|(pending, _)| *pending == line) {
            Some((_, why)) if differences.is_empty() => wrong.push(format!("{line}: passes, though pending: {why}")),
            Some(_) => {}
            None => wrong.extend(differences),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_text_parts_into_lines_and_pieces() {
    let text = "comb .10; soap (red; blue) .20\r\n\n  \n6 pens 1.00;\u{1b}[1;31m ruler .30\n";
    let outcomes = with_context(|ctx| read_text(text, ctx));
    let read: Vec<_> = outcomes.iter().filter_map(Outcome::reading).map(|r| (r.n, r.name.as_str())).collect();
    assert_eq!(read, [(1, "comb"), (1, "soap"), (4, "pens"), (4, "ruler")]);
}

#[test]
fn a_long_line_is_refused_and_the_others_go_on() {
    let text = format!("comb .10\n{}\nsoap .20\n{}", "a".repeat(501), "b".repeat(500));
    let outcomes = with_context(|ctx| read_text(&text, ctx));
    assert_eq!(outcomes.len(), 4);
    let json: Vec<Value> = outcomes.iter().map(|outcome| serde_json::to_value(outcome).unwrap()).collect();
    assert_eq!(json[1]["n"], 2);
    assert!(json[1]["error"].as_str().unwrap().contains("501 letters"));
    assert_eq!(json[1]["version"], 1);
    assert_eq!(json[2]["name"], "soap");
    assert!(json[3]["error"].is_null());
}

#[test]
fn json_has_the_fields_of_the_rules() {
    let line = "2 combs girl ages 6-8 .50 5x3 cm 85 g (blue) with magnet exp 2027-03";
    let json = serde_json::to_value(read(line)).unwrap();
    assert_eq!(json["version"], 1);
    assert_eq!(json["for"], "girl");
    assert_eq!(json["ages"], serde_json::json!([6, 8]));
    assert_eq!(json["dims_mm"], serde_json::json!([50, 30]));
    assert_eq!(json["weight_g"].as_f64(), Some(85.0));
    assert_eq!(json["flags"], serde_json::json!(["magnet"]));
    assert_eq!(json["notes"], serde_json::json!(["blue"]));
    assert_eq!(json["paid"], "0.50");
    assert_eq!(json["regular"], Value::Null);
    assert!(json.get("kind").is_none() && json.get("taken").is_none());
    for (field, expected) in [("source", "\"bought\""), ("giver", "null"), ("for_box", "null"), ("about", "[]")] {
        assert_eq!(json[field].to_string(), expected, "{field}");
    }
    assert_eq!(json["returned"], false);
    assert_eq!(json.as_object().unwrap().len(), 30);
}

#[test]
fn a_question_names_its_words() {
    let why = |line: &str| read(line).questions.remove(0).why;
    assert_eq!(why("5 soaps 2 for 3.00"), "\"5 soaps 2 for 3.00\": 5 is no multiple of 2");
    assert_eq!(why("a few stickers 50c"), "\"a few\": how many is that?");
    assert!(!why(&format!("{} 2 for 3.00 each", "soap ".repeat(20))).contains('"'));
}
