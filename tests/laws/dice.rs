//! Chance that is the same again for the same seed, so that a failing run is told by one number.

/// `SplitMix64` (Steele, Lea, Flood: Fast splittable pseudorandom number generators, 2014).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from `from` to `to`, both included.
    pub fn between(&mut self, from: u32, to: u32) -> u32 {
        let span = u64::from(to.saturating_sub(from)) + 1;
        from + u32::try_from(self.roll() % span).unwrap()
    }

    /// Whether something that happens so many times in a hundred happens now.
    pub fn chance(&mut self, percent: u32) -> bool {
        self.between(0, 99) < percent
    }

    /// One of them; none of none.
    pub fn pick<T: Clone>(&mut self, from: &[T]) -> Option<T> {
        let last = from.len().checked_sub(1)?;
        Some(from[self.index(last)].clone())
    }

    /// A place from the first to the last one.
    pub fn index(&mut self, last: usize) -> usize {
        usize::try_from(self.between(0, u32::try_from(last).unwrap())).unwrap()
    }
}
