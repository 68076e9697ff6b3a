//! The terminal interface: keys in, screen out.

#![cfg(test)]

mod budgets;
mod careful;
#[path = "../laws/dice.rs"]
mod dice;
mod editing;
mod evening;
mod finding;
mod fitting;
mod keys;
mod logging;
mod making;
mod monkey;
mod packing;
mod pasting;
mod planning;
mod readme;
mod receipts;
mod reviewing;
mod sizes;
mod slow;
mod table;
mod terminal;
mod waiting;
