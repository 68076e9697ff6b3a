//! A plan in whole boxes that grows as long as it can be filled.

use super::compile::Compiled;
use super::filler::{Filler, State};

/// So many boxes of each bundle, all of them filled.
#[derive(Debug, Clone)]
pub(super) struct Packer<'a> {
    fillers: Vec<Filler<'a>>,
    counts: Vec<i64>,
    all: Vec<i64>,
}

impl<'a> Packer<'a> {
    /// An empty plan, from what is on hand, and bought too if that is wanted.
    pub fn new(compiled: &'a Compiled, buying: bool) -> Packer<'a> {
        let fillers = compiled.nets.iter().map(|net| Filler::new(net, compiled.bundles.len(), buying)).collect();
        Packer { fillers, counts: vec![0; compiled.bundles.len()], all: compiled.all() }
    }

    /// Sets the counts; false if they can't be filled.
    pub fn set(&mut self, counts: &[i64]) -> bool {
        self.counts.copy_from_slice(counts);
        self.fillers.iter_mut().all(|filler| {
            filler.clear(counts, 1);
            filler.fill() == 0
        })
    }

    /// How many boxes there are of each bundle.
    pub fn all(&self) -> &[i64] {
        &self.all
    }

    pub fn counts(&self) -> &[i64] {
        &self.counts
    }

    /// How many boxes.
    pub fn boxes(&self) -> i64 {
        self.counts.iter().sum()
    }

    /// What is bought costs, in parts of a minor unit.
    pub fn cost(&self) -> i128 {
        self.fillers.iter().map(Filler::cost).sum()
    }

    /// The nets as they are filled.
    pub fn fillers(&self) -> &[Filler<'a>] {
        &self.fillers
    }

    /// One box more of a bundle, if it can be filled and what is bought then costs no more than this.
    pub fn add(&mut self, bundle: usize, most_cost: Option<i128>) -> bool {
        let Some(before) = self.try_add(bundle) else { return false };
        let kept = most_cost.is_none_or(|most| self.cost() <= most);
        if !kept {
            self.take_back(bundle, &before);
        }
        kept
    }

    /// What everything bought would cost with one box more of a bundle; none if it can't be filled.
    pub fn cost_with(&mut self, bundle: usize) -> Option<i128> {
        let before = self.try_add(bundle)?;
        let cost = self.cost();
        self.take_back(bundle, &before);
        Some(cost)
    }

    /// One box more of a bundle, if it can be filled; what the nets were before.
    fn try_add(&mut self, bundle: usize) -> Option<Vec<(usize, State)>> {
        if self.counts[bundle] >= self.all[bundle] {
            return None;
        }
        self.counts[bundle] += 1;
        let mut before = Vec::new();
        for (index, filler) in self.fillers.iter_mut().enumerate().filter(|(_, filler)| filler.concerns(bundle)) {
            before.push((index, filler.state()));
            filler.want(bundle, 1);
            if filler.fill() > 0 {
                self.take_back(bundle, &before);
                return None;
            }
        }
        Some(before)
    }

    fn take_back(&mut self, bundle: usize, before: &[(usize, State)]) {
        self.counts[bundle] -= 1;
        for (index, state) in before {
            self.fillers[*index].restore(state);
        }
    }
}
