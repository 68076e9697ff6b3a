//! What acts changed, so that whoever shows it need read only that anew.

use std::collections::BTreeSet;

use super::Season;
use crate::model::event::Subject;
use crate::model::fact::Fact;
use crate::model::id::{BoxId, HaulId, LotId};
use crate::store::{Store, StoreError};

/// What was changed since it was last asked.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Touched {
    /// Batches.
    pub lots: BTreeSet<LotId>,
    /// Boxes.
    pub boxes: BTreeSet<BoxId>,
    /// Hauls.
    pub hauls: BTreeSet<HaulId>,
    /// Whether the drive's rules were, or what was learned: lines may read otherwise.
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
            Subject::Profile | Subject::Lessons => self.rules = true,
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
    pub(super) fn touch(&mut self, facts: &[Fact]) {
        let all = Touched { all: true, ..Touched::default() };
        // The act is kept; if it can't be told what it changed, anything may have.
        let touched = reached(&self.store, facts).unwrap_or(all);
        if touched.rules || touched.all {
            self.relearn();
        }
        self.touched.add(touched);
    }
}

/// All that the facts of an act change: what they speak of, and what follows from it.
fn reached(store: &impl Store, facts: &[Fact]) -> Result<Touched, StoreError> {
    let mut touched = Touched::default();
    let mut reprices = false;
    let mut note = |fact: &Fact| {
        reprices |= matches!(fact, Fact::HaulLogged(_) | Fact::HaulMended(_) | Fact::LotMended(_) | Fact::LotAdded(_));
        fact.subjects().into_iter().for_each(|subject| touched.note(subject));
    };
    for fact in facts {
        match fact {
            Fact::Voided(b) | Fact::Restored(b) => store.events_of(b.act)?.iter().for_each(|event| note(&event.fact)),
            _ => note(fact),
        }
    }
    if reprices {
        share_anew(store, &mut touched)?;
    }
    pass_on(store, &mut touched)?;
    for lot in &touched.lots {
        touched.boxes.extend(store.placements_of(*lot)?.iter().map(|placed| placed.giftbox));
    }
    share_numbers(store, &mut touched)?;
    Ok(touched)
}

/// One line's price or a haul's tax changes what the other lines cost.
fn share_anew(store: &impl Store, touched: &mut Touched) -> Result<(), StoreError> {
    let mut hauls = touched.hauls.clone();
    for lot in &touched.lots {
        hauls.extend(store.lot(*lot)?.and_then(|row| row.haul));
    }
    for haul in hauls {
        touched.lots.extend(store.lots_of(haul)?.iter().map(|row| row.lot));
    }
    Ok(())
}

/// What is made of a batch costs what it cost there.
fn pass_on(store: &impl Store, touched: &mut Touched) -> Result<(), StoreError> {
    let mut queue: Vec<LotId> = touched.lots.iter().copied().collect();
    while let Some(lot) = queue.pop() {
        if store.lot(lot)?.is_some_and(|row| row.standing.passed.is_zero()) {
            continue;
        }
        for told in store.events_about(Subject::Lot(lot))? {
            let made = match &told.event.fact {
                Fact::Split(b) if b.lot == lot => vec![b.into],
                Fact::KitMade(b) if b.into != lot => vec![b.into],
                Fact::Parted(b) if b.lot == lot => b.into.iter().map(|out| out.lot).collect(),
                _ => continue,
            };
            queue.extend(made.into_iter().filter(|made| touched.lots.insert(*made)));
        }
    }
    Ok(())
}

/// Boxes of one number are told apart by letters, which may change with any of them.
fn share_numbers(store: &impl Store, touched: &mut Touched) -> Result<(), StoreError> {
    for giftbox in touched.boxes.clone() {
        if let Some(row) = store.giftbox(giftbox)? {
            touched.boxes.extend(store.boxes_numbered(row.facts.number)?.iter().map(|row| row.giftbox));
        }
    }
    Ok(())
}
