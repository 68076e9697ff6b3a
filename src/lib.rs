//! Brimful.
pub mod model;
