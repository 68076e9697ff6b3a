//! The way back: a batch in words that read as it.

use crate::model::age::Ages;
use crate::model::currency::Currency;
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::{Decigrams, Dims};
use crate::model::money::Money;

/// All that is said of a batch; `usual`: its category goes without saying.
pub fn words(facts: &LotFacts, currency: Currency, usual: bool) -> String {
    let rough = if facts.rough { "about " } else { "" };
    let mut parts = vec![format!("{rough}{}", what(facts))];
    parts.push(facts.colours.join(" and "));
    parts.extend(facts.size.as_ref().map(|size| format!("size {size}")));
    parts.extend(facts.for_whom.map(|whom| format!("for a {whom}")));
    parts.extend(facts.ages.map(ages));
    parts.extend(facts.theme.as_ref().map(|theme| format!("theme {theme}")));
    parts.extend(source(facts));
    parts.push(price(facts, currency));
    parts.extend(facts.tote.clone());
    parts.extend(facts.category.as_ref().filter(|_| !usual).map(|category| format!("as {}", category.word())));
    parts.extend(facts.expires.as_ref().map(|when| format!("expires {when}")));
    parts.extend(facts.dims.as_ref().map(measures));
    parts.extend(facts.weight.map(weight));
    parts.extend(facts.flags.iter().map(|flag| flag.replace('-', " ")));
    parts.retain(|part| !part.is_empty());
    let notes = facts.notes.iter().map(|note| format!(" ({note})"));
    parts.join(", ") + &notes.collect::<String>()
}

/// How many of what, with the packs that they came in.
fn what(facts: &LotFacts) -> String {
    let (units, name) = (facts.units.count(), &facts.name);
    let packs = facts.packs.unwrap_or(1);
    match (facts.pieces, facts.packs) {
        (Some(pieces), Some(packs)) if packs == units => format!("{packs} packs of {pieces} {name}"),
        (Some(pieces), _) => {
            let all = units.saturating_mul(pieces);
            match facts.packs.filter(|packs| *packs > 0 && all.is_multiple_of(*packs)) {
                Some(packs) => format!("{packs} packs of {} {name} in bundles of {pieces}", all / packs),
                None => format!("{all} {name} in bundles of {pieces}"),
            }
        }
        (None, Some(_)) if packs > 0 && units.is_multiple_of(packs) => {
            format!("{packs} packs of {} {name}", units / packs)
        }
        (None, _) => format!("{units} {name}"),
    }
}

fn price(facts: &LotFacts, currency: Currency) -> String {
    let plain = |sum: Money| amount(sum, currency);
    match (facts.paid, facts.regular) {
        // *made* and *given by* say it already.
        (Some(paid), None) if paid.is_zero() && source(facts).is_some() => String::new(),
        (Some(paid), None) if paid.is_zero() => "free".to_owned(),
        (Some(paid), Some(regular)) => format!("{} was {}", plain(paid), plain(regular)),
        (Some(paid), None) if facts.about => format!("about {}", plain(paid)),
        (Some(paid), None) => plain(paid),
        (None, Some(regular)) => format!("was {}", plain(regular)),
        (None, None) => String::new(),
    }
}

/// How it came, where that isn't bought.
fn source(facts: &LotFacts) -> Option<String> {
    match (facts.source, &facts.giver) {
        (Source::Made, None) => Some("made".to_owned()),
        (Source::Made, Some(maker)) => Some(format!("made by {maker}")),
        (_, Some(giver)) if facts.paid.is_some_and(Money::is_zero) => Some(format!("given by {giver}")),
        _ => None,
    }
}

/// An amount that reads as one; without decimals it needs the sign.
pub(super) fn amount(sum: Money, currency: Currency) -> String {
    let sign = if currency.digits() == 0 { format!(" {}", currency.code()) } else { String::new() };
    format!("{}{sign}", sum.plain(currency))
}

pub(super) fn ages(ages: Ages) -> String {
    match ages.to() {
        None => format!("ages {} and up", ages.from()),
        Some(to) => format!("ages {} to {to}", ages.from()),
    }
}

pub(super) fn measures(dims: &Dims) -> String {
    format!("{} mm", dims.0.iter().map(|side| side.0.to_string()).collect::<Vec<_>>().join(" x "))
}

fn weight(weight: Decigrams) -> String {
    format!("{}.{} g", weight.0 / 10, weight.0 % 10)
}
