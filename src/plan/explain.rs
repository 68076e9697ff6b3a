//! What holds boxes back, what doesn't, and what is left over: values, which `say` turns into sentences.

use std::collections::BTreeMap;

use super::compile::Compiled;
use super::filler::{Cut, Filler};
use super::packer::Packer;
use super::problem::{Offer, Problem};

/// Why no more boxes can be finished.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Explanation {
    /// Where there isn't enough for all boxes, what holds back now first.
    pub short: Vec<Short>,
    /// Categories of which there is enough for every box.
    pub ample: Vec<String>,
    /// What is left over once the boxes of the plan are finished, by what it counts for first.
    pub left: Vec<Left>,
}

/// Things that some boxes want between them, and of which there aren't enough.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Short {
    /// What they count for.
    pub category: String,
    /// The kind, if all these boxes ask for just that by name.
    pub kind: Option<String>,
    /// The groups of the boxes, by index.
    pub groups: Vec<usize>,
    /// Units on hand that fit any of these boxes.
    pub on_hand: i64,
    /// Units that all of these boxes need.
    pub needed: i64,
    /// Whether what the plan leaves is not enough for one more of the boxes: this holds back now. Else it will, once
    /// something else no longer does.
    pub holds_back: bool,
    /// Kinds on offer that would help, cheapest first, each with what a unit costs in whole minor units, rounded up.
    pub kinds: Vec<(String, i64)>,
}

/// What is left over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Left {
    /// What it counts for.
    pub category: String,
    /// Units.
    pub units: i64,
    /// Of them, units that would not fit any box that isn't finished.
    pub idle: i64,
}

impl Explanation {
    /// Of a plan over bundles.
    pub(super) fn of(problem: &Problem, compiled: &Compiled, counts: &[i64]) -> Explanation {
        let short = shorts(problem, compiled, counts);
        let is_short = |category: &&String| short.iter().any(|short| short.category == **category);
        let ample = compiled.categories.iter().filter(|category| !is_short(category)).cloned().collect();
        Explanation { ample, left: left(problem, compiled, counts), short }
    }
}

fn shorts(problem: &Problem, compiled: &Compiled, counts: &[i64]) -> Vec<Short> {
    let mut short = Vec::new();
    for (index, net) in compiled.nets.iter().enumerate() {
        let mut filler = Filler::new(net, compiled.bundles.len(), false);
        filler.clear(&compiled.all(), 1);
        if filler.fill() > 0 {
            short.extend(filler.cuts().iter().map(|cut| told(problem, compiled, index, cut, counts)));
        }
    }
    short.sort_by_key(|short: &Short| (!short.holds_back, short.on_hand - short.needed));
    short
}

fn told(problem: &Problem, compiled: &Compiled, net: usize, cut: &Cut, counts: &[i64]) -> Short {
    let spots: Vec<_> = cut.spots.iter().map(|spot| &compiled.nets[net].spots[*spot]).collect();
    let kinds: Vec<&Option<String>> = spots.iter().map(|spot| &spot.kind).collect();
    let kind = kinds.first().filter(|first| kinds.iter().all(|kind| kind == *first)).and_then(|kind| (*kind).clone());
    let groups = cut.terms.iter().flat_map(|(bundle, _)| compiled.bundles[*bundle].groups.iter().copied()).collect();
    let sum = |counts: &[i64]| cut.terms.iter().map(|(bundle, term)| counts[*bundle] * term).sum::<i64>();
    let all = compiled.all();
    let left = cut.most - sum(counts);
    let waiting = cut.terms.iter().filter(|(bundle, _)| counts[*bundle] < all[*bundle]);
    let holds_back = waiting.map(|(_, term)| *term).min().is_some_and(|least| left < least);
    let category = compiled.categories[spots.first().map_or(0, |spot| spot.category)].clone();
    let mut short =
        Short { category, kind, groups, on_hand: cut.most, needed: sum(&all), holds_back, kinds: Vec::new() };
    short.kinds = kinds_for(problem, &short);
    short
}

/// Kinds on offer that fit one of the groups and count for what is short, each at its lowest price.
fn kinds_for(problem: &Problem, short: &Short) -> Vec<(String, i64)> {
    let fits = |offer: &&Offer| {
        let of_kind = short.kind.as_ref().is_none_or(|kind| *kind == offer.ware.kind);
        let groups = &problem.demand.groups;
        let any = || short.groups.iter().any(|of| offer.ware.fits(problem.age_rule, *of, &groups[*of]));
        of_kind && offer.ware.serves.contains(&short.category) && any()
    };
    let mut prices: BTreeMap<&str, i64> = BTreeMap::new();
    for offer in problem.shop.offers.iter().filter(fits) {
        let pack = i64::from(offer.pack.max(1));
        let price = offer.price.max(0).saturating_add(pack - 1) / pack;
        let known = prices.entry(&offer.ware.kind).or_insert(price);
        *known = price.min(*known);
    }
    let mut kinds: Vec<(String, i64)> = prices.into_iter().map(|(kind, price)| (kind.to_owned(), price)).collect();
    kinds.sort_by_key(|(_, price)| *price);
    kinds
}

/// What is left over of each category.
fn left(problem: &Problem, compiled: &Compiled, counts: &[i64]) -> Vec<Left> {
    let mut packer = Packer::new(compiled, false);
    packer.set(counts);
    let all = compiled.all();
    let mut left: BTreeMap<&str, (i64, i64)> = BTreeMap::new();
    let waits = |spot: &super::net::Spot| spot.per_box.iter().any(|(bundle, _)| counts[*bundle] < all[*bundle]);
    let mut placed = vec![false; problem.stock.things.len()];
    for (net, filler) in compiled.nets.iter().zip(packer.fillers()) {
        for (supply, given) in net.stock().zip(filler.given_by_stock()) {
            let (of, things) = supply;
            for &thing in things {
                placed[thing] = true;
            }
            let Some(category) = things.first().and_then(|thing| problem.stock.things[*thing].ware.serves.first())
            else {
                continue;
            };
            let useful = of.outlets.iter().any(|outlet| waits(&net.spots[net.spot(*outlet)]));
            let entry = left.entry(category).or_default();
            entry.0 += of.units - given;
            entry.1 += if useful { 0 } else { of.units - given };
        }
    }
    for (thing, _) in problem.stock.things.iter().zip(&placed).filter(|(_, placed)| !**placed) {
        let category = thing.ware.serves.first().map_or("", String::as_str);
        let entry = left.entry(category).or_default();
        *entry = (entry.0 + i64::from(thing.units), entry.1 + i64::from(thing.units));
    }
    let told = left.into_iter().filter(|(_, (units, _))| *units > 0);
    told.map(|(category, (units, idle))| Left { category: category.to_owned(), units, idle }).collect()
}
