//! What hangs in the air drops, and what stands loose moves up to its neighbours.

use super::cuboid::{Cuboid, Size};

/// One solid to be settled, and whether it keeps the room above it free.
#[derive(Debug, Clone, Copy)]
pub struct Loose {
    /// Where it is.
    pub solid: Cuboid,
    /// Nothing may come to stand above it.
    pub on_top: bool,
}

/// Lets all solids drop, then moves them to the low sides, and drops again what that has left without support.
///
/// Nothing passes through anything, and nothing comes to stand above what is to be seen first.
pub fn settle(solids: &mut [Loose], space: Size) {
    for axis in [2, 0, 1, 2] {
        push(solids, axis, space);
    }
}

/// Moves every solid as far down an axis as the others let it, the lowest first.
fn push(solids: &mut [Loose], axis: usize, space: Size) {
    let mut order: Vec<usize> = (0..solids.len()).collect();
    order.sort_by_key(|at| (solids[*at].solid.lo[axis], *at));
    for (done, at) in order.iter().enumerate() {
        // What lies on top stays where it hangs: sideways it might slip below something.
        if axis != 2 && solids[*at].on_top {
            continue;
        }
        let solid = solids[*at].solid;
        let behind = order[..done].iter().chain(&order[done + 1..]).map(|other| grown(&solids[*other], axis, space));
        let stops = behind.filter(|other| other.hi[axis] <= solid.lo[axis] && in_the_way(other, &solid, axis));
        let low = stops.map(|other| other.hi[axis]).max().unwrap_or(0);
        let by = solid.lo[axis] - low;
        solids[*at].solid.lo[axis] -= by;
        solids[*at].solid.hi[axis] -= by;
    }
}

/// A solid as it stands in the way of others that move along an axis.
fn grown(loose: &Loose, axis: usize, space: Size) -> Cuboid {
    let mut solid = loose.solid;
    if loose.on_top && axis != 2 {
        solid.hi[2] = space[2];
    }
    solid
}

fn in_the_way(other: &Cuboid, solid: &Cuboid, axis: usize) -> bool {
    (0..3).filter(|side| *side != axis).all(|side| other.lo[side] < solid.hi[side] && solid.lo[side] < other.hi[side])
}
