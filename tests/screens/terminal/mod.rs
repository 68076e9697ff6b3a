//! Stories in a real terminal: the program as it is shipped, in a terminal of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets what must not be there stops"
)]

mod edges;
mod ends;
mod evening;
mod first;
mod looks;
mod mouse;
mod others;
mod paste;
mod resize;
mod seat;
mod settings;
mod stops;
