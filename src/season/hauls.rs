//! Hauls as they were logged: the list, and corrections of what is about a whole haul.

use jiff::civil::Date;
use rust_decimal::Decimal;

use super::{ActError, Done, Season};
use crate::find::{Name, closest, find};
use crate::model::fact::{Fact, HaulMended};
use crate::model::haul::HaulField;
use crate::model::money::{KnownSum, Money};
use crate::model::rows::{HaulRow, LotRow};
use crate::report::Sum;
use crate::report::hauls::{HaulLine, Hauls};
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
        self.act(&[Fact::HaulMended(HaulMended { haul: row.haul, set })])
    }

    /// The haul of these five letters, or the one whose shop and day the words mean.
    fn haul_called(&self, words: &str) -> Result<HaulRow, ActError> {
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

/// One haul in a line, its five letters first.
fn haul_line(row: &HaulRow) -> String {
    format!("{}  {} {}", row.haul.short(), row.facts.date, row.facts.shop).trim_end().to_owned()
}

/// What was paid for a haul, with the things in it whose price is open.
fn paid_for(lots: &[LotRow], total: Money) -> KnownSum {
    let lines: KnownSum = lots.iter().map(|lot| lot.known(Money::ZERO, lot.facts.units)).sum();
    KnownSum { known: total, ..lines }
}

/// What its lines come to with all that came on top.
fn total(row: &HaulRow, lots: &[LotRow]) -> Money {
    let lines = lots.iter().filter(|lot| !lot.withdrawn).filter_map(|lot| lot.facts.paid).sum();
    lines + row.facts.on_top(lines)
}
