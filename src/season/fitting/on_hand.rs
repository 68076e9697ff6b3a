//! What is on hand for a box: what it still needs, and what could be in it instead of what is.

use super::measured::Measured;
use super::sizes::Sizes;
use crate::model::category::Category;
use crate::model::checklist::{Gap, gaps};
use crate::model::profile::{Profile, Wanted};
use crate::model::rows::BoxRow;
use crate::report::boxes::BoxCard;
use crate::season::{ActError, Season, Shelf, Ware, offers};
use crate::store::Store;

/// How many things on hand are tried for each line that the box still needs.
const OFFERED: usize = 5;
/// How many things on hand are looked at for each category of what is in the box.
const OTHERS: usize = 8;

/// What one has to know of a box to look through the stock for it.
pub(super) struct Before<'a> {
    pub card: &'a BoxCard,
    pub profile: &'a Profile,
    pub sizes: &'a Sizes,
}

impl<S: Store> Season<S> {
    /// Things on hand that would fill what the box still needs.
    pub(super) fn needed_by(&self, row: &BoxRow, at: &Before<'_>, shelf: &Shelf) -> Result<Vec<Measured>, ActError> {
        let mut needed: Vec<Measured> = Vec::new();
        for gap in self.open_gaps(row, at.profile)? {
            let found = offers(shelf.wares(), at.card, at.profile, Some(&gap.line.of), OFFERED);
            for offer in found {
                let measured = self.offered(&offer.ware, 1, at.sizes)?;
                let new = measured.filter(|it| needed.iter().all(|known| known.thing.name != it.thing.name));
                needed.extend(new);
            }
        }
        Ok(needed)
    }

    /// What the box still needs.
    pub(super) fn open_gaps(&self, row: &BoxRow, profile: &Profile) -> Result<Vec<Gap>, ActError> {
        let checklist = profile.band(row.facts.ages).map(|band| band.checklist.as_slice()).unwrap_or_default();
        let gaps = gaps(checklist, &self.held_in(row)?);
        Ok(gaps.into_iter().filter(|gap| row.state.is_open() && gap.needs() > 0).collect())
    }

    /// Things on hand that count for the same as some of what is in the box.
    pub(super) fn others_for(
        &self,
        things: &[Measured],
        at: &Before<'_>,
        shelf: &Shelf,
    ) -> Result<Vec<Measured>, ActError> {
        let mut categories: Vec<Category> = things.iter().filter_map(|measured| measured.category.clone()).collect();
        categories.sort();
        categories.dedup();
        let mut others: Vec<Measured> = Vec::new();
        for category in categories {
            let line = Wanted::Category(category.clone());
            let found = offers(shelf.wares(), at.card, at.profile, Some(&line), OTHERS);
            for offer in found.iter().filter(|offer| offer.ware.free() > 0) {
                let count = u16::try_from(offer.ware.free()).unwrap_or(u16::MAX);
                let measured = self.offered(&offer.ware, count, at.sizes)?;
                others.extend(measured.map(|it| Measured { category: Some(category.clone()), ..it }));
            }
        }
        Ok(others)
    }

    fn offered(&self, ware: &Ware, count: u16, sizes: &Sizes) -> Result<Option<Measured>, ActError> {
        let Some(lot) = ware.lots.first() else { return Ok(None) };
        let row = self.store.lot(*lot)?;
        Ok(row.map(|row| Measured { lot: Some(*lot), ..self.measure(&row.facts, count, sizes) }))
    }
}
