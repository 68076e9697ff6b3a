//! An event: one fact, when and where it was written down, and its place in the one order.

use serde::{Deserialize, Serialize};

use super::fact::Fact;
use super::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, PlacementId};

/// A hybrid logical clock: milliseconds since 1970 and a count within one, so that every
/// event is newer than all that its writer had seen, whatever the computer's own clock says.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Clock(u64);

impl Clock {
    /// The end of the year 2199; a later one is damage.
    pub const LATEST: Clock = Clock(7_258_118_400_000 << 16);

    /// The clock as kept in a file.
    pub fn from_kept(kept: u64) -> Option<Clock> {
        (kept <= Clock::LATEST.0).then_some(Clock(kept))
    }

    /// The number kept in a file.
    pub fn kept(self) -> u64 {
        self.0
    }

    /// Milliseconds since 1970.
    pub fn millis(self) -> u64 {
        self.0 >> 16
    }

    /// The clock of an event written at `now_millis` by one who has seen `self`.
    #[must_use]
    pub fn next(self, now_millis: u64) -> Clock {
        let wall = now_millis.min(Clock::LATEST.millis()) << 16;
        Clock(wall.max(self.0 + 1).min(Clock::LATEST.0))
    }
}

/// The one order in which events are told again; the same on every computer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Order {
    /// First by clock.
    pub clock: Clock,
    /// Then by device.
    pub device: DeviceId,
    /// Then by the device's own count.
    pub seq: u64,
    /// Then by id.
    pub uid: EventId,
}

/// One fact with its circumstances.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Its id.
    pub uid: EventId,
    /// The device that wrote it.
    pub device: DeviceId,
    /// That device's count of events, from 1.
    pub seq: u64,
    /// When.
    pub clock: Clock,
    /// The short name of who wrote it; may be empty.
    pub by: String,
    /// The act it is part of.
    pub act: ActId,
    /// What happened.
    pub fact: Fact,
}

impl Event {
    /// Its place in the one order.
    pub fn order(&self) -> Order {
        Order { clock: self.clock, device: self.device, seq: self.seq, uid: self.uid }
    }
}

/// What an event speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// An act undone or brought again.
    Act(ActId),
    /// The drive's rules.
    Profile,
    /// What was learned by asking once.
    Lessons,
    /// A haul.
    Haul(HaulId),
    /// A box.
    Box(BoxId),
    /// A batch.
    Lot(LotId),
    /// Units of a batch in a box.
    Placement(PlacementId),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clock_never_stands_or_runs_back() {
        let seen = Clock::default().next(5_000);
        assert_eq!(seen.millis(), 5_000);
        let behind = seen.next(1_000);
        assert!(behind > seen);
        assert_eq!(behind.millis(), 5_000);
        assert!(Clock::from_kept(Clock::LATEST.kept() + 1).is_none());
        assert_eq!(Clock::LATEST.next(u64::MAX), Clock::LATEST);
    }
}
