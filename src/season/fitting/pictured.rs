//! A plan in pictures and steps, with what a thing is, where it is, and what is inside it.

use super::{Fitting, Measured, Origin};
use crate::fit::{Layer, Legend, Placed, Plan, Problem, Step, layers, order, say};
use crate::report::fit::{FitCount, FitLayer, FitLetter, FitPiece, FitPlace, FitStep};

/// The plan from the bottom up: what is where, and in which order it goes in.
pub(super) struct Pictured {
    pub layers: Vec<FitLayer>,
    pub order: Vec<FitStep>,
    pub places: Vec<FitPlace>,
}

pub(super) fn name(problem: &Problem, thing: usize) -> String {
    problem.things.get(thing).map(|thing| thing.name.clone()).unwrap_or_default()
}

/// What somebody may want to look at; nothing where there is no plan.
pub(super) fn pictured(fitting: &Fitting, problem: &Problem, plan: Option<&Plan>) -> Pictured {
    let layers = plan.map(|plan| layers(problem, plan)).unwrap_or_default();
    let letters = letters(problem, &layers);
    Pictured {
        order: plan.map(|plan| steps(problem, plan, &layers, &letters)).unwrap_or_default(),
        places: places(fitting, problem, plan, &layers, &letters),
        layers: plan.map(|plan| pictures(problem, plan, &layers, &letters)).unwrap_or_default(),
    }
}

/// The letter of each thing that stands in the box itself.
fn letters(problem: &Problem, layers: &[Layer]) -> Vec<Option<char>> {
    let mut letters = vec![None; problem.things.len()];
    for entry in layers.iter().flat_map(|layer| &layer.legend) {
        letters[entry.thing] = Some(entry.letter.to_ascii_uppercase());
    }
    letters
}

/// The layer in which something begins that has its bottom here.
fn layer_at(layers: &[Layer], bottom: i32) -> Option<usize> {
    layers.iter().rposition(|layer| layer.from <= bottom)
}

fn pictures(problem: &Problem, plan: &Plan, layers: &[Layer], letters: &[Option<char>]) -> Vec<FitLayer> {
    let letter = |entry: &Legend| FitLetter {
        letter: entry.letter,
        thing: name(problem, entry.thing),
        count: entry.count,
        soft: entry.soft,
        from_below: entry.from_below,
        inside: inside(problem, plan, entry),
    };
    let picture = |layer: &Layer| FitLayer {
        from_mm: layer.from,
        to_mm: layer.to,
        rows: layer.rows.clone(),
        legend: layer.legend.iter().map(letter).collect(),
        pieces: pieces(problem, plan, layer, letters),
        lines: say::layer(problem, layer),
    };
    layers.iter().map(picture).collect()
}

/// What is inside the things of a legend's row, counted.
fn inside(problem: &Problem, plan: &Plan, entry: &Legend) -> Vec<FitCount> {
    let is_meant = |placed: &Placed| {
        placed.thing == entry.thing
            && placed.inside.is_none()
            && (placed.bottom(), placed.top()) == (entry.from, entry.to)
    };
    let mut counts: Vec<FitCount> = Vec::new();
    for placed in &plan.placed {
        let outermost = outermost(plan, placed);
        if placed.inside.is_some() && is_meant(outermost) {
            let thing = name(problem, placed.thing);
            match counts.iter_mut().find(|count| count.thing == thing) {
                Some(count) => count.count += 1,
                None => counts.push(FitCount { thing, count: 1 }),
            }
        }
    }
    counts
}

/// The thing in the box itself that something is in, however deep; a plan names a holder before what it holds.
fn outermost<'a>(plan: &'a Plan, placed: &'a Placed) -> &'a Placed {
    let mut outer = placed;
    while let Some(holder) = outer.inside.and_then(|holder| plan.placed.get(holder)) {
        outer = holder;
    }
    outer
}

/// What one sees of a layer from above, the lowest first.
fn pieces(problem: &Problem, plan: &Plan, layer: &Layer, letters: &[Option<char>]) -> Vec<FitPiece> {
    let mut pieces = Vec::new();
    for placed in plan.outer() {
        let letter = letters[placed.thing].unwrap_or('#');
        let from_below = placed.bottom() < layer.from;
        for solid in placed.solids.iter().filter(|solid| solid.lo[2] < layer.to && layer.from < solid.hi[2]) {
            pieces.push(FitPiece {
                lo: [solid.lo[0], solid.lo[1]],
                hi: [solid.hi[0], solid.hi[1]],
                top: solid.hi[2],
                letter: if from_below { letter.to_ascii_lowercase() } else { letter },
                soft: !problem.things[placed.thing].is_stiff(),
            });
        }
    }
    pieces.sort_by_key(|piece| piece.top);
    pieces
}

fn steps(problem: &Problem, plan: &Plan, layers: &[Layer], letters: &[Option<char>]) -> Vec<FitStep> {
    let steps = order(problem, plan);
    let words = say::order(problem, &steps);
    let mut bottoms: Vec<Vec<i32>> = (0..problem.things.len()).map(|thing| bottoms(plan, thing)).collect();
    let step = |(step, words): (&Step, String)| {
        // The units of a thing go in from the lowest up.
        let outer = step.into.is_none().then(|| bottoms[step.thing].drain(..usize::from(step.count)).next()).flatten();
        FitStep {
            thing: name(problem, step.thing),
            count: step.count,
            into: step.into.map(|holder| name(problem, holder)).unwrap_or_default(),
            place: step.place.clone(),
            soft: step.soft,
            letter: letters[step.into.unwrap_or(step.thing)],
            layer: outer.and_then(|bottom| layer_at(layers, bottom)),
            words,
        }
    };
    steps.iter().zip(words).map(step).collect()
}

/// How high the bottoms of all units of a thing that stand in the box itself are, rising.
fn bottoms(plan: &Plan, thing: usize) -> Vec<i32> {
    let mut bottoms: Vec<i32> = plan.outer().filter(|placed| placed.thing == thing).map(Placed::bottom).collect();
    bottoms.sort_unstable();
    bottoms
}

/// Where each thing of the box went, in the order of the box.
fn places(
    fitting: &Fitting,
    problem: &Problem,
    plan: Option<&Plan>,
    layers: &[Layer],
    letters: &[Option<char>],
) -> Vec<FitPlace> {
    let known = fitting.things.iter().filter(|it| it.origin != Origin::Unknown);
    let place = |(thing, it): (usize, &Measured)| {
        let units = || plan.into_iter().flat_map(|plan| &plan.placed).filter(move |placed| placed.thing == thing);
        let holder = units().find_map(|placed| plan?.placed.get(placed.inside?));
        let mut found: Vec<usize> = units()
            .filter(|placed| placed.inside.is_none())
            .filter_map(|placed| layer_at(layers, placed.bottom()))
            .collect();
        found.extend(holder.zip(plan).and_then(|(holder, plan)| layer_at(layers, outermost(plan, holder).bottom())));
        found.sort_unstable();
        found.dedup();
        Some(FitPlace {
            placement: it.placement?,
            letter: letters[thing].or_else(|| letters[outermost(plan?, holder?).thing]),
            layers: found,
            inside: holder.map(|holder| name(problem, holder.thing)).unwrap_or_default(),
            left_out: plan.map_or(it.thing.count, |plan| plan.left_out[thing]),
        })
    };
    known.enumerate().filter_map(place).collect()
}
