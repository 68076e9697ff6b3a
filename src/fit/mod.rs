//! Does it fit, and where does it go.

pub mod cuboid;
pub mod pack;
