//! The moving average, as textbooks reckon it.
//!
//! The examples and their sources are those of `fifo.rs`. Published: `openstax` 7,253 and 8,902 (from
//! memory; reckoned again: 123300/17 = 7,252.94 and 151335/17 = 8,902.06), `fincal` 26.6 and 11.4 (read).

use brimful::model::measure::Units;
use brimful::model::money::Money;
use brimful::report::average::MovingAverage;
use rust_decimal::{Decimal, RoundingStrategy};

/// An amount in whole units of the example's currency, to its cents.
fn cents(amount: Decimal) -> Decimal {
    amount.round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero)
}

#[test]
fn the_moving_average_gives_the_published_costs() {
    let rows: Vec<Vec<&str>> =
        include_str!("average.csv").lines().skip(1).map(|line| line.split(',').collect()).collect();
    assert_eq!(rows.len(), 13);
    let mut average = MovingAverage::default();
    let mut example = "";
    for row in rows {
        let [name, _, event, units, unit_cost, sold, balance, each, left] = row[..] else { panic!("{row:?}") };
        if name != example {
            (example, average) = (name, MovingAverage::default());
        }
        let units = Units::new(units.parse().unwrap()).unwrap();
        let decimal = |text: &str| text.parse::<Decimal>().unwrap();
        let cost = if event == "sale" {
            average.went(units)
        } else {
            let paid: i64 = unit_cost.parse::<i64>().unwrap() * i64::from(units.count());
            average.came(units, Money::new(paid).unwrap());
            Decimal::ZERO
        };
        assert_eq!(cents(cost), decimal(sold), "{row:?}");
        assert_eq!(cents(average.balance()), decimal(balance), "{row:?}");
        assert_eq!(average.each().map(cents), Some(decimal(each)), "{row:?}");
        assert!(left.parse::<u32>().unwrap() > 0);
    }
}

#[test]
fn nothing_left_has_no_average() {
    let mut average = MovingAverage::default();
    assert_eq!(average.each(), None);
    average.came(Units::new(3).unwrap(), Money::new(10).unwrap());
    assert_eq!(average.went(Units::new(5).unwrap()), Decimal::from(10));
    assert_eq!(average.each(), None);
}
