//! Chance as a season has it: what came late is likely to be touched again, and files come in any order.

use crate::dice::Dice;

impl Dice {
    /// One of the last few, now and then any other.
    pub fn pick_late<T: Clone>(&mut self, from: &[T], few: usize) -> Option<T> {
        let start = if self.chance(3) { 0 } else { from.len().saturating_sub(few) };
        self.pick(&from[start..])
    }

    pub fn shuffle<T>(&mut self, all: &mut [T]) {
        for i in (1..all.len()).rev() {
            let other = self.index(i);
            all.swap(i, other);
        }
    }
}
