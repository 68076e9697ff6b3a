//! What a line leaves open.

use serde::Serialize;

/// What a question is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum About {
    /// What the thing is.
    Name,
    /// How many there are.
    Units,
    /// What was paid.
    Paid,
    /// For what ages.
    Ages,
    /// Which size.
    Size,
    /// Where it came from.
    Shop,
    /// Where it is kept.
    Place,
    /// When it was got.
    Date,
    /// When it goes off.
    Expires,
    /// How large or heavy it is.
    Measure,
    /// What a box will be about.
    Theme,
    /// What part of the checklist it serves.
    Category,
}

impl About {
    /// The word used for it in JSON.
    pub fn word(self) -> &'static str {
        match self {
            About::Name => "name",
            About::Units => "units",
            About::Paid => "paid",
            About::Ages => "ages",
            About::Size => "size",
            About::Shop => "shop",
            About::Place => "place",
            About::Date => "date",
            About::Expires => "expires",
            About::Measure => "measure",
            About::Theme => "theme",
            About::Category => "category",
        }
    }
}

/// Something a person settles with one key.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Question {
    /// What is open.
    pub about: About,
    /// Which words leave it open, and why.
    pub why: String,
}
