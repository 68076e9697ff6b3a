//! The terminal interface: keys in, screen out.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets what must not be there stops, and tells on the way"
)]

#[path = "../laws/dice.rs"]
#[allow(dead_code, reason = "the laws throw these dice in more ways")]
mod dice;
mod evening;
mod monkey;
mod slow;
mod table;
mod waiting;
