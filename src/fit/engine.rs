//! The search for a plan, in slices: holders first, then stiff things, then soft ones into what is left.

use super::assemble::{Parts, Source, assemble};
use super::cuboid::{Cuboid, LONGEST, Size};
use super::hang::hang;
use super::hold::{Never, Tucked, tuck};
use super::pack::{Cargo, Goal, Packer};
use super::plan::{Answer, Plan, Tight};
use super::press::{is_stuffing, pressed_ways};
use super::proof::{Proof, proof};
use super::thing::{Problem, Thing};
use crate::model::stop::Stop;

/// Where there is no way, so many rollouts are enough to show what would go in.
const HOPELESS: u64 = 200;
/// Soft things pressed to this share of their volume or less make a fit tight, in hundredths.
const TIGHT: i64 = 70;

/// A search that may be continued as often as one likes; at any time it has an answer.
#[derive(Debug)]
pub struct Engine {
    problem: Problem,
    goal: Goal,
    /// Things whose sizes aren't known.
    unknown: Vec<usize>,
    proof: Option<Proof>,
    tucked: Tucked,
    /// What each good of the packer is.
    goods: Vec<Source>,
    /// What hangs under the lid.
    hung: Vec<(Source, Cuboid)>,
    packer: Packer,
    best: Plan,
}

impl Engine {
    /// A search for a way to get everything in; the same seed and number of rollouts come to the same answer.
    pub fn new(problem: Problem, seed: u64) -> Engine {
        Engine::towards(problem, Goal::All, seed)
    }

    /// A search for everything, or for as much volume as will go in.
    pub fn towards(problem: Problem, goal: Goal, seed: u64) -> Engine {
        let unknown = unknown(&problem);
        // What nobody can measure isn't packed, so that the rest of the code meets only sizes that are sizes.
        let known =
            if unknown.is_empty() { problem.clone() } else { Problem { things: Vec::new(), ..problem.clone() } };
        let proof = proof(&known);
        let tucked = tuck(&known);
        let space = known.space.usable();
        let (goods, hung) = sorted(&known.things, &tucked, space);
        let ways = |source: &Source| match source {
            Source::Plain { thing, count } => (pressed_ways(&known.things[*thing]), *count),
            Source::Filled(filled) => (tucked.filled[*filled].ways(&known.things), 1),
        };
        let cargo = Cargo::new(space, goods.iter().map(ways)).beside(hung.iter().map(|(_, solid)| *solid).collect());
        let hopeless = if proof.is_some() { Goal::Most } else { goal };
        let packer = Packer::new(cargo, hopeless, seed);
        let best = Plan::empty(problem.space, &problem.things);
        Engine { problem, goal, unknown, proof, tucked, goods, hung, packer, best }
    }

    /// Goes on for at most so many rollouts; ends early when everything is in or it is time to stop.
    pub fn run(&mut self, stop: &dyn Stop, rollouts: u64) {
        let hopeless = self.proof.is_some() && self.goal == Goal::All;
        let last = self.packer.rollouts().saturating_add(rollouts);
        let last = if hopeless { last.min(HOPELESS.max(self.packer.rollouts())) } else { last };
        while self.unknown.is_empty() && !self.best.is_whole() {
            if self.packer.rollouts() > 0 && self.packer.best().is_whole() {
                // All stiff things were in, but the soft ones found no room, or something would have been crushed.
                self.packer.again();
            }
            let (before, loaded) = (self.packer.rollouts(), self.packer.best().volume);
            self.packer.run(stop, last - before);
            if self.packer.best().volume > loaded || before == 0 {
                self.keep_if_better();
            }
            if self.packer.rollouts() == before || self.packer.rollouts() >= last || stop.stopped() {
                return;
            }
        }
    }

    /// How many ways were tried.
    pub fn rollouts(&self) -> u64 {
        self.packer.rollouts()
    }

    /// What is to be packed, as the search was given it.
    pub fn problem(&self) -> &Problem {
        &self.problem
    }

    /// The best answer so far.
    pub fn best(&self) -> Answer {
        let best = self.best.clone();
        if !self.unknown.is_empty() {
            return Answer::SizesUnknown { which: self.unknown.clone() };
        }
        if best.is_whole() {
            return match tight(&self.problem, &best) {
                Some(why) => Answer::FitsTight { plan: best, why },
                None => Answer::Fits(best),
            };
        }
        match &self.proof {
            Some(proof) => Answer::Impossible { proof: proof.clone(), best },
            None => Answer::NotFound { tried: self.packer.rollouts(), best },
        }
    }

    fn keep_if_better(&mut self) {
        let pieces = self.packer.best().pieces.iter().map(|piece| (self.goods[piece.good].one(), piece.solid));
        let parts = Parts { stiff: pieces.collect(), hung: self.hung.clone() };
        let plan = assemble(&self.problem, &self.tucked, &parts);
        let packed =
            |plan: &Plan| plan.placed.iter().map(|placed| self.problem.things[placed.thing].volume()).sum::<i64>();
        if plan.is_whole() || packed(&plan) > packed(&self.best) {
            self.best = plan;
        }
    }
}

/// Things that have to go in, but whose sizes are missing or beyond all measure.
fn unknown(problem: &Problem) -> Vec<usize> {
    let known = |size: &Size| size.iter().all(|side| (1..=LONGEST).contains(side));
    let measured = |thing: &Thing| {
        let room = thing.room.as_ref().is_none_or(|room| known(&room.size));
        room && !thing.ways().is_empty() && thing.shapes.iter().all(|shape| known(&shape.size))
    };
    let missing = problem.things.iter().enumerate().filter(|(_, thing)| thing.count > 0 && !measured(thing));
    missing.map(|(index, _)| index).collect()
}

/// What the packer packs, and what hangs under the lid; stuffing is neither.
fn sorted(things: &[Thing], tucked: &Tucked, space: Size) -> (Vec<Source>, Vec<(Source, Cuboid)>) {
    let top = |thing: &Thing| thing.on_top || thing.weak.is_some();
    let (mut goods, mut high) = (Vec::new(), Vec::new());
    for (thing, count) in tucked.plain.iter().enumerate().filter(|(_, count)| **count > 0) {
        if top(&things[thing]) && !is_stuffing(&things[thing]) {
            high.extend((0..*count).map(|_| (Source::Plain { thing, count: 1 }, pressed_ways(&things[thing]))));
        } else if !is_stuffing(&things[thing]) {
            goods.push(Source::Plain { thing, count: *count });
        }
    }
    for (index, filled) in tucked.filled.iter().enumerate() {
        if top(&things[filled.thing]) {
            high.push((Source::Filled(index), filled.ways(things)));
        } else {
            goods.push(Source::Filled(index));
        }
    }
    let ways: Vec<Vec<Size>> = high.iter().map(|(_, ways)| ways.clone()).collect();
    let mut hung = Vec::new();
    for ((source, _), solid) in high.into_iter().zip(hang(space, &ways, &Never)) {
        match solid {
            Some(solid) => hung.push((source, solid)),
            // Under the lid there was no place: it has to find one below.
            None => goods.push(source),
        }
    }
    (goods, hung)
}

/// What makes a plan tight, if anything does.
fn tight(problem: &Problem, plan: &Plan) -> Option<Tight> {
    let stiff = |placed: &&super::plan::Placed| problem.things[placed.thing].is_stiff();
    let solids: Vec<Cuboid> = plan.outer().filter(stiff).flat_map(|placed| placed.solids.clone()).collect();
    for axis in [0, 1, 2] {
        let [before, after] = problem.space.edge[axis];
        let spare = problem.space.inside[axis] - before - longest_row(&solids, axis);
        if !solids.is_empty() && spare < 1 && after == 0 {
            return Some(Tight::NoSpare { axis });
        }
    }
    let pressed = plan.outer().filter(|placed| !problem.things[placed.thing].is_stiff());
    let to = pressed.map(|placed| placed.volume() * 100 / problem.things[placed.thing].volume().max(1)).min()?;
    (to <= TIGHT).then(|| Tight::Pressed { to: u8::try_from(to).unwrap_or(0) })
}

/// How long the longest row of things is that stand one behind the other along an axis: what only happens to stand at
/// the far side could be pushed back.
fn longest_row(solids: &[Cuboid], axis: usize) -> i32 {
    let mut order: Vec<&Cuboid> = solids.iter().collect();
    order.sort_by_key(|solid| solid.lo[axis]);
    let mut ends: Vec<i32> = Vec::with_capacity(order.len());
    for (at, solid) in order.iter().enumerate() {
        let beside = |other: &Cuboid| {
            (0..3).filter(|of| *of != axis).all(|of| other.lo[of] < solid.hi[of] && solid.lo[of] < other.hi[of])
        };
        let before = order[..at].iter().zip(&ends).filter(|(other, _)| beside(other)).map(|(_, end)| *end).max();
        ends.push(before.unwrap_or(0) + solid.hi[axis] - solid.lo[axis]);
    }
    ends.into_iter().max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_be_pushed_back_is_not_tight() {
        let cube = |x: i32, y: i32| Cuboid::at([x, y, 0], [40, 40, 40]);
        // The second stands at the far wall with a gap of 20 behind it; the third is not in its way.
        let solids = [cube(0, 0), cube(60, 0), cube(40, 40)];
        assert_eq!(longest_row(&solids, 0), 80);
        assert_eq!(longest_row(&solids, 1), 80, "the third stands behind both");
        assert_eq!(longest_row(&[], 0), 0);
    }
}
