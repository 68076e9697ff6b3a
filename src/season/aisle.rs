//! The check in the aisle: is this dearer or cheaper than it was before?

use std::cmp::Ordering;
use std::sync::Arc;

use super::Ware;
use crate::model::money::each;
use crate::model::text::counted;
use crate::reading::Reading;

/// How a price compares with what was paid before for the same kind of thing: `1.00 each is less
/// than you paid 3 of the 4 times before`. None where there is no price or nothing to compare.
pub fn compare(reading: &Reading, known: &[Arc<Ware>]) -> Option<String> {
    let (paid, units) = (reading.paid?, reading.units?.count());
    let kind = reading.kind.as_deref()?;
    if units == 0 || paid.is_zero() {
        return None;
    }
    let same = known.iter().filter(|ware| ware.kind.as_deref() == Some(kind));
    let times: Vec<Ordering> = same
        .flat_map(|ware| ware.bought.iter())
        .filter(|bought| bought.units.count() > 0)
        // Cross-multiplied, so that no cent is rounded away.
        .map(|bought| {
            let now = i128::from(paid.minor()) * i128::from(bought.units.count());
            now.cmp(&(i128::from(bought.paid.minor()) * i128::from(units)))
        })
        .collect();
    let count = |wanted: Ordering| times.iter().filter(|time| **time == wanted).count();
    let (less, more, all) = (count(Ordering::Less), count(Ordering::Greater), times.len());
    if all == 0 {
        return None;
    }
    let price = each(paid, units, reading.currency);
    let before = counted(all as u64, "time", "times");
    Some(match (less, more) {
        (0, 0) => format!("{price} each is what you paid before."),
        (less, _) if less == all => format!("{price} each is less than you ever paid ({before})."),
        (_, more) if more == all => format!("{price} each is more than you ever paid ({before})."),
        (less, more) if less >= more => format!("{price} each is less than you paid {less} of the {before} before."),
        (_, more) => format!("{price} each is more than you paid {more} of the {before} before."),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::measure::Units;
    use crate::model::money::Money;
    use crate::season::{Bought, Entry, Outcome, Reader};

    fn told(line: &str, before: &[(i64, u32)]) -> Option<String> {
        let reader = Reader::new(
            crate::model::profile::Profile::default(),
            crate::catalogue::Catalogue::shared(),
            std::sync::Arc::default(),
            jiff::civil::date(2027, 10, 14),
        );
        let Some(Entry::Line(Outcome::Read(reading))) = reader.entry(line, true) else { panic!("{line}") };
        let bought = before.iter().map(|(paid, units)| Bought {
            date: None,
            paid: Money::new(*paid).unwrap(),
            units: Units::new(*units).unwrap(),
        });
        let ware = Ware { kind: reading.kind.as_deref().map(Arc::from), bought: bought.collect(), ..Ware::default() };
        compare(&reading, &[Arc::new(ware)])
    }

    #[test]
    fn a_price_is_compared_to_the_cent_and_below() {
        let before = [(100, 1), (125, 1), (300, 2), (50, 1)];
        let words = told("2 combs 2.00", &before).unwrap();
        assert_eq!(words, "1.00 each is less than you paid 2 of the 4 times before.");
        // 0.333… against 0.33: a third of a cent dearer.
        assert_eq!(told("3 combs 1.00", &[(33, 1)]).unwrap(), "0.333 each is more than you ever paid (1 time).");
        assert_eq!(told("2 combs 1.00", &[(50, 1)]).unwrap(), "0.50 each is what you paid before.");
        assert_eq!(
            told("2 combs 0.10", &[(50, 1), (60, 1)]).unwrap(),
            "0.05 each is less than you ever paid (2 times)."
        );
        assert_eq!(told("2 combs free", &[(50, 1)]), None);
        assert_eq!(told("2 combs 1.00", &[]), None);
    }
}
