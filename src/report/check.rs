//! What a look over the file found.

use serde::Serialize;

use super::Report;
use crate::model::text::counted;

/// What was looked at and found.
#[derive(Debug, Clone, Serialize)]
pub struct Looked {
    /// Events looked at.
    pub events: usize,
    /// What is not as it should be.
    pub troubles: Vec<TroubleLine>,
}

/// One trouble.
#[derive(Debug, Clone, Serialize)]
pub struct TroubleLine {
    /// What is wrong.
    pub what: String,
    /// What to do.
    pub remedy: String,
}

impl Report for Looked {
    fn text(&self) -> String {
        if self.troubles.is_empty() {
            let steps = counted(self.events as u64, "step", "steps");
            return format!("All is well: {steps} kept, and all that is shown follows from them.\n");
        }
        self.troubles.iter().map(|trouble| format!(" ! {}: {}\n", trouble.what, trouble.remedy)).collect()
    }
}
