//! Hauls, and whether each adds up to its receipt.

use serde::Serialize;

use super::table::{Side, table};
use super::{Report, Sum};

/// Hauls, oldest first.
#[derive(Debug, Clone, Serialize)]
pub struct Hauls {
    /// The hauls.
    pub hauls: Vec<HaulLine>,
}

/// One haul.
#[derive(Debug, Clone, Serialize)]
pub struct HaulLine {
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
                (receipt, over) => format!("{receipt}, {over} over the lines"),
            };
            let lines = haul.lines.to_string();
            vec![haul.handle.clone(), haul.date.clone(), haul.shop.clone(), lines, haul.paid.short(), receipt]
        };
        table(&columns, &self.hauls.iter().map(row).collect::<Vec<_>>())
    }
}
