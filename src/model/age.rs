//! Ages in whole years, and a drive's age groups.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Ages from one year to another, both included; no upper end means "and up".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ages {
    from: u8,
    to: Option<u8>,
}

impl Ages {
    /// The oldest age that makes sense here.
    pub const OLDEST: u8 = 99;

    /// Ages `from` to `to`, or `None` if they run backwards or past [`Ages::OLDEST`].
    pub fn new(from: u8, to: Option<u8>) -> Option<Ages> {
        let end = to.unwrap_or(Ages::OLDEST);
        (from <= end && end <= Ages::OLDEST).then_some(Ages { from, to })
    }

    /// The youngest age.
    pub fn from(self) -> u8 {
        self.from
    }

    /// The oldest age; `None` is "and up".
    pub fn to(self) -> Option<u8> {
        self.to
    }

    /// Whether every age of `other` is one of these.
    pub fn covers(self, other: Ages) -> bool {
        let end = |ages: Ages| ages.to.unwrap_or(u8::MAX);
        self.from <= other.from && end(other) <= end(self)
    }
}

impl Serialize for Ages {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        (self.from, self.to).serialize(to)
    }
}

impl<'de> Deserialize<'de> for Ages {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Ages, D::Error> {
        let (from, to) = <(u8, Option<u8>)>::deserialize(from)?;
        Ages::new(from, to).ok_or_else(|| serde::de::Error::custom("these ages run backwards or past 99"))
    }
}

impl fmt::Display for Ages {
    /// `6–8`, `7`, `4 and up`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = match self.to {
            None => format!("{} and up", self.from),
            Some(to) if to == self.from => to.to_string(),
            Some(to) => format!("{}–{to}", self.from),
        };
        f.pad(&words)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn covering_counts_both_ends() {
        let ages = |from, to| Ages::new(from, to).unwrap();
        assert!(ages(4, None).covers(ages(6, Some(8))));
        assert!(!ages(7, None).covers(ages(6, Some(8))));
        assert!(ages(6, Some(8)).covers(ages(6, Some(8))));
        assert!(!ages(6, Some(8)).covers(ages(6, None)));
        assert!(Ages::new(8, Some(6)).is_none());
    }
}
