//! A gift box as planned, and the state it is in.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::age::Ages;
use super::whom::ForWhom;

/// What is said of a box; each field is an attribute, the last one who says it wins.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BoxFacts {
    /// The number people call it by.
    pub number: u32,
    /// Who it is for; either, if not said.
    #[serde(default, rename = "for", skip_serializing_if = "Option::is_none")]
    pub for_whom: Option<ForWhom>,
    /// The age group.
    pub ages: Ages,
    /// A theme in a word or two; empty where there is none.
    #[serde(default)]
    pub theme: String,
    /// Colours it is built around.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub palette: Vec<String>,
}

/// One field of a box set to a value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BoxField {
    /// The number.
    Number(u32),
    /// Who it is for.
    For(Option<ForWhom>),
    /// The age group.
    Ages(Ages),
    /// The theme.
    Theme(String),
    /// The colours.
    Palette(Vec<String>),
}

impl BoxFacts {
    /// Sets one field.
    pub fn set(&mut self, field: BoxField) {
        match field {
            BoxField::Number(number) => self.number = number,
            BoxField::For(for_whom) => self.for_whom = for_whom,
            BoxField::Ages(ages) => self.ages = ages,
            BoxField::Theme(theme) => self.theme = theme,
            BoxField::Palette(palette) => self.palette = palette,
        }
    }

    /// Who it is for, in a word.
    pub fn whom(&self) -> &'static str {
        self.for_whom.map_or("either", ForWhom::word)
    }
}

/// Where a box stands in its life.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BoxState {
    /// Planned or being packed: things may go in and out.
    #[default]
    Open,
    /// Closed; it is done unless it is opened again.
    Closed,
    /// Given to the drive.
    HandedIn,
    /// Came back from the drive, still as it was closed.
    CameBack,
    /// Taken off the plan.
    Dropped,
}

impl BoxState {
    /// Whether things may go in and out.
    pub fn is_open(self) -> bool {
        self == BoxState::Open
    }
}

impl fmt::Display for BoxState {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            BoxState::Open => "open",
            BoxState::Closed => "closed",
            BoxState::HandedIn => "handed in",
            BoxState::CameBack => "came back",
            BoxState::Dropped => "off the plan",
        })
    }
}
