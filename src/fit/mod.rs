//! Does it fit, and where does it go.

pub mod cuboid;
mod dice;
pub mod pack;
