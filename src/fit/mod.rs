//! Does a set of things go into a box, and where does each go?
//!
//! [`Engine`] searches in slices, as long as one likes; [`Answer`] is one of five, and never says that something is
//! impossible without a [`Proof`]. Stiff things are packed as solids (`pack`), soft ones are stuffed into the gaps,
//! small ones are tucked into holders first. Every plan that leaves the engine passes [`check`].

mod assemble;
pub mod check;
pub mod cuboid;
mod dice;
mod dual;
mod engine;
mod pack;
mod hang;
mod hold;
mod plan;
mod press;
mod proof;
mod settle;
mod thing;

pub use engine::Engine;
pub use pack::Goal;
pub use plan::{Answer, Placed, Plan, Tight};
pub use proof::Proof;
pub use thing::{Problem, Room, Shape, Space, Thing};
