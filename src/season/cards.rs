//! Boxes as they are shown: a line of each, a card of one.

use std::collections::BTreeMap;

use super::watch::Watch;
use super::{ActError, Season};
use crate::model::category::Category;
use crate::model::checklist::{Held, gaps, is_full};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::model::profile::Profile;
use crate::model::rows::{BoxRow, LotRow, PlacementRow};
use crate::report::Sum;
use crate::report::boxes::{BoxCard, BoxLine, BoxList, Cell, Content};
use crate::store::{InBox, Store};

impl<S: Store> Season<S> {
    /// All boxes that still stand on the plan.
    pub fn box_list(&self) -> Result<BoxList, ActError> {
        Ok(BoxList { boxes: self.box_lines(&self.profile()?)? })
    }

    /// One box with all that is in it.
    pub fn box_card(&self, label: &str) -> Result<BoxCard, ActError> {
        self.card(&self.box_called(label)?)
    }

    /// The same for a box named by id.
    pub fn box_card_of(&self, giftbox: BoxId) -> Result<BoxCard, ActError> {
        self.card(&self.box_row(giftbox)?)
    }

    fn card(&self, row: &BoxRow) -> Result<BoxCard, ActError> {
        let profile = self.profile()?;
        let held = self.store.placements_in(row.giftbox)?;
        let mut lots = BTreeMap::new();
        for placed in &held {
            lots.extend(self.store.lot(placed.lot)?.map(|lot| (lot.lot, lot)));
        }
        let contents = in_order(&held).into_iter().map(|placed| content(placed, &held, &lots, &profile)).collect();
        let cautions = self.cautions_of(row, &Watch::new(&profile, &self.catalogue))?;
        Ok(BoxCard { line: box_line(row, &self.store.in_box(row.giftbox)?, &profile), contents, cautions })
    }

    /// A line of each box that still stands on the plan; what is in boxes is read at one go.
    pub(super) fn box_lines(&self, profile: &Profile) -> Result<Vec<BoxLine>, ActError> {
        let held = self.held_by_box()?;
        let rows = self.store.boxes()?.into_iter().filter(|row| row.state != BoxState::Dropped);
        let line = |row: BoxRow| {
            let held = held.get(&row.giftbox).map(Vec::as_slice).unwrap_or_default();
            box_line(&row, held, profile)
        };
        Ok(rows.map(line).collect())
    }

    /// A line of one box.
    pub(super) fn box_line(&self, row: &BoxRow) -> Result<BoxLine, ActError> {
        Ok(box_line(row, &self.store.in_box(row.giftbox)?, &self.profile()?))
    }

    /// What is in or for each box that holds anything.
    pub(super) fn held_by_box(&self) -> Result<BTreeMap<BoxId, Vec<InBox>>, ActError> {
        let mut by_box: BTreeMap<BoxId, Vec<InBox>> = BTreeMap::new();
        for held in self.store.in_boxes()? {
            by_box.entry(held.giftbox).or_default().push(held);
        }
        Ok(by_box)
    }

    /// A box's things as its checklist sees them.
    pub(super) fn held_in(&self, row: &BoxRow) -> Result<Vec<Held>, ActError> {
        Ok(self.store.in_box(row.giftbox)?.into_iter().map(|held| held.held).collect())
    }
}

fn box_line(row: &BoxRow, in_box: &[InBox], profile: &Profile) -> BoxLine {
    let held: Vec<Held> = in_box.iter().map(|held| held.held.clone()).collect();
    let checklist = profile.band(row.facts.ages).map(|band| band.checklist.as_slice()).unwrap_or_default();
    let gaps = gaps(checklist, &held);
    BoxLine {
        label: row.label(),
        for_whom: row.facts.whom().to_owned(),
        ages: row.facts.ages.to_string(),
        theme: row.facts.theme.clone(),
        palette: row.facts.palette.clone(),
        state: row.state.to_string(),
        standing: row.state,
        full: !gaps.is_empty() && is_full(&gaps),
        checklist: gaps.iter().map(Cell::of).collect(),
        things: held.iter().map(|held| held.units).sum::<Units>().count(),
        aside: held.iter().map(|held| held.aside).sum::<Units>().count(),
        cost: Sum::of(in_box.iter().map(|held| held.cost).sum(), profile.currency),
        giftbox: row.giftbox,
        facts: row.facts.clone(),
    }
}

/// In the order it came, but what is tucked into a holder follows it; a holder that left lets its things stand alone.
fn in_order(held: &[PlacementRow]) -> Vec<&PlacementRow> {
    let mut ordered: Vec<&PlacementRow> = held.iter().filter(|row| row.inside.is_none()).collect();
    for tucked in held.iter().filter(|row| row.inside.is_some()) {
        let holder = ordered.iter().rposition(|row| {
            Some(row.placement) == tucked.inside || (row.inside == tucked.inside && row.inside.is_some())
        });
        ordered.insert(holder.map_or(ordered.len(), |index| index + 1), tucked);
    }
    ordered
}

fn content(placed: &PlacementRow, held: &[PlacementRow], lots: &BTreeMap<LotId, LotRow>, profile: &Profile) -> Content {
    let lot = lots.get(&placed.lot);
    let facts = lot.map(|lot| lot.facts.clone()).unwrap_or_default();
    let holder = held.iter().find(|row| Some(row.placement) == placed.inside);
    let cost = lot.map(|lot| lot.known(placed.cost, placed.units)).unwrap_or_default();
    Content {
        name: facts.title(),
        category: if placed.wow { Some(Category::Wow) } else { facts.category },
        units: placed.units.count(),
        aside: placed.aside.count(),
        wow: placed.wow,
        inside: holder.and_then(|row| lots.get(&row.lot)).map(|lot| lot.facts.title()).unwrap_or_default(),
        why: placed.why.clone(),
        tote: facts.tote.filter(|_| !placed.aside.is_zero()).unwrap_or_default(),
        cost: Sum::of(cost, profile.currency),
        lot: placed.lot,
        placement: placed.placement,
        holder: holder.map(|row| row.placement),
    }
}
