//! The one door: every act that a person can do, one small file for each family of acts.
//!
//! An act reads what it needs, decides with the pure floors which facts it comes to, and hands
//! them to the store as one whole. The store checks once more that they hold, and keeps all or none.

mod aisle;
mod board;
mod boxes;
mod cards;
mod careful;
mod checking;
mod counting;
mod draft;
mod effect;
mod elsewhere;
mod entering;
mod error;
mod filling;
mod fitting;
mod hauls;
mod joining;
mod lessons;
mod logging;
mod names;
mod night;
mod offers;
mod packing;
mod parting;
mod planning;
mod pulling;
mod reader;
mod receipts;
mod remade;
mod remaking;
mod returning;
mod review;
mod rewording;
mod rules;
mod sample;
mod say;
mod serving;
mod shelf;
mod stock;
mod stocking;
mod summary;
#[cfg(test)]
mod tests;
mod touched;
#[cfg(test)]
mod trials;
mod twice;
mod undoing;
mod views;
mod ware;
mod watch;
mod which;

pub use aisle::compare;
pub use board::Board;
pub use boxes::{BoxChange, BoxWords, box_sentence};
pub use counting::CountLine;
pub use effect::Repriced;
pub use entering::Stopped;
pub use error::ActError;
pub use fitting::{FitSearch, FitThing, FitWish, Fitting, Instead, SizeFrom};
pub use hauls::HaulMend;
pub use logging::{LogHow, Logged, NotLogged};
pub use names::find_names;
pub use offers::{Offer, misfits, offers};
pub use packing::PutHow;
pub use parting::PartHow;
pub use planning::{Basis, Needs, PlanWish, Planned, Planning};
pub use reader::Reader;
pub use remade::Remake;
pub use remaking::{KitHow, SplitHow};
pub use sample::{SampleError, fill as fill_sample, open_sample};
pub use shelf::Shelf;
pub use stock::Mend;
pub use touched::Touched;
pub use twice::Twin;
pub use views::{ReviewWish, StockWish};
pub use ware::{Bought, Mark, Ware};
pub use which::Which;

/// For things that are in no season.
pub use crate::fit;
pub use crate::model::haul::Explains;
pub use crate::model::lot::Level;
pub use crate::plan::{answer as answer_instance, read_instance};
pub use crate::reading::{About, Choice, Entry, Head, Outcome, Question, Reading, Said, Taken, What};
pub use crate::report::boxes::{BoxCard, BoxLine, BoxList, Cell, Content};
pub use crate::report::buy::{BuyPart, BuyRow, ShoppingPage};
pub use crate::report::cautions::{CautionRow, Cautions, Way, sign};
pub use crate::report::costs::Prices;
pub use crate::report::fit::{
    FitCount, FitFill, FitLayer, FitLetter, FitPiece, FitPlace, FitReport, FitSign, FitStage, FitStep, FitWeight,
};
pub use crate::report::hauls::{HaulCard, HaulEntry, HaulLine, Hauls};
pub use crate::report::history::{History, Step};
pub use crate::report::night::{LastNight, NightRow};
pub use crate::report::places::Place;
pub use crate::report::plan::{Applied, BoxPlan, CategoryRow, EvenRow, GroupRow, PlanBox, PlanThing, RoomRow};
pub use crate::report::pull::{PullList, PullRow, PullTote};
pub use crate::report::rules::RuleRow;
pub use crate::report::tonight::{NeedLine, Tonight, WhatIf};
pub use crate::report::{Report, Settle, Sum};
pub use crate::store::{Memory, Sqlite, State, Store, StoreError};

use std::sync::Arc;

use jiff::civil::Date;

use crate::catalogue::Catalogue;
use crate::model::fact::Fact;
use crate::model::habit::Habits;
use crate::model::id::{DeviceId, Ids};
use crate::model::profile::Profile;
use crate::store::NewAct;

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
    ids: Box<dyn Ids + Send>,
    desk: Desk,
    moment: Moment,
    catalogue: Arc<Catalogue>,
    /// Answers that are remembered.
    habits: Arc<Habits>,
    touched: Touched,
    /// The draft of a season at a fixed desk, which has no state folder.
    draft: Option<String>,
    /// What the store last said of other programs' writing.
    seen: Option<i64>,
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
    pub fn new(store: S, ids: Box<dyn Ids + Send>, desk: Desk, moment: Moment) -> Season<S> {
        let seen = store.foreign_commits().ok();
        // What can't be read now is said by whatever is asked of the file next; the built-in kinds stay.
        let catalogue = lessons::catalogue(&store).unwrap_or_else(|_| Catalogue::shared());
        let habits = lessons::habits(&store).unwrap_or_default();
        Season { store, ids, desk, moment, catalogue, habits, touched: Touched::default(), draft: None, seen }
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

    /// Keeps corrections as one act, and says which boxes cost more or less by them.
    fn correct(&mut self, facts: &[Fact]) -> Result<Done, ActError> {
        let boxes = Repriced::told(&self.effects(facts)?).replacen("would cost", "costs", 1);
        let mut done = self.act(facts)?;
        done.notes.extend(Some(boxes).filter(|boxes| !boxes.is_empty()));
        Ok(done)
    }

    /// Keeps facts as one act and says what was done. What may not go into its box stops it.
    fn act(&mut self, facts: &[Fact]) -> Result<Done, ActError> {
        let remarks = self.remarks_on(facts)?;
        let device = self.device()?;
        let by = match &self.desk {
            Desk::Computer { by, .. } | Desk::Fixed { by, .. } => by.clone(),
        };
        let kept = facts.iter().map(|fact| (self.ids.event(), fact.clone())).collect();
        let act = NewAct { act: self.ids.act(), device, by, now_millis: self.moment.now_millis, facts: kept };
        let done = self.store.commit(&act)?;
        self.touch(facts);
        if let Desk::Computer { state, .. } = &self.desk {
            // The act is kept; if its count can't be noted, the next act merely gets a new device.
            _ = state.wrote(&self.store, device, done);
        }
        Ok(Done { said: say::sentence(&self.store, facts)?, notes: remarks })
    }
}

/// Lets a borrowed source of ids stand where one is asked for.
struct Fresh<'a>(&'a mut dyn Ids);

impl Ids for Fresh<'_> {
    fn fresh(&mut self) -> uuid::Uuid {
        self.0.fresh()
    }
}
