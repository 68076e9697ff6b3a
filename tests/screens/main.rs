//! The terminal interface: keys in, screen out.

mod evening;
mod table;
mod terminal;
