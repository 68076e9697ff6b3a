//! The last night: each box that is not handed in, what stops it, and its fix.

use serde::Serialize;

use super::Report;
use crate::model::id::BoxId;
use crate::model::text::counted;

/// What stands between the boxes and the drop-off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LastNight {
    /// The next day on which boxes are taken in, or the last one there was; empty: none is known.
    pub drop_off: String,
    /// Days until then; below nothing once it is over.
    pub days_left: Option<i64>,
    /// Boxes not handed in: open ones first, those nearest to full leading; then those that came back, and closed ones.
    pub rows: Vec<NightRow>,
    /// How many are handed in.
    pub handed_in: usize,
}

/// A box that is not handed in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NightRow {
    /// Which.
    #[serde(skip)]
    pub box_id: BoxId,
    /// What people call it.
    #[serde(rename = "box")]
    pub label: String,
    /// It in words: `Box 12 · girl 6–8, ocean`.
    pub heading: String,
    /// What stops it, one after the other.
    pub stops: Vec<String>,
    /// What to do.
    pub fix: String,
    /// Whether what is on hand is all that it takes.
    pub fix_from_stock: bool,
}

impl LastNight {
    /// How long there is, in words: `Drop-off 2027-11-18, 35 days left.`
    pub fn time_left(&self) -> String {
        let days = |count: i64| counted(count.unsigned_abs(), "day", "days");
        match self.days_left {
            None => "No drop-off day is known.".to_owned(),
            Some(0) => format!("The drop-off is today, {}.", self.drop_off),
            Some(left) if left < 0 => format!("The last drop-off was {}, {} ago.", self.drop_off, days(left)),
            Some(left) => format!("Drop-off {}, {} left.", self.drop_off, days(left)),
        }
    }

    fn in_short(&self) -> String {
        let all = counted((self.rows.len() + self.handed_in) as u64, "box", "boxes");
        let ready = self.rows.iter().filter(|row| row.fix_from_stock).count();
        let still = self.rows.len();
        format!("{still} of {all} not handed in; for {ready} of them all that it takes is on hand.")
    }
}

impl Report for LastNight {
    fn text(&self) -> String {
        if self.rows.is_empty() && self.handed_in == 0 {
            return "No boxes. `brimful box plan \"girl 6-8 ocean, teal\"` plans one.\n".to_owned();
        }
        let mut text = format!("{}\n", self.time_left());
        if self.rows.is_empty() {
            let boxes = counted(self.handed_in as u64, "box", "boxes");
            text.push_str(&format!("Nothing is left to do: {boxes} handed in.\n"));
            return text;
        }
        for row in &self.rows {
            text.push_str(&format!("\n{}\n   {}\n   fix: {}\n", row.heading, row.stops.join("; "), row.fix));
        }
        text.push_str(&format!("\n{}\n", self.in_short()));
        text
    }
}
