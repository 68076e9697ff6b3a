//! Brimful.
pub mod catalogue;
pub mod model;
pub mod reading;
