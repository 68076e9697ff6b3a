//! Brimful: gift boxes for a donation drive, from a haul in plain words to a packed box.
//!
//! The house, floor by floor. Each floor may use the floors named behind its arrow and no other;
//! `tests/docs` reads every `use` line and holds it to that.
//!
//! - [`model`]: the nouns of the trade, money and measures, events and their laws, the cost fold.
//!   Knows nothing else: no file, no clock, no terminal.
//! - [`catalogue`] → model: typical kinds of things and names of colours, as data files.
//! - [`reading`] → model, catalogue: a line of plain words → what was understood, and what is in doubt.
//! - [`find`] → model, catalogue: a name from a few letters of it.
//! - [`cautions`] → model, catalogue: what can hurt a child of some age, and what the drive forbids.
//! - [`suits`] → model: what suits a box, best first, each with its reasons.
//! - [`fit`] → model: whether a set of things goes into a box, and where each goes.
//! - [`plan`] → model: which boxes can be finished, what holds the others back, what to buy.
//! - [`report`] → model: answers as plain values, and how each is told as text or JSON.
//! - [`store`] → model: where a season is kept. The only floor that knows the database.
//! - [`season`] → all of these: every act a person can do. It decides which facts an act comes to
//!   and hands them to the store as one whole.
//! - [`tui`] → season, model: the terminal interface; state, drawing and what stands behind them kept apart.
//! - [`cli`] → season, model, tui: the shell's face; one file for each command.
//!
//! To find a behaviour: a command's file in `cli` names the act in `season`, and the act names
//! the floor that knows.

pub mod catalogue;
pub mod cautions;
pub mod cli;
pub mod find;
pub mod fit;
pub mod model;
pub mod plan;
pub mod reading;
pub mod report;
pub mod season;
pub mod store;
pub mod suits;
pub mod tui;
