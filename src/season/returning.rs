//! Things that go back to the shop: which batches they come out of.

use super::{ActError, Season};
use crate::catalogue::likely_singular;
use crate::model::commit::Refusal;
use crate::model::id::LotId;
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::rows::LotRow;
use crate::model::share::allot;
use crate::model::text::normal;
use crate::reading::Reading;
use crate::store::Store;

/// Units of a batch that went back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Back {
    /// The batch.
    pub lot: LotId,
    /// How many.
    pub units: Units,
    /// What was given back for them.
    pub refund: Money,
}

impl<S: Store> Season<S> {
    /// Out of which batches a returned thing comes: those of its name, colour and size that no box
    /// holds; those bought in this shop first, then the newest.
    pub(super) fn backs(&self, reading: &Reading, shop: &str) -> Result<Vec<Back>, ActError> {
        let wanted = reading.units.unwrap_or(Units::ZERO);
        let mut lots: Vec<(bool, LotRow)> = Vec::new();
        for lot in self.store.lots()?.into_iter().filter(|lot| !lot.withdrawn && means(reading, lot)) {
            let row = lot.haul.map(|haul| self.store.haul(haul)).transpose()?.flatten();
            let here = row.is_some_and(|row| !shop.is_empty() && normal(&row.facts.shop) == normal(shop));
            lots.push((here, lot));
        }
        let of_them: Units = lots.iter().map(|(_, lot)| lot.free()).sum();
        lots.retain(|(_, lot)| !lot.free().is_zero());
        one_thing(reading, &lots)?;
        if of_them < wanted {
            let aside = lots.iter().map(|(_, lot)| lot.standing.aside).sum();
            return Err(Refusal::NotEnough { name: reading.name.clone(), free: of_them, wanted, aside }.into());
        }
        lots.sort_by_key(|(here, lot)| (std::cmp::Reverse(*here), std::cmp::Reverse(lot.added)));
        Ok(spread(wanted, reading.paid.unwrap_or(Money::ZERO), lots.iter().map(|(_, lot)| (lot.lot, lot.free()))))
    }
}

/// Whether a batch may be the one that the words mean: what they don't say may be anything.
fn means(reading: &Reading, lot: &LotRow) -> bool {
    let same_name = likely_singular(&normal(&reading.name)) == likely_singular(&normal(&lot.facts.name));
    let size = reading.size.is_none() || reading.size == lot.facts.size;
    let whom = reading.for_whom.is_none() || reading.for_whom == lot.facts.for_whom;
    same_name && size && whom && reading.colours.iter().all(|colour| lot.facts.colours.contains(colour))
}

/// Refuses words that mean several different things.
fn one_thing(reading: &Reading, lots: &[(bool, LotRow)]) -> Result<(), ActError> {
    let mut titles: Vec<String> = lots.iter().map(|(_, lot)| lot.facts.title()).collect();
    titles.sort();
    titles.dedup();
    match titles.len() {
        0 | 1 => Ok(()),
        _ => Err(ActError::Unclear { words: reading.name.clone(), could_be: titles, by_handle: false }),
    }
}

/// Takes so many out of the batches in turn; what was given back goes by their units.
fn spread(mut wanted: Units, refund: Money, lots: impl Iterator<Item = (LotId, Units)>) -> Vec<Back> {
    let mut backs = Vec::new();
    for (lot, free) in lots {
        let units = wanted.min(free);
        wanted -= units;
        if !units.is_zero() {
            backs.push(Back { lot, units, refund: Money::ZERO });
        }
    }
    let weights: Vec<u64> = backs.iter().map(|back| back.units.count().into()).collect();
    for (back, refund) in backs.iter_mut().zip(allot(refund, &weights)) {
        back.refund = refund;
    }
    backs
}
