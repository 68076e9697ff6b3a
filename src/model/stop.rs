//! When a long search should stop.

/// Asked now and then by a long search; true ends it with the best found so far.
pub trait Stop {
    /// Whether to stop now.
    fn stopped(&self) -> bool;
}
