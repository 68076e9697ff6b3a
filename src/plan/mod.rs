//! Which boxes can be finished, what holds them back, and what to buy.

mod bound;
mod compile;
pub mod file;
mod filler;
mod flow;
mod gomory;
mod lines;
mod lp;
mod master;
mod net;
mod packer;
mod price;
pub mod problem;
mod search;

#[cfg(feature = "trial")]
#[path = "/work/wt/plan-scratch/src/trial.rs"]
pub mod trial;
