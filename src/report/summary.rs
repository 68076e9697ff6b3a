//! How a season stands, in a few lines.

use serde::Serialize;

use super::{Report, Sum};
use crate::model::text::counted;

/// How a season stands.
#[derive(Debug, Clone, Serialize)]
pub struct Summary {
    /// The drive's name.
    pub drive: String,
    /// The next drop-off; empty: none is known.
    pub drop_off: String,
    /// Days until then.
    pub days_left: Option<i64>,
    /// Boxes on the plan.
    pub boxes: usize,
    /// Of those, full ones.
    pub full: usize,
    /// Of those, closed or handed in.
    pub closed: usize,
    /// Units on hand.
    pub on_hand: u32,
    /// Of those, set aside.
    pub aside: u32,
    /// Hauls logged.
    pub hauls: usize,
    /// All that was spent.
    pub spent: Sum,
    /// How many open boxes lack each line of the checklist.
    pub lacking: Vec<Lacking>,
    /// Things that want a look.
    pub to_look_at: usize,
}

/// How many boxes lack something.
#[derive(Debug, Clone, Serialize)]
pub struct Lacking {
    /// What.
    pub line: String,
    /// How many boxes.
    pub boxes: usize,
    /// How many of it they need that are neither in nor set aside.
    pub needs: u32,
}

impl Report for Summary {
    fn text(&self) -> String {
        let mut text = format!("{}{}\n", self.drive, self.until());
        text.push_str(&format!(" {}\n {}\n", self.boxes_words(), self.stock_words()));
        for lacking in &self.lacking {
            let lack = counted(lacking.boxes as u64, "box lacks", "boxes lack");
            text.push_str(&format!(" {lack} {}: {} still needed\n", lacking.line, lacking.needs));
        }
        if self.to_look_at > 0 {
            let things = counted(self.to_look_at as u64, "thing wants", "things want");
            text.push_str(&format!(" {things} a look: `brimful review`\n"));
        }
        text
    }
}

impl Summary {
    fn boxes_words(&self) -> String {
        if self.boxes == 0 {
            return "no boxes yet: `brimful box plan girl 6-8 ocean` plans one".to_owned();
        }
        let boxes = counted(self.boxes as u64, "box", "boxes");
        format!("{} of {boxes} full, {} closed", self.full, self.closed)
    }

    fn stock_words(&self) -> String {
        if self.hauls == 0 {
            return "nothing bought yet: `brimful log` writes it down; `brimful sample` shows an invented drive"
                .to_owned();
        }
        let (things, hauls) =
            (counted(u64::from(self.on_hand), "thing", "things"), counted(self.hauls as u64, "haul", "hauls"));
        let aside = if self.aside > 0 { format!(", {} set aside", self.aside) } else { String::new() };
        format!("{things} on hand{aside}\n {hauls}; spent {}", self.spent.words())
    }

    fn until(&self) -> String {
        match self.days_left {
            None => String::new(),
            Some(0) => format!(" · drop-off today, {}", self.drop_off),
            Some(days) => {
                let days = counted(days.unsigned_abs(), "day", "days");
                format!(" · drop-off {}, {days} left", self.drop_off)
            }
        }
    }
}
