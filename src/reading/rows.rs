//! Many lines by family of rules, strictly: what a row does not say must be empty.
//!
//! A row is `line => name | units | paid | …`, where `-` is null. What a row doesn't speak of must
//! be null or empty, so that a rule can't take what is not its own. The further fields are
//! `was` (the regular price), `pieces`, `for`, `ages`, `size`, `col`, `place`, `shop`, `theme`,
//! `date`, `exp`, `flags`, `dims`, `g`, `cat` (only looked at where said) and `ask` (the questions).

mod counts;
mod dirty;
mod discounts;
mod meetings;
mod packs;
mod people;
mod places;
mod prices;

use serde_json::Value;

use super::testing::read;

/// The fields that a row may speak of, and what they are called in the JSON.
const FIELDS: [(&str, &str); 14] = [
    ("was", "regular"),
    ("pieces", "pieces"),
    ("for", "for"),
    ("ages", "ages"),
    ("size", "size"),
    ("col", "colours"),
    ("place", "place"),
    ("shop", "shop"),
    ("theme", "theme"),
    ("date", "date"),
    ("exp", "expires"),
    ("flags", "flags"),
    ("dims", "dims_mm"),
    ("g", "weight_g"),
];

/// The rows of a table.
fn rows(table: &str) -> impl Iterator<Item = (&str, &str)> {
    let rows = table.lines().map(str::trim).filter(|row| !row.is_empty());
    rows.map(|row| row.split_once(" => ").unwrap_or_else(|| panic!("no row: {row}")))
}

/// Checks every row of a table, and that the table has at least as many as its maker counted.
fn check(table: &str, least: usize) {
    let wrong: Vec<String> = rows(table).filter_map(|(line, expected)| differs(line, expected)).collect();
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
    assert!(rows(table).count() >= least, "{} rows", rows(table).count());
}

/// What is wrong with the reading of a line, if anything is.
fn differs(line: &str, expected: &str) -> Option<String> {
    let json = serde_json::to_value(read(line)).unwrap();
    let mut parts = expected.split('|').map(str::trim);
    let mut wrong = Vec::new();
    let mut compare = |what: &str, expected: &str| {
        let got = said(&json, what);
        if got != expected {
            wrong.push(format!("{what} is {got:?}, not {expected:?}"));
        }
    };
    for what in ["name", "units", "paid"] {
        compare(what, parts.next().unwrap());
    }
    let others: Vec<(&str, &str)> = parts.map(|part| part.split_once(' ').unwrap()).collect();
    let expected = |short: &str| others.iter().find(|(field, _)| *field == short).map(|&(_, value)| value);
    for (short, field) in FIELDS {
        compare(field, expected(short).unwrap_or("-"));
    }
    if let Some(category) = expected("cat") {
        compare("category", category);
    }
    compare("ask", expected("ask").unwrap_or("-"));
    let known = |field: &str| field == "ask" || field == "cat" || FIELDS.iter().any(|(short, _)| *short == field);
    assert!(others.iter().all(|(field, _)| known(field)), "{line}: an unknown field");
    (!wrong.is_empty()).then(|| format!("{line}: {} {}", wrong.join("; "), json["questions"]))
}

/// A field of a reading, written as the rows write it.
fn said(json: &Value, field: &str) -> String {
    let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    let joined = |values: &[Value], by: &str| values.iter().map(text).collect::<Vec<_>>().join(by);
    match (field, &json[field]) {
        ("ask", _) => {
            let about: Vec<String> = json["questions"].as_array().unwrap().iter().map(|q| text(&q["about"])).collect();
            if about.is_empty() { "-".to_owned() } else { sorted(about).join(",") }
        }
        (_, Value::Null) => "-".to_owned(),
        (_, Value::String(text)) if text.is_empty() => "-".to_owned(),
        ("ages", Value::Array(years)) => match years.as_slice() {
            [from, Value::Null] => format!("{from}+"),
            years => joined(years, "-"),
        },
        (_, Value::Array(values)) if values.is_empty() => "-".to_owned(),
        (_, Value::Array(values)) => joined(values, ","),
        (_, value) => text(value),
    }
}

fn sorted(mut words: Vec<String>) -> Vec<String> {
    words.sort_unstable();
    words
}
