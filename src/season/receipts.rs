//! Receipts that don't agree with their lines: which they are, and the ways to settle them.

use super::hauls::{haul_name, total};
use super::{ActError, Done, Season};
use crate::model::fact::{Fact, HaulMended};
use crate::model::haul::Explains;
use crate::model::id::HaulId;
use crate::model::money::Money;
use crate::model::rows::HaulRow;
use crate::report::hauls::{HaulLine, Hauls};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// The hauls whose lines don't add up to their receipt, oldest first.
    pub fn unsettled(&self) -> Result<Hauls, ActError> {
        let mut hauls = self.hauls()?;
        hauls.hauls.retain(|haul| !haul.over.is_empty());
        Ok(hauls)
    }

    /// All hauls, newest first, each with the ways in which its receipt can be settled.
    pub fn hauls_to_settle(&self) -> Result<Vec<(HaulLine, Vec<Explains>)>, ActError> {
        let mut hauls = self.hauls()?.hauls;
        hauls.reverse();
        let with_ways = |line: HaulLine| {
            let ways = if line.over.is_empty() { Vec::new() } else { self.ways_to_settle(line.haul)? };
            Ok((line, ways))
        };
        hauls.into_iter().map(with_ways).collect()
    }

    /// The ways in which a haul's receipt can be settled; none where it agrees, or where there is none.
    pub fn ways_to_settle(&self, haul: HaulId) -> Result<Vec<Explains>, ActError> {
        let row = self.haul_row(haul)?;
        let Some((over, total)) = self.difference(&row)? else { return Ok(Vec::new()) };
        Ok(Explains::ALL.into_iter().filter(|way| way.field(&row.facts, over, total).is_some()).collect())
    }

    /// Settles the receipt of the haul that these words mean.
    pub fn settle_haul_called(&mut self, words: &str, way: Explains) -> Result<Done, ActError> {
        let haul = self.haul_called(words)?.haul;
        self.settle_haul(haul, way)
    }

    /// Settles a haul's receipt by saying what explains the difference.
    pub fn settle_haul(&mut self, haul: HaulId, way: Explains) -> Result<Done, ActError> {
        let row = self.haul_row(haul)?;
        let name = haul_name(&row);
        let Some((over, total)) = self.difference(&row)? else {
            let why = if row.facts.receipt.is_some() { "adds up to its receipt" } else { "has no receipt yet" };
            return Err(ActError::Nothing(format!("{name} {why}: there is nothing to settle.")));
        };
        let field = way.field(&row.facts, over, total).ok_or_else(|| {
            ActError::NotUnderstood(format!("{name}: that would come to less than nothing. Say what else explains it"))
        })?;
        let done = self.correct(&[Fact::HaulMended(HaulMended { haul, set: vec![field] })])?;
        let currency = self.profile()?.currency;
        let amount = if over < Money::ZERO { -over } else { over }.plain(currency);
        let direction = if over < Money::ZERO { "less" } else { "more" };
        let said = match way {
            Explains::Tax => format!("the {amount} {direction} was tax"),
            Explains::Postage => format!("the {amount} {direction} was postage"),
            Explains::Coupon => format!("the {amount} {direction} was the coupon"),
            Explains::Nothing => format!("the {amount} {direction} that nobody can explain is spread over its lines"),
            Explains::Receipt => format!("the receipt says {}, as the lines do", total.plain(currency)),
        };
        Ok(Done { said: format!("Settled {name}: {said}."), ..done })
    }

    /// How much more the receipt says than the lines, and what the lines come to; none where they agree.
    fn difference(&self, row: &HaulRow) -> Result<Option<(Money, Money)>, ActError> {
        let total = total(row, &self.lots_in(row.haul)?);
        let over = row.facts.receipt.map(|receipt| receipt - total).filter(|over| !over.is_zero());
        Ok(over.map(|over| (over, total)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::season::{LogHow, Moment};
    use crate::store::Memory;

    fn logged(text: &str) -> (Season<Memory>, HaulId) {
        let mut ids = CountedIds::new(0x61);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = crate::season::Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: jiff::civil::date(2027, 1, 15) };
        let mut season = Season::new(store, Box::new(ids), desk, moment);
        let haul = season.log(text, &LogHow::default()).unwrap().haul.unwrap();
        (season, haul)
    }

    /// What each line cost with its share, in cents.
    fn costs(season: &Season<Memory>) -> Vec<i64> {
        season.store().lots().unwrap().iter().map(|lot| lot.cost_in.minor()).collect()
    }

    const SHORT: &str = "at Corner Bazaar\n3 combs .30\n1 lunch box .70\ntax .10\nreceipt 1.40";

    #[test]
    fn each_way_makes_the_receipt_agree_to_the_cent() {
        // The lines say 1.10 with the tax; the receipt says 0.30 more.
        for (way, expected, said) in [
            (Explains::Tax, vec![42, 98], "the 0.30 more was tax"),
            (Explains::Postage, vec![42, 98], "the 0.30 more was postage"),
            (Explains::Nothing, vec![42, 98], "the 0.30 more that nobody can explain is spread over its lines"),
            (Explains::Receipt, vec![33, 77], "the receipt says 1.10, as the lines do"),
        ] {
            let (mut season, haul) = logged(SHORT);
            assert_eq!(season.unsettled().unwrap().hauls[0].over, "0.30");
            let done = season.settle_haul(haul, way).unwrap();
            assert_eq!(done.said, format!("Settled Corner Bazaar, 2027-01-15: {said}."));
            assert_eq!(costs(&season), expected, "{way:?}");
            assert!(season.unsettled().unwrap().hauls.is_empty());
            season.undo().unwrap();
            assert_eq!(season.unsettled().unwrap().hauls.len(), 1, "undone, it is open again");
        }
    }

    #[test]
    fn what_would_come_to_less_than_nothing_is_not_offered() {
        let (mut season, haul) = logged(SHORT);
        let ways = season.ways_to_settle(haul).unwrap();
        assert_eq!(ways, [Explains::Tax, Explains::Postage, Explains::Nothing, Explains::Receipt]);
        assert!(matches!(season.settle_haul(haul, Explains::Coupon), Err(ActError::NotUnderstood(_))));
        // The receipt says less: a coupon explains it, more tax can't.
        let (mut season, haul) = logged("3 combs .30\n1 lunch box .70\nreceipt .90");
        let ways = season.ways_to_settle(haul).unwrap();
        assert_eq!(ways, [Explains::Coupon, Explains::Nothing, Explains::Receipt]);
        let done = season.settle_haul(haul, Explains::Coupon).unwrap();
        assert_eq!(done.said, "Settled the haul of 2027-01-15: the 0.10 less was the coupon.");
        assert_eq!(costs(&season), [27, 63]);
    }

    #[test]
    fn what_agrees_or_has_no_receipt_needs_no_settling() {
        for (text, why) in [
            ("3 combs .30\nreceipt .30", "the haul of 2027-01-15 adds up to its receipt: there is nothing to settle."),
            ("3 combs .30", "the haul of 2027-01-15 has no receipt yet: there is nothing to settle."),
        ] {
            let (mut season, haul) = logged(text);
            assert!(season.ways_to_settle(haul).unwrap().is_empty());
            assert_eq!(season.settle_haul(haul, Explains::Nothing).unwrap_err().to_string(), why);
        }
    }
}
