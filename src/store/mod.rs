//! Where a season is kept: events for good, rows that follow from them.
//!
//! [`Store`] is the door; [`Sqlite`] keeps a season in one file, [`Memory`] keeps it nowhere.
//! Both pass the suite in `conformance.rs`. How rows follow from events is not known here but
//! in [`crate::model::project`]; what must hold before an act is kept, in [`crate::model::commit`].

mod check;
#[cfg(test)]
mod conformance;
mod error;
mod memory;
mod sqlite;
mod state;

pub use check::{Trouble, check};
pub use error::{CommitError, StoreError};
pub use memory::Memory;
pub use sqlite::Sqlite;
pub use sqlite::foreign::read_foreign;
pub(crate) use sqlite::make_private_folder;
pub use state::{DeviceState, State};

use jiff::civil::Date;

use crate::model::checklist::Held;
use crate::model::commit::Holdings;
use crate::model::event::{Clock, Event};
use crate::model::fact::Fact;
use crate::model::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, SeasonId};
use crate::model::kept::Kept;
use crate::model::money::KnownSum;
use crate::model::rows::{ActRow, BoxRow, HaulRow, LotRow, OutRow, PlacementRow};

/// An act about to be kept: all its facts or none.
#[derive(Debug, Clone)]
pub struct NewAct {
    /// Its id.
    pub act: ActId,
    /// The device that does it.
    pub device: DeviceId,
    /// Who does it; may be empty.
    pub by: String,
    /// The computer's clock, milliseconds since 1970.
    pub now_millis: u64,
    /// What happens, with the id each event will have.
    pub facts: Vec<(EventId, Fact)>,
}

impl NewAct {
    /// What happens, in order.
    fn facts(&self) -> Vec<Fact> {
        self.facts.iter().map(|(_, fact)| fact.clone()).collect()
    }

    /// Its events, numbered on from the device's count and newer than all that the store has seen.
    fn events(&self, seq: u64, seen: Clock) -> Vec<Event> {
        let mut clock = seen;
        let event = |(seq, (uid, fact)): (u64, &(EventId, Fact))| {
            clock = clock.next(self.now_millis);
            let (device, by, act) = (self.device, self.by.clone(), self.act);
            Event { uid: *uid, device, seq, clock, by, act, fact: fact.clone() }
        };
        (seq + 1..).zip(&self.facts).map(event).collect()
    }
}

/// What a device's count is after these events; an act without any is a fault of the caller.
fn committed(events: &[Event]) -> Result<Committed, StoreError> {
    let last = events.last().ok_or(StoreError::Io("an act without any fact".to_owned()))?;
    Ok(Committed { seq: last.seq, last: last.uid })
}

/// An act that was kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Committed {
    /// The device's count after it.
    pub seq: u64,
    /// The last of its events.
    pub last: EventId,
}

/// What a join brought.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Joined {
    /// Events that were not here before.
    pub events: u64,
    /// Acts that were not here before.
    pub acts: u64,
    /// Events that were here already.
    pub known: u64,
}

/// What a box's checklist and its cost take of one placement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InBox {
    /// The box.
    pub giftbox: BoxId,
    /// The units as a checklist sees them.
    pub held: Held,
    /// What those in the box cost.
    pub cost: KnownSum,
}

/// Sums over all batches.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Totals {
    /// What all that came in a haul cost.
    pub spent: KnownSum,
    /// Units on hand.
    pub on_hand: u64,
    /// Units set aside.
    pub aside: u64,
    /// Hauls.
    pub hauls: u64,
}

/// A season that can be asked and added to. Every method that adds is one transaction.
pub trait Store: Holdings<Error = StoreError> {
    /// The season's own id.
    fn season(&self) -> SeasonId;

    /// Keeps an act if what must hold for it holds now.
    fn commit(&mut self, act: &NewAct) -> Result<Committed, CommitError>;
    /// Takes in another file's events: those with an id not yet here. Refuses all or none.
    fn join(&mut self, theirs: &[Kept]) -> Result<Joined, StoreError>;
    /// Drops all rows and makes them anew from the events.
    fn rebuild(&mut self) -> Result<(), StoreError>;

    /// What the place where it is kept finds wrong with its own bytes; empty when they are sound.
    fn unsound(&self) -> Result<Vec<String>, StoreError>;
    /// All events as stored, in the one order.
    fn kept(&self) -> Result<Vec<Kept>, StoreError>;
    /// The newest event of a device: its count and id.
    fn newest_of(&self, device: DeviceId) -> Result<Option<(u64, EventId)>, StoreError>;
    /// The event at this count of a device.
    fn at(&self, device: DeviceId, seq: u64) -> Result<Option<EventId>, StoreError>;

    /// A number that changes when another program changed what is kept; a store of one's own keeps to one.
    fn foreign_commits(&self) -> Result<i64, StoreError>;
    /// Shows every batch, by title and then in order of arrival, without holding them all.
    fn each_lot(&self, see: &mut dyn FnMut(LotRow)) -> Result<(), StoreError>;
    /// All batches, in order of arrival.
    fn lots(&self) -> Result<Vec<LotRow>, StoreError>;
    /// The batches of exactly this title, in order of arrival.
    fn lots_titled(&self, title: &str) -> Result<Vec<LotRow>, StoreError>;
    /// The first titles of which something is on hand, withdrawn batches left out.
    fn titles_on_hand(&self, limit: usize) -> Result<Vec<String>, StoreError>;
    /// Sums over all batches, kept ready.
    fn totals(&self) -> Result<Totals, StoreError>;
    /// The haul of this day that was logged last.
    fn latest_haul(&self, date: Date) -> Result<Option<HaulId>, StoreError>;
    /// What checklists and costs take of all placements, box by box, each in the order it came there.
    fn in_boxes(&self) -> Result<Vec<InBox>, StoreError>;
    /// The same for one box.
    fn in_box(&self, giftbox: BoxId) -> Result<Vec<InBox>, StoreError>;
    /// All boxes, by number.
    fn boxes(&self) -> Result<Vec<BoxRow>, StoreError>;
    /// All hauls, in order.
    fn hauls(&self) -> Result<Vec<HaulRow>, StoreError>;
    /// All that is in or set aside for boxes, in order.
    fn placements(&self) -> Result<Vec<PlacementRow>, StoreError>;
    /// Where a batch's units are in or set aside for boxes.
    fn placements_of(&self, lot: LotId) -> Result<Vec<PlacementRow>, StoreError>;
    /// All that left other than into a box.
    fn outs(&self) -> Result<Vec<OutRow>, StoreError>;
    /// Acts, newest first: at most `limit`.
    fn acts(&self, limit: usize) -> Result<Vec<ActRow>, StoreError>;
    /// Acts that do something, newest first, undone or not: at most `limit`; undoing and bringing again are left out.
    fn deeds(&self, limit: usize) -> Result<Vec<ActRow>, StoreError>;
    /// This device's newest act that can be undone.
    fn undoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError>;
    /// This device's act that was undone last, unless it did something new since.
    fn redoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError>;
    /// Every live count, to find two that were taken on the same footing.
    fn counts(&self) -> Result<Vec<Event>, StoreError>;
}
