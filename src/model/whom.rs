//! Who a thing or a box is for.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A girl or a boy; where either is meant, there is simply none of these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ForWhom {
    /// For a girl.
    Girl,
    /// For a boy.
    Boy,
}

impl ForWhom {
    /// The word on screen.
    pub fn word(self) -> &'static str {
        match self {
            ForWhom::Girl => "girl",
            ForWhom::Boy => "boy",
        }
    }
}

impl fmt::Display for ForWhom {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}
