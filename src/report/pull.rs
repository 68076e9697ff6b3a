//! What to fetch from which tote, to put into which box.

use serde::{Serialize, Serializer};

use super::Report;
use crate::model::id::{BoxId, PlacementId};
use crate::model::measure::Units;
use crate::model::text::{counted, things_of};

/// All that is set aside for open boxes, by where it lies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PullList {
    /// The totes, by name; last what lies nobody said where.
    pub totes: Vec<PullTote>,
}

/// What to fetch from one tote.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PullTote {
    /// The tote; empty: nobody said.
    pub tote: String,
    /// What to fetch, by name.
    pub rows: Vec<PullRow>,
}

/// Units of one thing to fetch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PullRow {
    /// What it is called.
    pub title: String,
    /// How many in all.
    pub units: u32,
    /// Which boxes they are for, what those are called, and how many each.
    #[serde(serialize_with = "by_box")]
    pub boxes: Vec<(BoxId, String, u32)>,
    /// The set-aside units that a tick puts in.
    #[serde(skip)]
    pub placements: Vec<PlacementId>,
}

impl PullRow {
    /// How many of what: `1 comb`, `3 rulers`.
    pub fn things(&self) -> String {
        things_of(Units::new(self.units).unwrap_or_default(), &self.title)
    }

    /// Which boxes: `boxes 4, 12`, `boxes 4 (2), 12`.
    pub fn for_boxes(&self) -> String {
        let several = self.boxes.len() > 1;
        let of = |(_, label, units): &(BoxId, String, u32)| {
            if *units == 1 || (!several && *units == self.units) { label.clone() } else { format!("{label} ({units})") }
        };
        let boxes: Vec<String> = self.boxes.iter().map(of).collect();
        format!("{} {}", if several { "boxes" } else { "box" }, boxes.join(", "))
    }
}

/// For programs each box stands under its name.
fn by_box<S: Serializer>(boxes: &[(BoxId, String, u32)], to: S) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct ForBox<'a> {
        #[serde(rename = "box")]
        label: &'a str,
        units: u32,
    }
    to.collect_seq(boxes.iter().map(|(_, label, units)| ForBox { label, units: *units }))
}

impl Report for PullList {
    fn text(&self) -> String {
        if self.totes.is_empty() {
            return "Nothing is set aside.\n".to_owned();
        }
        let mut text = String::new();
        for tote in &self.totes {
            let place = if tote.tote.is_empty() { "nobody said where" } else { &tote.tote };
            text.push_str(&format!("{place}\n"));
            for row in &tote.rows {
                text.push_str(&format!(" □ {}   {}\n", row.things(), row.for_boxes()));
            }
        }
        let units: u32 = self.totes.iter().flat_map(|tote| &tote.rows).map(|row| row.units).sum();
        text.push_str(&format!("\n {} to fetch\n", counted(u64::from(units), "thing", "things")));
        text
    }
}
