//! The one door: every act that a person can do, one small file for each family of acts.
//!
//! An act reads what it needs, decides with the pure floors which facts it comes to, and hands
//! them to the store as one whole. The store checks once more that they hold, and keeps all or none.

mod boxes;
mod checking;
mod counting;
mod draft;
mod error;
mod hauls;
mod joining;
mod logging;
mod names;
mod packing;
mod reader;
mod remaking;
mod review;
mod rewording;
mod rules;
mod sample;
mod say;
mod stock;
mod summary;
#[cfg(test)]
mod tests;
mod undoing;
mod views;

pub use boxes::{BoxChange, BoxWords};
pub use counting::CountLine;
pub use error::ActError;
pub use hauls::HaulMend;
pub use logging::{LogHow, Logged, NotLogged};
pub use packing::PutHow;
pub use reader::Reader;
pub use remaking::{KitHow, SplitHow};
pub use sample::{SampleError, open_sample};
pub use stock::Mend;
pub use views::{ReviewWish, StockWish};

pub use crate::reading::{About, Choice, Entry, Head, Outcome, Question, Reading, Taken, What};
pub use crate::report::hauls::{HaulCard, HaulEntry};
pub use crate::report::{Report, Settle};
pub use crate::store::{Memory, Sqlite, State, StoreError};

use jiff::civil::Date;

use crate::catalogue::Catalogue;
use crate::model::fact::Fact;
use crate::model::id::{DeviceId, Ids};
use crate::model::profile::Profile;
use crate::store::{NewAct, Store};

/// When something is done.
#[derive(Debug, Clone, Copy)]
pub struct Moment {
    /// The computer's clock, milliseconds since 1970.
    pub now_millis: u64,
    /// The day it is here.
    pub today: Date,
}

/// Who writes, and as which device.
#[derive(Debug)]
pub enum Desk {
    /// At a computer whose state folder tells which device it is.
    Computer {
        /// The state folder.
        state: State,
        /// The short name of who writes; may be empty.
        by: String,
    },
    /// As a given device: for the sample and for tests.
    Fixed {
        /// The device.
        device: DeviceId,
        /// The short name of who writes.
        by: String,
    },
}

/// A season at work: the store and all that an act needs beside it.
pub struct Season<S> {
    store: S,
    ids: Box<dyn Ids>,
    desk: Desk,
    moment: Moment,
    catalogue: Catalogue,
}

/// An act that was kept, in a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// What was done: `Put 1 eraser into box 12.`
    pub said: String,
    /// What follows from it, a sentence each: `School still needs 2.`
    pub notes: Vec<String>,
}

impl<S: Store> Season<S> {
    /// A season over a store.
    pub fn new(store: S, ids: Box<dyn Ids>, desk: Desk, moment: Moment) -> Season<S> {
        Season { store, ids, desk, moment, catalogue: Catalogue::built_in() }
    }

    /// The store, to look at.
    pub fn store(&self) -> &S {
        &self.store
    }

    /// Moves on to another moment.
    pub fn at(&mut self, moment: Moment) {
        self.moment = moment;
    }

    /// The drive's rules: those that were set, else the built-in ones.
    pub fn profile(&self) -> Result<Profile, ActError> {
        Ok(self.store.profile()?.unwrap_or_default())
    }

    /// Which device this is, if it has one in this season.
    fn device(&mut self) -> Result<DeviceId, ActError> {
        match &self.desk {
            Desk::Fixed { device, .. } => Ok(*device),
            Desk::Computer { state, .. } => Ok(state.device(&self.store, &mut Fresh(self.ids.as_mut()))?),
        }
    }

    /// Keeps facts as one act and says what was done.
    fn act(&mut self, facts: &[Fact]) -> Result<Done, ActError> {
        let device = self.device()?;
        let by = match &self.desk {
            Desk::Computer { by, .. } | Desk::Fixed { by, .. } => by.clone(),
        };
        let kept = facts.iter().map(|fact| (self.ids.event(), fact.clone())).collect();
        let act = NewAct { act: self.ids.act(), device, by, now_millis: self.moment.now_millis, facts: kept };
        let done = self.store.commit(&act)?;
        if let Desk::Computer { state, .. } = &self.desk {
            // The act is kept; if its count can't be noted, the next act merely gets a new device.
            _ = state.wrote(&self.store, device, done);
        }
        Ok(Done { said: say::sentence(&self.store, facts)?, notes: Vec::new() })
    }
}

/// Lets a borrowed source of ids stand where one is asked for.
struct Fresh<'a>(&'a mut dyn Ids);

impl Ids for Fresh<'_> {
    fn fresh(&mut self) -> uuid::Uuid {
        self.0.fresh()
    }
}
