//! Remarks and reasons, in words.

use super::rank::{Has, Rank, Stray, Table, There};
use super::uses::use_of;
use super::{Candidate, fits};

/// Kinds told of in the plural, since one alone is of no use.
const PAIRS: &[&str] = &["sock", "shoe", "sandal", "flip-flop", "slipper", "boot", "glove", "shoelace"];
/// Kinds that are not counted.
const UNCOUNTED: &[&str] = &[
    "toothpaste",
    "dental floss",
    "soap",
    "deodorant",
    "shampoo",
    "hair conditioner",
    "body wash",
    "lotion",
    "sun cream",
    "lip balm",
    "chalk",
    "paint",
    "paper",
    "sticky tape",
    "modelling clay",
    "yarn",
    "fabric",
    "cord",
    "ribbon",
    "needle and thread",
    "doll clothes",
    "dice",
];

/// The one remark beside a suggestion; empty where there is nothing to say.
pub(super) fn remark(table: &Table<'_>, rank: &Rank<'_>, candidate: &Candidate<'_>) -> String {
    if rank.aside == Has::It {
        return "set aside for it".to_owned();
    }
    match (rank.stray, rank.there, candidate.kind) {
        (Stray::ToyAsWow, ..) => return "a toy, as its wow item".to_owned(),
        (Stray::Needed, ..) => {
            let line = table.line_in_need(candidate);
            return line.map(|of| format!("{} needs it", of.words())).unwrap_or_default();
        }
        (Stray::SecondWow, ..) => return "has a wow item".to_owned(),
        (_, There::SameThing, _) => return "has this already".to_owned(),
        (_, There::SameKind, Some(kind)) => return format!("has {}", one(kind)),
        _ => {}
    }
    let flag = candidate.flags.first().map(|flag| flag.replace('-', " "));
    flag.or_else(|| candidate.for_whom.map(|whom| format!("for a {whom}"))).unwrap_or_default()
}

/// Every reason why it suits, in the order in which they count.
pub(super) fn reasons(table: &Table<'_>, rank: &Rank<'_>, candidate: &Candidate<'_>) -> Vec<String> {
    let facts = table.wish.facts;
    let mut reasons = Vec::new();
    if rank.aside == Has::It {
        reasons.push(format!("{} set aside for this box", candidate.aside_here));
    }
    if fits::as_wow(table.wish.line, candidate.category) {
        reasons.push("a toy that can be its wow item".to_owned());
    }
    reasons.extend(variety(table, rank, candidate));
    if rank.theme == Has::It {
        reasons.push(format!("{}, the theme of this box", candidate.theme.unwrap_or_default()));
    }
    reasons.extend(table.shared_colour(candidate).map(|colour| format!("{colour}, a colour of this box")));
    reasons.extend(candidate.for_whom.map(|whom| format!("for a {whom}")));
    reasons.extend(candidate.ages.map(
        |ages| {
            if ages == facts.ages { format!("made for {ages}") } else { ages.to_string() }
        },
    ));
    reasons
}

fn variety(table: &Table<'_>, rank: &Rank<'_>, candidate: &Candidate<'_>) -> Option<String> {
    let kind = candidate.kind?;
    if rank.kind_line == Has::It {
        return Some(format!("the checklist asks for {}", one(kind)));
    }
    match rank.there {
        There::NewUse => Some(match use_of(kind) {
            Some(of) if !table.wish.inside.is_empty() => format!("nothing {of} in it yet"),
            _ => format!("no {kind} in it yet"),
        }),
        There::NewKind => Some(format!("no {kind} in it yet")),
        There::SameKind | There::SameThing => None,
    }
}

/// One of a kind, with its article where it has one: `a notebook`, `an eraser`, `socks`, `soap`.
pub(super) fn one(kind: &str) -> String {
    if PAIRS.contains(&kind) {
        return format!("{kind}s");
    }
    let many = kind.ends_with('s') && !kind.ends_with("ss");
    if many || UNCOUNTED.contains(&kind) {
        return kind.to_owned();
    }
    let vowel = kind.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {kind}", if vowel { "an" } else { "a" })
}
