//! Brimful.
pub mod catalogue;
pub mod model;
