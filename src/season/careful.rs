//! What to be careful of, when one asks for it; allowing a thing all the same, and what one act can do about it.

use super::watch::{Watch, stops};
use super::{ActError, Done, Season, Which};
use crate::cautions::{CLOSING, Caution, Remedy};
use crate::model::age::Ages;
use crate::model::fact::{Fact, LotMended, PartOut, Parted, PlacementField, PlacementMended, Placing};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId};
use crate::model::lot::{LotFacts, LotField, Source};
use crate::model::measure::Units;
use crate::model::rows::{Allowance, BoxRow, PlacementRow};
use crate::model::text::{clean, counted};
use crate::report::cautions::{CautionRow, Cautions, Way};
use crate::store::Store;

impl<S: Store> Season<S> {
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
            many => counted(many.len() as u64, "box", "boxes"),
        };
        Ok(Cautions { cautions, closing: CLOSING, about })
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
