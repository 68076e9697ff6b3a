//! Chance that comes out the same for the same seed.

/// Splitmix64 (Steele, Lea & Flood, Fast splittable pseudorandom number generators, OOPSLA 2014).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// Dice that fall the same way for the same seed.
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// Any number.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A share from 0 up to, but not including, 1.
    pub fn share(&mut self) -> f64 {
        (self.number() >> 11) as f64 / (1_u64 << 53) as f64
    }
}
