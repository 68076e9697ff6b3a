//! Answers as plain values, and how each is told: as text for people, as JSON for programs.
//!
//! Nothing here asks a store; season gathers, these tell.

pub mod average;
pub mod boxes;
pub mod buy;
pub mod cautions;
pub mod check;
pub mod costs;
pub mod fit;
pub mod hauls;
pub mod history;
pub mod night;
pub mod places;
pub mod plan;
pub mod pull;
pub mod review;
pub mod rules;
pub mod stock;
mod sum;
pub mod summary;
mod table;
pub mod tonight;

pub use review::{Settle, SettleItem};
pub use sum::Sum;

use serde::Serialize;

/// An answer that can be told.
pub trait Report: Serialize {
    /// For people: lines that end with a newline.
    fn text(&self) -> String;

    /// For programs: one line of JSON with a version.
    fn json(&self) -> String {
        #[derive(Serialize)]
        struct Versioned<'a, T: ?Sized + Serialize> {
            version: u8,
            #[serde(flatten)]
            report: &'a T,
        }
        // Reports are structs of strings, numbers and lists: they can always be written.
        serde_json::to_string(&Versioned { version: 1, report: self }).unwrap_or_default()
    }
}
