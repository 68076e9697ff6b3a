//! Prices of single units where things are sold in packs.

use super::problem::{Offer, Shop};

/// How many parts a minor unit has, so that a unit of a pack has a whole price.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Scale(i64);

/// Finer than this, a unit's price is rounded down; a bound that follows from it stays a bound.
const FINEST: i64 = 5_040;
/// Dearer than anything that goes into a box.
const DEAREST: i64 = 1_000_000_000;

impl Scale {
    pub fn of(shop: &Shop) -> Scale {
        let finer = |parts: i64, offer: &Offer| parts / gcd(parts, pack(offer)) * pack(offer);
        Scale(
            shop.offers
                .iter()
                .fold(1, |parts, offer| Some(finer(parts, offer)).filter(|it| *it <= FINEST).unwrap_or(parts)),
        )
    }

    /// What one unit of an offer costs, in parts.
    pub fn unit_price(self, offer: &Offer) -> i64 {
        offer.price.clamp(0, DEAREST) * self.0 / pack(offer)
    }

    /// An amount in parts as whole minor units, rounded up: nothing is sold for less.
    pub fn up(self, parts: i128) -> i64 {
        let parts = parts.clamp(0, i128::MAX / 2);
        i64::try_from((parts + i128::from(self.0) - 1) / i128::from(self.0)).unwrap_or(i64::MAX)
    }

    /// Whole minor units in parts.
    pub fn parts(self, minor: i64) -> i128 {
        i128::from(minor) * i128::from(self.0)
    }
}

/// Units in a pack.
pub(super) fn pack(offer: &Offer) -> i64 {
    i64::from(offer.pack.max(1))
}

/// The largest number that divides both.
pub(super) fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
