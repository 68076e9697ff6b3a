//! What a drive adds to the built-in cautions, makes stricter, or allows.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::age::Ages;
use super::category::Category;

/// How much a caution asks for, the mildest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// It may go in, and a line on the sheet tells the parent of it.
    TellParent,
    /// It may go in once somebody has looked at it.
    LookTwice,
    /// It is for older children.
    NotForAge,
    /// The drive doesn't take it.
    Forbidden,
}

impl Level {
    /// The words on screen.
    pub fn words(self) -> &'static str {
        match self {
            Level::TellParent => "tell the parent",
            Level::LookTwice => "look twice",
            Level::NotForAge => "not for this age",
            Level::Forbidden => "the drive forbids it",
        }
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.words())
    }
}

/// What a drive's rule says of the things that it names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ruling {
    /// A built-in caution is not needed here.
    Allow,
    /// Like [`Level::TellParent`].
    TellParent,
    /// Like [`Level::LookTwice`].
    LookTwice,
    /// Like [`Level::NotForAge`].
    NotForAge,
    /// Like [`Level::Forbidden`].
    Forbidden,
}

impl Ruling {
    /// The level it asks for; none where it allows.
    pub fn level(self) -> Option<Level> {
        match self {
            Ruling::Allow => None,
            Ruling::TellParent => Some(Level::TellParent),
            Ruling::LookTwice => Some(Level::LookTwice),
            Ruling::NotForAge => Some(Level::NotForAge),
            Ruling::Forbidden => Some(Level::Forbidden),
        }
    }
}

/// A rule of the drive's own.
///
/// With `about` it changes a built-in caution: it makes it stricter, or allows what it speaks of. Without, it is a
/// caution by itself. Each list that isn't empty must be met by one of its words; words and names are lower case.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DriveRule {
    /// The id of the built-in caution that it changes; whether there is one is not known here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<String>,
    /// Words in the name of a thing.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub words: Vec<String>,
    /// Names of kinds.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kinds: Vec<String>,
    /// Categories.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub categories: Vec<Category>,
    /// What was said of a thing: used, small-parts, liquid.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flags: Vec<String>,
    /// The ages that it holds for; all, if none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ages: Option<Ages>,
    /// What it says.
    pub level: Ruling,
    /// Why, in the drive's words.
    pub reason: String,
}

impl DriveRule {
    /// Whether it names any things at all, and not only a built-in caution.
    pub fn names_things(&self) -> bool {
        !(self.words.is_empty() && self.kinds.is_empty() && self.categories.is_empty() && self.flags.is_empty())
    }
}
