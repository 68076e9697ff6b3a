//! The files of planning problems: lines with tabs, as the JSON that the program reads.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde_json::{Map, Value, json};

/// All of them, the smallest first.
pub fn files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/plan");
    let mut files: Vec<PathBuf> = folder.read_dir().unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

fn numbers<'a>(words: impl Iterator<Item = &'a str>) -> Value {
    let pairs = words.map(|word| word.split_once('=').unwrap());
    Value::Object(pairs.map(|(of, number)| (of.to_owned(), json!(number.parse::<u32>().unwrap()))).collect())
}

fn number(word: &str) -> Value {
    json!(word.parse::<i64>().unwrap())
}

/// A line of a file as the JSON that the program reads.
fn row(words: &[&str]) -> Value {
    match words {
        ["group", id, sex, from, to, count, needs @ ..] => json!({
            "id": id, "sex": sex, "age_from": number(from), "age_to": number(to), "count": number(count),
            "need": numbers(needs.iter().copied().filter(|need| !need.starts_with("must "))),
            "must": numbers(needs.iter().filter_map(|need| need.strip_prefix("must "))),
        }),
        ["lot", category, kind, sex, from, to, count] => json!({
            "category": category, "kind": kind, "sex": sex, "age_from": number(from), "age_to": number(to),
            "quantity": number(count),
        }),
        ["offer", category, kind, sex, from, to, price] => json!({
            "category": category, "kind": kind, "sex": sex, "age_from": number(from), "age_to": number(to),
            "unit_price": number(price),
        }),
        other => panic!("{other:?}"),
    }
}

/// A problem as JSON, and its answers.
pub fn written(text: &str) -> (Value, Value) {
    let (mut rows, mut kinds) = (BTreeMap::<&str, Vec<Value>>::new(), Map::new());
    let (mut rule, mut categories, mut answers) = ("", Vec::new(), Value::Null);
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split('\t').collect();
        match words.as_slice() {
            ["rule", word] => rule = word,
            ["categories", names @ ..] => categories = names.to_vec(),
            ["kind", kind, category] => _ = kinds.insert((*kind).to_owned(), json!(category)),
            ["answers", text] => answers = serde_json::from_str(text).unwrap(),
            _ => rows.entry(words[0]).or_default().push(row(&words)),
        }
    }
    let asked = |of: &str| -> Vec<Value> { answers[of].as_array().unwrap().iter().map(|row| row[0].clone()).collect() };
    let written = json!({
        "age_rule": rule, "categories": categories, "kinds": kinds,
        "groups": rows["group"], "lots": rows["lot"], "price_list": rows["offer"],
        "ask": { "boxes": asked("min_cost_for"), "budgets": asked("max_with_budget") },
    });
    (written, answers)
}
