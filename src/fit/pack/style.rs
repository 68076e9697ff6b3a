//! Ways of searching: what a block is worth, and how closely joined blocks must be filled.

use super::block::Block;
use super::Cargo;
use crate::fit::cuboid::Size;

/// One way of searching.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// Joined blocks are filled at least to this share.
    pub fill: f64,
    /// How much a thing with a large face counts for more than its volume.
    pub awkward: f64,
    /// To what power the share of a block's surface that touches something counts.
    pub touch: i32,
    /// At most so many blocks.
    pub blocks: usize,
}

/// What a piece of each good is worth in a style: its volume, more if its largest face covers much of the floor.
pub fn worths(cargo: &Cargo, style: &Style) -> Vec<f64> {
    let floor = f64::from(cargo.container[0]) * f64::from(cargo.container[1]);
    let worth = |ways: &[Size], volume: i64| {
        let Some(way) = ways.first() else { return 0.0 };
        let mut sides = *way;
        sides.sort_unstable();
        let face = f64::from(sides[1]) * f64::from(sides[2]);
        volume as f64 * (face / floor).powf(style.awkward)
    };
    cargo.goods.iter().map(|good| worth(&good.ways, good.volume)).collect()
}

/// What a block is worth before its place is known: no rating of it can be higher.
pub fn bound(block: &Block, worths: &[f64]) -> f64 {
    let worth: f64 = block.need.iter().map(|(good, count)| worths[usize::from(*good)] * f64::from(*count)).sum();
    worth * f64::from(block.pieces).powf(-0.2)
}
