//! Money: whole minor units of the drive's currency, never a float.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use serde::{Deserialize, Serialize};

use super::currency::Currency;

/// An amount in whole minor units (cents where the currency has two digits).
///
/// One amount that is read or decoded is at most [`Money::MOST`]; nine million of
/// those still add up inside the integer, so sums need no check of their own.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Money = Money(0);
    /// The largest single amount, in minor units.
    pub const MOST: i64 = 1_000_000_000_000;

    /// An amount of `minor` units, or `None` beyond [`Money::MOST`] either way.
    pub const fn new(minor: i64) -> Option<Money> {
        if minor.unsigned_abs() <= Money::MOST.unsigned_abs() { Some(Money(minor)) } else { None }
    }

    /// A total, which may be larger than a single amount (see [`Money::MOST`]).
    pub(crate) const fn total(minor: i64) -> Money {
        Money(minor)
    }

    /// Whole minor units.
    pub const fn minor(self) -> i64 {
        self.0
    }

    /// Whether this is less than nothing.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// Whether this is exactly nothing.
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// Reads an exact amount of the currency, half a minor unit up; `None` if it is too large.
    pub fn from_decimal(amount: Decimal, currency: Currency) -> Option<Money> {
        let minor = amount.checked_mul(Decimal::from(10_i64.pow(currency.digits().into())))?;
        let whole = minor.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero);
        Money::new(whole.to_i64()?)
    }

    /// The amount as an exact decimal of the currency: 125 cents are 1.25.
    pub fn to_decimal(self, currency: Currency) -> Decimal {
        Decimal::new(self.0, currency.digits().into())
    }

    /// The amount with all the currency's decimals and no sign: `1.25`.
    pub fn plain(self, currency: Currency) -> String {
        self.to_decimal(currency).to_string()
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Money, D::Error> {
        let minor = i64::deserialize(from)?;
        Money::new(minor).ok_or_else(|| serde::de::Error::custom("the amount is too large"))
    }
}

impl Add for Money {
    type Output = Money;
    fn add(self, other: Money) -> Money {
        Money(self.0.saturating_add(other.0))
    }
}

impl Sub for Money {
    type Output = Money;
    fn sub(self, other: Money) -> Money {
        Money(self.0.saturating_sub(other.0))
    }
}

impl Neg for Money {
    type Output = Money;
    fn neg(self) -> Money {
        Money(self.0.saturating_neg())
    }
}

impl std::ops::AddAssign for Money {
    fn add_assign(&mut self, other: Money) {
        *self = *self + other;
    }
}

impl std::ops::SubAssign for Money {
    fn sub_assign(&mut self, other: Money) {
        *self = *self - other;
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(amounts: I) -> Money {
        amounts.fold(Money::ZERO, Add::add)
    }
}

/// The price of one when `units` cost `total`: exact where three decimals beyond the
/// currency's do, else rounded there, and "under a cent" below one minor unit.
pub fn each(total: Money, units: u32, currency: Currency) -> String {
    if units == 0 {
        return String::new();
    }
    let one = total.to_decimal(currency) / Decimal::from(units);
    let least = Decimal::new(1, currency.digits().into());
    if total.minor() > 0 && one < least {
        return format!("under {}", currency.least_words());
    }
    let digits = u32::from(currency.digits());
    let mut shown = one.round_dp_with_strategy(digits + 1, RoundingStrategy::MidpointAwayFromZero);
    shown = shown.normalize();
    if shown.scale() < digits {
        shown.rescale(digits);
    }
    shown.to_string()
}

/// A sum of known prices that says how many things in it have none.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct KnownSum {
    /// What is known.
    pub known: Money,
    /// Units whose price nobody has said yet.
    pub unpriced: u64,
    /// Whether a doubtful amount is in it.
    pub about: bool,
}

impl KnownSum {
    /// The sum in words: `6.40`, `~6.40`, `at least 6.40; 3 things unpriced`.
    pub fn words(&self, currency: Currency) -> String {
        let about = if self.about { "~" } else { "" };
        let amount = self.known.plain(currency);
        match self.unpriced {
            0 => format!("{about}{amount}"),
            1 => format!("at least {about}{amount}; 1 thing unpriced"),
            n => format!("at least {about}{amount}; {n} things unpriced"),
        }
    }
}

impl Add for KnownSum {
    type Output = KnownSum;
    fn add(self, other: KnownSum) -> KnownSum {
        KnownSum {
            known: self.known + other.known,
            unpriced: self.unpriced + other.unpriced,
            about: self.about || other.about,
        }
    }
}

impl Sum for KnownSum {
    fn sum<I: Iterator<Item = KnownSum>>(sums: I) -> KnownSum {
        sums.fold(KnownSum::default(), Add::add)
    }
}

impl fmt::Display for Money {
    /// Minor units, for messages about the file; people see [`Money::plain`].
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn usd() -> Currency {
        Currency::by_code("USD").unwrap()
    }

    #[test]
    fn reading_rounds_half_a_cent_up() {
        let read = |text: &str| Money::from_decimal(text.parse().unwrap(), usd()).unwrap();
        assert_eq!(read("1.7475").minor(), 175);
        assert_eq!(read("0.495").minor(), 50);
        assert_eq!(read("0.494").minor(), 49);
    }

    #[test]
    fn each_says_tenths_of_a_cent_and_under_a_cent() {
        assert_eq!(each(Money(150), 12, usd()), "0.125");
        assert_eq!(each(Money(60), 3, usd()), "0.20");
        assert_eq!(each(Money(5), 24, usd()), "under a cent");
        assert_eq!(each(Money(0), 24, usd()), "0.00");
    }

    #[test]
    fn an_amount_too_large_is_refused() {
        assert!(Money::new(Money::MOST + 1).is_none());
        assert!(serde_json::from_str::<Money>("1000000000001").is_err());
        assert_eq!(serde_json::from_str::<Money>("-5").unwrap(), Money(-5));
    }
}
