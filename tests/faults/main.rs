//! What happens when things go wrong: killed, damaged, foreign, newer, read-only, two at once.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets what must not be there stops"
)]

mod files;
#[path = "../stories/shell.rs"]
#[expect(dead_code, reason = "the stories use more of it")]
mod shell;
mod strange;
mod sudden;
