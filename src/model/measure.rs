//! Counts and sizes as types of their own, so that none is taken for another.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// How many things that can each be given in a box.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Units(u32);

impl Units {
    /// None.
    pub const ZERO: Units = Units(0);
    /// One.
    pub const ONE: Units = Units(1);
    /// The most that one line or one act may name.
    pub const MOST: u32 = 1_000_000;

    /// `count` units, or `None` beyond [`Units::MOST`].
    pub const fn new(count: u32) -> Option<Units> {
        if count <= Units::MOST { Some(Units(count)) } else { None }
    }

    /// A total, which may be larger than a single count (see [`Units::MOST`]).
    pub(crate) const fn total(count: u32) -> Units {
        Units(count)
    }

    /// The plain number.
    pub const fn count(self) -> u32 {
        self.0
    }

    /// Whether there are none.
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// This many less, but never below none.
    #[must_use]
    pub const fn less(self, other: Units) -> Units {
        Units(self.0.saturating_sub(other.0))
    }
}

impl<'de> Deserialize<'de> for Units {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Units, D::Error> {
        let count = u32::deserialize(from)?;
        Units::new(count).ok_or_else(|| serde::de::Error::custom("the count is too large"))
    }
}

impl Add for Units {
    type Output = Units;
    fn add(self, other: Units) -> Units {
        Units(self.0.saturating_add(other.0))
    }
}

impl Sub for Units {
    type Output = Units;
    fn sub(self, other: Units) -> Units {
        self.less(other)
    }
}

impl AddAssign for Units {
    fn add_assign(&mut self, other: Units) {
        *self = *self + other;
    }
}

impl SubAssign for Units {
    fn sub_assign(&mut self, other: Units) {
        *self = self.less(other);
    }
}

impl Sum for Units {
    fn sum<I: Iterator<Item = Units>>(counts: I) -> Units {
        counts.fold(Units::ZERO, Add::add)
    }
}

impl fmt::Display for Units {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A length in whole millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Millimetres(pub u32);

/// Outer sizes of a thing, largest first: three, two, or one (a length).
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Dims(pub Vec<Millimetres>);

impl fmt::Display for Dims {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sides: Vec<String> = self.0.iter().map(|side| side.0.to_string()).collect();
        write!(f, "{} mm", sides.join(" × "))
    }
}

/// A weight in tenths of a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Decigrams(pub u32);

impl Decigrams {
    /// Grams to a tenth.
    pub fn grams(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}
