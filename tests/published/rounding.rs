//! Rounding and sharing out.

use brimful::model::currency::Currency;
use brimful::model::money::Money;
use brimful::model::share::{allot, part_of};

use crate::shop::Shop;

fn money(minor: i64) -> Money {
    Money::new(minor).unwrap()
}

fn read(amount: &str, code: &str) -> i64 {
    Money::from_decimal(amount.parse().unwrap(), Currency::by_code(code).unwrap()).unwrap().minor()
}

/// roundTiesToEven, IEEE 754-2008, section 4.3.1 (the number from memory, the rule read in secondary
/// texts): 0.5 is 0, 1.5 is 2, 2.5 is 2, -2.5 is -2; 2.675 to two places is 2.68 and 2.665 is 2.66.
#[test]
fn shares_of_cost_go_to_the_even_side() {
    let half = |minor| part_of(money(minor), 1, 2).minor();
    assert_eq!([half(1), half(3), half(5), half(-5)], [0, 2, 2, -2]);
    assert_eq!([half(535), half(533)], [268, 266]);
    // Nothing near a half is touched by that: 2.49 and 2.51 are 2 and 3.
    assert_eq!([part_of(money(249), 1, 100), part_of(money(251), 1, 100)].map(Money::minor), [2, 3]);
}

/// roundTiesToAway, IEEE 754-2008, section 4.3.1: 0.5 is 1, 2.5 is 3, -2.5 is -3.
#[test]
fn what_is_read_goes_away_from_nothing_at_a_half() {
    assert_eq!(["0.5", "2.5", "-2.5"].map(|amount| read(amount, "JPY")), [1, 3, -3]);
    assert_eq!(["0.005", "0.025", "-0.025"].map(|amount| read(amount, "USD")), [1, 3, -3]);
    assert_eq!(["0.0005", "0.0025", "-0.0025"].map(|amount| read(amount, "KWD")), [1, 3, -3]);
}

/// Government of Canada, Budget 2012, "Rounding", the worked example: 1.83 and 2.86 are 4.69, and with
/// five per cent of tax 4.9245, so 4.92 is paid.
#[test]
fn the_worked_example_with_tax() {
    let sum = money(read("1.83", "CAD")) + money(read("2.86", "CAD"));
    assert_eq!(sum.minor(), 469);
    let cad = Currency::by_code("CAD").unwrap();
    let taxed = sum.to_decimal(cad) * "1.05".parse::<rust_decimal::Decimal>().unwrap();
    assert_eq!(taxed.to_string(), "4.9245");
    assert_eq!(Money::from_decimal(taxed, cad).unwrap().plain(cad), "4.92");
}

/// Largest remainder: 10.00 over three is 3.34, 3.33 and 3.33, which add up to it.
#[test]
fn ten_over_three_adds_up() {
    let shares = |amount| allot(money(amount), &[1, 1, 1]).into_iter().map(Money::minor).collect::<Vec<_>>();
    assert_eq!(shares(1000), [334, 333, 333]);
    assert_eq!(shares(-1000), [-334, -333, -333]);
}

/// "3 for 10.00" is 10/3 each and never three times 3.33: given out one by one they end at exactly 10.00.
#[test]
fn three_for_ten_end_at_ten() {
    let mut shop = Shop::new();
    let lot = shop.buys(3, 1000);
    // A third is 333.33; half of the 667 left is 333.5, and 334 is even; the last takes what is left.
    let given: Vec<i64> = (0..3).map(|_| shop.gives(lot, 1)).collect();
    assert_eq!(given, [333, 334, 333]);
    assert_eq!(given.iter().sum::<i64>(), 1000);
    assert_eq!(shop.balance(), (0, 0));
}
