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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::fact::Fact;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::model::project::Tables;
    use crate::season::{Desk, LogHow, Moment, NotLogged};
    use crate::store::Memory;

    fn season() -> Season<Memory> {
        let mut ids = CountedIds::new(0x81);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: jiff::civil::date(2027, 1, 15) };
        let mut season = Season::new(store, Box::new(ids), desk, moment);
        for haul in
            ["at Corner Bazaar, 2027-01-02\n4 combs 1.00\n2 leggings navy size 7-8 3.00", "at Green Gate\n2 combs .30"]
        {
            season.log(haul, &LogHow::default()).unwrap();
        }
        season
    }

    fn log(season: &mut Season<Memory>, text: &str) -> Result<String, String> {
        match season.log(text, &LogHow::default()) {
            Ok(logged) => Ok(logged.done.said),
            Err(NotLogged::Act(error)) => Err(error.to_string()),
            Err(error) => Err(format!("{error:?}")),
        }
    }

    /// Of each batch: its name, what is on hand, what that cost, and what went back at which cost.
    fn stands(season: &Season<Memory>) -> Vec<String> {
        let stands = |lot: &LotRow| {
            let s = &lot.standing;
            let (on_hand, back) = (s.on_hand_cost.minor(), s.returned_cost.minor());
            format!("{}: {} {on_hand}, back {} {back}", lot.facts.name, s.on_hand, s.returned)
        };
        season.store().lots().unwrap().iter().map(stands).collect()
    }

    #[test]
    fn it_comes_out_of_what_was_bought_in_that_shop_first() {
        let mut season = season();
        let said = log(&mut season, "at Corner Bazaar\nreturned 3 combs 0.80").unwrap();
        assert_eq!(said, "Returned 3 combs, 0.80 given back.");
        assert_eq!(stands(&season), ["combs: 1 25, back 3 75", "leggings: 2 300, back 0 0", "combs: 2 30, back 0 0"]);
        let hauls = season.hauls().unwrap().hauls;
        assert_eq!(hauls.last().unwrap().paid.words(), "-0.80");
        let costs = season.costs().unwrap();
        assert_eq!((costs.spent.words(), costs.returned.words(), costs.refunds.as_str()), ("4.30", "0.75", "0.80"));
        season.undo().unwrap();
        assert_eq!(season.costs().unwrap().refunds, "");
    }

    #[test]
    fn a_refund_over_two_batches_is_shared_to_the_cent() {
        let mut season = season();
        assert!(log(&mut season, "returned 5 combs 1.01").unwrap().starts_with("Returned"));
        // The newest first: 2 of Green Gate, 3 of Corner Bazaar; 1.01 over 2 and 3 is 0.40 and 0.61.
        let told = |fact: &Fact| match fact {
            Fact::Returned(b) => Some((b.units.count(), b.refund.minor())),
            _ => None,
        };
        let act = season.store().acts(1).unwrap().remove(0).act;
        let events = season.store().events_of(act).unwrap();
        assert_eq!(events.iter().filter_map(|event| told(&event.fact)).collect::<Vec<_>>(), [(2, 40), (3, 61)]);
        assert_eq!(season.hauls().unwrap().hauls.len(), 3);
    }

    #[test]
    fn with_other_lines_it_lowers_what_the_receipt_comes_to() {
        let mut season = season();
        let text = "at Corner Bazaar\n3 rulers .90\nreturned 1 legging 1.50\nreceipt -0.60";
        let done = season.log(text, &LogHow::default()).unwrap().done;
        assert_eq!(done.notes, ["It adds up to the receipt."]);
        let logged =
            season.log("at Corner Bazaar\n3 rulers 2.00\nreturned 1 legging 1.50\nreceipt .50", &LogHow::default());
        let done = logged.unwrap().done;
        assert_eq!(
            done.said,
            "Logged 1 line, 2.00 paid, 2027-01-15, Corner Bazaar. Returned 1 leggings, navy, size 7-8, 1.50 given back."
        );
        assert_eq!(done.notes, ["It adds up to the receipt."]);
    }

    #[test]
    fn what_is_not_there_can_not_go_back() {
        let mut season = season();
        assert_eq!(
            log(&mut season, "returned 7 combs 1.00").unwrap_err(),
            "Only 6 combs on hand that no box holds, 7 asked."
        );
        assert_eq!(
            log(&mut season, "returned 1 kite 1.00").unwrap_err(),
            "Only 0 kite on hand that no box holds, 1 asked."
        );
        log(&mut season, "1 comb pink .50").unwrap();
        let error = log(&mut season, "returned 1 comb .50").unwrap_err();
        assert!(error.contains("\"comb\" could be") && error.contains("comb, pink"), "{error}");
        assert!(log(&mut season, "returned 1 comb, pink, .50").is_ok());
    }
}
