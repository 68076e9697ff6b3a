//! Names that never clash: every entity and every event has a UUID, version 7.
//!
//! New ones come from outside through [`Ids`], so that nothing here depends on clock or chance.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Uuid);

        impl $name {
            /// The id that sorts before all others.
            pub const LEAST: $name = $name(Uuid::nil());
            /// The id that sorts behind all others.
            pub const MOST: $name = $name(Uuid::max());

            /// Takes a UUID as this kind of id.
            pub const fn new(uuid: Uuid) -> $name {
                $name(uuid)
            }

            /// The sixteen bytes.
            pub const fn bytes(&self) -> &[u8; 16] {
                self.0.as_bytes()
            }

            /// The id with these bytes; `None` unless there are sixteen.
            pub fn from_bytes(bytes: &[u8]) -> Option<$name> {
                Uuid::from_slice(bytes).ok().map($name)
            }

            /// Four to eight letters and digits that tell this one from its like, for people to type.
            pub fn short(&self) -> String {
                handle(self.0)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl FromStr for $name {
            type Err = uuid::Error;
            fn from_str(text: &str) -> Result<$name, uuid::Error> {
                text.parse().map($name)
            }
        }
    )*};
}

ids! {
    /// One event.
    EventId;
    /// One act: the events of one thing that a person did.
    ActId;
    /// One computer's writing in one season.
    DeviceId;
    /// A haul.
    HaulId;
    /// A batch.
    LotId;
    /// A gift box.
    BoxId;
    /// Units of a batch set aside for or put into a box.
    PlacementId;
    /// A season's file.
    SeasonId;
}

/// The letters of a handle: no vowels, so that none spells a word, and none that looks like another.
const LETTERS: &[u8; 24] = b"23456789bcdfghjkmnpqrtwx";

/// Five letters from the random end of the UUID.
fn handle(uuid: Uuid) -> String {
    let mut rest = uuid.as_u128() & 0xffff_ffff;
    let mut letters = String::with_capacity(5);
    for _ in 0..5 {
        let index = usize::try_from(rest % 24).unwrap_or(0);
        letters.push(char::from(LETTERS[index]));
        rest /= 24;
    }
    letters
}

/// Where new ids come from.
pub trait Ids {
    /// A UUID never given before.
    fn fresh(&mut self) -> Uuid;

    /// A new event id.
    fn event(&mut self) -> EventId {
        EventId(self.fresh())
    }

    /// A new act id.
    fn act(&mut self) -> ActId {
        ActId(self.fresh())
    }

    /// A new device id.
    fn device(&mut self) -> DeviceId {
        DeviceId(self.fresh())
    }

    /// A new haul id.
    fn haul(&mut self) -> HaulId {
        HaulId(self.fresh())
    }

    /// A new batch id.
    fn lot(&mut self) -> LotId {
        LotId(self.fresh())
    }

    /// A new box id.
    fn giftbox(&mut self) -> BoxId {
        BoxId(self.fresh())
    }

    /// A new placement id.
    fn placement(&mut self) -> PlacementId {
        PlacementId(self.fresh())
    }
}

/// Ids from the clock and chance, as RFC 9562 describes version 7.
#[derive(Debug, Default)]
pub struct TimedIds;

impl Ids for TimedIds {
    fn fresh(&mut self) -> Uuid {
        Uuid::now_v7()
    }
}

/// Ids that are the same in every run: for the sample and for tests.
#[derive(Debug, Clone)]
pub struct CountedIds {
    family: u16,
    next: u64,
}

impl CountedIds {
    /// A row of ids; another `family` gives another row.
    pub fn new(family: u16) -> CountedIds {
        CountedIds { family, next: 0 }
    }
}

impl Ids for CountedIds {
    fn fresh(&mut self) -> Uuid {
        self.next += 1;
        // Odd multiplication spreads the count over the digits that people see.
        let spread = self.next.wrapping_mul(0x9e37_79b9_7f4a_7c15) & 0x3fff_ffff_ffff_ffff;
        let low = 0x8000_0000_0000_0000 | spread;
        let high = (self.next << 16) | 0x7000 | u64::from(self.family & 0xfff);
        Uuid::from_u64_pair(high, low)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counted_ids_are_version_7_and_all_different() {
        let mut ids = CountedIds::new(1);
        let many: std::collections::BTreeSet<Uuid> = (0..10_000).map(|_| ids.fresh()).collect();
        assert_eq!(many.len(), 10_000);
        assert!(many.iter().all(|id| id.get_version_num() == 7));
        assert_ne!(CountedIds::new(1).fresh(), CountedIds::new(2).fresh());
    }
}
