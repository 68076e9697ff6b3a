//! Decimals of currencies: ISO 4217 list one as published by SIX, edition of 2023-01-01, fifty rows
//! of it (taken from the package `@iso4217/json` 20230101.1.10, equal to `currency-codes` 2.2.0 in all
//! of them).

use brimful::model::currency::Currency;
use brimful::model::money::Money;

/// Code and minor digits.
fn rows() -> Vec<(&'static str, u8)> {
    let lines = include_str!("currencies.csv").lines().skip(1);
    let row = |line: &'static str| {
        let (code, digits) = line.split_once(',').unwrap();
        (code, digits.parse().unwrap())
    };
    lines.map(row).collect()
}

#[test]
fn all_fifty_have_the_decimals_of_the_standard() {
    let rows = rows();
    assert_eq!(rows.len(), 50);
    for (code, digits) in rows {
        let currency = Currency::by_code(code).unwrap_or_else(|| panic!("{code} is not known"));
        assert_eq!((currency.code(), currency.digits()), (code, digits));
    }
    // The Iraqi dinar has three in the standard and none in the tables of daily use (CLDR).
    assert_eq!(Currency::by_code("IQD").unwrap().digits(), 3);
    assert!(Currency::by_code("XXX").is_none());
}

/// 1234 of the smallest coins, 5 of them, and none, as an amount of each currency, printed and read.
#[test]
fn an_amount_is_printed_and_read_with_the_decimals_of_its_currency() {
    let mut seen = [0; 4];
    for (code, digits) in rows() {
        let currency = Currency::by_code(code).unwrap();
        let printed = match digits {
            0 => ["1234", "5", "0"],
            2 => ["12.34", "0.05", "0.00"],
            3 => ["1.234", "0.005", "0.000"],
            other => panic!("{code} has {other} decimals"),
        };
        seen[usize::from(digits)] += 1;
        for (minor, text) in [1234, 5, 0].into_iter().zip(printed) {
            assert_eq!(Money::new(minor).unwrap().plain(currency), text, "{code}");
            let read = Money::from_decimal(text.parse().unwrap(), currency).unwrap();
            assert_eq!(read.minor(), minor, "{code}");
        }
    }
    assert_eq!(seen, [10, 0, 33, 7], "currencies of no, two and three decimals");
}

#[test]
fn whole_amounts_are_read_whole() {
    for (code, minor) in [("JPY", 7), ("USD", 700), ("KWD", 7000)] {
        let read = Money::from_decimal("7".parse().unwrap(), Currency::by_code(code).unwrap());
        assert_eq!(read.unwrap().minor(), minor, "{code}");
    }
}
