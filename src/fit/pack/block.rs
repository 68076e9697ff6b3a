//! Blocks: piles of boxes that are placed as one.

use std::collections::HashSet;

use super::{Cargo, Piece};
use crate::fit::cuboid::{Cuboid, Size, volume, within};

/// The largest pile of one good; a container of thousands of them takes several.
const MOST_IN_A_PILE: i32 = 512;

/// How many of one good a block needs.
pub type Need = (u16, u16);

/// A pile of boxes with its bounding extents.
#[derive(Debug, Clone)]
pub struct Block {
    /// The extents of its bounding box.
    pub size: Size,
    /// How many of which goods, by good.
    pub need: Vec<Need>,
    /// How many boxes.
    pub pieces: u32,
    /// What the boxes themselves fill, in cubic millimetres.
    pub volume: i64,
    made: Made,
}

/// What a block is made of.
#[derive(Debug, Clone, Copy)]
enum Made {
    /// Boxes of one good, all the same way, so many along each axis.
    Pile { good: usize, way: Size, grid: [i32; 3] },
    /// One block, and another next to it along an axis.
    Pair { first: usize, second: usize, axis: usize },
}

/// All blocks that a search may use.
#[derive(Debug, Clone, Default)]
pub struct Blocks {
    list: Vec<Block>,
    /// Extents and needs of all blocks, as one number each.
    seen: HashSet<u64>,
}

impl Blocks {
    /// Each box by itself, each way it may stand.
    pub fn singles(cargo: &Cargo) -> Blocks {
        let mut blocks = Blocks::default();
        for (good, ways) in cargo.goods.iter().enumerate() {
            for way in ways.ways.iter().filter(|_| ways.count > 0) {
                blocks.pile(cargo, good, *way, [1; 3]);
            }
        }
        blocks
    }

    /// Piles of equal boxes and joins of them, at most `most`, each filled at least to `fill`.
    pub fn joined(cargo: &Cargo, fill: f64, most: usize) -> Blocks {
        let mut blocks = Blocks::singles(cargo);
        blocks.piles(cargo, most);
        blocks.pairs(cargo, fill, most);
        blocks
    }

    /// All blocks.
    pub fn list(&self) -> &[Block] {
        &self.list
    }

    /// The boxes of a block that stands with its lowest corner here.
    pub fn unpack(&self, block: usize, at: Size, pieces: &mut Vec<Piece>) {
        match self.list[block].made {
            Made::Pile { good, way, grid } => {
                for index in 0..grid[0] * grid[1] * grid[2] {
                    let cell = [index % grid[0], index / grid[0] % grid[1], index / (grid[0] * grid[1])];
                    let corner = [0, 1, 2].map(|axis| at[axis] + cell[axis] * way[axis]);
                    pieces.push(Piece { good, solid: Cuboid::at(corner, way) });
                }
            }
            Made::Pair { first, second, axis } => {
                self.unpack(first, at, pieces);
                let mut beside = at;
                beside[axis] += self.list[first].size[axis];
                self.unpack(second, beside, pieces);
            }
        }
    }

    /// Every pile of more than one box of a good, the small ones first.
    fn piles(&mut self, cargo: &Cargo, most: usize) {
        let mut grids: Vec<(i32, usize, Size, [i32; 3])> = Vec::new();
        for (good, goods) in cargo.goods.iter().enumerate() {
            for way in &goods.ways {
                let fits = [0, 1, 2].map(|axis| cargo.container[axis] / way[axis]);
                let count = i32::from(goods.count).min(MOST_IN_A_PILE);
                for x in 1..=fits[0].min(count) {
                    for y in 1..=fits[1].min(count / x) {
                        let tallest = fits[2].min(count / (x * y));
                        grids.extend((1..=tallest).map(|z| (x * y * z, good, *way, [x, y, z])));
                    }
                }
            }
        }
        grids.sort_by_key(|(pieces, ..)| *pieces);
        for (_, good, way, grid) in grids.into_iter().take(most) {
            self.pile(cargo, good, way, grid);
        }
    }

    fn pile(&mut self, cargo: &Cargo, good: usize, way: Size, grid: [i32; 3]) {
        let pieces = grid[0] * grid[1] * grid[2];
        let size = [0, 1, 2].map(|axis| way[axis] * grid[axis]);
        debug_assert!(within(size, cargo.container));
        let need = [(good as u16, pieces as u16)];
        if self.is_new(size, &need) {
            let made = Made::Pile { good, way, grid };
            let filled = i64::from(pieces) * volume(way);
            self.list.push(Block { size, need: need.to_vec(), pieces: pieces as u32, volume: filled, made });
        }
    }

    /// Joins blocks with all earlier ones, generation by generation, until nothing new comes of it.
    fn pairs(&mut self, cargo: &Cargo, fill: f64, most: usize) {
        let mut begin = 0;
        let mut need = Vec::new();
        while begin < self.list.len() && self.list.len() < most {
            let end = self.list.len();
            let alike = [0, 1, 2].map(|axis| Alike::new(&self.list, axis));
            for second in begin..end {
                for (axis, alike) in alike.iter().enumerate() {
                    for first in alike.to(self.list[second].size, fill) {
                        if first <= second {
                            self.join(cargo, [first, second], axis, fill, &mut need);
                        }
                    }
                }
                if self.list.len() >= most {
                    return;
                }
            }
            begin = end;
        }
    }

    fn join(&mut self, cargo: &Cargo, [first, second]: [usize; 2], axis: usize, fill: f64, need: &mut Vec<Need>) {
        let (one, other) = (&self.list[first], &self.list[second]);
        let mut size = [0, 1, 2].map(|side| one.size[side].max(other.size[side]));
        size[axis] = one.size[axis] + other.size[axis];
        let filled = one.volume + other.volume;
        if size[axis] > cargo.container[axis] || (filled as f64) < fill * volume(size) as f64 {
            return;
        }
        let pieces = one.pieces + other.pieces;
        if together(&one.need, &other.need, cargo, need) && self.is_new(size, need) {
            let made = Made::Pair { first, second, axis };
            self.list.push(Block { size, need: need.clone(), pieces, volume: filled, made });
        }
    }

    /// Notes extents and needs; false if a block has the same.
    fn is_new(&mut self, size: Size, need: &[Need]) -> bool {
        let numbers = size.iter().map(|side| *side as u64);
        let needs = need.iter().map(|(good, count)| u64::from(*good) << 16 | u64::from(*count));
        let mix = |hash: u64, number: u64| (hash ^ number).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(29);
        self.seen.insert(numbers.chain(needs).fold(0, mix))
    }
}

/// Blocks in the order of their sides across an axis, to find those that join well along it.
struct Alike {
    axis: usize,
    /// Both sides across the axis, and the block.
    sorted: Vec<([i32; 2], usize)>,
}

impl Alike {
    fn new(list: &[Block], axis: usize) -> Alike {
        let mut sorted: Vec<_> =
            list.iter().enumerate().map(|(index, block)| (across(block.size, axis), index)).collect();
        sorted.sort_unstable();
        Alike { axis, sorted }
    }

    /// The blocks whose sides across the axis are within a share of these.
    fn to(&self, size: Size, share: f64) -> impl Iterator<Item = usize> {
        let sides = across(size, self.axis);
        let least = sides.map(|side| (f64::from(side) * share).ceil() as i32);
        let most = sides.map(|side| (f64::from(side) / share).floor() as i32);
        let begin = self.sorted.partition_point(|([side, _], _)| *side < least[0]);
        let near = self.sorted[begin..].iter().take_while(move |([side, _], _)| *side <= most[0]);
        near.filter(move |([_, side], _)| (least[1]..=most[1]).contains(side)).map(|(_, index)| *index)
    }
}

fn across(size: Size, axis: usize) -> [i32; 2] {
    [size[(axis + 1) % 3], size[(axis + 2) % 3]]
}

/// What two blocks need together; false if there aren't as many.
fn together(one: &[Need], other: &[Need], cargo: &Cargo, need: &mut Vec<Need>) -> bool {
    need.clear();
    need.extend_from_slice(one);
    for (good, count) in other {
        match need.binary_search_by_key(good, |(good, _)| *good) {
            Ok(at) => need[at].1 += count,
            Err(at) => need.insert(at, (*good, *count)),
        }
    }
    need.iter().all(|(good, count)| *count <= cargo.goods[usize::from(*good)].count)
}
