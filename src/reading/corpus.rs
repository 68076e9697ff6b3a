//! Lines typed by hand with what a person means by them, from many angles.

use serde_json::{Value, json};

use super::testing::read;

/// `line | name | units | paid | asked about | more fields`; `-` is none.
const LINES: &str = include_str!("corpus.txt");

fn field(value: &Value) -> String {
    match value {
        Value::Null => "-".to_owned(),
        Value::String(text) => text.clone(),
        Value::Array(items) => items.iter().map(field).collect::<Vec<_>>().join(","),
        other => other.to_string(),
    }
}

/// The fields that a row expects, each with what was found.
fn differences(row: &str) -> Vec<String> {
    let cells: Vec<&str> = row.split('|').map(str::trim).collect();
    let [line, name, units, paid, asked, more @ ..] = &cells[..] else { panic!("{row}") };
    let got = serde_json::to_value(read(line)).unwrap();
    let about: Vec<Value> = got["questions"].as_array().unwrap().iter().map(|asked| asked["about"].clone()).collect();
    let about = if about.is_empty() { Value::Null } else { json!(about) };
    let mut pairs = vec![("name", *name, &got["name"]), ("units", units, &got["units"]), ("paid", paid, &got["paid"])];
    pairs.push(("asked", asked, &about));
    for pair in more.iter().flat_map(|more| more.split(';')).map(str::trim).filter(|pair| !pair.is_empty()) {
        let (key, expected) = pair.split_once('=').unwrap();
        pairs.push((key, expected, &got[key]));
    }
    let wrong = pairs.into_iter().filter(|(_, expected, found)| field(found) != *expected);
    wrong
        .map(|(key, expected, found)| {
            format!("{line}: {key} is {}, not {expected}; {}", field(found), got["questions"])
        })
        .collect()
}

#[test]
fn the_lines_are_read_as_meant() {
    let rows: Vec<&str> = LINES.lines().filter(|row| !row.is_empty() && !row.starts_with('#')).collect();
    assert!(rows.len() >= 150, "{}", rows.len());
    let wrong: Vec<String> = rows.into_iter().flat_map(differences).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
