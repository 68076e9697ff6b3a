//! What acts changed, so that whoever shows it need read only that anew.

use std::collections::BTreeSet;

use super::{ActError, Season};
use crate::model::event::Subject;
use crate::model::fact::Fact;
use crate::model::id::{BoxId, HaulId, LotId};
use crate::store::Store;

/// What was changed since it was last asked.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Touched {
    /// Batches.
    pub lots: BTreeSet<LotId>,
    /// Boxes.
    pub boxes: BTreeSet<BoxId>,
    /// Hauls.
    pub hauls: BTreeSet<HaulId>,
    /// Whether the drive's rules were.
    pub rules: bool,
    /// Whether anything may have: after a join, or when rows were made anew.
    pub all: bool,
}

impl Touched {
    /// Whether nothing was changed.
    pub fn is_empty(&self) -> bool {
        *self == Touched::default()
    }

    /// Adds what another one names.
    pub fn add(&mut self, other: Touched) {
        self.lots.extend(other.lots);
        self.boxes.extend(other.boxes);
        self.hauls.extend(other.hauls);
        self.rules |= other.rules;
        self.all |= other.all;
    }

    fn note(&mut self, subject: Subject) {
        match subject {
            Subject::Lot(lot) => _ = self.lots.insert(lot),
            Subject::Box(giftbox) => _ = self.boxes.insert(giftbox),
            Subject::Haul(haul) => _ = self.hauls.insert(haul),
            Subject::Profile => self.rules = true,
            Subject::Act(_) | Subject::Placement(_) => {}
        }
    }
}

impl<S: Store> Season<S> {
    /// What acts changed since this was last asked.
    pub fn take_touched(&mut self) -> Touched {
        std::mem::take(&mut self.touched)
    }

    /// Notes what an act changed that was just kept.
    pub(super) fn touch(&mut self, facts: &[Fact]) -> Result<(), ActError> {
        let mut touched = Touched::default();
        for fact in facts {
            match fact {
                Fact::Voided(b) | Fact::Restored(b) => {
                    for event in self.store.events_of(b.act)? {
                        event.fact.subjects().into_iter().for_each(|subject| touched.note(subject));
                    }
                }
                _ => fact.subjects().into_iter().for_each(|subject| touched.note(subject)),
            }
        }
        self.touched.add(touched);
        Ok(())
    }
}
