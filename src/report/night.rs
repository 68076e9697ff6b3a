//! The last night: each box that is not handed in, what stops it, and its fix.

use serde::Serialize;

use super::Report;
use crate::model::id::BoxId;

/// What stands between the boxes and the drop-off.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LastNight {
    /// The next day on which boxes are taken in, or the last one that was; empty: none is known.
    pub drop_off: String,
    /// Days until then; below nothing once it is over.
    pub days_left: Option<i64>,
    /// Boxes not handed in: open ones first, those nearest to full leading; then closed ones.
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
    /// It in words: `girl 6–8, ocean`.
    pub heading: String,
    /// What stops it, one after the other.
    pub stops: Vec<String>,
    /// What to do.
    pub fix: String,
    /// Whether what is on hand is all that it takes.
    pub fix_from_stock: bool,
}

impl Report for LastNight {
    fn text(&self) -> String {
        String::new()
    }
}
