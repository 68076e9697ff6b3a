//! In what order things are put in: holders filled first, then from the bottom up, each straight down from above.

use super::cuboid::Cuboid;
use super::plan::{Placed, Plan};
use super::thing::Problem;

/// One step; equal things that are put in one after the other are one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Which of the things.
    pub thing: usize,
    /// How many of it.
    pub count: u16,
    /// The thing that it is tucked into.
    pub into: Option<usize>,
    /// Whether it is soft, and stuffed in.
    pub soft: bool,
    /// Where in the box, in words; empty for what goes into a holder.
    pub place: String,
}

/// The steps to pack a plan.
pub fn order(problem: &Problem, plan: &Plan) -> Vec<Step> {
    let mut order = tucked_in(plan);
    order.extend(bottom_up(problem, plan));
    let mut steps: Vec<Step> = Vec::new();
    for at in order {
        let step = step(problem, plan, &plan.placed[at]);
        match steps.last_mut() {
            Some(last) if Step { count: 1, ..last.clone() } == step => last.count += 1,
            _ => steps.push(step),
        }
    }
    steps
}

fn step(problem: &Problem, plan: &Plan, placed: &Placed) -> Step {
    let into = placed.inside.and_then(|holder| plan.placed.get(holder)).map(|holder| holder.thing);
    let place = if into.is_none() { place(plan, placed) } else { String::new() };
    let soft = problem.things.get(placed.thing).is_some_and(|thing| !thing.is_stiff());
    Step { thing: placed.thing, count: 1, into, soft, place }
}

/// What is in holders, the innermost first, holder by holder.
fn tucked_in(plan: &Plan) -> Vec<usize> {
    let mut order: Vec<usize> = (0..plan.placed.len()).filter(|at| plan.placed[*at].inside.is_some()).collect();
    order.sort_by_key(|at| (std::cmp::Reverse(depth(plan, *at)), plan.placed[*at].inside, plan.placed[*at].thing));
    order
}

/// In how many holders, one in the other, a thing is; a plan names a holder before what it holds.
fn depth(plan: &Plan, at: usize) -> usize {
    plan.placed[at].inside.filter(|holder| *holder < at).map_or(0, |holder| 1 + depth(plan, holder))
}

/// What stands in the box: always the lowest thing with nothing left to come below it, the far ones first.
fn bottom_up(problem: &Problem, plan: &Plan) -> Vec<usize> {
    let mut waiting: Vec<usize> = (0..plan.placed.len()).filter(|at| plan.placed[*at].inside.is_none()).collect();
    waiting.sort_by_key(|at| {
        let placed = &plan.placed[*at];
        let thing = &problem.things[placed.thing];
        let far = placed.solids.first().map_or([0; 2], |solid| [-solid.lo[1], solid.lo[0]]);
        (placed.bottom(), !thing.is_stiff(), far, std::cmp::Reverse(thing.weight))
    });
    let mut order = Vec::with_capacity(waiting.len());
    while !waiting.is_empty() {
        let free =
            |at: &usize| waiting.iter().all(|other| other == at || !below(&plan.placed[*other], &plan.placed[*at]));
        // Something soft may lie both below and above a thing: then the lowest of all goes first.
        let next = waiting.iter().position(free).unwrap_or(0);
        order.push(waiting.remove(next));
    }
    order
}

/// Whether some of the one is under some of the other.
fn below(one: &Placed, other: &Placed) -> bool {
    let under = |low: &Cuboid, high: &Cuboid| low.hi[2] <= high.lo[2] && over_each_other(low, high);
    one.solids.iter().any(|low| other.solids.iter().any(|high| under(low, high)))
}

fn over_each_other(one: &Cuboid, other: &Cuboid) -> bool {
    (0..2).all(|axis| one.lo[axis] < other.hi[axis] && other.lo[axis] < one.hi[axis])
}

/// Where something stands, as one says it over an open box: "on the bottom, back left".
fn place(plan: &Plan, placed: &Placed) -> String {
    let [length, width, _] = plan.space.inside;
    let Some(solid) = placed.solids.first() else { return String::new() };
    let third = |axis: usize, whole: i32, names: [&'static str; 3]| {
        let middle = solid.lo[axis] + solid.hi[axis];
        // Twice the middle against thirds of twice the whole.
        let part = if 3 * middle < 2 * whole { 0 } else { usize::from(3 * middle > 4 * whole) + 1 };
        names[part]
    };
    let (side, depth) = (third(0, length, ["left", "", "right"]), third(1, width, ["front", "", "back"]));
    let corner = match (depth, side) {
        ("", "") => "in the middle".to_owned(),
        ("", side) => side.to_owned(),
        (depth, side) => format!("{depth} {side}").trim_end().to_owned(),
    };
    match placed.bottom() - plan.space.edge[2][0] {
        0 => format!("on the bottom, {corner}"),
        height => format!("{height} mm up, {corner}"),
    }
}
