//! Cautions where they matter: before a thing goes into a box, and when one asks for them.

use std::collections::{BTreeMap, BTreeSet};

use super::watch::{Inspected, Watch, stops};
use super::{ActError, Done, Season, Which};
use crate::cautions::{CLOSING, Caution, Remedy, rule};
use crate::model::age::Ages;
use crate::model::fact::{Fact, LotMended, PartOut, Parted, PlacementField, PlacementMended, Placing};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::model::lot::{LotFacts, LotField, Source};
use crate::model::measure::Units;
use crate::model::rows::{Allowance, BoxRow, PlacementRow};
use crate::model::rules::Level;
use crate::model::text::clean;
use crate::report::cautions::{CautionRow, Cautions, Way};
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

    /// What to be careful of in a box; in all boxes that stand on the plan, if none is named.
    pub fn cautions_in(&self, label: Option<&str>, all: bool) -> Result<Cautions, ActError> {
        let shown = |row: &BoxRow| row.state.is_open() || all && row.state != BoxState::Dropped;
        let rows: Vec<BoxRow> = if let Some(label) = label {
            vec![self.box_called(label)?]
        } else {
            self.store.boxes()?.into_iter().filter(shown).collect()
        };
        let watch = self.watch()?;
        let mut cautions = Vec::new();
        for row in &rows {
            cautions.extend(self.cautions_of(row, &watch)?);
        }
        let about = match rows.as_slice() {
            [one] => format!("box {}", one.label()),
            many => crate::model::text::counted(many.len() as u64, "box", "boxes"),
        };
        Ok(Cautions { cautions, closing: CLOSING, about })
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

    /// What to be careful of in a box named by id.
    pub fn cautions_in_box(&self, giftbox: BoxId) -> Result<Cautions, ActError> {
        let row = self.box_row(giftbox)?;
        let cautions = self.cautions_of(&row, &self.watch()?)?;
        Ok(Cautions { cautions, closing: CLOSING, about: format!("box {}", row.label()) })
    }

    /// What to be careful of in one box, the strictest first.
    pub(super) fn cautions_of(&self, row: &BoxRow, watch: &Watch) -> Result<Vec<CautionRow>, ActError> {
        let held = self.store.placements_in(row.giftbox)?;
        let mut found: Vec<CautionRow> = Vec::new();
        for placed in &held {
            let Some(lot) = self.store.lot(placed.lot)? else { continue };
            let allowed = held.iter().filter(|other| other.lot == placed.lot).find_map(|other| other.allowed.as_ref());
            let thing = self.inspected(placed.lot, lot.facts)?;
            for caution in watch.cautions(&thing, row.facts.ages) {
                let allowed = allowed.filter(|_| stops(caution.level));
                let mut new = told(caution, row.facts.ages, vec![placed.lot], allowed);
                new.label = row.label();
                new.giftbox = Some(row.giftbox);
                match found.iter_mut().find(|known| (&known.thing, &known.rule) == (&new.thing, &new.rule)) {
                    Some(known) if known.lots.contains(&placed.lot) => {}
                    Some(known) => known.lots.push(placed.lot),
                    None => found.push(new),
                }
            }
        }
        found.sort_by_key(|row| std::cmp::Reverse(row.level));
        Ok(found)
    }

    /// What to be careful of in a thing, for each age group of the drive.
    pub fn cautions_with<'a>(&self, which: impl Into<Which<'a>>) -> Result<Cautions, ActError> {
        let (watch, profile) = (self.watch()?, self.profile()?);
        let thing = self.known(which.into())?;
        let mut cautions: Vec<CautionRow> = Vec::new();
        for band in &profile.bands {
            for lot in &thing.lots {
                let looked = self.inspected(lot.lot, lot.facts.clone())?;
                for caution in watch.cautions(&looked, band.ages) {
                    let new = told(caution, band.ages, vec![lot.lot], None);
                    let same = |known: &&mut CautionRow| (&known.ages, &known.rule) == (&new.ages, &new.rule);
                    match cautions.iter_mut().find(same) {
                        Some(known) => known.lots.push(lot.lot),
                        None => cautions.push(new),
                    }
                }
            }
        }
        Ok(Cautions { cautions, closing: CLOSING, about: thing.title })
    }

    /// Allows a thing in a box though a caution speaks against it; the reason is kept. An empty one takes it back.
    pub fn allow<'a>(&mut self, giftbox: &str, which: impl Into<Which<'a>>, why: &str) -> Result<Done, ActError> {
        let row = self.box_called(giftbox)?;
        let why = clean(why.trim());
        let held = self.held_as(&row, which.into())?;
        let facts: Vec<Fact> = held.iter().map(|placed| allowing(placed, &why)).collect();
        self.act(&facts)
    }

    /// Does what one act can do about a caution: takes the part out, or keeps the thing for older children.
    /// What is in the box of it, or set aside for it, goes back to its tote by the same act.
    pub fn remedy(&mut self, giftbox: Option<BoxId>, lots: &[LotId], way: &Way) -> Result<Done, ActError> {
        let mut facts = Vec::new();
        for placed in giftbox.map(|giftbox| self.store.placements_in(giftbox)).transpose()?.unwrap_or_default() {
            if lots.contains(&placed.lot) {
                facts.extend(leaving(&placed));
            }
        }
        for lot in lots {
            let Some(row) = self.store.lot(*lot)? else { continue };
            let back: Units = facts.iter().filter_map(|fact| came_back(fact, *lot)).sum();
            match way {
                Way::None => return Err(ActError::Nothing("That is for you to look at and decide.".to_owned())),
                Way::KeepForOlder(age) => {
                    let ages = Ages::new(*age, None);
                    facts.push(Fact::LotMended(LotMended { lot: *lot, set: vec![LotField::Ages(ages)] }));
                }
                Way::TakePartOut(part) => facts.extend(self.without_part(*lot, &row.facts, row.free() + back, part)),
            }
        }
        self.act(&facts)
    }

    /// Units of a batch without a part, which is let go: it costs nothing and is of no use.
    fn without_part(&mut self, lot: LotId, facts: &LotFacts, units: Units, part: &str) -> Option<Fact> {
        let mut rest =
            LotFacts { source: Source::Part, units, paid: None, regular: None, packs: None, ..facts.clone() };
        rest.lacks.push(part.to_owned());
        let into = vec![PartOut { lot: self.ids.lot(), facts: rest, share: 100 }];
        (!units.is_zero()).then_some(Fact::Parted(Parted { lot, units, into }))
    }
}

/// What its rule is about, in a few words.
fn about(caution: &Caution) -> &'static str {
    rule(&caution.rule).map_or("a rule of the drive's", |rule| rule.about)
}

fn allowing(placed: &PlacementRow, why: &str) -> Fact {
    let PlacementRow { placement, lot, giftbox, .. } = *placed;
    let set = vec![PlacementField::Allowed(why.to_owned())];
    Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set })
}

/// The facts by which all of a placement leaves its box.
fn leaving(placed: &PlacementRow) -> Vec<Fact> {
    let PlacementRow { placement, lot, giftbox, units, aside, .. } = *placed;
    let mut facts = Vec::new();
    if !units.is_zero() {
        facts.push(Fact::TakenBack(Placing { placement, lot, giftbox, units }));
    }
    if !aside.is_zero() {
        facts.push(Fact::LetGo(Placing { placement, lot, giftbox, units: aside }));
    }
    facts
}

fn came_back(fact: &Fact, of: LotId) -> Option<Units> {
    match fact {
        Fact::TakenBack(b) | Fact::LetGo(b) if b.lot == of => Some(b.units),
        _ => None,
    }
}

fn told(caution: Caution, ages: Ages, lots: Vec<LotId>, allowed: Option<&Allowance>) -> CautionRow {
    let way = match caution.remedy {
        Remedy::TakePartOut(part) => Way::TakePartOut(part.to_owned()),
        Remedy::KeepForOlder(age) => Way::KeepForOlder(age),
        _ => Way::None,
    };
    CautionRow {
        label: String::new(),
        ages: ages.to_string(),
        thing: caution.thing,
        level: caution.level,
        rule: caution.rule,
        text: caution.text,
        source: caution.source,
        remedy: caution.remedy.words(),
        sheet: caution.sheet,
        allowed: allowed.map(|allowed| allowed.why.clone()).unwrap_or_default(),
        allowed_by: allowed.map(|allowed| allowed.by.clone()).unwrap_or_default(),
        giftbox: None,
        lots,
        way,
    }
}
