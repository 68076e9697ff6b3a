//! The nouns of the trade, their laws, and the plain values that two floors share.
//!
//! Pure: no clock, no file, no terminal, and no other floor of the house.

pub mod age;
pub mod category;
pub mod currency;
pub mod kind;
pub mod measure;
pub mod money;
pub mod profile;
pub mod share;
pub mod text;
pub mod whom;
