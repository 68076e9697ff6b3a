//! A container being loaded, and how it is filled up greedily.

use std::sync::Arc;

use super::block::{Block, Blocks, Need};
use super::rating::{Surroundings, cornered, usable};
use super::spaces::{Space, Spaces};
use super::style::{self, Style};
use super::sums::Sums;
use super::{Cargo, Counts, Piece};
use crate::fit::cuboid::{Cuboid, Size, within};
use crate::model::stop::Stop;

/// All that loads of one search have in common.
#[derive(Debug)]
pub struct Table {
    /// What is to be loaded.
    pub cargo: Arc<Cargo>,
    /// The blocks to do it with.
    pub blocks: Arc<Blocks>,
    /// What one piece of each good is worth.
    worths: Vec<f64>,
    style: Style,
}

/// A block that may still be placed.
#[derive(Debug, Clone, Copy)]
struct Candidate {
    size: Size,
    block: u32,
    /// No rating of it can be higher.
    bound: f64,
    /// A bit for each good that it needs, by number modulo 64.
    goods: u64,
}

/// A block that might be placed next, and where.
#[derive(Debug, Clone, Copy)]
pub struct Choice {
    block: u32,
    solid: Cuboid,
    rating: f64,
}

/// A container with some blocks in it.
#[derive(Debug, Default)]
pub struct Load {
    placed: Vec<(u32, Size)>,
    solids: Vec<Cuboid>,
    left: Counts,
    spaces: Spaces,
    /// Blocks for which there are goods enough, by falling bound.
    candidates: Vec<Candidate>,
    /// What is in, in cubic millimetres.
    pub volume: i64,
    /// What is in, by the worths of the style.
    pub worth: f64,
}

impl Clone for Load {
    fn clone(&self) -> Load {
        let mut load = Load::default();
        load.clone_from(self);
        load
    }

    /// Keeps the memory that is there: a search copies loads all the time.
    fn clone_from(&mut self, other: &Load) {
        self.placed.clone_from(&other.placed);
        self.solids.clone_from(&other.solids);
        self.left.clone_from(&other.left);
        self.spaces.clone_from(&other.spaces);
        self.candidates.clone_from(&other.candidates);
        (self.volume, self.worth) = (other.volume, other.worth);
    }
}

/// What a search needs at hand while it fills one load after the other.
#[derive(Debug, Default)]
pub struct Hands {
    around: Surroundings,
    sums: Sums,
}

impl Table {
    /// The table for a search in a style.
    pub fn new(cargo: Arc<Cargo>, blocks: Arc<Blocks>, worths: Vec<f64>, style: Style) -> Table {
        Table { cargo, blocks, worths, style }
    }

    /// The container with nothing in it.
    pub fn empty(&self) -> Load {
        let candidate = |(block, of): (usize, &Block)| Candidate {
            size: of.size,
            block: block as u32,
            bound: style::bound(of, &self.worths, &self.style),
            goods: mask(&of.need),
        };
        let mut candidates: Vec<Candidate> = self.blocks.list().iter().enumerate().map(candidate).collect();
        candidates.sort_by(|one, other| other.bound.total_cmp(&one.bound));
        let left = self.cargo.counts();
        let mut spaces = Spaces::new(self.cargo.container);
        for taken in &self.cargo.taken {
            spaces.cut(taken, self.least(&left));
        }
        Load { left, spaces, candidates, solids: self.cargo.taken.clone(), ..Load::default() }
    }

    /// The best blocks for the space that is to be filled next, best first, at most `most`.
    ///
    /// Spaces that nothing fits into are forgotten; no choice is left when there are none.
    pub fn choose(&self, load: &mut Load, most: usize, hands: &mut Hands, chosen: &mut Vec<Choice>) {
        chosen.clear();
        hands.sums.update(&self.cargo, &load.left);
        while let Some(index) = load.spaces.next() {
            let space = load.spaces.get(index);
            self.scan(load, &space, most, hands, chosen);
            if !chosen.is_empty() {
                return;
            }
            load.spaces.forget(index);
        }
    }

    fn scan(&self, load: &Load, space: &Space, most: usize, hands: &mut Hands, chosen: &mut Vec<Choice>) {
        let room = space.solid.size();
        let share = 1.0 / space.solid.volume() as f64;
        let mut seen = false;
        for candidate in &load.candidates {
            if chosen.len() == most && chosen[most - 1].rating >= candidate.bound {
                return;
            }
            if !within(candidate.size, room) {
                continue;
            }
            if !seen {
                hands.around.look(&space.solid, self.cargo.container, &load.solids);
                seen = true;
            }
            let solid = cornered(space, candidate.size);
            let rating = candidate.bound * (usable(room, candidate.size, &hands.sums) as f64 * share);
            if chosen.len() == most && chosen[most - 1].rating >= rating {
                continue;
            }
            let rating = rating * hands.around.touched(&space.solid, &solid).powi(self.style.touch);
            insert(chosen, Choice { block: candidate.block, solid, rating }, most);
        }
    }

    /// Places a block.
    pub fn place(&self, load: &mut Load, choice: &Choice) {
        let block = &self.blocks.list()[choice.block as usize];
        for (good, count) in &block.need {
            load.left[usize::from(*good)] -= count;
            load.worth += self.worths[usize::from(*good)] * f64::from(*count);
            load.volume += self.cargo.goods[usize::from(*good)].volume * i64::from(*count);
        }
        load.placed.push((choice.block, choice.solid.lo));
        load.solids.push(choice.solid);
        let (left, changed) = (&load.left, mask(&block.need));
        let enough = |candidate: &Candidate| {
            let need = || self.blocks.list()[candidate.block as usize].need.iter();
            candidate.goods & changed == 0 || need().all(|(good, count)| left[usize::from(*good)] >= *count)
        };
        load.candidates.retain(enough);
        load.spaces.cut(&choice.solid, self.least(&load.left));
    }

    /// Places the best block again and again, until nothing more fits or it is time to stop.
    pub fn complete(&self, load: &mut Load, hands: &mut Hands, chosen: &mut Vec<Choice>, stop: &dyn Stop) {
        while !stop.stopped() {
            self.choose(load, 1, hands, chosen);
            let Some(choice) = chosen.first() else { return };
            self.place(load, choice);
        }
    }

    /// The least extent along each axis that anything left has.
    fn least(&self, left: &[u16]) -> Size {
        let mut least = [i32::MAX; 3];
        for (good, _) in self.cargo.goods.iter().zip(left).filter(|(_, left)| **left > 0) {
            for axis in 0..3 {
                least[axis] = good.sides[axis].first().map_or(least[axis], |side| least[axis].min(*side));
            }
        }
        least
    }

    /// Every box of a load, one by one.
    pub fn pieces(&self, load: &Load) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for (block, at) in &load.placed {
            self.blocks.unpack(*block as usize, *at, &mut pieces);
        }
        pieces
    }
}

impl Load {
    /// How many of each good are not in.
    pub fn left(&self) -> &[u16] {
        &self.left
    }

    /// The good of which a single piece is not in, if everything else is.
    pub fn last(&self) -> Option<usize> {
        let mut out = self.left.iter().enumerate().filter(|(_, left)| **left > 0);
        let (good, left) = out.next()?;
        (*left == 1 && out.next().is_none()).then_some(good)
    }
}

fn mask(need: &[Need]) -> u64 {
    need.iter().fold(0, |mask, (good, _)| mask | 1 << (good % 64))
}

/// Puts a choice in its place among the best; of equal ones the earlier stays before.
fn insert(chosen: &mut Vec<Choice>, choice: Choice, most: usize) {
    let place = chosen.partition_point(|other| other.rating >= choice.rating);
    if place < most {
        chosen.truncate(most - 1);
        chosen.insert(place, choice);
    }
}
