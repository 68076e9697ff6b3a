//! What a line leaves open.

use serde::Serialize;

use crate::model::habit::Lesson;

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
    /// Which box it is for.
    Box,
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
            About::Box => "box",
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
    /// What it could be, most likely first; not in the JSON.
    #[serde(skip)]
    pub choices: Vec<Choice>,
}

/// One answer to a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// The answer in a few words: `ages 7 to 8`, `paid 7.50`.
    pub label: String,
    /// The whole line so written that it reads that way; `None`: the person writes it.
    pub line: Option<String>,
    /// What it teaches for lines to come.
    pub lesson: Option<Lesson>,
}

impl Question {
    /// A question without answers yet; they are found when the whole line is understood.
    pub(super) fn new(about: About, why: String) -> Question {
        Question { about, why, choices: Vec::new() }
    }

    /// Whether a thing can be kept with this left open. How many there are and what they are can't wait.
    pub fn can_wait(&self) -> bool {
        !matches!(self.about, About::Units | About::Name)
    }
}

impl Choice {
    /// An answer for which the line is written anew.
    pub(super) fn new(label: impl Into<String>, line: String) -> Choice {
        Choice { label: label.into(), line: Some(line), lesson: None }
    }

    /// Back to the words.
    pub(super) fn by_hand(label: &str) -> Choice {
        Choice { label: label.to_owned(), line: None, lesson: None }
    }
}
