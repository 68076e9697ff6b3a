//! From solids to a plan: settled, the soft things stuffed in, and all of it checked.

use super::check::{Fault, check};
use super::cuboid::Cuboid;
use super::hold::{Filled, Tucked};
use super::plan::{Placed, Plan};
use super::press::{is_stuffing, stuff};
use super::settle::{Loose, settle};
use super::thing::{Problem, Thing};

/// What a solid is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// So many of a thing, with nothing in them.
    Plain {
        /// Which of the things.
        thing: usize,
        /// How many of it.
        count: u16,
    },
    /// One of the filled holders.
    Filled(usize),
}

/// The solids that a search has placed, in the room that may be used.
#[derive(Debug, Clone, Default)]
pub struct Parts {
    /// What is packed.
    pub stiff: Vec<(Source, Cuboid)>,
    /// What hangs under the lid.
    pub hung: Vec<(Source, Cuboid)>,
}

impl Source {
    /// One of it.
    pub fn one(self) -> Source {
        match self {
            Source::Plain { thing, .. } => Source::Plain { thing, count: 1 },
            Source::Filled(_) => self,
        }
    }

    fn thing(self, tucked: &Tucked) -> usize {
        match self {
            Source::Plain { thing, .. } => thing,
            Source::Filled(index) => tucked.filled[index].thing,
        }
    }

    fn weight(self, things: &[Thing], tucked: &Tucked) -> u64 {
        match self {
            Source::Plain { thing, .. } => u64::from(things[thing].weight),
            Source::Filled(index) => tucked.filled[index].weight(things),
        }
    }
}

/// A plan of these parts. What would be crushed or hidden in it is left out.
pub fn assemble(problem: &Problem, tucked: &Tucked, parts: &Parts) -> Plan {
    let mut sources: Vec<(Source, Loose)> = upright(problem, tucked, parts);
    loop {
        let plan = plan(problem, tucked, &sources);
        let worst = match check(problem, &plan) {
            Ok(()) => return plan,
            Err(Fault::Hidden(thing) | Fault::Overloaded(thing)) => thing,
            Err(fault) => {
                debug_assert!(false, "a plan has a fault: {fault:?}");
                return Plan::empty(problem.space, &problem.things);
            }
        };
        // Each round leaves one solid out, so that this ends.
        match sources.iter().rposition(|(source, _)| source.thing(tucked) == worst) {
            Some(at) => _ = sources.remove(at),
            None => return Plan::empty(problem.space, &problem.things),
        }
        settle_all(problem, &mut sources);
    }
}

/// The parts settled as they are or upside down, whichever has the heavy things lower.
fn upright(problem: &Problem, tucked: &Tucked, parts: &Parts) -> Vec<(Source, Loose)> {
    let height = problem.space.usable()[2];
    let loose = |(source, solid): &(Source, Cuboid)| {
        let on_top = problem.things[source.thing(tucked)].on_top;
        (*source, Loose { solid: *solid, on_top })
    };
    let mut as_is: Vec<_> = parts.stiff.iter().chain(&parts.hung).map(loose).collect();
    let mut turned = as_is.clone();
    settle_all(problem, &mut as_is);
    if !parts.hung.is_empty() {
        return as_is;
    }
    for (_, loose) in &mut turned {
        let solid = &mut loose.solid;
        (solid.lo[2], solid.hi[2]) = (height - solid.hi[2], height - solid.lo[2]);
    }
    settle_all(problem, &mut turned);
    let lift = |sources: &[(Source, Loose)]| -> u64 {
        let each = |(source, loose): &(Source, Loose)| {
            let middle = u64::try_from(loose.solid.lo[2] + loose.solid.hi[2]).unwrap_or(0);
            source.weight(&problem.things, tucked).saturating_mul(middle)
        };
        sources.iter().map(each).fold(0, u64::saturating_add)
    };
    if lift(&turned) < lift(&as_is) { turned } else { as_is }
}

fn settle_all(problem: &Problem, sources: &mut [(Source, Loose)]) {
    let mut loose: Vec<Loose> = sources.iter().map(|(_, loose)| *loose).collect();
    settle(&mut loose, problem.space.usable());
    for ((_, place), settled) in sources.iter_mut().zip(loose) {
        *place = settled;
    }
}

/// The plan in the box's own corner, with the soft things stuffed in.
fn plan(problem: &Problem, tucked: &Tucked, sources: &[(Source, Loose)]) -> Plan {
    let mut plan = Plan::empty(problem.space, &problem.things);
    let corner = problem.space.corner();
    let moved = |solid: &Cuboid| Cuboid::at([0, 1, 2].map(|axis| solid.lo[axis] + corner[axis]), solid.size());
    for (source, loose) in sources {
        let solids = vec![moved(&loose.solid)];
        match source {
            Source::Plain { thing, .. } => put(&mut plan, *thing, solids, None),
            Source::Filled(index) => put_filled(&mut plan, &tucked.filled[*index], solids, None),
        }
    }
    let stuffing: Vec<usize> = (0..problem.things.len())
        .filter(|thing| is_stuffing(&problem.things[*thing]))
        .flat_map(|thing| std::iter::repeat_n(thing, usize::from(tucked.plain[thing])))
        .collect();
    let height = problem.space.usable()[2];
    let taken: Vec<Cuboid> = sources.iter().map(|(_, loose)| closed(loose, height)).collect();
    let things: Vec<&Thing> = stuffing.iter().map(|thing| &problem.things[*thing]).collect();
    for (thing, solids) in stuffing.iter().zip(stuff(problem.space.usable(), &taken, &things)) {
        if let Some(solids) = solids {
            put(&mut plan, *thing, solids.iter().map(moved).collect(), None);
        }
    }
    plan
}

/// What is to be seen first takes all the room up to the lid.
fn closed(loose: &Loose, height: i32) -> Cuboid {
    let mut solid = loose.solid;
    if loose.on_top {
        solid.hi[2] = height;
    }
    solid
}

fn put(plan: &mut Plan, thing: usize, solids: Vec<Cuboid>, inside: Option<usize>) {
    plan.left_out[thing] = plan.left_out[thing].saturating_sub(1);
    plan.placed.push(Placed { thing, solids, inside });
}

fn put_filled(plan: &mut Plan, filled: &Filled, solids: Vec<Cuboid>, inside: Option<usize>) {
    let holder = plan.placed.len();
    put(plan, filled.thing, solids, inside);
    for (content, solid) in &filled.contents {
        put_filled(plan, content, vec![*solid], Some(holder));
    }
}
