//! How many boxes can be finished with what is on hand.

use super::compile::Compiled;
use super::explain::Explanation;
use super::level;
use super::master::Aim;
use super::packer::Packer;
use super::problem::{Plan, Problem};
use super::search::Search;
use crate::model::stop::Stop;

/// The most boxes that were found to be finished, and what no plan exceeds; that is the most if both are the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Most {
    /// Boxes that `plan` finishes.
    pub found: u32,
    /// No plan finishes more.
    pub at_most: u32,
    /// How many of each group.
    pub plan: Plan,
    /// What holds the others back.
    pub explanation: Explanation,
}

/// The most if a category never ran out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unlimited {
    /// The category.
    pub category: String,
    /// Boxes that were found to be finished then.
    pub found: u32,
    /// No plan finishes more then.
    pub at_most: u32,
}

/// The most boxes that can be finished.
///
/// Of plans that finish as many, the one shown last is kept; else boxes are finished as evenly over the groups as
/// exchanging box for box makes it, and then in the order of the groups.
pub fn most(problem: &Problem, stop: &dyn Stop) -> Most {
    let compiled = Compiled::new(problem);
    let (counts, at_most) = most_of(&compiled, stop);
    let mut packer = Packer::new(&compiled, false);
    let plan =
        match problem.shown.as_ref().and_then(|shown| still_good(&compiled, &mut packer, shown, &counts, problem)) {
            Some(shown) => shown,
            None => compiled.by_group(problem, &level::evened(&mut packer, counts, stop)),
        };
    let explanation = Explanation::of(problem, &compiled, &compiled.by_bundle(&plan));
    Most { found: plan.iter().sum(), at_most, plan, explanation }
}

/// For each category how many boxes could be finished if it never ran out: where that is most, it holds back most.
pub fn unlimited(problem: &Problem, category: &str, stop: &dyn Stop) -> Unlimited {
    let mut compiled = Compiled::new(problem);
    if let Some(index) = compiled.categories.iter().position(|known| known == category) {
        compiled = compiled.without(index);
    }
    let (counts, at_most) = most_of(&compiled, stop);
    Unlimited { category: category.to_owned(), found: boxes(counts.iter().sum()), at_most }
}

/// The counts of the best plan found, and what no plan exceeds.
pub(super) fn most_of(compiled: &Compiled, stop: &dyn Stop) -> (Vec<i64>, u32) {
    let outcome = Search::new(compiled, Aim::Most, stop).run();
    // No box at all can always be finished.
    let (counts, found) = outcome.best.unwrap_or_else(|| (vec![0; compiled.bundles.len()], 0));
    let all: i64 = compiled.all().iter().sum();
    let at_most = outcome.bound.unwrap_or(found).min(i128::from(all)).max(found);
    (counts, boxes(i64::try_from(at_most).unwrap_or(all)))
}

/// The plan shown last, if it can still be carried out and finishes as many.
fn still_good(
    compiled: &Compiled,
    packer: &mut Packer<'_>,
    shown: &Plan,
    counts: &[i64],
    problem: &Problem,
) -> Option<Plan> {
    let groups = &problem.demand.groups;
    let known = shown.len() == groups.len() && shown.iter().zip(groups).all(|(count, group)| *count <= group.boxes);
    let bundled = compiled.by_bundle(shown);
    let good = known && bundled.iter().sum::<i64>() >= counts.iter().sum() && packer.set(&bundled);
    good.then(|| shown.clone())
}

/// A count of boxes.
pub(super) fn boxes(count: i64) -> u32 {
    u32::try_from(count.max(0)).unwrap_or(u32::MAX)
}
