//! What is told of a box that is packed on trial.

use crate::model::text::{counted, listed_up_to};
use crate::season::{FitCount, FitReport, FitSign, FitStage, FitStep, FitThing, FitWish, SizeFrom};

/// Names beyond this many are only counted.
const NAMED: usize = 4;

/// Millimetres as centimetres: `2.5`.
pub fn cm(millimetres: i32) -> String {
    format!("{}.{}", millimetres / 10, millimetres % 10)
}

/// Three sides: `33.0 × 20.0 × 12.0 cm`.
pub fn sides([x, y, z]: [i32; 3]) -> String {
    format!("{} × {} × {} cm", cm(x), cm(y), cm(z))
}

/// Three sides of a thing in little room: `19 × 2 × 1.8 cm`.
pub fn short_sides(sides: [i32; 3]) -> String {
    let [x, y, z] = sides.map(|side| cm(side).trim_end_matches(".0").to_owned());
    format!("{x} × {y} × {z} cm")
}

/// `a`, `a and b`, `a; b, blue and c`; of a long list the last ones are only counted.
fn listed(names: &[String]) -> String {
    if names.is_empty() { "nothing".to_owned() } else { listed_up_to(names, NAMED, NAMED - 1) }
}

fn counts(counts: &[FitCount]) -> Vec<String> {
    counts.iter().map(FitCount::words).collect()
}

/// Whether it fits, with the sign of it; `searching`: there are ways left to try.
pub fn answer(report: &FitReport, searching: bool) -> (char, String) {
    let by_sizes = match report.answer {
        "not_found" if searching => {
            format!("Not all of it so far; it does without {}.", listed(&counts(&report.left_out)))
        }
        "not_found" => {
            let left = listed(&counts(&report.left_out));
            format!("Couldn't make it fit; it does without {left}. There may be a way.")
        }
        "impossible" if !report.left_out.is_empty() && !report.layers.is_empty() => {
            format!("{} It does without {}.", report.why, listed(&counts(&report.left_out)))
        }
        _ => format!("{} {}", report.why, report.lid).trim_end().to_owned(),
    };
    let (sign, words) = if report.lid_said.is_empty() {
        (sign(report), by_sizes)
    } else {
        ('✓', format!("{} By the sizes: {by_sizes}", report.lid_said))
    };
    match report.too_heavy.as_str() {
        "" => (sign, words),
        heavy => ('!', format!("{heavy} {words}")),
    }
}

fn sign(report: &FitReport) -> char {
    match report.answer {
        "fits" | "tight" if report.hard_push => '!',
        "fits" | "tight" => '✓',
        "impossible" => '✗',
        "not_found" => '◒',
        "empty" => '○',
        _ => '?',
    }
}

/// What is tried here without changing anything: `without ruler, comb on top`; empty: nothing.
pub fn tried(wish: &FitWish, things: &[FitThing], before: &[FitThing]) -> String {
    let name = |of: &[FitThing], placement| {
        let found = of.iter().find(|thing| thing.placement == placement);
        found.map(|thing| thing.name.clone()).unwrap_or_default()
    };
    let out: Vec<String> = wish.out.iter().map(|placement| name(things, *placement)).collect();
    let mut parts: Vec<String> = (!out.is_empty()).then(|| format!("without {}", listed(&out))).into_iter().collect();
    for (placement, top) in &wish.top {
        parts.push(format!("{} {}", name(things, *placement), if *top { "on top" } else { "anywhere" }));
    }
    for placement in wish.instead.keys() {
        parts.push(format!("{} for {}", name(things, *placement), name(before, *placement)));
    }
    parts.join("; ")
}

/// What goes in at a layer, in a row: `A ruler · B comb`.
pub fn layer(stage: &FitStage) -> String {
    let new = stage.signs.iter().filter(|sign| !sign.from_below);
    let words = new.map(|sign| format!("{} {}", sign.letter, sign_words(sign)));
    words.collect::<Vec<_>>().join(" · ")
}

/// A thing behind its letter: `2 × comb, goes through`.
pub fn sign_words(sign: &FitSign) -> String {
    let count = FitCount { thing: sign.thing.clone(), count: sign.count };
    let soft = if sign.soft { ", soft" } else { "" };
    let through = if sign.from_below { ", goes through" } else { "" };
    format!("{}{soft}{through}", count.words())
}

/// What is inside a thing; empty: nothing.
pub fn inside(sign: &FitSign) -> String {
    if sign.inside.is_empty() { String::new() } else { format!("inside: {}", counts(&sign.inside).join(", ")) }
}

/// How high a layer begins: `from 2.1 cm up`.
pub fn height(stage: &FitStage) -> String {
    if stage.from_mm == 0 { "on the bottom".to_owned() } else { format!("from {} cm up", cm(stage.from_mm)) }
}

/// What is to be done for a layer, with the numbers of its steps.
pub fn now(report: &FitReport, layer: usize) -> String {
    let letters: Vec<char> = steps_of(report, layer).filter_map(|(_, step)| step.letter).collect();
    let fills = |step: &FitStep| !step.into.is_empty() && step.letter.is_some_and(|letter| letters.contains(&letter));
    let mut filled: Vec<(usize, usize, char)> = Vec::new();
    for (number, step) in (1..).zip(&report.order).filter(|(_, step)| fills(step)) {
        let holder = step.letter.unwrap_or('?');
        match filled.last_mut() {
            Some((_, last, before)) if *before == holder => *last = number,
            _ => filled.push((number, number, holder)),
        }
    }
    let fill = |(first, last, holder): &(usize, usize, char)| {
        if first == last { format!("{first} {holder}") } else { format!("{first}–{last} {holder}") }
    };
    let fills: Vec<String> = filled.iter().map(fill).collect();
    let mut parts: Vec<String> =
        (!fills.is_empty()).then(|| format!("fill {}", fills.join(", "))).into_iter().collect();
    let mut before = None;
    for (number, step) in steps_of(report, layer) {
        let what = format!("{number} {}", step.letter.unwrap_or('?'));
        match parts.last_mut() {
            Some(last) if before == Some(step.soft) => last.push_str(&format!(", {what}")),
            _ => parts.push(format!("{} {what}", if step.soft { "press in" } else { "lay in" })),
        }
        before = Some(step.soft);
    }
    if parts.is_empty() { String::new() } else { format!("Now: {}", parts.join(" · ")) }
}

fn steps_of(report: &FitReport, layer: usize) -> impl Iterator<Item = (usize, &FitStep)> {
    (1..).zip(&report.order).filter(move |(_, step)| step.stage == Some(layer))
}

/// The whole order of packing, holders first, under what it leaves out.
pub fn order(report: &FitReport) -> Vec<String> {
    let without = listed(&counts(&report.left_out));
    let head = (!report.left_out.is_empty()).then(|| format!("This leaves out {without}."));
    head.into_iter().chain(report.order.iter().map(|step| step.words.clone())).collect()
}

/// The room that is left and what would use it; or what found none.
pub fn room(report: &FitReport) -> String {
    if !report.left_out.is_empty() {
        return format!("Not in this picture: {}.", listed(&counts(&report.left_out)));
    }
    let Some(largest) = report.largest_mm else {
        return if report.room.is_empty() {
            String::new()
        } else {
            "Room left: none that is open from above.".to_owned()
        };
    };
    let drops = match report.drops_in.as_slice() {
        [] => String::new(),
        names => format!(" Would drop in: {}.", listed(names)),
    };
    let repacked = match report.repacked.as_slice() {
        [] => String::new(),
        names => format!(" Once packed anew: {}.", listed(names)),
    };
    format!("Room left: {}.{drops}{repacked}", sides(largest))
}

/// What it weighs, and how far the sizes can be trusted.
pub fn weighs(report: &FitReport) -> String {
    let weight = &report.weight;
    let least = if weight.unknown.is_empty() { "" } else { "at least " };
    let kilos = |grams: f64| format!("{:.1}", grams / 1000.0);
    let limit = match (weight.over(), weight.limit_grams) {
        (Some(over), Some(limit)) => format!(", {:.0} g over the {} allowed", over, kilos(limit)),
        (None, Some(limit)) => format!(" of the {} allowed", kilos(limit)),
        (_, None) => String::new(),
    };
    let typical = match report.sizes_typical.len() {
        0 => String::new(),
        1 => " 1 size is a typical one, not measured.".to_owned(),
        number => format!(" {number} sizes are typical ones, not measured."),
    };
    format!("Weighs {least}{} kg{limit}.{typical}", kilos(weight.grams))
}

/// How full the box is: three rows of a word and a number of 100 that add up.
pub fn filled(report: &FitReport) -> Option<[String; 3]> {
    let fill = report.filled?;
    let (stiff, soft) = ((fill.stiff + 5) / 10, (fill.soft + 5) / 10);
    Some([
        format!("full by room  stiff {stiff:>3}"),
        format!("              soft  {soft:>3}"),
        format!("              free  {:>3} of 100", (100 - stiff - soft).max(0)),
    ])
}

/// How large one of a thing is, and how one knows.
pub fn size(thing: &FitThing) -> String {
    let from = match thing.from {
        SizeFrom::Batch => "as logged",
        SizeFrom::Kind => "measured",
        SizeFrom::Typical => "typical",
        SizeFrom::Nowhere => "",
    };
    match thing.size {
        Some(size) => format!("{}, {from}", short_sides(size)),
        None => "its size isn't known".to_owned(),
    }
}

/// The reasons in full, one a paragraph.
pub fn reasons(report: &FitReport, searching: bool) -> Vec<String> {
    let mut told = vec![answer(report, searching).1];
    if !report.lid.is_empty() && !told[0].contains(&report.lid) {
        told.push(report.lid.clone());
    }
    // What the shell would say by a command is a key here.
    told.extend(report.notes.iter().map(|note| match note.split_once(": `brimful") {
        Some((said, _)) => format!("{said}."),
        None => note.clone(),
    }));
    told.push(format!("Tried {}.", counted(report.tried, "way", "ways")));
    told.push(weighs(report));
    if let Some(to) = report.filled.and_then(|fill| fill.soft_pressed_to) {
        told.push(format!("Soft things are pressed to {to} of 100."));
    }
    if !report.weight.unknown.is_empty() {
        told.push(format!("Nobody knows what these weigh: {}.", report.weight.unknown.join("; ")));
    }
    if !report.sizes_unknown.is_empty() {
        told.push(format!("Sizes that nobody knows: {}.", report.sizes_unknown.join("; ")));
    }
    if !report.sizes_typical.is_empty() {
        told.push(format!("Sizes that are only typical: {}.", report.sizes_typical.join("; ")));
    }
    if !report.room.is_empty() {
        told.push(room(report));
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_told_in_centimetres() {
        assert_eq!(sides([330, 205, 8]), "33.0 × 20.5 × 0.8 cm");
        assert_eq!(short_sides([1000, 205, 80]), "100 × 20.5 × 8 cm");
    }

    #[test]
    fn a_long_list_is_counted() {
        let names = |count: usize| (0..count).map(|n| format!("n{n}")).collect::<Vec<_>>();
        assert_eq!(listed(&names(4)), "n0, n1, n2 and n3");
        assert_eq!(listed(&names(6)), "n0, n1, n2 and 3 more");
        assert_eq!(
            listed(&["socks, blue".to_owned(), "cup".to_owned(), "comb".to_owned()]),
            "socks, blue; cup and comb"
        );
    }
}
