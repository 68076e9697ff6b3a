//! Core categories of a checklist.

use std::fmt;

use serde::{Deserialize, Serialize};

/// What part of the checklist a thing serves.
///
/// The five core categories are common practice; a drive may name its own.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(from = "String", into = "String")]
pub enum Category {
    /// Toothbrush, soap, comb.
    Hygiene,
    /// Pencils, notebook, ruler.
    School,
    /// Socks, shirt, cap.
    Clothing,
    /// Ball, doll, puzzle.
    Toy,
    /// The one thing that makes the eyes go wide.
    Wow,
    /// A thing that no checklist asks for.
    Extras,
    /// A category of the drive's own, lower case.
    Own(String),
}

impl Category {
    /// The core five, in the order of the usual checklist.
    pub const CORE: [Category; 5] =
        [Category::Hygiene, Category::School, Category::Clothing, Category::Toy, Category::Wow];

    /// The word kept in files and JSON: `wow`.
    pub fn word(&self) -> &str {
        match self {
            Category::Hygiene => "hygiene",
            Category::School => "school",
            Category::Clothing => "clothing",
            Category::Toy => "toy",
            Category::Wow => "wow",
            Category::Extras => "extras",
            Category::Own(name) => name,
        }
    }

    /// The words on screen: `wow item`.
    pub fn words(&self) -> &str {
        match self {
            Category::Wow => "wow item",
            other => other.word(),
        }
    }
}

impl From<String> for Category {
    fn from(word: String) -> Category {
        match word.trim().to_lowercase().as_str() {
            "hygiene" => Category::Hygiene,
            "school" => Category::School,
            "clothing" | "clothes" => Category::Clothing,
            "toy" | "toys" => Category::Toy,
            "wow" | "wow item" => Category::Wow,
            "extra" | "extras" => Category::Extras,
            own => Category::Own(own.to_owned()),
        }
    }
}

impl From<&str> for Category {
    fn from(word: &str) -> Category {
        Category::from(word.to_owned())
    }
}

impl From<Category> for String {
    fn from(category: Category) -> String {
        category.word().to_owned()
    }
}

impl fmt::Display for Category {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.words())
    }
}
