//! The laws of a season, held against acts done at random and files joined at random.
//!
//! `oracle` tells a season a second time, from the laws alone (`stock` one batch, `boxes` the
//! boxes, `sums` the sharing);
//! `play` and `acts` are people who do things at random, `table` sets several of them at computers
//! that are joined now and then; `laws` says what must hold. The other files are the tests.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets what must not be there stops"
)]

mod acts;
mod boxes;
mod by_hand;
mod careful;
mod dice;
mod fit;
mod late;
mod laws;
mod oracle;
mod planning;
mod play;
mod runs;
mod shelf;
mod slow_plan;
mod stock;
mod sums;
mod table;
mod undo;
mod volume;
