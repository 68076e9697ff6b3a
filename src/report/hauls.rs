//! Hauls, and whether each adds up to its receipt.

use jiff::civil::Date;
use serde::Serialize;

use super::table::{Side, table};
use super::{Report, Sum};
use crate::model::category::Category;
use crate::model::haul::Explains;
use crate::model::id::{HaulId, LotId};

/// Hauls, oldest first.
#[derive(Debug, Clone, Serialize)]
pub struct Hauls {
    /// The hauls.
    pub hauls: Vec<HaulLine>,
}

/// One haul.
#[derive(Debug, Clone, Serialize)]
pub struct HaulLine {
    /// Which.
    #[serde(skip)]
    pub haul: HaulId,
    /// Five letters to call it by.
    pub handle: String,
    /// The day.
    pub date: String,
    /// The shop or giver.
    pub shop: String,
    /// How many lines.
    pub lines: usize,
    /// Lines, tax and postage less the coupon.
    pub paid: Sum,
    /// What the receipt says; empty: there is none.
    pub receipt: String,
    /// How much more the receipt says than the lines; empty: it agrees, or there is none.
    pub over: String,
}

/// One haul, opened: its lines and what it comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HaulCard {
    /// Which.
    pub haul: HaulId,
    /// The day.
    pub date: Date,
    /// The shop or giver; may be empty.
    pub shop: String,
    /// Whether it is an opening count.
    pub opening: bool,
    /// Its lines in the order in which they were logged.
    pub lines: Vec<HaulEntry>,
    /// Lines, tax and postage less the coupon.
    pub total: Sum,
    /// What is not on a line, by its word: `tax` `0.60`.
    pub on_top: Vec<(String, String)>,
    /// What the receipt says; empty: there is none.
    pub receipt: String,
    /// How much more the receipt says than the lines; empty: it agrees, or there is none.
    pub over: String,
    /// What may explain that.
    pub ways: Vec<Explains>,
}

/// One line of a haul.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HaulEntry {
    /// The batch.
    pub lot: LotId,
    /// How many came.
    pub units: u32,
    /// What it is called in lists.
    pub title: String,
    /// Its category, where one is known.
    pub category: Option<Category>,
    /// Paid for the line: an amount, `free`, or empty while its price is open.
    pub paid: String,
    /// The price of one; empty where that says no more than the price.
    pub each: String,
    /// Where it lies; may be empty.
    pub tote: String,
    /// How many of it are on hand.
    pub on_hand: u32,
}

impl Report for Hauls {
    fn text(&self) -> String {
        if self.hauls.is_empty() {
            return "No hauls yet. `brimful log` writes one.\n".to_owned();
        }
        let columns = [
            ("", Side::Left),
            ("day", Side::Left),
            ("from", Side::Left),
            ("lines", Side::Right),
            ("paid", Side::Right),
            ("receipt", Side::Left),
        ];
        let row = |haul: &HaulLine| {
            let receipt = match (haul.receipt.as_str(), haul.over.as_str()) {
                ("", _) => "none".to_owned(),
                (_, "") => "adds up".to_owned(),
                (receipt, over) => match over.strip_prefix('-') {
                    Some(less) => format!("{receipt}, {less} less than the lines"),
                    None => format!("{receipt}, {over} more than the lines"),
                },
            };
            let lines = haul.lines.to_string();
            vec![haul.handle.clone(), haul.date.clone(), haul.shop.clone(), lines, haul.paid.short(), receipt]
        };
        table(&columns, &self.hauls.iter().map(row).collect::<Vec<_>>())
    }
}
