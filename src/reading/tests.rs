//! The example lines, every expected field of each.

use serde_json::Value;

use super::testing::{read, with_context};
use super::{Said, read_said};

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
    let said = with_context(|ctx| read_said(text, ctx));
    let read: Vec<_> = said.iter().filter_map(Said::reading).map(|r| (r.n, r.name.as_str())).collect();
    assert_eq!(read, [(1, "comb"), (1, "soap"), (4, "pens"), (4, "ruler")]);
}

#[test]
fn a_long_line_is_refused_and_the_others_go_on() {
    let text = format!("comb .10\n{}\nsoap .20\n{}", "a".repeat(501), "b".repeat(500));
    let outcomes = with_context(|ctx| read_said(&text, ctx));
    assert_eq!(outcomes.len(), 4);
    let json: Vec<Value> = outcomes.iter().map(|outcome| serde_json::to_value(outcome).unwrap()).collect();
    assert_eq!(json[1]["n"], 2);
    assert!(json[1]["error"].as_str().unwrap().contains("501 letters"));
    assert_eq!(json[1]["version"], 1);
    assert_eq!(json[2]["name"], "soap");
    assert!(json[3]["error"].is_null());
}

#[test]
fn a_heading_says_which_it_is() {
    let text = "at Corner Bazaar, 2026-11-20\ntax was 1.20\npostage 4.95\ncoupon 5.00 off all\ntotal 43.17\ntote 4\n\
                opening count, tote 7\n9 combs";
    let said = with_context(|ctx| read_said(text, ctx));
    let json: Vec<String> = said.iter().map(|said| serde_json::to_string(said).unwrap()).collect();
    assert_eq!(
        json[..7],
        [
            r#"{"version":1,"n":1,"line":"at Corner Bazaar, 2026-11-20","shop":"Corner Bazaar","date":"2026-11-20"}"#,
            r#"{"version":1,"n":2,"line":"tax was 1.20","tax":"1.20"}"#,
            r#"{"version":1,"n":3,"line":"postage 4.95","postage":"4.95"}"#,
            r#"{"version":1,"n":4,"line":"coupon 5.00 off all","coupon":"5.00"}"#,
            r#"{"version":1,"n":5,"line":"total 43.17","total":"43.17"}"#,
            r#"{"version":1,"n":6,"line":"tote 4","place":"tote 4"}"#,
            r#"{"version":1,"n":7,"line":"opening count, tote 7","opening":true,"place":"tote 7","date":null}"#,
        ]
    );
    assert!(json[7].contains(r#""name":"combs""#) && json[7].contains(r#""questions":[]"#), "{}", json[7]);
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
