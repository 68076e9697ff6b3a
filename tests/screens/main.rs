//! The terminal interface: keys in, screen out.

mod evening;
mod keys;
mod table;
mod terminal;
