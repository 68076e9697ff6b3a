//! Which lengths the sides of the things left can add up to, so that a gap that no sum can fill is seen early.

use super::{Cargo, Counts};

/// The reachable lengths along each axis, a bit for each millimetre.
#[derive(Debug, Clone, Default)]
pub struct Sums {
    axes: [Vec<u64>; 3],
    /// How many of each good were counted; more than fill the container make no difference.
    counted: Counts,
    /// The axis whose sums hold for each axis.
    like: [usize; 3],
}

impl Sums {
    /// Brings the sums up to date with what is left.
    pub fn update(&mut self, cargo: &Cargo, left: &[u16]) {
        let caps = cargo.goods.iter().map(|good| good.most_in_a_row);
        let same = left.iter().zip(caps.clone()).map(|(left, cap)| (*left).min(cap)).eq(self.counted.iter().copied());
        if same {
            return;
        }
        self.counted.clear();
        self.counted.extend(left.iter().zip(caps).map(|(left, cap)| (*left).min(cap)));
        for axis in (0..3).filter(|axis| cargo.like[*axis] == *axis) {
            self.fill(cargo, axis);
        }
        self.like = cargo.like;
    }

    fn fill(&mut self, cargo: &Cargo, axis: usize) {
        let alike = (0..3).filter(|other| cargo.like[*other] == axis);
        let longest = alike.map(|other| cargo.container[other]).max().unwrap_or(0);
        let bits = &mut self.axes[axis];
        bits.clear();
        bits.resize(longest as usize / 64 + 1, 0);
        bits[0] = 1;
        for (good, count) in cargo.goods.iter().zip(&self.counted) {
            for side in &good.sides[axis] {
                add_copies(bits, *side as usize, *count);
            }
        }
    }

    /// The longest reachable length up to this one.
    pub fn reach(&self, axis: usize, length: i32) -> i32 {
        let bits = &self.axes[self.like[axis]];
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
    if rest == 0 {
        for index in (words..bits.len()).rev() {
            bits[index] |= bits[index - words];
        }
        return;
    }
    for index in (words + 1..bits.len()).rev() {
        bits[index] |= bits[index - words] << rest | bits[index - words - 1] >> (64 - rest);
    }
    if words < bits.len() {
        bits[words] |= bits[0] << rest;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every sum of sides by trying all of them.
    fn slowly(sides: &[(Vec<i32>, u16)], most: i32) -> Vec<i32> {
        let mut sums = vec![0];
        for (sides, count) in sides {
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
