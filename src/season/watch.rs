//! Looking at batches with the rules on what to be careful of.

use std::sync::Arc;

use super::ware::Mark;
use super::{ActError, Season};
use crate::catalogue::Catalogue;
use crate::cautions::{Caution, Child, Looked, When, judge};
use crate::model::age::Ages;
use crate::model::event::Subject;
use crate::model::fact::Fact;
use crate::model::id::LotId;
use crate::model::lot::{LotFacts, Source};
use crate::model::profile::Profile;
use crate::model::rules::{DriveRule, Level};
use crate::store::Store;

/// How many kits within kits are looked into.
const DEEPEST: usize = 4;

/// A batch with what kits of it hold.
#[derive(Debug, Clone, Default)]
pub(super) struct Inspected {
    pub facts: LotFacts,
    pub parts: Vec<LotFacts>,
}

/// All that judging takes beside the things.
pub(super) struct Watch {
    catalogue: Arc<Catalogue>,
    rules: Vec<DriveRule>,
    bands: Vec<Ages>,
    when: When,
}

impl Watch {
    pub(super) fn new(profile: &Profile, catalogue: &Arc<Catalogue>) -> Watch {
        // Whatever is handed in last is opened last.
        let last = profile.drop_off.iter().max();
        let when = last.map(|day| When::after(*day, profile.travel_days.unwrap_or(0))).unwrap_or_default();
        Watch {
            catalogue: Arc::clone(catalogue),
            rules: profile.rules.clone(),
            bands: profile.bands.iter().map(|band| band.ages).collect(),
            when,
        }
    }

    /// What to be careful of in a thing for a child of these ages, the strictest first.
    pub(super) fn cautions(&self, thing: &Inspected, ages: Ages) -> Vec<Caution> {
        let mut looked = self.looked(&thing.facts);
        looked.holds = thing.parts.iter().map(|part| self.looked(part)).collect();
        judge(&looked, &Child::from(ages), &self.when, &self.rules)
    }

    /// The strictest caution for each age group that has one.
    pub(super) fn marks(&self, thing: &Inspected) -> Box<[Mark]> {
        let strictest = |ages: &Ages| {
            let level = self.cautions(thing, *ages).first().map(|caution| caution.level)?;
            Some(Mark { ages: *ages, level })
        };
        self.bands.iter().filter_map(strictest).collect()
    }

    fn looked<'a>(&'a self, facts: &'a LotFacts) -> Looked<'a> {
        let kind = facts.kind.as_deref().and_then(|kind| self.catalogue.named(kind));
        Looked::of(facts, kind)
    }
}

/// Whether a thing with such a caution stays out of a box until somebody allows it.
pub(super) fn stops(level: Level) -> bool {
    level >= Level::NotForAge
}

/// Whether a batch is of kits: made as such, or several batches of them made one.
fn holds_things(source: Source) -> bool {
    matches!(source, Source::Kit | Source::Joined)
}

impl<S: Store> Season<S> {
    pub(super) fn watch(&self) -> Result<Watch, ActError> {
        Ok(Watch::new(&self.profile()?, &self.catalogue))
    }

    /// A batch with what a kit of it holds.
    pub(super) fn inspected(&self, lot: LotId, facts: LotFacts) -> Result<Inspected, ActError> {
        let mut parts = Vec::new();
        if holds_things(facts.source) {
            self.parts_into(lot, &mut parts, DEEPEST)?;
        }
        Ok(Inspected { facts, parts })
    }

    fn parts_into(&self, kit: LotId, parts: &mut Vec<LotFacts>, deep: usize) -> Result<(), ActError> {
        let told = self.store.events_about(Subject::Lot(kit))?;
        let made = told.iter().find_map(|told| match &told.event.fact {
            Fact::KitMade(made) if made.into == kit => Some(made),
            _ => None,
        });
        for part in made.iter().flat_map(|made| &made.parts) {
            let Some(row) = self.store.lot(part.lot)? else { continue };
            if holds_things(row.facts.source) && deep > 0 {
                self.parts_into(part.lot, parts, deep - 1)?;
            }
            parts.push(row.facts);
        }
        Ok(())
    }
}
