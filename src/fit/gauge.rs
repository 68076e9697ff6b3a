//! How full a box is.

use super::cuboid::volume;
use super::plan::{Placed, Plan};
use super::thing::Problem;

/// How full a box is, how far its soft things are pressed, and what is in it weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gauge {
    /// Of the box, in thousandths: what is stiff.
    pub stiff: i64,
    /// What is soft, as it is pressed.
    pub soft: i64,
    /// What is left.
    pub free: i64,
    /// To what share of their volume all soft things together are pressed, in hundredths; none if nothing is.
    pub pressed_to: Option<u8>,
    /// What all of it weighs, in tenths of a gram.
    pub weight: u64,
}

/// Measures a plan.
pub fn gauge(problem: &Problem, plan: &Plan) -> Gauge {
    let whole = volume(plan.space.inside).max(1);
    let is_stiff = |placed: &&Placed| problem.things[placed.thing].is_stiff();
    let stiff: i64 = plan.outer().filter(is_stiff).map(Placed::volume).sum();
    let soft: i64 = plan.outer().filter(|placed| !is_stiff(placed)).map(Placed::volume).sum();
    let (stiff, soft_share) = (stiff * 1000 / whole, soft * 1000 / whole);
    let relaxed: i64 =
        plan.outer().filter(|placed| !is_stiff(placed)).map(|placed| problem.things[placed.thing].volume()).sum();
    let pressed_to = (soft < relaxed).then(|| u8::try_from(soft * 100 / relaxed).unwrap_or(100));
    let weight = plan.placed.iter().map(|placed| u64::from(problem.things[placed.thing].weight)).sum();
    Gauge { stiff, soft: soft_share, free: 1000 - stiff - soft_share, pressed_to, weight }
}
