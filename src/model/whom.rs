//! Who a thing is for.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Who a thing suits, where it doesn't suit either.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ForWhom {
    /// A girl.
    Girl,
    /// A boy.
    Boy,
}

impl fmt::Display for ForWhom {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            ForWhom::Girl => "girl",
            ForWhom::Boy => "boy",
        })
    }
}
