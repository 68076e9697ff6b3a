//! What it cost.

use serde::Serialize;

use super::table::{Side, table};
use super::{Report, Sum};
use crate::model::category::Category;
use crate::model::text::counted;

/// What the whole season cost, and where that is now.
#[derive(Debug, Clone, Serialize)]
pub struct Costs {
    /// The currency's code.
    pub currency: String,
    /// All that came in, with tax and postage, less coupons.
    pub spent: Sum,
    /// In boxes.
    pub boxes: Sum,
    /// On hand.
    pub on_hand: Sum,
    /// Given loose.
    pub loose: Sum,
    /// Lost or broken.
    pub lost: Sum,
    /// Returned to the shop.
    pub returned: Sum,
    /// What was given back for those; empty: nothing was returned.
    pub refunds: String,
    /// Where it is now, by category.
    pub by_category: Vec<CategoryCost>,
    /// Each box that holds something.
    pub by_box: Vec<CostOfBox>,
    /// What a box should cost at the most; empty: nobody said.
    pub wish: String,
    /// How many boxes cost more than that.
    pub over_wish: usize,
}

/// What the things of a category cost.
#[derive(Debug, Clone, Serialize)]
pub struct CategoryCost {
    /// The category; none: nobody said.
    pub category: Option<Category>,
    /// What they cost.
    pub cost: Sum,
}

/// What a box cost.
#[derive(Debug, Clone, Serialize)]
pub struct CostOfBox {
    /// The box.
    #[serde(rename = "box")]
    pub label: String,
    /// Who for, and its theme.
    pub about: String,
    /// Units in it.
    pub things: u32,
    /// What they cost.
    pub cost: Sum,
    /// Whether that is more than a box should cost.
    pub over_wish: bool,
}

impl Report for Costs {
    fn text(&self) -> String {
        let back = if self.refunds.is_empty() { String::new() } else { format!("; {} given back", self.refunds) };
        let mut text = format!(" Spent {} {}{back}\n\n", self.currency, self.spent.words());
        let mut places = vec![
            ("in boxes", &self.boxes),
            ("on hand", &self.on_hand),
            ("given loose", &self.loose),
            ("lost", &self.lost),
        ];
        if !self.refunds.is_empty() {
            places.push(("back in the shop", &self.returned));
        }
        let rows: Vec<Vec<String>> = places.iter().map(|(place, sum)| vec![(*place).to_owned(), sum.short()]).collect();
        text.push_str(&table(&[("where it is now", Side::Left), ("", Side::Right)], &rows));
        text.push('\n');
        let category = |row: &CategoryCost| {
            vec![row.category.as_ref().map_or("not said", Category::words).to_owned(), row.cost.short()]
        };
        let rows: Vec<_> = self.by_category.iter().map(category).collect();
        text.push_str(&table(&[("by category", Side::Left), ("", Side::Right)], &rows));
        if !self.by_box.is_empty() {
            text.push('\n');
            text.push_str(&self.boxes_text());
        }
        text
    }
}

impl Costs {
    fn boxes_text(&self) -> String {
        let columns =
            [("box", Side::Right), ("for", Side::Left), ("in", Side::Right), ("cost", Side::Right), ("", Side::Left)];
        let row = |row: &CostOfBox| {
            let over = if row.over_wish { "over the wish" } else { "" };
            vec![row.label.clone(), row.about.clone(), row.things.to_string(), row.cost.short(), over.to_owned()]
        };
        let mut text = table(&columns, &self.by_box.iter().map(row).collect::<Vec<_>>());
        if self.by_box.iter().any(|row| row.cost.unpriced > 0) {
            text.push_str("\n + something in it has no price yet\n");
        }
        if !self.wish.is_empty() {
            let over = counted(self.over_wish as u64, "box costs", "boxes cost");
            text.push_str(&format!("\n wish per box {}; {over} more\n", self.wish));
        }
        text
    }
}

/// What one thing cost each time it was bought.
#[derive(Debug, Clone, Serialize)]
pub struct Prices {
    /// What was asked.
    pub name: String,
    /// Each time, oldest first.
    pub times: Vec<Bought>,
    /// The lowest price of one; empty if none is known.
    pub lowest: String,
    /// The middle price of one.
    pub middle: String,
    /// What one of those on hand cost by moving average.
    pub average: String,
}

/// One time it was bought.
#[derive(Debug, Clone, Serialize)]
pub struct Bought {
    /// The day; empty: not known.
    pub date: String,
    /// The shop or giver.
    pub shop: String,
    /// How many.
    pub units: u32,
    /// What one cost.
    pub each: String,
}

impl Report for Prices {
    fn text(&self) -> String {
        if self.times.is_empty() {
            return format!("{}: never bought before.\n", self.name);
        }
        let row = |time: &Bought| vec![time.date.clone(), time.shop.clone(), time.units.to_string(), time.each.clone()];
        let columns = [("day", Side::Left), ("where", Side::Left), ("units", Side::Right), ("each", Side::Right)];
        let rows: Vec<_> = self.times.iter().map(row).collect();
        let mut text = format!("{}\n{}", self.name, table(&columns, &rows));
        if !self.lowest.is_empty() {
            text.push_str(&format!("\n lowest {} · middle {}", self.lowest, self.middle));
            if !self.average.is_empty() {
                text.push_str(&format!(" · average of those on hand {}", self.average));
            }
            text.push('\n');
        }
        text
    }
}
