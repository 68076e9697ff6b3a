//! Ways of searching: what a block is worth, and how closely joined blocks must be filled.
//!
//! The figures were found by trying, over made-up sets that took no part in the tests.

use super::Cargo;
use super::block::Block;
use crate::fit::cuboid::Size;

/// What a search is after.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Goal {
    /// Everything in: what is awkward goes first.
    All,
    /// As much volume as will go in, whatever is left out.
    Most,
}

/// One way of searching.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// Joined blocks are filled at least to this share.
    pub fill: f64,
    /// To what power the share of the floor that a thing's largest face covers counts.
    pub awkward: f64,
    /// To what power the share of a block's surface that touches something counts.
    pub touch: i32,
    /// To what power the number of a block's pieces counts against it.
    pub small: f64,
    /// At most about so many blocks.
    pub blocks: usize,
}

/// Many copies of few things: close blocks, and volume alone.
const ALIKE: Style = Style { fill: 1.0, awkward: 0.0, touch: 4, blocks: 3000, small: 0.2 };
/// One or two of each thing: looser blocks, since hardly any two sides are equal, of few pieces, and awkward things
/// first.
const MIXED: [Style; 2] = [
    Style { fill: 0.95, awkward: 1.0, touch: 2, blocks: 1500, small: 0.4 },
    Style { fill: 0.93, awkward: 2.0, touch: 2, blocks: 1500, small: 0.4 },
];

/// The styles that are tried in turn.
pub fn styles(cargo: &Cargo, goal: Goal) -> Vec<Style> {
    let pieces: usize = cargo.goods.iter().map(|good| usize::from(good.count)).sum();
    match (goal, pieces >= 4 * cargo.goods.len()) {
        (Goal::Most, true) => vec![ALIKE],
        (Goal::Most, false) => vec![Style { awkward: 0.0, small: 0.2, ..MIXED[0] }],
        (Goal::All, true) => vec![ALIKE, MIXED[0]],
        (Goal::All, false) => MIXED.to_vec(),
    }
}

/// The style of the first load, over single boxes.
pub fn quick(goal: Goal) -> Style {
    match goal {
        Goal::All => MIXED[0],
        Goal::Most => ALIKE,
    }
}

/// After how many rounds of styles the beam is widened for the first time.
///
/// Where everything must go in, a few quick loads soon tell what is hard to place.
pub fn narrow_rounds(goal: Goal) -> u32 {
    match goal {
        Goal::All => 5,
        Goal::Most => 1,
    }
}

/// By how much the beam is widened after each round of styles.
pub fn growth(goal: Goal) -> f64 {
    match goal {
        Goal::All => 2.0,
        Goal::Most => std::f64::consts::SQRT_2,
    }
}

/// What a piece of each good is worth in a style: its volume, more if its largest face covers much of the floor.
pub fn worths(cargo: &Cargo, style: &Style) -> Vec<f64> {
    let floor = f64::from(cargo.container[0]) * f64::from(cargo.container[1]);
    let worth = |way: Option<&Size>, volume: i64| {
        let Some(way) = way else { return 0.0 };
        let mut sides = *way;
        sides.sort_unstable();
        let face = f64::from(sides[1]) * f64::from(sides[2]);
        volume as f64 * (face / floor).powf(style.awkward)
    };
    cargo.goods.iter().map(|good| worth(good.ways.first(), good.volume)).collect()
}

/// What a block is worth before its place is known: no rating of it can be higher.
pub fn bound(block: &Block, worths: &[f64], style: &Style) -> f64 {
    let worth: f64 = block.need.iter().map(|(good, count)| worths[usize::from(*good)] * f64::from(*count)).sum();
    worth * f64::from(block.pieces).powf(-style.small)
}
