//! Currencies and how many decimals each has.

use serde::{Deserialize, Serialize};

/// A currency: its ISO 4217 code, its number of decimals and the sign people write.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Currency {
    code: &'static str,
    digits: u8,
    sign: &'static str,
}

/// Code, decimals (ISO 4217 list one, as published 2023-01-01) and the sign in daily use
/// (the signs are from memory; a currency without one of its own is written with its code).
const TABLE: &[(&str, u8, &str)] = &[
    ("USD", 2, "$"),
    ("EUR", 2, "€"),
    ("GBP", 2, "£"),
    ("CAD", 2, "$"),
    ("AUD", 2, "$"),
    ("NZD", 2, "$"),
    ("CHF", 2, "Fr"),
    ("SEK", 2, "kr"),
    ("NOK", 2, "kr"),
    ("DKK", 2, "kr"),
    ("ISK", 0, "kr"),
    ("JPY", 0, "¥"),
    ("KRW", 0, "₩"),
    ("CNY", 2, "¥"),
    ("INR", 2, "₹"),
    ("MXN", 2, "$"),
    ("BRL", 2, "R$"),
    ("ZAR", 2, "R"),
    ("PLN", 2, "zł"),
    ("CZK", 2, "Kč"),
    ("HUF", 2, "Ft"),
    ("RON", 2, "lei"),
    ("UAH", 2, "₴"),
    ("TRY", 2, "₺"),
    ("ILS", 2, "₪"),
    ("AED", 2, "AED"),
    ("KWD", 3, "KWD"),
    ("BHD", 3, "BHD"),
    ("TND", 3, "TND"),
    ("JOD", 3, "JOD"),
    ("OMR", 3, "OMR"),
    ("IQD", 3, "IQD"),
    ("LYD", 3, "LYD"),
    ("CLP", 0, "$"),
    ("VND", 0, "₫"),
    ("IDR", 2, "Rp"),
    ("PHP", 2, "₱"),
    ("THB", 2, "฿"),
    ("KES", 2, "KSh"),
    ("UGX", 0, "USh"),
    ("RWF", 0, "FRw"),
    ("XOF", 0, "CFA"),
    ("XAF", 0, "FCFA"),
    ("SGD", 2, "$"),
    ("HKD", 2, "$"),
    ("TWD", 2, "$"),
    ("COP", 2, "$"),
    ("ARS", 2, "$"),
    ("PEN", 2, "S/"),
    ("PYG", 0, "₲"),
];

/// Currencies whose coins are called cents and whose notes dollars.
const DOLLARS: &[&str] = &["USD", "CAD", "AUD", "NZD", "SGD", "HKD", "TWD"];

impl Currency {
    /// The currency with this ISO 4217 code (any case), if it is one of the known fifty.
    pub fn by_code(code: &str) -> Option<Currency> {
        TABLE.iter().find(|(known, _, _)| known.eq_ignore_ascii_case(code)).map(|&(code, digits, sign)| Currency {
            code,
            digits,
            sign,
        })
    }

    /// The ISO 4217 code.
    pub fn code(self) -> &'static str {
        self.code
    }

    /// Decimals: 2 for cents, 0 where there is no smaller coin, 3 for thousandths.
    pub fn digits(self) -> u8 {
        self.digits
    }

    /// The sign people write before or after an amount.
    pub fn sign(self) -> &'static str {
        self.sign
    }

    /// Whether *cents* and *dollars* (and pennies, nickels, dimes, quarters) are words of this currency.
    pub fn has_dollars_and_cents(self) -> bool {
        DOLLARS.contains(&self.code)
    }

    /// Every sign in the table, longest first: what a line may be written in by mistake.
    pub fn all_signs() -> Vec<&'static str> {
        let mut signs: Vec<_> = TABLE.iter().map(|&(_, _, sign)| sign).collect();
        signs.sort_unstable_by_key(|sign| (std::cmp::Reverse(sign.len()), *sign));
        signs.dedup();
        signs
    }

    /// One minor unit in words: `a cent`.
    pub fn least_words(self) -> String {
        if self.has_dollars_and_cents() {
            return "a cent".to_owned();
        }
        let least = rust_decimal::Decimal::new(1, self.digits.into());
        format!("{least} {}", self.sign)
    }
}

impl Default for Currency {
    fn default() -> Currency {
        let (code, digits, sign) = TABLE[0];
        Currency { code, digits, sign }
    }
}

impl Serialize for Currency {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.code.serialize(to)
    }
}

impl<'de> Deserialize<'de> for Currency {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Currency, D::Error> {
        let code = String::deserialize(from)?;
        Currency::by_code(&code).ok_or_else(|| {
            let why = format!("\"{code}\" is no currency known here; write its ISO 4217 code, such as USD or EUR");
            serde::de::Error::custom(why)
        })
    }
}
