//! The terminal interface: keys in, screen out.

#![cfg(test)]

mod evening;
mod readme;
mod table;
mod terminal;
