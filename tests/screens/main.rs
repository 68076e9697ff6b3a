//! The terminal interface: keys in, screen out.

mod editing;
mod evening;
mod keys;
mod table;
mod terminal;
