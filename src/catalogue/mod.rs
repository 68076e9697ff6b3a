//! Typical kinds of things and names of colours: data files that a person can edit, and their readers.

pub mod colours;
mod counts;
mod heads;
pub mod kinds;
mod singular;
mod spelling;
mod written;

pub use kinds::Catalogue;
pub use singular::{likely_singular, same_word};
