//! How well a block suits the corner of a space: what it touches, and what it leaves that nothing can fill.

use super::spaces::Space;
use super::sums::Sums;
use crate::fit::cuboid::{Cuboid, Size};

/// Gaps up to this share of the container's side count as touching: one fiftieth.
const TOUCHING: i32 = 50;

/// A rectangle that faces the space, and how far it is from the space's side.
#[derive(Debug, Clone, Copy)]
struct Facing {
    lo: [i32; 2],
    hi: [i32; 2],
    gap: i32,
}

/// What stands around one space.
#[derive(Debug, Clone, Default)]
pub struct Surroundings {
    /// By axis, low side and high side.
    sides: [[Vec<Facing>; 2]; 3],
    reach: Size,
}

/// The two other axes.
const ACROSS: [[usize; 2]; 3] = [[1, 2], [0, 2], [0, 1]];

impl Surroundings {
    /// Looks around a space: at the container's walls and at what has been placed.
    pub fn look(&mut self, space: &Cuboid, container: Size, placed: &[Cuboid]) {
        self.reach = container.map(|side| side / TOUCHING);
        for axis in 0..3 {
            self.sides[axis].iter_mut().for_each(Vec::clear);
            self.add(axis, 0, space.lo[axis], &Cuboid::at([0; 3], container));
            self.add(axis, 1, container[axis] - space.hi[axis], &Cuboid::at([0; 3], container));
        }
        for solid in placed {
            self.see(space, solid);
        }
    }

    /// Notes the side of the space that a solid faces, if it is near enough.
    fn see(&mut self, space: &Cuboid, solid: &Cuboid) {
        for axis in 0..3 {
            let [a, b] = ACROSS[axis];
            let beside = solid.lo[a] < space.hi[a]
                && space.lo[a] < solid.hi[a]
                && solid.lo[b] < space.hi[b]
                && space.lo[b] < solid.hi[b];
            if beside {
                let low = solid.hi[axis] <= space.lo[axis];
                let gap = if low { space.lo[axis] - solid.hi[axis] } else { solid.lo[axis] - space.hi[axis] };
                return self.add(axis, usize::from(!low), gap, solid);
            }
        }
    }

    fn add(&mut self, axis: usize, side: usize, gap: i32, solid: &Cuboid) {
        if gap <= self.reach[axis] {
            let [a, b] = ACROSS[axis];
            self.sides[axis][side].push(Facing { lo: [solid.lo[a], solid.lo[b]], hi: [solid.hi[a], solid.hi[b]], gap });
        }
    }

    /// The share of a block's surface that touches something, if it stands in the corner of its space.
    pub fn touched(&self, space: &Cuboid, block: &Cuboid) -> f64 {
        let mut touched = 0;
        for axis in 0..3 {
            let [a, b] = ACROSS[axis];
            let face = i64::from(block.hi[a] - block.lo[a]) * i64::from(block.hi[b] - block.lo[b]);
            for side in 0..2 {
                let away = if side == 0 { block.lo[axis] - space.lo[axis] } else { space.hi[axis] - block.hi[axis] };
                let room = self.reach[axis] - away;
                if room >= 0 {
                    let facing = self.sides[axis][side].iter().filter(|facing| facing.gap <= room);
                    touched += facing.map(|facing| facing.covers(block, a, b)).sum::<i64>().min(face);
                }
            }
        }
        let [x, y, z] = block.size().map(i64::from);
        touched as f64 / (2 * (x * y + y * z + x * z)) as f64
    }
}

impl Facing {
    fn covers(&self, block: &Cuboid, a: usize, b: usize) -> i64 {
        let wide = self.hi[0].min(block.hi[a]) - self.lo[0].max(block.lo[a]);
        let deep = self.hi[1].min(block.hi[b]) - self.lo[1].max(block.lo[b]);
        if wide > 0 && deep > 0 { i64::from(wide) * i64::from(deep) } else { 0 }
    }
}

/// Where a block of this size stands in the corner of a space that is to be filled first.
pub fn cornered(space: &Space, size: Size) -> Cuboid {
    let solid = &space.solid;
    let at = [0, 1, 2].map(|axis| if space.high[axis] { solid.hi[axis] - size[axis] } else { solid.lo[axis] });
    Cuboid::at(at, size)
}

/// How much of a space, in cubic millimetres, can still be put to use once a block of this size is in it.
pub fn usable(room: Size, size: Size, sums: &Sums) -> i64 {
    let along = |axis: usize| i64::from(size[axis] + sums.reach(axis, room[axis] - size[axis]));
    along(0) * along(1) * along(2)
}
