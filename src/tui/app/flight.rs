//! What was asked of the season and the search, and is not answered yet.

use super::line::Line;

/// What is on its way.
#[derive(Debug, Default)]
pub struct Flight {
    /// Acts and parts asked for.
    pub answers: usize,
    /// The search that is awaited.
    pub search: Option<u64>,
    /// Which search was the last one.
    pub turn: u64,
    /// Whether it is a taking back that is on its way.
    pub undoing: bool,
    /// Whether it serves the ticked boxes: they were ticked for one act.
    pub serves: bool,
    /// The line whose words are being done: they come back if that fails.
    pub line: Option<Line>,
    /// A line that waits until the open one is free: one of the two was begun while the other was being done.
    pub begun: Option<Line>,
}

impl Flight {
    /// Whether an answer is awaited.
    pub fn is_busy(&self) -> bool {
        self.answers > 0 || self.search.is_some()
    }
}
