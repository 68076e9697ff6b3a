//! Room, as a second number: of the boxes that can be finished, those whose things also go into them by their sizes.

use std::collections::BTreeMap;

use super::assign::{First, Given, assign_by};
use super::problem::{Plan, Problem};

/// How many of the boxes of a plan have room for what they get.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Roomy {
    /// Boxes that were found to have room.
    pub fit: u32,
    /// Boxes of the plan: no more can have.
    pub of: u32,
    /// The others, by group and number.
    pub over: Vec<(usize, u32)>,
    /// Units whose size nobody knows; they count as taking no room.
    pub unmeasured: u32,
}

/// Deals small things first, and exchanges things between boxes of a group where one is too full; none if there isn't
/// enough for the plan. Sizes are added up; how well things lie beside each other is not asked here.
pub fn with_room(problem: &Problem, plan: &Plan) -> Option<Roomy> {
    let mut given = assign_by(problem, plan, First::Smallest)?.given;
    let mut roomy = Roomy { of: plan.iter().sum(), ..Roomy::default() };
    let unmeasured = given.iter().filter(|of| problem.stock.things[of.thing].room.is_none());
    roomy.unmeasured = unmeasured.map(|of| of.units).sum();
    let mut taken: BTreeMap<(usize, u32), i128> = BTreeMap::new();
    for of in &given {
        *taken.entry((of.group, of.giftbox)).or_insert(0) += i128::from(of.units) * room(problem, of.thing);
    }
    let full: Vec<(usize, u32)> = taken.keys().copied().filter(|of| over(problem, &taken, *of) > 0).collect();
    for of in full {
        while over(problem, &taken, of) > 0 && exchange(problem, &mut given, &mut taken, of) {}
    }
    roomy.over = taken.keys().copied().filter(|of| over(problem, &taken, *of) > 0).collect();
    roomy.fit = roomy.of - u32::try_from(roomy.over.len()).unwrap_or(roomy.of);
    Some(roomy)
}

fn room(problem: &Problem, thing: usize) -> i128 {
    i128::from(problem.stock.things[thing].room.unwrap_or(0))
}

/// How much more a box holds than it has room for.
fn over(problem: &Problem, taken: &BTreeMap<(usize, u32), i128>, of: (usize, u32)) -> i128 {
    let most = problem.demand.groups[of.0].room.map_or(i128::MAX / 2, i128::from);
    taken.get(&of).map_or(0, |taken| taken - most)
}

/// Exchanges a thing of a box that is too full for a smaller one of the same line in a box of its group that has room
/// for it; whether there was such a pair.
fn exchange(
    problem: &Problem,
    given: &mut [Given],
    taken: &mut BTreeMap<(usize, u32), i128>,
    of: (usize, u32),
) -> bool {
    let single = |given: &Given| given.units == 1 && given.group == of.0;
    let mut best: Option<(i128, usize, usize)> = None;
    for (at, mine) in given.iter().enumerate().filter(|(_, mine)| single(mine) && mine.giftbox == of.1) {
        let others = given.iter().enumerate();
        for (other, theirs) in others.filter(|(_, it)| single(it) && it.giftbox != of.1 && it.line == mine.line) {
            let saved = room(problem, mine.thing) - room(problem, theirs.thing);
            let fits = over(problem, taken, (theirs.group, theirs.giftbox)) + saved <= 0;
            if saved > 0 && fits && best.is_none_or(|(most, ..)| saved > most) {
                best = Some((saved, at, other));
            }
        }
    }
    let Some((saved, at, other)) = best else { return false };
    let (mine, theirs) = (given[at].thing, given[other].thing);
    (given[at].thing, given[other].thing) = (theirs, mine);
    *taken.entry(of).or_insert(0) -= saved;
    *taken.entry((given[other].group, given[other].giftbox)).or_insert(0) += saved;
    true
}
