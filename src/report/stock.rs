//! What is on hand.

use serde::Serialize;

use super::table::{Side, table};
use super::{Report, Sum};
use crate::model::category::Category;
use crate::model::text::counted;

/// What is on hand, thing by thing.
#[derive(Debug, Clone, Serialize)]
pub struct Stock {
    /// The things.
    pub things: Vec<StockLine>,
    /// Units on hand in all.
    pub on_hand: u32,
    /// Of those, set aside for boxes.
    pub aside: u32,
    /// What they cost.
    pub cost: Sum,
    #[serde(skip)]
    /// Whether to show each batch.
    pub batches: bool,
}

/// One thing on hand.
#[derive(Debug, Clone, Serialize)]
pub struct StockLine {
    /// What it is called.
    pub name: String,
    /// What it serves, if known.
    pub category: Option<Category>,
    /// Who it is for; empty: either.
    #[serde(rename = "for")]
    pub for_whom: String,
    /// The ages it is for; empty: any.
    pub ages: String,
    /// Units on hand.
    pub on_hand: u32,
    /// How much there is, if nobody counts it: plenty, low, gone; else empty.
    pub level: String,
    /// Of those, set aside for boxes.
    pub aside: u32,
    /// What one costs, where all prices are known.
    pub each: String,
    /// What they cost.
    pub cost: Sum,
    /// Where it lies.
    pub totes: Vec<String>,
    /// Its batches, the one that is used up first first.
    pub batches: Vec<Batch>,
}

/// One batch.
#[derive(Debug, Clone, Serialize)]
pub struct Batch {
    /// Five letters to call it by.
    pub handle: String,
    /// How it came.
    pub source: String,
    /// The day it came; empty where there is none.
    pub date: String,
    /// The shop or giver.
    pub shop: String,
    /// Units that came.
    pub units: u32,
    /// Units on hand.
    pub on_hand: u32,
    /// What all of it cost.
    pub cost: Sum,
    /// Where it lies.
    pub tote: String,
    /// When it expires; empty: never.
    pub expires: String,
    /// What stood in parentheses.
    pub notes: Vec<String>,
}

impl Report for Stock {
    fn text(&self) -> String {
        if self.things.is_empty() {
            return "Nothing on hand. `brimful log` writes what you bought.\n".to_owned();
        }
        let columns = [
            ("item", Side::Left),
            ("for", Side::Left),
            ("category", Side::Left),
            ("left", Side::Right),
            ("aside", Side::Right),
            ("each", Side::Right),
            ("where", Side::Left),
        ];
        let mut rows = Vec::new();
        for thing in &self.things {
            rows.push(thing.row());
            if self.batches {
                rows.extend(thing.batches.iter().map(Batch::row));
            }
        }
        let mut text = table(&columns, &rows);
        let aside = if self.aside > 0 { format!(", {} of them set aside", self.aside) } else { String::new() };
        let things = counted(u64::from(self.on_hand), "thing", "things");
        text.push_str(&format!("\n {things} on hand{aside}; cost {}\n", self.cost.words()));
        text
    }
}

impl StockLine {
    fn row(&self) -> Vec<String> {
        let whom = [self.for_whom.as_str(), self.ages.as_str()].into_iter().filter(|word| !word.is_empty());
        vec![
            self.name.clone(),
            whom.collect::<Vec<_>>().join(" "),
            self.category.as_ref().map_or("?", Category::words).to_owned(),
            if self.level.is_empty() { self.on_hand.to_string() } else { self.level.clone() },
            if self.aside > 0 { self.aside.to_string() } else { String::new() },
            self.each.clone(),
            self.totes.join(", "),
        ]
    }
}

impl Batch {
    fn row(&self) -> Vec<String> {
        let came = [self.source.as_str(), self.date.as_str(), self.shop.as_str()];
        let came = came.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ");
        let expires = if self.expires.is_empty() { String::new() } else { format!(", expires {}", self.expires) };
        let notes = self.notes.iter().map(|note| format!(" ({note})")).collect::<String>();
        let line = format!("  {} {came}{expires}{notes}", self.handle);
        let left = format!("{}/{}", self.on_hand, self.units);
        vec![line, String::new(), String::new(), left, String::new(), self.cost.short(), self.tote.clone()]
    }
}
