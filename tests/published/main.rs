//! Figures that others have published, each beside the source that names it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets what must not be there stops"
)]

mod average;
mod currencies;
mod fifo;
mod fit;
mod loading;
mod plan;
mod plan_file;
mod rounding;
mod shop;
