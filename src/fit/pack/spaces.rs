//! The room that is left, as the largest empty solids; they overlap, so their volumes never add up.

use crate::fit::cuboid::{Cuboid, Size};

/// An empty solid that no larger empty solid holds.
#[derive(Debug, Clone, Copy)]
pub struct Space {
    /// Where it is.
    pub solid: Cuboid,
    /// Per axis: whether the corner to fill first is the high one.
    pub high: [bool; 3],
    /// How far that corner is from the container's corner nearest to it; then the larger space goes first.
    rank: (i32, i64),
}

impl Space {
    fn new(solid: Cuboid, container: Size) -> Space {
        let mut high = [false; 3];
        let mut distance = 0;
        for axis in 0..3 {
            let (low_gap, high_gap) = (solid.lo[axis], container[axis] - solid.hi[axis]);
            high[axis] = high_gap < low_gap;
            distance += low_gap.min(high_gap);
        }
        Space { solid, high, rank: (distance, -solid.volume()) }
    }
}

/// All empty solids of a container.
#[derive(Debug, Default)]
pub struct Spaces {
    list: Vec<Space>,
    /// What a cut leaves of the spaces that it meets.
    fresh: Vec<Space>,
    /// What may hold such a rest: it reaches up to what was taken, and so does whatever holds it.
    beside: Vec<Cuboid>,
    container: Size,
}

impl Clone for Spaces {
    fn clone(&self) -> Spaces {
        let mut spaces = Spaces::default();
        spaces.clone_from(self);
        spaces
    }

    /// Keeps the memory that is there; what only a cut needs is not copied.
    fn clone_from(&mut self, other: &Spaces) {
        self.list.clone_from(&other.list);
        self.container = other.container;
    }
}

impl Spaces {
    /// An empty container.
    pub fn new(container: Size) -> Spaces {
        let mut spaces = Spaces::default();
        spaces.reset(container);
        spaces
    }

    /// An empty container again.
    pub fn reset(&mut self, container: Size) {
        self.list.clear();
        self.list.push(Space::new(Cuboid::at([0; 3], container), container));
        self.container = container;
    }

    /// Every empty solid.
    pub fn iter(&self) -> impl Iterator<Item = &Space> {
        self.list.iter()
    }

    /// Which space is to be filled next; none when nothing more fits.
    pub fn next(&self) -> Option<usize> {
        (0..self.list.len()).min_by_key(|index| self.list[*index].rank)
    }

    /// One of the spaces.
    pub fn get(&self, index: usize) -> Space {
        self.list[index]
    }

    /// Forgets a space that nothing fits into any more.
    pub fn forget(&mut self, index: usize) {
        self.list.swap_remove(index);
    }

    /// Takes a solid out of all spaces; what becomes smaller than `least` along an axis is of no use any more.
    pub fn cut(&mut self, taken: &Cuboid, least: Size) {
        self.cut_for(taken, least, |_| true);
    }

    /// The same; what becomes of no use is forgotten too.
    pub fn cut_for(&mut self, taken: &Cuboid, least: Size, of_use: impl Fn(&Cuboid) -> bool) {
        let Spaces { list, fresh, beside, container } = self;
        fresh.clear();
        beside.clear();
        list.retain(|space| {
            let met = space.solid.meets(taken);
            if met {
                push_rests(&space.solid, taken, least, |rest| {
                    if of_use(&rest) {
                        fresh.push(Space::new(rest, *container));
                    }
                });
            } else if adjoins(&space.solid, taken) {
                beside.push(space.solid);
            }
            !met
        });
        // The large ones first: none is held by a smaller one.
        fresh.sort_unstable_by_key(|space| space.rank.1);
        for space in fresh {
            if !beside.iter().any(|other| other.holds(&space.solid)) {
                beside.push(space.solid);
                list.push(*space);
            }
        }
    }
}

/// Whether a side of the one lies in the plane of the facing side of the other.
#[expect(clippy::needless_bitwise_bool, reason = "without branches it is faster; the search asks this all the time")]
fn adjoins(one: &Cuboid, other: &Cuboid) -> bool {
    let along = |axis: usize| (one.hi[axis] == other.lo[axis]) | (one.lo[axis] == other.hi[axis]);
    along(0) | along(1) | along(2)
}

/// What is left of a space on each of the six sides of what was taken.
fn push_rests(space: &Cuboid, taken: &Cuboid, least: Size, mut add: impl FnMut(Cuboid)) {
    for axis in 0..3 {
        if taken.lo[axis] - space.lo[axis] >= least[axis] {
            let mut rest = *space;
            rest.hi[axis] = taken.lo[axis];
            add(rest);
        }
        if space.hi[axis] - taken.hi[axis] >= least[axis] {
            let mut rest = *space;
            rest.lo[axis] = taken.hi[axis];
            add(rest);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::dice::Dice;

    const CONTAINER: Size = [5, 4, 6];

    /// Every empty solid that can't be made larger, by trying all solids.
    fn slowly(taken: &[Cuboid]) -> Vec<Cuboid> {
        let mut empty = Vec::new();
        let [x, y, z] = CONTAINER;
        for low in 0..x * y * z {
            let lo = [low % x, low / x % y, low / (x * y)];
            for high in 0..x * y * z {
                let hi = [high % x + 1, high / x % y + 1, high / (x * y) + 1];
                let solid = Cuboid { lo, hi };
                if (0..3).all(|axis| lo[axis] < hi[axis]) && !taken.iter().any(|other| other.meets(&solid)) {
                    empty.push(solid);
                }
            }
        }
        let largest = |solid: &&Cuboid| !empty.iter().any(|other| other != *solid && other.holds(solid));
        empty.iter().filter(largest).copied().collect()
    }

    #[test]
    fn the_empty_solids_are_those_of_trying_all() {
        let mut dice = Dice::new(5);
        for _ in 0..20 {
            let mut spaces = Spaces::new(CONTAINER);
            let mut taken: Vec<Cuboid> = Vec::new();
            while taken.len() < 4 {
                let lo = CONTAINER.map(|side| (dice.number() % side as u64) as i32);
                let solid = Cuboid::at(
                    lo,
                    [0, 1, 2].map(|axis| 1 + (dice.number() % (CONTAINER[axis] - lo[axis]) as u64) as i32),
                );
                if taken.iter().any(|other| other.meets(&solid)) {
                    break;
                }
                spaces.cut(&solid, [1; 3]);
                taken.push(solid);
                let mut found: Vec<Cuboid> = spaces.iter().map(|space| space.solid).collect();
                let mut tried = slowly(&taken);
                found.sort_by_key(|solid| (solid.lo, solid.hi));
                tried.sort_by_key(|solid| (solid.lo, solid.hi));
                assert_eq!(found, tried, "{taken:?}");
            }
        }
    }
}
