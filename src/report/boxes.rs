//! Boxes: the list, and one of them.

use serde::Serialize;

use super::cautions::CautionRow;
use super::table::{Side, table};
use super::{Report, Sum};
use crate::model::category::Category;
use crate::model::checklist::{Gap, Met};
use crate::model::giftbox::{BoxFacts, BoxState};
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::model::profile::Wanted;
use crate::model::text::counted;

/// All boxes asked for.
#[derive(Debug, Clone, Serialize)]
pub struct BoxList {
    /// The boxes, by number.
    pub boxes: Vec<BoxLine>,
}

/// A box in a line.
#[derive(Debug, Clone, Serialize)]
pub struct BoxLine {
    /// What people call it.
    #[serde(rename = "box")]
    pub label: String,
    /// Who it is for: girl, boy, either.
    #[serde(rename = "for")]
    pub for_whom: String,
    /// The age group.
    pub ages: String,
    /// The theme; may be empty.
    pub theme: String,
    /// The colours.
    pub palette: Vec<String>,
    /// Where it stands.
    pub state: String,
    /// The same, not yet in words.
    #[serde(skip)]
    pub standing: BoxState,
    /// Whether all that it must hold is in it.
    pub full: bool,
    /// Its checklist.
    pub checklist: Vec<Cell>,
    /// Units in it.
    pub things: u32,
    /// Units set aside for it.
    pub aside: u32,
    /// What is in it cost.
    pub cost: Sum,
    /// The box's id.
    #[serde(skip)]
    pub giftbox: BoxId,
    /// What is said of it.
    #[serde(skip)]
    pub facts: BoxFacts,
}

/// One line of a box's checklist.
#[derive(Debug, Clone, Serialize)]
pub struct Cell {
    /// The category or kind.
    pub line: String,
    /// How far it is met.
    pub met: Met,
    /// How many it asks for.
    pub wanted: u32,
    /// In the box.
    pub inside: u32,
    /// Set aside.
    pub aside: u32,
    /// How many are neither.
    pub needs: u32,
    /// The line of the drive's checklist.
    #[serde(skip)]
    pub of: Wanted,
    #[serde(skip)]
    words: String,
}

impl Cell {
    /// A line of a checklist.
    pub fn of(gap: &Gap) -> Cell {
        Cell {
            line: gap.line.of.words().to_owned(),
            met: gap.met(),
            wanted: gap.line.count,
            inside: gap.inside,
            aside: gap.aside,
            needs: gap.needs(),
            of: gap.line.of.clone(),
            words: gap.words(),
        }
    }

    /// Its state in words: `needs 2 of 4`.
    pub fn words(&self) -> &str {
        &self.words
    }
}

impl BoxLine {
    /// `12 girl 6–8, ocean`.
    pub fn heading(&self) -> String {
        let theme = if self.theme.is_empty() { String::new() } else { format!(", {}", self.theme) };
        let colours = if self.palette.is_empty() { String::new() } else { format!(", {}", self.palette.join(" and ")) };
        format!("Box {} · {} {}{theme}{colours}", self.label, self.for_whom, self.ages)
    }

    /// How it stands in a few words: `closed, full`, `needs 2 school; 1 set aside`, `needs 7 things`.
    fn stands(&self) -> String {
        let state = if self.state == "open" { String::new() } else { format!("{}, ", self.state) };
        if self.things == 0 && self.aside == 0 {
            return format!("{state}nothing in it yet");
        }
        let missing: Vec<&Cell> = self.checklist.iter().filter(|cell| cell.needs > 0).collect();
        let needs = match missing.as_slice() {
            [] if self.full => "full".to_owned(),
            [] => String::new(),
            [_] | [_, _] => {
                let each = missing.iter().map(|cell| format!("{} {}", cell.needs, cell.line));
                format!("needs {}", each.collect::<Vec<_>>().join(", "))
            }
            many => format!("needs {} things", many.iter().map(|cell| cell.needs).sum::<u32>()),
        };
        let aside = if self.aside > 0 { format!("{} set aside", self.aside) } else { String::new() };
        let joint = if needs.is_empty() || aside.is_empty() { "" } else { "; " };
        format!("{state}{needs}{joint}{aside}")
    }
}

impl Report for BoxList {
    fn text(&self) -> String {
        if self.boxes.is_empty() {
            return "No boxes. `brimful box plan \"girl 6-8 ocean, teal\"` plans one.\n".to_owned();
        }
        let columns = [
            ("box", Side::Right),
            ("for", Side::Left),
            ("theme", Side::Left),
            ("in", Side::Right),
            ("cost", Side::Right),
            ("how it stands", Side::Left),
        ];
        let row = |line: &BoxLine| {
            vec![
                line.label.clone(),
                format!("{} {}", line.for_whom, line.ages),
                line.theme.clone(),
                line.things.to_string(),
                line.cost.short(),
                line.stands(),
            ]
        };
        let full = self.boxes.iter().filter(|line| line.full).count();
        let all = counted(self.boxes.len() as u64, "box", "boxes");
        let mut text = table(&columns, &self.boxes.iter().map(row).collect::<Vec<_>>());
        text.push_str(&format!("\n {full} of {all} full\n"));
        text
    }
}

/// One box with all that is in it.
#[derive(Debug, Clone, Serialize)]
pub struct BoxCard {
    /// The box.
    #[serde(flatten)]
    pub line: BoxLine,
    /// What is in it or set aside for it, in the order it came there.
    pub contents: Vec<Content>,
    /// What to be careful of in it, the strictest first.
    pub cautions: Vec<CautionRow>,
}

/// One thing in or for a box.
#[derive(Debug, Clone, Serialize)]
pub struct Content {
    /// What it is called.
    pub name: String,
    /// The category it counts for here.
    pub category: Option<Category>,
    /// In the box.
    pub units: u32,
    /// Set aside for it.
    pub aside: u32,
    /// Whether it is this box's wow item.
    pub wow: bool,
    /// What it is tucked into; empty: nothing.
    pub inside: String,
    /// Why it was chosen.
    pub why: String,
    /// Where set-aside ones lie.
    pub tote: String,
    /// What those in the box cost.
    pub cost: Sum,
    /// The batch.
    #[serde(skip)]
    pub lot: LotId,
    /// The placement.
    #[serde(skip)]
    pub placement: PlacementId,
    /// The placement that it is tucked into.
    #[serde(skip)]
    pub holder: Option<PlacementId>,
}

impl BoxCard {
    /// The strictest caution on a thing in it.
    pub fn careful(&self, content: &Content) -> Option<&CautionRow> {
        self.cautions.iter().find(|row| row.lots.contains(&content.lot))
    }
}

impl Report for BoxCard {
    fn text(&self) -> String {
        let mut text = format!("{}\n", self.line.heading());
        let aside = if self.line.aside > 0 { format!(", {} set aside", self.line.aside) } else { String::new() };
        let (things, cost) = (counted(u64::from(self.line.things), "thing", "things"), self.line.cost.words());
        text.push_str(&format!("{}: {things} in{aside}; cost {cost}\n\n", self.line.state));
        for cell in &self.line.checklist {
            text.push_str(&format!(" {} {}: {}\n", cell.met.sign(), cell.line, cell.words));
        }
        text.push('\n');
        let columns = [
            ("in the box", Side::Left),
            ("", Side::Right),
            ("counts for", Side::Left),
            ("cost", Side::Right),
            ("", Side::Left),
        ];
        text.push_str(&table(&columns, &self.contents.iter().map(Content::row).collect::<Vec<_>>()));
        if !self.cautions.is_empty() {
            text.push_str("\nTo be careful of:\n");
        }
        for row in &self.cautions {
            text.push_str(&format!(" {} {}: {}\n", row.sign(), row.thing, row.standing()));
        }
        text
    }
}

impl Content {
    fn row(&self) -> Vec<String> {
        let indent = if self.inside.is_empty() { "" } else { "  inside it: " };
        let mut remarks = Vec::new();
        if self.aside > 0 {
            let tote = if self.tote.is_empty() { String::new() } else { format!(" in {}", self.tote) };
            remarks.push(format!("{} set aside{tote}", self.aside));
        }
        if !self.why.is_empty() {
            remarks.push(format!("({})", self.why));
        }
        let category = self.category.as_ref().map_or("", Category::words).to_owned();
        let units = if self.units > 0 { self.units.to_string() } else { String::new() };
        let cost = if self.units > 0 { self.cost.short() } else { String::new() };
        vec![format!("{indent}{}", self.name), units, category, cost, remarks.join(" ")]
    }
}
