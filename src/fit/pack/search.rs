//! The any-time search: one quick load first, then beams of growing width, one style after the other.

use std::sync::Arc;

use super::beam::{Beam, Step};
use super::block::Blocks;
use super::load::{Load, Table};
use super::squeeze::Squeeze;
use super::style::{self, Goal, Style};
use super::{Cargo, Counts, Piece};
use crate::fit::dice::Dice;
use crate::model::stop::Stop;

/// How much more a thing counts once the best load of a beam has left it out.
const LEFT_OUT: f64 = 1.5;

/// What becomes of that from one beam to the next: the power to which it is raised.
const FADING: f64 = 0.9;

/// By how much the worth of a thing may differ by chance from one beam to the next, once each style has had a turn.
const CHANCE: f64 = 0.1;

/// A search for the fullest load, which may be continued as often as one likes.
#[derive(Debug)]
pub struct Packer {
    cargo: Arc<Cargo>,
    goal: Goal,
    dice: Dice,
    /// Each style with its blocks, once it has had a turn.
    styles: Vec<(Style, Option<Arc<Blocks>>)>,
    /// The style whose turn it is, and how often each had one.
    turn: (usize, u32),
    width: f64,
    /// How much more each good counts than its style says.
    stress: Vec<f64>,
    table: Table,
    beam: Beam,
    /// The score of the beam's best load, and what it left out.
    ahead: Option<(f64, Counts)>,
    best: Loaded,
    rollouts: u64,
    squeeze: Squeeze,
}

/// A load in full.
#[derive(Debug, Clone, Default)]
pub struct Loaded {
    /// Its boxes.
    pub pieces: Vec<Piece>,
    /// What they fill, in cubic millimetres.
    pub volume: i64,
    /// How many of each good are not in.
    pub left: Vec<u16>,
}

impl Loaded {
    /// Whether everything is in.
    pub fn is_whole(&self) -> bool {
        self.left.iter().all(|left| *left == 0)
    }
}

impl Packer {
    /// A search that has not begun; the same seed and number of rollouts come to the same load.
    pub fn new(cargo: Cargo, goal: Goal, seed: u64) -> Packer {
        let cargo = Arc::new(cargo);
        let styles: Vec<_> = style::styles(&cargo, goal).into_iter().map(|style| (style, None)).collect();
        let quick = style::quick(goal);
        let worths = style::worths(&cargo, &quick);
        let table = Table::new(cargo.clone(), Arc::new(Blocks::singles(&cargo)), worths, quick);
        Packer {
            goal,
            dice: Dice::new(seed),
            styles,
            turn: (0, 0),
            width: 0.0,
            stress: vec![1.0; cargo.goods.len()],
            beam: Beam::new(&table, 1),
            table,
            ahead: None,
            best: Loaded { left: cargo.counts(), ..Loaded::default() },
            cargo,
            rollouts: 0,
            squeeze: Squeeze::default(),
        }
    }

    /// Goes on for at most so many rollouts; ends early when everything is in or it is time to stop.
    pub fn run(&mut self, stop: &dyn Stop, rollouts: u64) {
        let last = self.rollouts.saturating_add(rollouts);
        while self.rollouts < last && !self.best.is_whole() && !stop.stopped() {
            let goal = self.goal;
            match self.beam.step(&self.table, |load| score(goal, load), stop) {
                Step::Filled(load) => {
                    self.rollouts += 1;
                    if self.ahead.as_ref().is_none_or(|(best, _)| score(goal, load) > *best) {
                        self.ahead = Some((score(goal, load), load.left().to_vec()));
                    }
                    if load.volume > self.best.volume {
                        let pieces = self.table.pieces(load);
                        self.best = Loaded { pieces, volume: load.volume, left: load.left().to_vec() };
                    }
                    if goal == Goal::All
                        && let Some(whole) = with_the_last(&mut self.squeeze, &self.table, load)
                    {
                        self.best = whole;
                    }
                }
                // Not one box could be placed: no other beam will do better.
                Step::Over if self.ahead.is_none() => return,
                Step::Over => self.next_beam(),
            }
        }
    }

    /// Goes on for another load, of which the one found so far is to be no part.
    pub fn again(&mut self) {
        self.best = Loaded { left: self.cargo.counts(), ..Loaded::default() };
        // From the second round on, chance makes each beam another one.
        self.turn.1 += 1;
        self.next_beam();
    }

    /// The fullest load so far.
    pub fn best(&self) -> &Loaded {
        &self.best
    }

    /// How many loads have been filled up.
    pub fn rollouts(&self) -> u64 {
        self.rollouts
    }

    /// The next style, or the first one with a wider beam.
    fn next_beam(&mut self) {
        if self.width == 0.0 {
            self.width = 1.0;
        } else {
            self.turn.0 += 1;
        }
        if self.turn.0 == self.styles.len() {
            self.turn = (0, self.turn.1 + 1);
            if self.turn.1 >= style::narrow_rounds(self.goal) {
                self.width = (self.width * style::growth(self.goal)).max(self.width.floor() + 1.0);
            }
        }
        self.stress_what_was_left_out();
        let (style, blocks) = &mut self.styles[self.turn.0];
        let blocks = blocks.get_or_insert_with(|| Arc::new(Blocks::joined(&self.cargo, style.fill, style.blocks)));
        let mut worths = style::worths(&self.cargo, style);
        for (worth, stress) in worths.iter_mut().zip(&self.stress) {
            let chance = if self.turn.1 > 0 { CHANCE * self.dice.share() } else { 0.0 };
            *worth *= stress * (1.0 + chance);
        }
        self.table = Table::new(self.cargo.clone(), blocks.clone(), worths, *style);
        self.beam = Beam::new(&self.table, self.width as usize);
    }

    /// Where everything must go in, what was hard to place is placed earlier.
    fn stress_what_was_left_out(&mut self) {
        let Some((_, left)) = self.ahead.take().filter(|_| self.goal == Goal::All) else { return };
        for stress in &mut self.stress {
            *stress = stress.powf(FADING);
        }
        for (stress, _) in self.stress.iter_mut().zip(left).filter(|(_, left)| *left > 0) {
            *stress *= LEFT_OUT;
        }
    }
}

/// The whole load, if only one piece is left out and the others pushed together leave room for it.
fn with_the_last(squeeze: &mut Squeeze, table: &Table, load: &Load) -> Option<Loaded> {
    let last = load.last()?;
    let pieces = squeeze.add(&table.cargo, last, table.pieces(load))?;
    let volume = load.volume + table.cargo.goods[last].volume;
    Some(Loaded { pieces, volume, left: vec![0; load.left().len()] })
}

fn score(goal: Goal, load: &Load) -> f64 {
    match goal {
        Goal::All => load.worth,
        Goal::Most => load.volume as f64,
    }
}
