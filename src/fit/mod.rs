//! Does a set of things go into a box, and where does each go?
//!
//! [`Engine`] searches in slices, as long as one likes; [`Answer`] is one of five, and never says that something is
//! impossible without a [`Proof`]. Stiff things are packed as solids (`pack`), soft ones are stuffed into the gaps,
//! small ones are tucked into holders first. Every plan that leaves the engine passes [`check`].

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "sides are 1 to `LONGEST`, counts fit 16 bits, and ratings are estimates: nothing is lost"
)]
#![allow(clippy::needless_range_loop, reason = "an axis looks into several arrays at once")]

mod assemble;
pub mod check;
pub mod cuboid;
mod dice;
mod dual;
mod engine;
mod gauge;
mod hang;
mod hold;
mod layers;
mod lid;
mod order;
mod pack;
mod plan;
mod press;
mod proof;
mod room;
pub mod say;
mod settle;
#[cfg(test)]
mod tests;
mod thing;

pub use engine::Engine;
pub use gauge::{Gauge, gauge};
pub use layers::{Layer, Legend, layers};
pub use lid::{Lid, lid};
pub use order::{Step, order};
pub use pack::Goal;
pub use plan::{Answer, Placed, Plan, Tight};
pub use proof::Proof;
pub use room::{RoomLeft, room_left, what_else};
pub use thing::{Problem, Room, Shape, Space, Thing};
