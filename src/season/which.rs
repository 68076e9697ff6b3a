//! A thing said in words, or by its batches.

use super::names::Thing;
use super::{ActError, Season};
use crate::model::id::{BoxId, LotId};
use crate::model::rows::BoxRow;
use crate::store::Store;

/// Which thing an act is about.
#[derive(Debug, Clone, Copy)]
pub enum Which<'a> {
    /// The one that the words mean.
    Words(&'a str),
    /// The one of these batches, in order of use; nothing else is looked at.
    Lots(&'a [LotId]),
}

impl<'a> From<&'a str> for Which<'a> {
    fn from(words: &'a str) -> Which<'a> {
        Which::Words(words)
    }
}

impl<'a> From<&'a String> for Which<'a> {
    fn from(words: &'a String) -> Which<'a> {
        Which::Words(words)
    }
}

impl<'a> From<&'a [LotId]> for Which<'a> {
    fn from(lots: &'a [LotId]) -> Which<'a> {
        Which::Lots(lots)
    }
}

impl<S: Store> Season<S> {
    /// The box of this id, as it stands.
    pub fn box_row(&self, giftbox: BoxId) -> Result<BoxRow, ActError> {
        self.store.giftbox(giftbox)?.ok_or_else(|| ActError::NoSuchBox(giftbox.short()))
    }

    /// The thing of these batches, read by id; batches that are gone or were taken back are left out.
    pub(super) fn thing_of(&self, lots: &[LotId]) -> Result<Thing, ActError> {
        let mut rows = Vec::new();
        for lot in lots {
            rows.extend(self.store.lot(*lot)?.filter(|row| !row.withdrawn));
        }
        match rows.first() {
            Some(first) => Ok(Thing { title: first.facts.title(), lots: rows }),
            None => Err(ActError::Nothing("None of that is left.".to_owned())),
        }
    }
}
