//! The terminal interface: keys in, screen out.

mod budgets;
mod evening;
mod finding;
mod logging;
mod packing;
mod pasting;
mod reviewing;
mod sizes;
mod table;
