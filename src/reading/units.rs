//! How many units there are: counts, packs, sets and bundles put together.

use super::Context;
use super::draft::{Count, Draft};
use super::outright::{Field, count_of};
use super::question::{About, Question};
use crate::catalogue::Catalogue;
use crate::model::category::Category;
use crate::model::kind::Kind;
use crate::model::measure::Units;

/// A pack that holds more is no pack of notebooks: shops tell the leaves of one as `70 ct`.
pub(super) const MOST_NOTEBOOKS: u32 = 30;

/// Kinds of which a shop tells the leaves.
pub(super) const LEAVES: [&str; 3] = ["notebook", "notepad", "sketchbook"];

/// What the counts of a line come to.
#[derive(Debug, Default)]
pub(super) struct Tally {
    pub packs: u32,
    /// How many packs there are is in doubt, not only what they hold.
    pub packs_open: bool,
    pub per_pack: Option<u32>,
    /// Things that can each be given; `None` where only a question can tell.
    pub units: Option<u32>,
    pub pieces: Option<u32>,
    /// What was bought before any bundling: what *each* multiplies by where no pack is named.
    pub bought: Option<u32>,
    /// What one of them is called: *pair*, *bar*.
    pub unit: Option<String>,
    /// Given as a set: a pack is one unit.
    pub whole: bool,
}

/// Puts the counts together, asking where they can be read two ways.
pub(super) fn tally(draft: &mut Draft, kind: Option<&Kind>, clothing: bool, ctx: &Context<'_>) -> Tally {
    let mut tally = worked_out(draft, kind, clothing);
    for field in [Field::Pieces, Field::Units] {
        let Some(words) = draft.outright.of(field) else { continue };
        let count = count_of(words, ctx).filter(|count| (1..=Units::MOST).contains(count));
        let why = format!("\"{words}\": how many is that?");
        draft.questions.retain(|question| question.about != About::Units);
        if field == Field::Pieces {
            tally.pieces = count;
        } else {
            (tally.units, tally.bought) = (count, count);
        }
        if count.is_none() {
            ask(draft, why);
            tally.units = None;
        }
    }
    tally
}

fn worked_out(draft: &mut Draft, kind: Option<&Kind>, clothing: bool) -> Tally {
    let set = kind.is_some_and(|kind| kind.set);
    let mut tally = if draft.pack.named { packed(draft, set) } else { loose(draft, set) };
    let leaves = kind.is_some_and(|kind| LEAVES.contains(&kind.name.as_str()));
    if leaves && tally.unit.as_deref() == Some("sheet") {
        ask(draft, "do the sheets count, or are they inside?".to_owned());
    }
    if leaves && draft.pack.named && tally.per_pack.is_some_and(|size| size > MOST_NOTEBOOKS) {
        ask(draft, "so many notebooks, or so many leaves in one?".to_owned());
    }
    if clothing && draft.counts.iter().any(|count| count.maybe_size) {
        ask(draft, "is the number a size or a count?".to_owned());
    }
    bundle(draft, &mut tally);
    let sensible = |units: u32| (1..=Units::MOST).contains(&units);
    if tally.units.is_some_and(|units| !sensible(units)) {
        ask(draft, "none, or more than a million?".to_owned());
    }
    if draft.asks(About::Units) {
        tally.units = None;
        tally.pieces = None;
        tally.bought = None;
    }
    tally
}

fn ask(draft: &mut Draft, why: String) {
    draft.ask(Question::new(About::Units, why));
}

/// The one value that all of these are, or `Err` if they differ.
fn single(mut values: impl Iterator<Item = u32>) -> Result<Option<u32>, ()> {
    let first = values.next();
    if values.all(|value| Some(value) == first) { Ok(first) } else { Err(()) }
}

/// The number of a deal, where nothing else counts.
fn deal(draft: &Draft) -> Option<u32> {
    draft.prices.iter().find(|price| !price.regular).or(draft.prices.first()).and_then(|price| price.deal)
}

/// No pack is named: the counts count units.
fn loose(draft: &mut Draft, set: bool) -> Tally {
    let real: Vec<&Count> = draft.counts.iter().filter(|count| !count.article).collect();
    let unit = draft.counts.iter().find_map(|count| count.unit.clone());
    let several = real.len() > 1;
    let value = real.first().map(|count| count.value).or_else(|| deal(draft)).unwrap_or(1);
    let head = draft.name.split(" of ").next().and_then(|head| head.split(' ').next_back()).unwrap_or_default();
    let pieces = set && unit.is_none() && draft.bundle.is_none() && !["sets", "kits", "decks"].contains(&head);
    // Three car set: three of them, or one of three cars.
    let one_set = ["set", "kit"].contains(&head) && real.first().is_some_and(|count| !count.times);
    if several {
        ask(draft, format!("two counts stand in the line, {value} is one of them"));
    }
    if value > 1 && (pieces || one_set) {
        ask(draft, format!("are there {value} pieces, or {value} sets?"));
    }
    Tally {
        packs: 1,
        packs_open: false,
        per_pack: None,
        units: Some(value),
        pieces: None,
        bought: Some(value),
        unit,
        whole: set,
    }
}

/// A pack is named: packs times what each holds, unless the kind is given as a set.
fn packed(draft: &mut Draft, set: bool) -> Tally {
    let times = draft.counts.iter().filter(|count| count.times).map(|count| count.value);
    let packs = single(draft.pack.counts.iter().copied().chain(times));
    let sizes = single(draft.pack.sizes.iter().chain(&draft.pack.pieces).copied());
    let (Ok(packs), Ok(size)) = (packs, sizes) else {
        ask(draft, "the packs are told in two ways that differ".to_owned());
        return Tally { packs: 1, packs_open: true, ..Tally::default() };
    };
    let only_pieces = draft.pack.sizes.is_empty() && !draft.pack.pieces.is_empty();
    let kit = draft.name.split(' ').next_back().is_some_and(|last| ["set", "sets", "kit", "kits"].contains(&last));
    let whole = set || (only_pieces && kit);
    let mut counted = draft.counts.iter().filter(|count| !count.times && !count.article).map(|count| count.value);
    let first = counted.next();
    // Two jigsaws of 100 pieces are two: another number than the pieces of one can't repeat them.
    let sets = first.filter(|value| whole && size.is_some_and(|size| size != *value) && counted.next().is_none());
    let packs_open = first.is_some() && sets.is_none();
    if packs_open {
        ask(draft, "does the count repeat what the pack says, or are there so many packs?".to_owned());
    } else if only_pieces && !whole {
        ask(draft, "are the pieces each given by themselves?".to_owned());
    } else if size.is_none() && !whole {
        ask(draft, "how many does a pack hold?".to_owned());
    }
    let packs = packs.or(sets).or_else(|| deal(draft)).unwrap_or(1);
    let units = if whole { Some(packs) } else { size.map(|size| packs.saturating_mul(size)) };
    let unit = draft.pack.unit.clone();
    Tally { packs, packs_open, per_pack: size, units, pieces: size.filter(|_| whole), bought: units, unit, whole }
}

/// Makes bundles of all the pieces.
fn bundle(draft: &mut Draft, tally: &mut Tally) {
    let Some(bundle) = draft.bundle.take() else { return };
    let pieces = match tally.per_pack {
        Some(size) => Some(tally.packs.saturating_mul(size)),
        None => tally.bought.filter(|_| !draft.pack.named),
    };
    let said = draft.pack.named || draft.counts.iter().any(|count| !count.article) || deal(draft).is_some();
    let even = pieces.filter(|pieces| said && pieces.checked_rem(bundle.size) == Some(0));
    match (even.map(|pieces| pieces / bundle.size), bundle.count) {
        (Some(bundles), count) if count.is_none_or(|count| count == bundles) => tally.units = Some(bundles),
        (None, Some(count)) if !said => {
            tally.units = Some(count);
            tally.bought = count.checked_mul(bundle.size);
        }
        _ => ask(draft, format!("\"{}\": that doesn't come out even", bundle.words)),
    }
    tally.pieces = Some(bundle.size);
    draft.bundle = Some(bundle);
}

/// The kind that a name means, and whether it is clothing by the line or the catalogue.
pub(super) fn kind_of<'a>(draft: &Draft, catalogue: &'a Catalogue) -> (Option<&'a Kind>, bool) {
    let kind = catalogue.kind_of(&draft.name);
    let category = draft.categories.first().or(kind.map(|kind| &kind.category));
    let clothing =
        category == Some(&Category::Clothing) || kind.is_some_and(|kind| kind.category == Category::Clothing);
    (kind, clothing)
}
