//! Which lengths the sides of the things left can add up to, so that a gap that no sum can fill is seen early.

use super::{Cargo, Counts};

/// The reachable lengths along each axis, a bit for each millimetre.
#[derive(Debug, Clone, Default)]
pub struct Sums {
    /// Per axis the lengths reached by the first good alone, by the first two, and so on, the smallest good first.
    axes: [Vec<u64>; 3],
    /// How many words of 64 bits the lengths along each axis take.
    words: [usize; 3],
    /// How many of each good were counted, in that order; more than fill the container make no difference.
    counted: Counts,
    /// The axis whose sums hold for each axis.
    like: [usize; 3],
}

impl Sums {
    /// Brings the sums up to date with what is left.
    ///
    /// The small goods come first because they are placed last, so that most of the time only the end is summed anew.
    pub fn update(&mut self, cargo: &Cargo, left: &[u16]) {
        if self.words[0] == 0 {
            self.begin(cargo);
        }
        let count = |good: usize| left[good].min(cargo.goods[good].most_in_a_row);
        let changed = (0..left.len()).find(|at| self.counted[*at] != count(cargo.by_volume[*at]));
        for at in changed.unwrap_or(left.len())..left.len() {
            let good = cargo.by_volume[at];
            self.counted[at] = count(good);
            for axis in (0..3).filter(|axis| cargo.like[*axis] == *axis) {
                self.sum(axis, at, &cargo.goods[good].sides[axis]);
            }
        }
    }

    /// Sums of nothing at all.
    fn begin(&mut self, cargo: &Cargo) {
        self.counted = vec![0; cargo.goods.len()];
        self.like = cargo.like;
        for axis in 0..3 {
            let alike = (0..3).filter(|other| cargo.like[*other] == axis);
            let longest = alike.map(|other| cargo.container[other]).max().unwrap_or(0);
            self.words[axis] = longest as usize / 64 + 1;
            let mut nothing = vec![0; self.words[axis]];
            nothing[0] = 1;
            self.axes[axis] = nothing.repeat(cargo.goods.len() + 1);
        }
    }

    /// What the goods before this one reach, and what they reach with this one.
    fn sum(&mut self, axis: usize, at: usize, sides: &[i32]) {
        let words = self.words[axis];
        let (before, after) = self.axes[axis][at * words..][..2 * words].split_at_mut(words);
        after.copy_from_slice(before);
        match self.counted[at] {
            // Of several pieces each may lie another way; one lies in one way only.
            1 => sides.iter().for_each(|side| add_shifted(after, before, *side as usize)),
            count => sides.iter().for_each(|side| add_copies(after, *side as usize, count)),
        }
    }

    /// The longest reachable length up to this one.
    pub fn reach(&self, axis: usize, length: i32) -> i32 {
        let axis = self.like[axis];
        let bits = &self.axes[axis][self.counted.len() * self.words[axis]..];
        let mut word = length as usize / 64;
        let mut here = bits[word] & (u64::MAX >> (63 - length as usize % 64));
        while here == 0 {
            // Bit 0 of word 0 is always set: nothing at all is reachable.
            word -= 1;
            here = bits[word];
        }
        (word * 64 + 63 - here.leading_zeros() as usize) as i32
    }
}

/// Lets up to `count` copies of a side be added to every length: 1, 2, 4 … copies at a time reach each number.
fn add_copies(bits: &mut [u64], side: usize, count: u16) {
    let (mut rest, mut some) = (usize::from(count), 1);
    while rest > 0 {
        let copies = some.min(rest);
        or_shifted(bits, side * copies);
        rest -= copies;
        some *= 2;
    }
}

/// Adds to the bits the same bits so many places higher; from the top down, so that each is read before it changes.
fn or_shifted(bits: &mut [u64], shift: usize) {
    let (words, rest) = (shift / 64, shift % 64);
    for index in (words..bits.len()).rev() {
        let high = bits[index - words] << rest;
        // In two steps, as a shift by 64 is none.
        let low = if index > words { bits[index - words - 1] >> 1 >> (63 - rest) } else { 0 };
        bits[index] |= high | low;
    }
}

/// Adds to the bits others so many places higher.
fn add_shifted(bits: &mut [u64], others: &[u64], shift: usize) {
    let (words, rest) = (shift / 64, shift % 64);
    let mut low = 0;
    for (bits, other) in bits.iter_mut().skip(words).zip(others) {
        *bits |= other << rest | low;
        // In two steps, as a shift by 64 is none.
        low = other >> 1 >> (63 - rest);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every sum of sides by trying all of them; a single piece has one of its sides in it, each of several all.
    fn slowly(sides: &[(Vec<i32>, u16)], most: i32) -> Vec<i32> {
        let mut sums = vec![0];
        for (sides, count) in sides {
            if *count == 1 {
                let more = |sum: i32| sides.iter().map(move |side| sum + side).chain([sum]);
                sums = sums.into_iter().flat_map(more).filter(|sum| *sum <= most).collect();
                continue;
            }
            for side in sides {
                let more = sums.iter().flat_map(|sum| (0..=i32::from(*count)).map(move |copies| sum + copies * side));
                sums = more.filter(|sum| *sum <= most).collect();
                sums.sort_unstable();
                sums.dedup();
            }
        }
        sums
    }

    #[test]
    fn the_longest_sum_is_that_of_trying_all() {
        let goods = [(vec![[64, 30, 17], [30, 64, 17]], 2), (vec![[100, 7, 9]], 3), (vec![[21, 21, 21]], 1)];
        let cargo = Cargo::new([250, 130, 64], goods);
        let mut sums = Sums::default();
        for left in [[2, 3, 1], [1, 0, 1], [0, 0, 0], [2, 1, 0]] {
            sums.update(&cargo, &left);
            for axis in 0..3 {
                let sides: Vec<_> = cargo.goods.iter().map(|good| good.sides[axis].clone()).zip(left).collect();
                let all = slowly(&sides, cargo.container[axis]);
                for length in 0..=cargo.container[axis] {
                    let longest = all.iter().copied().filter(|sum| *sum <= length).max();
                    assert_eq!(Some(sums.reach(axis, length)), longest, "{left:?}, axis {axis}, {length} mm");
                }
            }
        }
    }
}
