//! The terminal interface: keys in, screen out.

#![cfg(test)]

mod evening;
mod budgets;
mod readme;
mod finding;
mod logging;
mod packing;
mod pasting;
mod reviewing;
mod sizes;
mod table;
mod terminal;
