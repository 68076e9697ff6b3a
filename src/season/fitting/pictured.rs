//! A plan as one packs it: its steps, the CLI's pictures, and stage after stage with what is in sight then.

use std::cmp::Reverse;

use super::{Fitting, Measured, Origin};
use crate::fit::cuboid::Cuboid;
use crate::fit::{Layer, Legend, Placed, Plan, Problem, Step, layers, order, say};
use crate::report::fit::{FitCount, FitLayer, FitLetter, FitPiece, FitPlace, FitSign, FitStage, FitStep};

/// The plan from the bottom up: what is where, and in which order it goes in.
#[derive(Default)]
pub(super) struct Pictured {
    pub layers: Vec<FitLayer>,
    pub stages: Vec<FitStage>,
    pub order: Vec<FitStep>,
    pub places: Vec<FitPlace>,
}

/// A plan with the order in which it is packed, unit by unit.
struct Packed<'a> {
    problem: &'a Problem,
    plan: &'a Plan,
    /// The steps, each with the units in the box itself that it brings in, by their place in the plan.
    steps: Vec<(Step, Vec<usize>)>,
    /// The units of each stage.
    stages: Vec<Vec<usize>>,
    /// The letter of each thing that stands in the box itself.
    letters: Vec<Option<char>>,
}

pub(super) fn name(problem: &Problem, thing: usize) -> String {
    problem.things.get(thing).map(|thing| thing.name.clone()).unwrap_or_default()
}

/// What somebody may want to look at; nothing but what has no place where there is no plan.
pub(super) fn pictured(fitting: &Fitting, problem: &Problem, plan: Option<&Plan>) -> Pictured {
    let packed = plan.map(|plan| Packed::of(problem, plan));
    let places = places(fitting, packed.as_ref());
    let Some(packed) = packed else { return Pictured { places, ..Pictured::default() } };
    Pictured {
        layers: layers(problem, packed.plan).iter().map(|layer| picture(problem, layer)).collect(),
        stages: (0..packed.stages.len()).map(|stage| packed.stage(stage)).collect(),
        order: packed.told(),
        places,
    }
}

fn picture(problem: &Problem, layer: &Layer) -> FitLayer {
    let letter =
        |entry: &Legend| FitLetter { letter: entry.letter, thing: name(problem, entry.thing), count: entry.count };
    FitLayer {
        from_mm: layer.from,
        to_mm: layer.to,
        rows: layer.rows.clone(),
        legend: layer.legend.iter().map(letter).collect(),
        lines: say::layer(problem, layer),
    }
}

impl<'a> Packed<'a> {
    fn of(problem: &'a Problem, plan: &'a Plan) -> Packed<'a> {
        let mut units: Vec<Vec<usize>> = (0..problem.things.len()).map(|thing| units(plan, thing)).collect();
        let mut letters = vec![None; problem.things.len()];
        let mut free = 'A'..='Z';
        let steps: Vec<(Step, Vec<usize>)> = order(problem, plan)
            .into_iter()
            .map(|step| {
                if step.into.is_some() {
                    return (step, Vec::new());
                }
                let letter = &mut letters[step.thing];
                *letter = letter.or_else(|| Some(free.next().unwrap_or('#')));
                let count = usize::from(step.count).min(units[step.thing].len());
                let brought = units[step.thing].drain(..count).collect();
                (step, brought)
            })
            .collect();
        let stages = stages(plan, steps.iter().flat_map(|(_, brought)| brought.iter().copied()));
        Packed { problem, plan, steps, stages, letters }
    }

    fn stage_of(&self, unit: usize) -> Option<usize> {
        self.stages.iter().position(|stage| stage.contains(&unit))
    }

    fn told(&self) -> Vec<FitStep> {
        let steps: Vec<Step> = self.steps.iter().map(|(step, _)| step.clone()).collect();
        let words = say::order(self.problem, &steps);
        let told = |((step, brought), words): (&(Step, Vec<usize>), String)| FitStep {
            thing: name(self.problem, step.thing),
            count: step.count,
            into: step.into.map(|holder| name(self.problem, holder)).unwrap_or_default(),
            place: step.place.clone(),
            soft: step.soft,
            letter: self.letters[step.into.unwrap_or(step.thing)],
            stage: brought.first().and_then(|unit| self.stage_of(*unit)),
            words,
        };
        self.steps.iter().zip(words).map(told).collect()
    }

    /// What comes in at a stage, and what reaches up to it from before.
    fn stage(&self, stage: usize) -> FitStage {
        let new = &self.stages[stage];
        let from_mm = new.iter().map(|unit| self.plan.placed[*unit].bottom()).min().unwrap_or(0);
        let before = self.stages[..stage].iter().flatten();
        let through = before.filter(|unit| self.plan.placed[**unit].top() > from_mm);
        let mut pieces: Vec<(bool, i32, FitPiece)> = Vec::new();
        let mut signs: Vec<FitSign> = Vec::new();
        for (unit, from_below) in new.iter().map(|unit| (unit, false)).chain(through.map(|unit| (unit, true))) {
            let (placed, sign) = (&self.plan.placed[*unit], self.sign(*unit, from_below));
            for solid in placed.solids.iter().filter(|solid| solid.hi[2] > from_mm) {
                let piece = FitPiece {
                    lo: [solid.lo[0], solid.lo[1]],
                    hi: [solid.hi[0], solid.hi[1]],
                    letter: sign.letter,
                    soft: sign.soft,
                };
                pieces.push((!from_below, if from_below { solid.hi[2] } else { solid.lo[2] }, piece));
            }
            match signs.iter_mut().find(|known| (known.letter, &known.thing) == (sign.letter, &sign.thing)) {
                Some(known) => known.add(sign),
                None => signs.push(sign),
            }
        }
        // What is drawn later lies over what is drawn before; of two at one height the smaller one stays in sight.
        pieces.sort_by_key(|(new, height, piece)| (*new, *height, Reverse(piece.area())));
        FitStage { from_mm, signs, pieces: pieces.into_iter().map(|(_, _, piece)| piece).collect() }
    }

    fn sign(&self, unit: usize, from_below: bool) -> FitSign {
        let thing = self.plan.placed[unit].thing;
        let letter = self.letters[thing].unwrap_or('#');
        let mut sign = FitSign {
            letter: if from_below { letter.to_ascii_lowercase() } else { letter },
            thing: name(self.problem, thing),
            count: 1,
            soft: !self.problem.things[thing].is_stiff(),
            from_below,
            inside: Vec::new(),
        };
        let inside = self.plan.placed.iter().filter(|placed| placed.inside.is_some());
        for placed in inside.filter(|placed| outermost(self.plan, placed) == Some(unit)) {
            sign.holds(FitCount { thing: name(self.problem, placed.thing), count: 1 });
        }
        sign
    }
}

/// The units of a thing that stand in the box itself, the lowest first: so they go in.
fn units(plan: &Plan, thing: usize) -> Vec<usize> {
    let is_its = |at: &usize| plan.placed[*at].thing == thing && plan.placed[*at].inside.is_none();
    let mut units: Vec<usize> = (0..plan.placed.len()).filter(is_its).collect();
    units.sort_by_key(|at| plan.placed[*at].bottom());
    units
}

/// One stage after the other: what would lie on something of the same stage begins the next.
fn stages(plan: &Plan, order: impl Iterator<Item = usize>) -> Vec<Vec<usize>> {
    let mut stages: Vec<Vec<usize>> = Vec::new();
    for unit in order {
        let on = |below: &usize| lies_on(&plan.placed[unit], &plan.placed[*below]);
        match stages.last_mut() {
            Some(stage) if !stage.iter().any(on) => stage.push(unit),
            _ => stages.push(vec![unit]),
        }
    }
    stages
}

/// Whether some of the one is above some of the other.
fn lies_on(high: &Placed, low: &Placed) -> bool {
    let beside = |one: &Cuboid, other: &Cuboid| (0..2).any(|axis| one.hi[axis] <= other.lo[axis]);
    let over = |one: &Cuboid, other: &Cuboid| !beside(one, other) && !beside(other, one);
    high.solids.iter().any(|one| low.solids.iter().any(|other| other.hi[2] <= one.lo[2] && over(one, other)))
}

/// The thing in the box itself that something is in, however deep, by its place in the plan.
fn outermost(plan: &Plan, placed: &Placed) -> Option<usize> {
    let mut outer = placed.inside?;
    // A plan names a holder before what it holds.
    while let Some(next) = plan.placed.get(outer).and_then(|holder| holder.inside).filter(|next| *next < outer) {
        outer = next;
    }
    Some(outer)
}

/// Where each thing of the box went, in the order of the box.
fn places(fitting: &Fitting, packed: Option<&Packed<'_>>) -> Vec<FitPlace> {
    let known = fitting.things.iter().filter(|it| it.origin != Origin::Unknown);
    known.enumerate().filter_map(|(thing, it)| place(thing, it, packed)).collect()
}

fn place(thing: usize, it: &Measured, packed: Option<&Packed<'_>>) -> Option<FitPlace> {
    let mut place = FitPlace {
        placement: it.placement?,
        letter: None,
        stages: Vec::new(),
        inside: String::new(),
        left_out: it.thing.count,
    };
    let Some(packed) = packed else { return Some(place) };
    place.left_out = packed.plan.left_out.get(thing).copied().unwrap_or(0);
    for (at, placed) in packed.plan.placed.iter().enumerate().filter(|(_, placed)| placed.thing == thing) {
        let outer = outermost(packed.plan, placed).unwrap_or(at);
        place.letter = place.letter.or(packed.letters[packed.plan.placed[outer].thing]);
        place.stages.extend(packed.stage_of(outer));
        if let Some(holder) = placed.inside.and_then(|holder| packed.plan.placed.get(holder)) {
            place.inside = name(packed.problem, holder.thing);
        }
    }
    place.stages.sort_unstable();
    place.stages.dedup();
    Some(place)
}
