//! A sum as reports tell it.

use serde::Serialize;

use crate::model::currency::Currency;
use crate::model::money::KnownSum;
use crate::model::text::counted;

/// A sum of prices, its decimals written out, with what is not known about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Sum {
    /// What is known.
    pub known: String,
    /// Things whose price is open.
    pub unpriced: u64,
    /// Whether a doubtful amount is in it.
    pub about: bool,
    #[serde(skip)]
    words: String,
}

impl Sum {
    /// What so many things cost that are still to be bought: `5 things, about 9.00`, `1 thing, no price known`.
    pub fn of_things(&self, units: u32) -> String {
        let things = counted(u64::from(units), "thing", "things");
        match self.unpriced {
            0 => format!("{things}, about {}", self.words()),
            unpriced if unpriced == u64::from(units) => format!("{things}, no price known"),
            _ => format!("{things}, {}", self.words()),
        }
    }

    /// A sum in a currency.
    pub fn of(sum: KnownSum, currency: Currency) -> Sum {
        Sum { known: sum.known.plain(currency), unpriced: sum.unpriced, about: sum.about, words: sum.words(currency) }
    }

    /// The whole sum in words: `at least 6.40; 3 things unpriced`.
    pub fn words(&self) -> &str {
        &self.words
    }

    /// The sum for a narrow column: `6.40+` where something in it has no price.
    pub fn short(&self) -> String {
        let about = if self.about { "~" } else { "" };
        let more = if self.unpriced > 0 { "+" } else { "" };
        format!("{about}{}{more}", self.known)
    }
}
