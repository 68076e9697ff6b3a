//! Which boxes lack what, and what wants a look.

use serde::Serialize;

use super::Report;
use super::boxes::BoxLine;
use super::table::{Side, table};
use crate::model::checklist::Met;
use crate::model::text::counted;

/// Boxes by what they lack.
#[derive(Debug, Clone, Serialize)]
pub struct Review {
    /// Boxes that lack this are shown; empty: all boxes looked at.
    pub lacks: String,
    /// How many boxes were looked at.
    pub looked_at: usize,
    /// The boxes shown.
    pub boxes: Vec<BoxLine>,
    /// What wants a look.
    pub settle: Settle,
}

/// Things that two computers, or second thoughts, left to be settled.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Settle {
    /// One by one.
    pub items: Vec<SettleItem>,
}

/// One thing to settle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SettleItem {
    /// What is so.
    pub what: String,
    /// What to do.
    pub remedy: String,
}

impl Settle {
    /// Adds one.
    pub fn add(&mut self, what: impl Into<String>, remedy: impl Into<String>) {
        self.items.push(SettleItem { what: what.into(), remedy: remedy.into() });
    }

    fn text(&self) -> String {
        if self.items.is_empty() {
            return String::new();
        }
        let lines = self.items.iter().map(|item| format!(" ! {} {}\n", item.what, item.remedy));
        format!("\nTo look at:\n{}", lines.collect::<String>())
    }
}

impl Report for Review {
    fn text(&self) -> String {
        if self.lacks.is_empty() { self.matrix() } else { self.lacking() }
    }
}

impl Review {
    /// One line a box: `Box 7 · girl 3–5, garden: hygiene needs 3 of 3`.
    fn lacking(&self) -> String {
        if self.boxes.is_empty() {
            return format!("No box lacks a {} item.\n", self.lacks.trim_end_matches(" item"));
        }
        let line = |giftbox: &BoxLine| {
            let cell = giftbox.checklist.iter().find(|cell| cell.line == self.lacks);
            let words = cell.map_or("", super::boxes::Cell::words);
            format!("{}: {words}\n", giftbox.heading())
        };
        let lines: String = self.boxes.iter().map(line).collect();
        let lack = if self.boxes.len() == 1 { "lacks" } else { "lack" };
        let of = counted(self.looked_at as u64, "box", "boxes");
        format!("{lines}{} of {of} looked at {lack} {}.\n", self.boxes.len(), self.lacks)
    }

    fn matrix(&self) -> String {
        if self.boxes.is_empty() {
            return format!("No boxes to look at.\n{}", self.settle.text());
        }
        let mut names: Vec<&str> = Vec::new();
        for cell in self.boxes.iter().flat_map(|giftbox| &giftbox.checklist) {
            if !names.contains(&cell.line.as_str()) {
                names.push(&cell.line);
            }
        }
        let mut columns = vec![("box", Side::Right), ("for", Side::Left), ("theme", Side::Left)];
        columns.extend(names.iter().map(|name| (*name, Side::Left)));
        let row = |giftbox: &BoxLine| {
            let head = [giftbox.label.clone(), format!("{} {}", giftbox.for_whom, giftbox.ages), giftbox.theme.clone()];
            let cells = names.iter().map(|name| cell(giftbox, name));
            head.into_iter().chain(cells).collect::<Vec<_>>()
        };
        let mut text = table(&columns, &self.boxes.iter().map(row).collect::<Vec<_>>());
        text.push_str("\n ✓ full   ◇ 1 set aside, not in yet   ◒ 2 still needed   ○ 3 needed, nothing there yet\n");
        let full = self.boxes.iter().filter(|giftbox| giftbox.full).count();
        text.push_str(&format!("\n {full} of {} full\n", counted(self.boxes.len() as u64, "box", "boxes")));
        text + &self.settle.text()
    }
}

fn cell(giftbox: &BoxLine, name: &str) -> String {
    let Some(cell) = giftbox.checklist.iter().find(|cell| cell.line == name) else { return String::new() };
    match cell.met {
        Met::Full => cell.met.sign().to_string(),
        Met::OnceIn => format!("{} {}", cell.met.sign(), cell.wanted - cell.inside),
        met => format!("{} {}", met.sign(), cell.needs),
    }
}
