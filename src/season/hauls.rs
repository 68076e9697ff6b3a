//! Hauls as they were logged: the list, and corrections of what is about a whole haul.

use jiff::civil::Date;
use rust_decimal::Decimal;

use super::{ActError, Done, Season};
use crate::find::{Name, closest, find};
use crate::model::commit::Refusal;
use crate::model::currency::Currency;
use crate::model::event::Subject;
use crate::model::fact::{Fact, HaulMended};
use crate::model::haul::HaulField;
use crate::model::id::HaulId;
use crate::model::lot::Source;
use crate::model::money::{KnownSum, Money, each};
use crate::model::rows::{HaulRow, LotRow};
use crate::report::Sum;
use crate::report::hauls::{HaulCard, HaulEntry, HaulLine, Hauls};
use crate::store::Store;

/// What is said anew of a haul; what isn't said stays.
#[derive(Debug, Clone, Default)]
pub struct HaulMend {
    /// The day.
    pub date: Option<Date>,
    /// The shop or giver.
    pub shop: Option<String>,
    /// Tax over all lines.
    pub tax: Option<Decimal>,
    /// Postage over all lines.
    pub postage: Option<Decimal>,
    /// Coupon off all lines.
    pub coupon: Option<Decimal>,
    /// The receipt's total.
    pub receipt: Option<Decimal>,
}

impl<S: Store> Season<S> {
    /// All hauls, oldest first.
    pub fn hauls(&self) -> Result<Hauls, ActError> {
        let currency = self.profile()?.currency;
        let mut rows = self.store.hauls()?;
        rows.sort_by_key(|row| (row.facts.date, row.logged));
        let line = |row: &HaulRow| {
            let lots = self.store.lots_of(row.haul)?;
            let total = total(row, &lots);
            let over = row.facts.receipt.map(|receipt| receipt - total);
            Ok(HaulLine {
                haul: row.haul,
                handle: row.haul.short(),
                date: row.facts.date.to_string(),
                shop: row.facts.shop.clone(),
                lines: lots.len(),
                paid: Sum::of(paid_for(&lots, total), currency),
                receipt: row.facts.receipt.map(|receipt| receipt.plain(currency)).unwrap_or_default(),
                over: over.filter(|over| !over.is_zero()).map(|over| over.plain(currency)).unwrap_or_default(),
            })
        };
        Ok(Hauls { hauls: rows.iter().map(line).collect::<Result<_, ActError>>()? })
    }

    /// One haul with its lines; it reads no more than that haul.
    pub fn haul_card(&self, haul: HaulId) -> Result<HaulCard, ActError> {
        let currency = self.profile()?.currency;
        let row = self.haul_row(haul)?;
        let lots = self.lots_in(haul)?;
        let total = total(&row, &lots);
        let over = row.facts.receipt.map(|receipt| receipt - total).filter(|over| !over.is_zero());
        Ok(HaulCard {
            haul,
            date: row.facts.date,
            shop: row.facts.shop.clone(),
            opening: counted_first(&lots),
            lines: lots.iter().map(|lot| entry(lot, currency)).collect(),
            total: Sum::of(paid_for(&lots, total), currency),
            on_top: self.on_top(&row, currency)?,
            receipt: row.facts.receipt.map(|receipt| receipt.plain(currency)).unwrap_or_default(),
            over: over.map(|over| over.plain(currency)).unwrap_or_default(),
            ways: self.ways_to_settle(haul)?,
        })
    }

    /// A haul's row.
    pub(super) fn haul_row(&self, haul: HaulId) -> Result<HaulRow, ActError> {
        self.store.haul(haul)?.ok_or(ActError::Refused(Refusal::Unknown("that haul")))
    }

    /// Tax, postage, coupon and what went back: those that there are.
    fn on_top(&self, row: &HaulRow, currency: Currency) -> Result<Vec<(String, String)>, ActError> {
        let facts = &row.facts;
        let sums = [
            ("tax", facts.tax),
            ("postage", facts.postage),
            ("coupon", -facts.coupon),
            ("unexplained", facts.unexplained),
        ];
        let there = sums.into_iter().filter(|(_, sum)| !sum.is_zero());
        let mut told: Vec<_> = there.map(|(word, sum)| (word.to_owned(), sum.plain(currency))).collect();
        for event in self.store.events_about(Subject::Haul(row.haul))?.into_iter().filter(|told| told.live) {
            let Fact::Returned(b) = &event.event.fact else { continue };
            let title = self.store.lot(b.lot)?.map(|lot| lot.facts.title()).unwrap_or_default();
            told.push((format!("{} {title} returned", b.units), (-b.refund).plain(currency)));
        }
        Ok(told)
    }

    /// The batches of a haul that are there still, in the order in which they were logged.
    pub(super) fn lots_in(&self, haul: HaulId) -> Result<Vec<LotRow>, ActError> {
        let mut lots = self.store.lots_of(haul)?;
        lots.retain(|lot| !lot.withdrawn);
        lots.sort_by_key(|lot| lot.added);
        Ok(lots)
    }

    /// Corrects what is about a whole haul; its lines' costs are worked out anew.
    pub fn mend_haul(&mut self, words: &str, mend: &HaulMend) -> Result<Done, ActError> {
        let row = self.haul_called(words)?;
        let mut set: Vec<HaulField> = Vec::new();
        set.extend(mend.date.map(HaulField::Date));
        set.extend(mend.shop.as_deref().map(|shop| HaulField::Shop(crate::model::text::clean(shop))));
        for (amount, field) in [
            (mend.tax, HaulField::Tax as fn(Money) -> HaulField),
            (mend.postage, HaulField::Postage),
            (mend.coupon, HaulField::Coupon),
            (mend.receipt, |receipt| HaulField::Receipt(Some(receipt))),
        ] {
            if let Some(amount) = amount {
                set.push(field(self.amount(amount)?));
            }
        }
        if set.is_empty() {
            return Err(ActError::NotUnderstood("what of it? Say --tax, --shop or the like".to_owned()));
        }
        self.correct(&[Fact::HaulMended(HaulMended { haul: row.haul, set })])
    }

    /// The haul of these five letters, or the one whose shop and day the words mean.
    pub(super) fn haul_called(&self, words: &str) -> Result<HaulRow, ActError> {
        let rows = self.store.hauls()?;
        if let Some(row) = rows.iter().find(|row| row.haul.short() == words) {
            return Ok(row.clone());
        }
        let names: Vec<Name> = rows.iter().map(|row| Name::new(&row.facts.shop, &row.facts.date.to_string())).collect();
        let hits = find(words, &names);
        match closest(&hits) {
            [hit] => Ok(rows[hit.index].clone()),
            [] => Err(ActError::NotUnderstood(format!("no haul is called \"{words}\"; `brimful hauls` shows them"))),
            several => {
                let could_be = several.iter().map(|hit| haul_line(&rows[hit.index])).collect();
                Err(ActError::Unclear { words: words.to_owned(), could_be, by_handle: true })
            }
        }
    }
}

/// Whether these are what was there on the first day, and nothing else.
pub(super) fn counted_first(lots: &[LotRow]) -> bool {
    !lots.is_empty() && lots.iter().all(|lot| lot.facts.source == Source::OpeningCount)
}

fn entry(lot: &LotRow, currency: Currency) -> HaulEntry {
    let units = lot.facts.units.count();
    let priced = lot.facts.paid.filter(|paid| !paid.is_zero());
    let free = if lot.facts.paid == Some(Money::ZERO) { "free" } else { "" };
    HaulEntry {
        lot: lot.lot,
        units,
        title: lot.facts.title(),
        category: lot.facts.category.clone(),
        paid: priced.map_or(free.to_owned(), |paid| paid.plain(currency)),
        each: priced.filter(|_| units > 1).map(|paid| each(paid, units, currency)).unwrap_or_default(),
        tote: lot.facts.tote.clone().unwrap_or_default(),
        on_hand: lot.standing.on_hand.count(),
    }
}

/// A haul as a sentence names it: `Corner Bazaar, 2027-01-15`.
pub(super) fn haul_name(row: &HaulRow) -> String {
    match row.facts.shop.as_str() {
        "" => format!("the haul of {}", row.facts.date),
        shop => format!("{shop}, {}", row.facts.date),
    }
}

/// One haul in a line, its five letters first.
fn haul_line(row: &HaulRow) -> String {
    format!("{}  {} {}", row.haul.short(), row.facts.date, row.facts.shop).trim_end().to_owned()
}

/// What was paid for a haul, with the things in it whose price is open.
fn paid_for(lots: &[LotRow], total: Money) -> KnownSum {
    let lines: KnownSum = lots.iter().map(|lot| lot.known(Money::ZERO, lot.facts.units)).sum();
    KnownSum { known: total, ..lines }
}

/// What its lines come to with all that came on top, less what was given back.
pub(super) fn total(row: &HaulRow, lots: &[LotRow]) -> Money {
    let lines = lots.iter().filter(|lot| !lot.withdrawn).filter_map(|lot| lot.facts.paid).sum();
    lines + row.facts.on_top(lines) - row.refunds
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{Ids, SeasonId};
    use crate::season::LogHow;
    use crate::store::Memory;

    fn sample() -> Season<Memory> {
        let season = SeasonId::new(crate::model::id::CountedIds::new(0x41).fresh());
        crate::season::sample::fill(Memory::new(season)).unwrap()
    }

    #[test]
    fn a_haul_opens_with_its_lines_in_order() {
        let mut season = sample();
        let text = "at Corner Bazaar, 2027-02-16\n12 toothbrushes 1.50, tote 4\n1 plush otter free as wow\n\
                    1 soap dish teal .40\n2 kites\ntax 0.60\ncoupon 1.00\nreceipt 2.00";
        let how = LogHow { open_price: true, ..LogHow::default() };
        let haul = season.log(text, &how).unwrap().haul.unwrap();
        let card = season.haul_card(haul).unwrap();
        let line =
            |line: &HaulEntry| format!("{} {}|{}|{}|{}", line.units, line.title, line.paid, line.each, line.tote);
        assert_eq!(
            card.lines.iter().map(line).collect::<Vec<_>>(),
            ["12 toothbrushes|1.50|0.125|tote 4", "1 plush otter|free||", "1 soap dish, teal|0.40||", "2 kites|||"]
        );
        assert_eq!((card.shop.as_str(), card.date.to_string().as_str()), ("Corner Bazaar", "2027-02-16"));
        assert_eq!(card.total.words(), "at least 1.50; 2 things unpriced");
        let on_top: Vec<_> = card.on_top.iter().map(|(word, sum)| format!("{word} {sum}")).collect();
        assert_eq!(on_top, ["tax 0.60", "coupon -1.00"]);
        assert_eq!((card.receipt.as_str(), card.over.as_str()), ("2.00", "0.50"));
        assert!(!card.opening);
        assert_eq!(card.lines[1].category, Some(crate::model::category::Category::Wow));
        assert_eq!(card.lines[0].on_hand, 12);
    }

    #[test]
    fn cards_agree_with_the_list_of_hauls() {
        let season = sample();
        let list = season.hauls().unwrap().hauls;
        assert!(list.len() > 10);
        for line in list {
            let row = season.haul_called(&line.handle).unwrap();
            let card = season.haul_card(row.haul).unwrap();
            assert_eq!((&card.shop, &card.total, &card.over), (&line.shop, &line.paid, &line.over));
            assert_eq!(card.lines.len(), line.lines);
        }
    }
}
