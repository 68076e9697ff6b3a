//! The terminal interface: keys in, screen out.

#![cfg(test)]

mod budgets;
mod evening;
mod finding;
mod logging;
mod packing;
mod pasting;
mod readme;
mod reviewing;
mod sizes;
mod table;
mod terminal;
