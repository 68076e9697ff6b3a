//! Words that several rules must know as something else than a name.

/// A pack, always.
pub(super) const PACKS: [&str; 13] = [
    "pack",
    "packs",
    "package",
    "packages",
    "packet",
    "packets",
    "pk",
    "pks",
    "pkt",
    "pkts",
    "pkg",
    "pkgs",
    "multipack",
];
/// A pack where *of* follows, else a thing.
pub(super) const LOOSE_PACKS: [&str; 8] = ["box", "boxes", "bag", "bags", "set", "sets", "card", "cards"];
/// Units that are taken out of a name.
pub(super) const UNITS: [(&str, &str); 10] = [
    ("pair", "pairs"),
    ("pr", "prs"),
    ("yd", "yds"),
    ("bar", "bars"),
    ("yard", "yards"),
    ("roll", "rolls"),
    ("tube", "tubes"),
    ("bottle", "bottles"),
    ("sheet", "sheets"),
    ("spool", "spools"),
];
/// Where things are kept.
pub(super) const PLACES: [&str; 8] = ["tote", "bin", "shelf", "drawer", "crate", "basket", "cupboard", "totes"];

/// Small words that never begin a name.
pub(super) const SMALL: [&str; 30] = [
    "each",
    "ea",
    "apiece",
    "for",
    "off",
    "half",
    "was",
    "reg",
    "regular",
    "originally",
    "at",
    "from",
    "free",
    "in",
    "into",
    "now",
    "paid",
    "only",
    "on",
    "with",
    "has",
    "as",
    "and",
    "or",
    "to",
    "per",
    "of",
    "exp",
    "size",
    "sz",
];

/// Before a number or an amount these only bound it.
pub(super) const BOUNDS: [&str; 7] = ["less than", "more than", "at least", "at most", "up to", "over", "fewer than"];

/// The singular of a unit word, and whether it stands in the plural.
pub(super) fn unit(word: &str) -> Option<(&'static str, bool)> {
    let &(one, _) = UNITS.iter().find(|(one, many)| *one == word || *many == word)?;
    match one {
        // Short forms are both: 1 pr, 2 pr.
        "pr" => Some(("pair", false)),
        "yd" => Some(("yard", false)),
        long => Some((long, long != word)),
    }
}
