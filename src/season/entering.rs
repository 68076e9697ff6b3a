//! Before a thing goes into a box: what speaks against it stops it, or asks for a second look.

use std::collections::{BTreeMap, BTreeSet};

use super::watch::{Inspected, stops};
use super::{ActError, Season};
use crate::cautions::{CLOSING, Caution, rule};
use crate::model::age::Ages;
use crate::model::fact::{Fact, PlacementField};
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::model::lot::LotFacts;
use crate::model::rows::BoxRow;
use crate::model::rules::Level;
use crate::store::Store;

/// A caution on a thing that is about to go into a box.
#[derive(Debug, Clone)]
pub struct Stopped {
    /// The box.
    pub label: String,
    /// Its ages.
    pub ages: Ages,
    /// What speaks against it.
    pub caution: Caution,
}

impl Stopped {
    /// In one line, without the reason.
    pub fn brief(&self) -> String {
        format!("{}: {}, box {} for {}.", self.caution.thing, self.caution.level.words(), self.label, self.ages)
    }

    /// With the reason, its source, and who decides.
    pub fn whole(&self) -> String {
        format!("{} {} Source: {}. {CLOSING}", self.brief(), self.caution.text, self.caution.source)
    }
}

/// One thing on its way into a box.
struct Entering {
    placement: PlacementId,
    lot: LotId,
    giftbox: BoxId,
}

/// What the facts of one act say beside what is kept already.
#[derive(Default)]
struct Said {
    entering: Vec<Entering>,
    lots: BTreeMap<LotId, LotFacts>,
    boxes: BTreeMap<BoxId, (String, Ages)>,
    allowed: BTreeSet<PlacementId>,
}

impl Said {
    fn by(facts: &[Fact]) -> Said {
        let mut said = Said::default();
        for fact in facts {
            match fact {
                Fact::SetAside(b) | Fact::PutIn(b) => {
                    said.entering.push(Entering { placement: b.placement, lot: b.lot, giftbox: b.giftbox });
                }
                Fact::Moved(b) => {
                    said.entering.push(Entering { placement: b.to_placement, lot: b.lot, giftbox: b.to_box });
                }
                Fact::LotAdded(b) => _ = said.lots.insert(b.lot, b.facts.clone()),
                Fact::BoxPlanned(b) => {
                    _ = said.boxes.insert(b.giftbox, (b.facts.number.to_string(), b.facts.ages));
                }
                Fact::PlacementMended(b) if b.set.iter().any(allows) => _ = said.allowed.insert(b.placement),
                _ => {}
            }
        }
        said
    }
}

fn allows(field: &PlacementField) -> bool {
    matches!(field, PlacementField::Allowed(why) if !why.is_empty())
}

impl<S: Store> Season<S> {
    /// What speaks against each thing that these facts bring into a box and that nobody has allowed there.
    pub(super) fn looked_over(&self, facts: &[Fact]) -> Result<Vec<(PlacementId, Stopped)>, ActError> {
        let mut said = Said::by(facts);
        let mut found = Vec::new();
        if said.entering.is_empty() {
            return Ok(found);
        }
        let watch = self.watch()?;
        let mut seen = BTreeSet::new();
        for Entering { placement, lot, giftbox } in std::mem::take(&mut said.entering) {
            if !seen.insert((lot, giftbox)) || said.allowed.contains(&placement) || self.is_allowed(lot, giftbox)? {
                continue;
            }
            let Some((label, ages)) = self.box_said(&said, giftbox)? else { continue };
            let thing = match said.lots.get(&lot) {
                Some(facts) => Inspected { facts: facts.clone(), parts: Vec::new() },
                None => match self.store.lot(lot)? {
                    Some(row) => self.inspected(lot, row.facts)?,
                    None => continue,
                },
            };
            let stopped = |caution| (placement, Stopped { label: label.clone(), ages, caution });
            found.extend(watch.cautions(&thing, ages).into_iter().map(stopped));
        }
        Ok(found)
    }

    /// What an act that brings things into boxes is told to look at twice; an error, if one may not go in.
    pub(super) fn remarks_on(&self, facts: &[Fact]) -> Result<Vec<String>, ActError> {
        let mut notes: Vec<String> = Vec::new();
        for (_, stopped) in self.looked_over(facts)? {
            if stops(stopped.caution.level) {
                return Err(ActError::Careful(Box::new(stopped)));
            }
            let words = format!("Look twice: {}, {}.", stopped.caution.thing, about(&stopped.caution));
            if stopped.caution.level == Level::LookTwice && !notes.contains(&words) {
                notes.push(words);
            }
        }
        Ok(notes)
    }

    fn box_said(&self, said: &Said, giftbox: BoxId) -> Result<Option<(String, Ages)>, ActError> {
        let known = said.boxes.get(&giftbox).cloned();
        Ok(match known {
            Some(known) => Some(known),
            None => self.store.giftbox(giftbox)?.map(|row| (row.label(), row.facts.ages)),
        })
    }

    /// Whether somebody allowed this batch in this box.
    fn is_allowed(&self, lot: LotId, giftbox: BoxId) -> Result<bool, ActError> {
        let there = self.store.placements_in(giftbox)?;
        Ok(there.iter().any(|row| row.lot == lot && row.allowed.is_some()))
    }

    /// Leaves out of the facts what may not go into its box; says what was left out, a sentence each.
    pub(super) fn leave_out_stopped(&self, facts: &mut Vec<Fact>) -> Result<Vec<String>, ActError> {
        let found = self.looked_over(facts)?;
        let stopped: Vec<_> = found.iter().filter(|(_, stopped)| stops(stopped.caution.level)).collect();
        let out: BTreeSet<PlacementId> = stopped.iter().map(|(placement, _)| *placement).collect();
        facts.retain(|fact| !matches!(fact, Fact::SetAside(b) | Fact::PutIn(b) if out.contains(&b.placement)));
        let mut told: Vec<String> = Vec::new();
        for (_, stopped) in stopped {
            let words = format!("Not set aside: {}", stopped.brief());
            if !told.contains(&words) {
                told.push(words);
            }
        }
        Ok(told)
    }

    /// What to look at twice before units of these batches go into these boxes; what a box has of them
    /// already was looked at.
    pub fn to_look_at(&self, boxes: &[BoxId], lots: &[LotId]) -> Result<Vec<Stopped>, ActError> {
        let watch = self.watch()?;
        let mut found: Vec<Stopped> = Vec::new();
        for giftbox in boxes {
            let Some(row) = self.store.giftbox(*giftbox)? else { continue };
            let there = self.store.placements_in(*giftbox)?;
            if there.iter().any(|held| lots.contains(&held.lot)) {
                continue;
            }
            for lot in lots {
                let Some(thing) = self.store.lot(*lot)?.filter(|row| !row.free().is_zero()) else { continue };
                let cautions = watch.cautions(&self.inspected(*lot, thing.facts)?, row.facts.ages);
                for caution in cautions.into_iter().filter(|caution| caution.level == Level::LookTwice) {
                    found.push(Stopped { label: row.label(), ages: row.facts.ages, caution });
                }
            }
        }
        found.dedup_by(|one, other| one.caution == other.caution);
        Ok(found)
    }

    /// A box that holds what may not be in it isn't closed.
    pub(super) fn may_close(&self, row: &BoxRow) -> Result<(), ActError> {
        let found = self.cautions_of(row, &self.watch()?)?;
        match found.iter().find(|row| row.stops()) {
            None => Ok(()),
            Some(first) => Err(ActError::Nothing(format!(
                "Box {} holds {}: {}. Take it out, or allow it with a reason that is kept.",
                first.label, first.thing, first.level
            ))),
        }
    }
}

/// What its rule is about, in a few words.
fn about(caution: &Caution) -> &'static str {
    rule(&caution.rule).map_or("a rule of the drive's", |rule| rule.about)
}
