//! Brimful.
pub mod find;
pub mod model;
pub mod report;
pub mod store;
