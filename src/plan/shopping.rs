//! What to buy: the least money for so many boxes, and the most boxes for so much money.

use std::cell::Cell;
use std::collections::BTreeMap;

use super::compile::Compiled;
use super::filler::Filler;
use super::master::Aim;
use super::most::boxes;
use super::net::Source;
use super::packer::Packer;
use super::price::pack;
use super::problem::{Plan, Problem};
use super::search::Search;
use crate::model::stop::Stop;

/// What is wished for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// Every box.
    All,
    /// So many boxes, whichever.
    Boxes(u32),
}

/// What is to be bought, and the boxes that it finishes with what is on hand.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shopping {
    /// How many boxes are finished then.
    pub boxes: u32,
    /// How many of each group.
    pub plan: Plan,
    /// What to buy, in the order of the offers.
    pub list: Vec<Purchase>,
    /// What it costs, in whole minor units, packs rounded up.
    pub cost: i64,
}

/// A line of a shopping list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Purchase {
    /// Which offer.
    pub offer: usize,
    /// The category that it is bought for.
    pub category: String,
    /// Units that are needed.
    pub units: u32,
    /// Packs, rounded up: they may hold more units than are needed.
    pub packs: u32,
    /// What the packs cost, in whole minor units.
    pub cost: i64,
}

/// The cheapest shopping that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cheapest {
    /// The shopping; none if none was found.
    pub shopping: Option<Shopping>,
    /// No shopping does it for less, in whole minor units; none: no shopping at all does it.
    pub at_least: Option<i64>,
}

/// The most boxes for an amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Within {
    /// What to buy for it.
    pub shopping: Shopping,
    /// No shopping for the amount finishes more boxes.
    pub at_most: u32,
}

/// The cheapest shopping that finishes all boxes, or so many.
///
/// Where things are sold in packs, the units are chosen by what one of them costs in its pack and then rounded up to whole
/// packs: that is what the list costs, and `at_least` is before rounding.
pub fn cheapest(problem: &Problem, wish: Wish, stop: &dyn Stop) -> Cheapest {
    let compiled = Compiled::new(problem);
    let all: i64 = compiled.all().iter().sum();
    let wanted = match wish {
        Wish::All => all,
        Wish::Boxes(count) => i64::from(count),
    };
    if wanted > all {
        return Cheapest { shopping: None, at_least: None };
    }
    if wanted == all {
        return all_of_them(problem, &compiled);
    }
    cheapest_of(problem, &compiled, wanted, stop)
}

/// With every box to be finished nothing is left to search for: one flow tells what to buy.
fn all_of_them(problem: &Problem, compiled: &Compiled) -> Cheapest {
    let mut packer = Packer::new(compiled, true);
    if !packer.set(&compiled.all()) {
        return Cheapest { shopping: None, at_least: None };
    }
    let at_least = compiled.scale.up(packer.cost());
    Cheapest { shopping: Some(shopping(problem, compiled, &packer)), at_least: Some(at_least) }
}

fn cheapest_of(problem: &Problem, compiled: &Compiled, wanted: i64, stop: &dyn Stop) -> Cheapest {
    let outcome = Search::new(compiled, Aim::Cheapest(wanted), stop).run();
    let mut packer = Packer::new(compiled, true);
    let best = outcome.best.filter(|(counts, _)| packer.set(counts));
    let at_least = outcome.bound.map(|bound| compiled.scale.up(-bound));
    Cheapest { shopping: best.map(|_| shopping(problem, compiled, &packer)), at_least }
}

/// What all boxes together lack of a category.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// The category.
    pub category: String,
    /// Things that are missing, if any kind could be had for any box.
    pub units: i64,
    /// What the cheapest offers for them cost, in whole minor units and before packs are rounded up; none where
    /// something can't be bought.
    pub cost: Option<i64>,
}

/// What all boxes together lack, by category; the costs are those of the cheapest shopping for all.
pub fn lacks(problem: &Problem) -> Vec<Lack> {
    let compiled = Compiled::new(problem);
    let mut lacks = vec![(0, Some(0_i128)); compiled.categories.len()];
    for net in &compiled.nets {
        let filled = |buying| {
            let mut filler = Filler::new(net, compiled.bundles.len(), buying);
            filler.clear(&compiled.all(), 1);
            filler.fill();
            filler
        };
        let (stock, bought) = (filled(false), filled(true));
        for (spot, of) in net.spots.iter().enumerate() {
            let (units, cost) = &mut lacks[of.category];
            *units += stock.short_at(spot);
            *cost = cost.filter(|_| bought.short_at(spot) == 0);
        }
        for (supply, outlet, units) in bought.given() {
            let (_, cost) = &mut lacks[net.spots[net.spot(outlet)].category];
            *cost = cost.map(|sum| sum + i128::from(units) * i128::from(net.supplies[supply].price));
        }
    }
    let told = |(category, (units, cost)): (&String, (i64, Option<i128>))| Lack {
        category: category.clone(),
        units,
        cost: cost.map(|parts| compiled.scale.up(parts)),
    };
    compiled.categories.iter().zip(lacks).map(told).collect()
}

/// The most boxes for an amount in whole minor units.
///
/// Of shoppings that finish as many boxes, the cheapest that is found in a short time. With packs, the list is what whole packs cost, and
/// that is within the amount; `at_most` is before rounding.
pub fn with_budget(problem: &Problem, budget: i64, stop: &dyn Stop) -> Within {
    let compiled = Compiled::new(problem);
    let outcome = Search::new(&compiled, Aim::Within(compiled.scale.parts(budget.max(0))), stop).run();
    let mut packer = Packer::new(&compiled, true);
    let counts = outcome.best.map_or_else(|| vec![0; compiled.bundles.len()], |(counts, _)| counts);
    packer.set(&counts);
    let first = shopping(problem, &compiled, &packer);
    let all: i64 = compiled.all().iter().sum();
    let at_most = boxes(outcome.bound.and_then(|bound| i64::try_from(bound).ok()).unwrap_or(all).min(all));
    let shopping = affordable(problem, &compiled, first, budget, stop);
    Within { at_most: at_most.max(shopping.boxes), shopping }
}

/// The cheapest shopping for as many boxes as this one finishes; for fewer, if rounding up to packs made it too dear.
fn affordable(problem: &Problem, compiled: &Compiled, first: Shopping, budget: i64, stop: &dyn Stop) -> Shopping {
    let for_boxes = |count: u32, stop: &dyn Stop| {
        let found = cheapest_of(problem, compiled, i64::from(count), stop).shopping;
        found.filter(|shopping| shopping.cost <= budget)
    };
    if first.cost <= budget {
        let cheaper = for_boxes(first.boxes, &Briefly { stop, times: Cell::new(BRIEFLY) });
        return cheaper.filter(|shopping| shopping.cost < first.cost).unwrap_or(first);
    }
    let mut best = Shopping { plan: vec![0; problem.demand.groups.len()], ..Shopping::default() };
    let (mut low, mut high, mut next) = (0, first.boxes.saturating_add(1), first.boxes);
    while next > low && !stop.stopped() {
        match for_boxes(next, stop) {
            Some(shopping) => (low, best) = (next, shopping),
            None => high = next,
        }
        next = low + (high - low) / 2;
    }
    best
}

/// Stops a search that only saves money after it has asked so often: how many boxes there are is known by then.
struct Briefly<'a> {
    stop: &'a dyn Stop,
    times: Cell<u32>,
}

const BRIEFLY: u32 = 300;

impl Stop for Briefly<'_> {
    fn stopped(&self) -> bool {
        self.times.set(self.times.get().saturating_sub(1));
        self.times.get() == 0 || self.stop.stopped()
    }
}

/// The list of what a plan buys.
fn shopping(problem: &Problem, compiled: &Compiled, packer: &Packer<'_>) -> Shopping {
    let mut needed: BTreeMap<(usize, usize), i64> = BTreeMap::new();
    for (net, filler) in compiled.nets.iter().zip(packer.fillers()) {
        for (supply, outlet, units) in filler.given().filter(|(.., units)| *units > 0) {
            if let Source::Offer(offer) = net.supplies[supply].source {
                *needed.entry((offer, net.spots[net.spot(outlet)].category)).or_insert(0) += units;
            }
        }
    }
    let mut list: Vec<Purchase> = Vec::new();
    // An offer that serves several categories is bought in packs for all of them together.
    let mut before: BTreeMap<usize, i64> = BTreeMap::new();
    for ((offer, category), units) in needed {
        let of = &problem.shop.offers[offer];
        let packs_of = |units: i64| (units + pack(of) - 1) / pack(of);
        let seen = before.entry(offer).or_insert(0);
        let packs = packs_of(*seen + units) - packs_of(*seen);
        *seen += units;
        list.push(Purchase {
            offer,
            category: compiled.categories[category].clone(),
            units: boxes(units),
            packs: boxes(packs),
            cost: of.price.max(0).saturating_mul(packs),
        });
    }
    let cost = list.iter().fold(0_i64, |sum, line| sum.saturating_add(line.cost));
    Shopping { boxes: boxes(packer.boxes()), plan: compiled.by_group(problem, packer.counts()), list, cost }
}
