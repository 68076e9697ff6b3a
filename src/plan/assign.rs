//! Which thing goes into which box, once it is decided which boxes are finished.

use std::collections::BTreeMap;

use super::compile::Compiled;
use super::filler::Filler;
use super::net::{Net, Source};
use super::problem::{Plan, Problem};

/// Which thing goes into which box.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Assignment {
    /// The lines of checklists that are met.
    pub lines: Vec<Line>,
    /// What meets them, by group, box and line.
    pub given: Vec<Given>,
}

/// A line of a checklist.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Line {
    /// The category.
    pub category: String,
    /// The kind that is asked for by name, or any.
    pub kind: Option<String>,
}

/// Units of a thing for a line of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Given {
    /// The group of the box.
    pub group: usize,
    /// Which of the finished boxes of the group, from 0.
    pub giftbox: u32,
    /// The line, by its index in the assignment.
    pub line: usize,
    /// The thing.
    pub thing: usize,
    /// Units.
    pub units: u32,
}

/// What comes first, where a box could do with either of two things.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum First {
    /// What stands first in the stock.
    Oldest,
    /// What takes least room.
    Smallest,
}

/// Deals what is on hand to the boxes of a plan; none if there is not enough for it.
///
/// Every box gets just what it needs, so boxes of a group have as many things, and wow items, as each other; kinds are
/// spread over the boxes of a line as evenly as their number allows. What fits few boxes goes first, and of things that
/// fit the same boxes what stands first in the stock.
pub fn assign(problem: &Problem, plan: &Plan) -> Option<Assignment> {
    assign_by(problem, plan, First::Oldest)
}

pub(super) fn assign_by(problem: &Problem, plan: &Plan, first: First) -> Option<Assignment> {
    let groups = &problem.demand.groups;
    if plan.len() != groups.len() || plan.iter().zip(groups).any(|(count, group)| *count > group.boxes) {
        return None;
    }
    let compiled = Compiled::new(problem);
    let counts = compiled.by_bundle(plan);
    let mut dealt = Dealt { problem, compiled: &compiled, plan, lines: BTreeMap::new(), given: BTreeMap::new() };
    for net in &compiled.nets {
        let mut filler = Filler::new(net, compiled.bundles.len(), false);
        filler.clear(&counts, 1);
        if filler.fill_scarce_first() > 0 {
            return None;
        }
        dealt.deal(net, &filler, first);
    }
    Some(dealt.told())
}

/// What was dealt so far: units by group, box, line and thing.
struct Dealt<'a> {
    problem: &'a Problem,
    compiled: &'a Compiled,
    plan: &'a Plan,
    lines: BTreeMap<Line, usize>,
    given: BTreeMap<(usize, u32, usize, usize), u32>,
}

impl Dealt<'_> {
    /// Deals what flows through a net.
    fn deal(&mut self, net: &Net, filler: &Filler<'_>, first: First) {
        let mut arriving: Vec<BTreeMap<usize, i64>> = vec![BTreeMap::new(); net.spots.len()];
        for (supply, outlet, units) in filler.given().filter(|(.., units)| *units > 0) {
            *arriving[net.spot(outlet)].entry(supply).or_insert(0) += units;
        }
        let mut left = Left::of(self.problem, net, first);
        for (spot, supplies) in arriving.into_iter().enumerate() {
            let mut things: Vec<(usize, u32)> = Vec::new();
            for (supply, units) in supplies {
                left.take(supply, units, &mut things);
            }
            // Side by side with its like, a kind goes to as many boxes as it can before a box gets a second one.
            things.sort_by(|a, b| self.kind(a.0).cmp(self.kind(b.0)).then(a.0.cmp(&b.0)));
            self.deal_spot(net, spot, &things);
        }
    }

    fn kind(&self, thing: usize) -> &str {
        &self.problem.stock.things[thing].ware.kind
    }

    fn deal_spot(&mut self, net: &Net, spot: usize, things: &[(usize, u32)]) {
        let of = &net.spots[spot];
        let line = Line { category: self.compiled.categories[of.category].clone(), kind: of.kind.clone() };
        let next = self.lines.len();
        let line = *self.lines.entry(line).or_insert(next);
        let mut places = Vec::new();
        let rounds = of.per_box.iter().map(|(_, units)| *units).max().unwrap_or(0);
        for round in 0..rounds {
            for &(bundle, _) in of.per_box.iter().filter(|(_, units)| *units > round) {
                for &group in &self.compiled.bundles[bundle].groups {
                    places.extend((0..self.plan[group]).map(|giftbox| (group, giftbox)));
                }
            }
        }
        let units = things.iter().flat_map(|(thing, units)| (0..*units).map(|_| *thing));
        for ((group, giftbox), thing) in places.into_iter().zip(units) {
            *self.given.entry((group, giftbox, line, thing)).or_insert(0) += 1;
        }
    }

    fn told(self) -> Assignment {
        let mut lines: Vec<(Line, usize)> = self.lines.into_iter().collect();
        lines.sort_by_key(|(_, index)| *index);
        let given = self.given.into_iter();
        let given = given.map(|((group, giftbox, line, thing), units)| Given { group, giftbox, line, thing, units });
        Assignment { lines: lines.into_iter().map(|(line, _)| line).collect(), given: given.collect() }
    }
}

/// What is left of the things of each supply, in the order in which they go.
struct Left(Vec<Vec<(usize, u32)>>);

impl Left {
    fn of(problem: &Problem, net: &Net, first: First) -> Left {
        let things = &problem.stock.things;
        let of_supply = |source: &Source| match source {
            Source::Offer(_) => Vec::new(),
            Source::Things(indices) => {
                let mut order = indices.clone();
                if first == First::Smallest {
                    order.sort_by_key(|thing| things[*thing].room.unwrap_or(0));
                }
                // The last is taken first.
                order.into_iter().rev().map(|thing| (thing, things[thing].units)).collect()
            }
        };
        Left(net.supplies.iter().map(|supply| of_supply(&supply.source)).collect())
    }

    fn take(&mut self, supply: usize, units: i64, into: &mut Vec<(usize, u32)>) {
        let mut wanted = u32::try_from(units).unwrap_or(u32::MAX);
        while wanted > 0 {
            let Some((thing, there)) = self.0[supply].last_mut() else { return };
            let some = wanted.min(*there);
            into.extend((some > 0).then_some((*thing, some)));
            wanted -= some;
            *there -= some;
            if *there == 0 {
                self.0[supply].pop();
            }
        }
    }
}
