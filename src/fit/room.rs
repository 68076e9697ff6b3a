//! What else would go in.

use super::cuboid::{Cuboid, Size, volume, within};
use super::engine::Engine;
use super::pack::Spaces;
use super::plan::{Answer, Plan};
use super::press::{is_stuffing, pressed_ways, stuff};
use super::thing::{Problem, Thing};
use crate::model::stop::Stop;

/// So many ways of packing all of it anew are tried for each thing that doesn't simply drop in.
const ROLLOUTS: u64 = 60;

/// What room is left in a plan, and what of some more things would use it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RoomLeft {
    /// The largest free block that can be reached from above.
    pub largest: Option<Size>,
    /// Cubic millimetres that are free, all gaps together.
    pub free: i64,
    /// Which of the things drop in as it is packed.
    pub drops_in: Vec<usize>,
    /// Which go in once all of it is packed anew.
    pub repacked: Vec<usize>,
}

/// The room that is left in a plan.
pub fn room_left(problem: &Problem, plan: &Plan) -> RoomLeft {
    let open = open(problem, plan);
    let largest = open.iter().max_by_key(|solid| solid.volume()).map(Cuboid::size);
    RoomLeft { largest, free: volume(problem.space.usable()) - plan.volume(), ..RoomLeft::default() }
}

/// The room that is left, and which of some more things, one of each by itself, would go in too.
pub fn what_else(problem: &Problem, plan: &Plan, more: &[Thing], stop: &dyn Stop) -> RoomLeft {
    let mut left = room_left(problem, plan);
    let open = open(problem, plan);
    let solids = moved_home(problem, plan);
    for (index, thing) in more.iter().enumerate().filter(|(_, thing)| !thing.shapes.is_empty()) {
        let drops = if is_stuffing(thing) {
            stuff(problem.space.usable(), &solids, &[thing]).iter().all(Option::is_some)
        } else {
            pressed_ways(thing).iter().any(|way| open.iter().any(|space| within(*way, space.size())))
        };
        if drops {
            left.drops_in.push(index);
        } else if !stop.stopped() && goes_in_anew(problem, thing, stop) {
            left.repacked.push(index);
        }
    }
    left
}

fn goes_in_anew(problem: &Problem, thing: &Thing, stop: &dyn Stop) -> bool {
    let mut with = problem.clone();
    with.things.push(Thing { count: 1, belongs: Vec::new(), ..thing.clone() });
    let mut engine = Engine::new(with, 0);
    engine.run(stop, ROLLOUTS);
    matches!(engine.best(), Answer::Fits(_) | Answer::FitsTight { .. })
}

/// The largest free blocks that can be reached from above, with nothing to be seen first below them.
fn open(problem: &Problem, plan: &Plan) -> Vec<Cuboid> {
    let space = problem.space.usable();
    let mut spaces = Spaces::new(space);
    for solid in moved_home(problem, plan) {
        spaces.cut(&solid, [1; 3]);
    }
    spaces.iter().map(|space| space.solid).filter(|solid| solid.hi[2] == space[2]).collect()
}

/// All solids counted from the corner of the room that may be used; what is to be seen first reaches up to the lid.
fn moved_home(problem: &Problem, plan: &Plan) -> Vec<Cuboid> {
    let (corner, height) = (problem.space.corner(), problem.space.usable()[2]);
    let mut solids = Vec::new();
    for placed in plan.outer() {
        for solid in &placed.solids {
            let mut home = Cuboid::at([0, 1, 2].map(|axis| solid.lo[axis] - corner[axis]), solid.size());
            if problem.things[placed.thing].on_top {
                home.hi[2] = height;
            }
            solids.push(home);
        }
    }
    solids
}
