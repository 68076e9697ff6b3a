//! The terminal interface.
//!
//! - `app`: what is on the screens as plain values, the one table of actions, and what each key
//!   changes; it tells what should be done outside as effects.
//! - `draw`: from those values to cells; it changes nothing.
//! - `back`: the season and the search behind the screens, each on a thread of its own.
//! - `term`: the only file that knows the terminal.

pub mod app;
pub mod back;
pub mod draw;

mod crash;
mod editor;
mod gate;
mod term;

pub use crash::Notes;
pub use term::{Guard, Left, Seat, Showing};
