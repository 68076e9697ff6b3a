//! The drive's rules, row by row.

use serde::Serialize;

/// One rule of the drive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleRow {
    /// What it is about: `age groups`, `checklist, 6–8`, `drop-off`.
    pub what: String,
    /// The rule in words as one would type them; empty where nothing is said.
    pub words: String,
}
