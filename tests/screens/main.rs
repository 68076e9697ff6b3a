//! The terminal interface: keys in, screen out.

mod evening;
mod readme;
mod table;
mod terminal;
