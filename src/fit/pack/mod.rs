//! Stiff boxes into a container: blocks of boxes, the largest empty spaces, and a beam of ever greater width.
//!
//! The parts are known from the literature on container loading: largest empty spaces (Parreño et al. 2008), blocks
//! joined from blocks (Fanslau & Bortfeldt 2010; Zhu et al. 2012), a beam whose states are judged by a greedy
//! completion (Araya & Riff 2014), the rating of a block by what it touches and what it wastes (Araya, Guerrero &
//! Nuñez 2017), and more weight for what a try has left out (squeaky wheel optimization, Joslin & Clements 1999).
//! Integers throughout, but for ratings; the same seed and number of rollouts give the same load.

mod beam;
mod block;
mod load;
mod rating;
mod search;
mod spaces;
mod squeeze;
mod style;
mod sums;

pub use search::Packer;
pub use spaces::Spaces;
pub use style::Goal;

use crate::fit::cuboid::{Cuboid, Size, volume, within};

/// How many there are of each good.
type Counts = Vec<u16>;

/// A kind of stiff box, with the ways it may stand.
#[derive(Debug, Clone)]
pub struct Good {
    /// The extents it may have along x, y and z, each once.
    pub ways: Vec<Size>,
    /// How many of it are to go in.
    pub count: u16,
    /// Volume of one in cubic millimetres.
    pub volume: i64,
    /// The different sides along each axis.
    sides: [Vec<i32>; 3],
    /// The most of it that can stand in a row along any axis; more make no difference to what lengths add up to.
    most_in_a_row: u16,
}

/// What is to be loaded, and into what.
#[derive(Debug, Clone)]
pub struct Cargo {
    /// Inner extents of the container.
    pub container: Size,
    /// What is to go in.
    pub goods: Vec<Good>,
    /// What is in it from the start.
    taken: Vec<Cuboid>,
    /// For each axis the first one along which every good has the same sides.
    like: [usize; 3],
    /// The goods, the one of the smallest pieces first.
    by_volume: Vec<usize>,
}

/// One box in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Which of the goods.
    pub good: usize,
    /// Where it is.
    pub solid: Cuboid,
}

impl Cargo {
    /// A cargo from the ways in which each good may stand, and how many there are of it.
    ///
    /// The first way is the usual one: its volume is what counts as loaded. Ways that don't fit the container are left out; a good may be left without any.
    pub fn new(container: Size, goods: impl IntoIterator<Item = (Vec<Size>, u16)>) -> Cargo {
        let goods: Vec<Good> = goods.into_iter().map(|(ways, count)| Good::new(container, ways, count)).collect();
        let same = |one: usize, other: usize| goods.iter().all(|good| good.sides[one] == good.sides[other]);
        let like = [0, 1, 2].map(|axis| (0..axis).find(|other| same(*other, axis)).unwrap_or(axis));
        let mut by_volume: Vec<usize> = (0..goods.len()).collect();
        by_volume.sort_by_key(|good| goods[*good].volume);
        Cargo { container, goods, taken: Vec::new(), like, by_volume }
    }

    /// The same cargo for a container in which some room is taken from the start.
    pub fn beside(self, taken: Vec<Cuboid>) -> Cargo {
        Cargo { taken, ..self }
    }

    /// How many pieces there are of each good.
    fn counts(&self) -> Counts {
        self.goods.iter().map(|good| good.count).collect()
    }
}

impl Good {
    fn new(container: Size, mut ways: Vec<Size>, count: u16) -> Good {
        let volume = ways.first().map_or(0, |way| volume(*way));
        ways.retain(|way| within(*way, container));
        ways.sort_unstable();
        ways.dedup();
        let sides = [0, 1, 2].map(|axis| {
            let mut sides: Vec<i32> = ways.iter().map(|way| way[axis]).collect();
            sides.sort_unstable();
            sides.dedup();
            sides
        });
        let in_a_row = |axis: usize| sides[axis].iter().map(move |side| container[axis] / side).max().unwrap_or(0);
        let longest_row = (0..3).map(in_a_row).max().unwrap_or(0);
        Good { ways, count, volume, sides, most_in_a_row: u16::try_from(longest_row).unwrap_or(u16::MAX) }
    }
}
