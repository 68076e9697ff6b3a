//! What an answer says of itself, taken from how its line reads.

use crate::model::age::Ages;
use crate::model::text::counted;
use crate::reading::question::About;
use crate::reading::report::Reading;
use crate::reading::write::measures;

/// The difference that an answer makes, the thing that was asked first.
pub(super) fn label(about: About, before: &Reading, after: &Reading) -> String {
    let mut parts = Vec::new();
    if about == About::Paid && before.units.is_some() == after.units.is_some() {
        parts.push(price(before, after));
    } else if matches!(about, About::Units | About::Paid) {
        parts.extend(how_many(after));
        parts.extend((before.paid != after.paid).then(|| price(before, after)));
    }
    parts.extend(others(before, after));
    if about == About::Category && parts.is_empty() {
        parts.extend(category(after));
    }
    match (parts.is_empty(), before.notes == after.notes) {
        (false, _) => parts.join(", "),
        (true, false) => "only a note".to_owned(),
        (true, true) => "leave it out".to_owned(),
    }
}

/// `12 units: 2 packs of 6`, `1 unit of 24 pieces`, `3 units, 8 pieces in each`.
fn how_many(reading: &Reading) -> Option<String> {
    let units = reading.units?.count();
    let mut words = counted(u64::from(units), "unit", "units");
    let packs = counted(u64::from(reading.packs), "pack", "packs");
    match (reading.per_pack, reading.pieces) {
        (_, Some(pieces)) if units == 1 => words.push_str(&format!(" of {pieces} pieces")),
        (Some(size), None) => words.push_str(&format!(": {packs} of {size}")),
        (_, Some(pieces)) => words.push_str(&format!(", {pieces} pieces in each")),
        (None, None) => {}
    }
    Some(words)
}

fn price(before: &Reading, after: &Reading) -> String {
    let Some(paid) = after.paid else { return String::new() };
    if paid.is_zero() && after.regular.is_none() {
        return "it was free".to_owned();
    }
    let mut words = format!("paid {}", paid.plain(after.currency));
    if let Some(units) = after.units.filter(|_| before.units.is_some() && before.units != after.units) {
        words.push_str(&format!(" for {units}"));
    }
    if let Some(regular) = after.regular {
        words.push_str(&format!(", regular {}", regular.plain(after.currency)));
    }
    words
}

/// All else in which the two differ.
fn others(before: &Reading, after: &Reading) -> Vec<String> {
    let mut parts = Vec::new();
    let mut say = |differs: bool, words: Option<String>| parts.extend(words.filter(|_| differs));
    let with = |word: &str, said: &Option<String>| said.as_ref().map(|said| format!("{word} {said}"));
    say(before.ages != after.ages, after.ages.map(ages));
    say(before.size != after.size, with("size", &after.size));
    say(before.place != after.place, after.place.clone());
    say(before.theme != after.theme, with("theme", &after.theme));
    say(before.shop != after.shop, with("from", &after.shop));
    say(before.date != after.date, after.date.map(|date| date.to_string()));
    say(before.expires != after.expires, with("expires", &after.expires));
    say(before.dims != after.dims, after.dims.as_ref().map(measures));
    say(before.weight != after.weight, after.weight.map(|weight| format!("{} g", weight.grams())));
    say(before.category != after.category, category(after));
    parts
}

fn category(reading: &Reading) -> Option<String> {
    reading.category.as_ref().map(|category| format!("as {category}"))
}

/// `ages 7 to 8`, `age 7`, `ages 4 and up`.
fn ages(ages: Ages) -> String {
    match ages.to() {
        None => format!("ages {} and up", ages.from()),
        Some(to) if to == ages.from() => format!("age {to}"),
        Some(to) => format!("ages {} to {to}", ages.from()),
    }
}
