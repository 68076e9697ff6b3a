//! Lines typed by hand with what a person means by them; what a row does not say must be empty.
//!
//! A row is `line => name | units | paid | …`, where `-` is null. What a row doesn't speak of must be
//! null or empty, so that a rule can't take what is not its own. The further fields are those of
//! [`FIELDS`], `cat`, `notes` and `source` (only looked at where said) and `ask` (the questions).

use serde_json::Value;

use super::testing::read;

/// The fields that a row may speak of, and what they are called in the JSON.
const FIELDS: [(&str, &str); 17] = [
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
    ("about", "about"),
    ("giver", "giver"),
    ("box", "for_box"),
];
/// Fields that are looked at only where a row speaks of them.
const IF_SAID: [(&str, &str); 6] = [
    ("cat", "category"),
    ("notes", "notes"),
    ("source", "source"),
    ("packs", "packs"),
    ("per", "per_pack"),
    ("returned", "returned"),
];

macro_rules! files {
    ($($name:ident,)*) => {
        /// Every file of rows, with its name.
        pub(super) const FILES: &[(&str, &str)] = &[
            $((stringify!($name), include_str!(concat!("../../tests/reading/", stringify!($name), ".txt"))),)*
        ];
    };
}

files! {
    ages, amounts, beyond, bundles, colours, counts, dates, dirty, free, many_angles, many_marked_down, marked_down,
    measures_flags, meetings, packs, places_shops_themes, scopes, sets, sizes, unseen,
}

/// The rows of a file: a line, and what is expected of it.
pub(super) fn rows(text: &str) -> impl Iterator<Item = (String, &str)> {
    let rows = text.lines().filter(|row| !row.is_empty() && !row.starts_with('#'));
    rows.map(|row| {
        let (line, expected) = row.split_once("=> ").unwrap_or_else(|| panic!("no row: {row}"));
        (plain(line), expected)
    })
}

/// `\t` and `\u{9b}` as the characters that they stand for.
fn plain(line: &str) -> String {
    let mut parts = line.strip_suffix(' ').unwrap_or(line).split("\\u{");
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (code, rest) = part.split_once('}').unwrap();
        text.extend(u32::from_str_radix(code, 16).ok().and_then(char::from_u32));
        text.push_str(rest);
    }
    text.replace("\\t", "\t")
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
    for (short, field) in IF_SAID {
        if let Some(value) = expected(short) {
            compare(field, value);
        }
    }
    compare("ask", expected("ask").unwrap_or("-"));
    let known = |field: &str| field == "ask" || FIELDS.iter().chain(&IF_SAID).any(|(short, _)| *short == field);
    assert!(others.iter().all(|(field, _)| known(field)), "{line}: an unknown field");
    (!wrong.is_empty()).then(|| format!("{line}: {} {}", wrong.join("; "), json["questions"]))
}

/// A field of a reading, written as the rows write it.
fn said(json: &Value, field: &str) -> String {
    let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    let joined = |values: &[Value], by: &str| values.iter().map(text).collect::<Vec<_>>().join(by);
    match (field, &json[field]) {
        ("ask", _) => {
            let mut about: Vec<String> =
                json["questions"].as_array().unwrap().iter().map(|question| text(&question["about"])).collect();
            about.sort_unstable();
            if about.is_empty() { "-".to_owned() } else { about.join(",") }
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

#[test]
fn every_line_is_read_as_meant() {
    let mut count = 0;
    let mut wrong = Vec::new();
    for (file, text) in FILES {
        for (line, expected) in rows(text) {
            count += 1;
            wrong.extend(differs(&line, expected).map(|why| format!("{file}: {why}")));
        }
    }
    assert!(wrong.is_empty(), "{} of {count} lines:\n{}", wrong.len(), wrong.join("\n"));
    assert!(count >= 1000, "{count} lines");
}
