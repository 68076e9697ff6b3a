//! What to buy next: the step that finishes more boxes for the least money each.

use std::collections::{BTreeMap, BTreeSet};

use super::most::Most;
use super::problem::{Problem, Shop};
use super::shopping::{Shopping, Wish, cheapest, with_budget};
use crate::model::stop::Stop;

/// Things to buy, and the boxes that they finish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What to buy; all of it is needed.
    pub buy: Vec<Buy>,
    /// How many boxes more are finished then.
    pub boxes: u32,
    /// What it costs at the cheapest of the kinds, in whole minor units and whole packs.
    pub cost: i64,
}

/// So many of one kind, or of kinds of which any will do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Buy {
    /// The kinds, cheapest first.
    pub kinds: Vec<String>,
    /// What they count for.
    pub category: String,
    /// Units.
    pub units: u32,
}

/// An amount that no shopping comes to.
const NO_MATTER_WHAT: i64 = 1 << 50;

/// What to buy next, most boxes for the money first.
///
/// One step for each kind that finishes boxes by itself, with as many of it as there are boxes that wait for nothing
/// else. Where no kind does that alone, the one step is the cheapest shopping for one more box.
pub fn next(problem: &Problem, most: &Most, stop: &dyn Stop) -> Vec<Step> {
    let holding = most.explanation.short.iter().filter(|short| short.holds_back);
    let kinds: BTreeSet<&str> = holding.flat_map(|short| &short.kinds).map(|(kind, _)| kind.as_str()).collect();
    let mut steps: Vec<Step> = Vec::new();
    for kind in kinds {
        if stop.stopped() {
            break;
        }
        let offers = problem.shop.offers.iter().filter(|offer| offer.ware.kind == kind).cloned().collect();
        let only = Problem { shop: Shop { offers }, ..problem.clone() };
        let shopping = with_budget(&only, NO_MATTER_WHAT, stop).shopping;
        if shopping.boxes > most.found {
            steps.push(Step::of(&only, &shopping, most.found));
        }
    }
    if steps.is_empty() {
        let more = cheapest(problem, Wish::Boxes(most.found.saturating_add(1)), stop).shopping;
        steps.extend(more.map(|shopping| Step::of(problem, &shopping, most.found)));
    }
    let mut steps = together(steps);
    // cost / boxes, compared as whole numbers.
    let per_box = |of: &Step, other: &Step| i128::from(of.cost) * i128::from(other.boxes);
    steps.sort_by(|a, b| per_box(a, b).cmp(&per_box(b, a)).then(b.boxes.cmp(&a.boxes)));
    steps
}

impl Step {
    fn of(problem: &Problem, shopping: &Shopping, found: u32) -> Step {
        let mut units: BTreeMap<(&str, &str), u32> = BTreeMap::new();
        for line in &shopping.list {
            let kind = problem.shop.offers[line.offer].ware.kind.as_str();
            *units.entry((line.category.as_str(), kind)).or_insert(0) += line.units;
        }
        let buy = |((category, kind), units): ((&str, &str), u32)| Buy {
            kinds: vec![kind.to_owned()],
            category: category.to_owned(),
            units,
        };
        Step {
            buy: units.into_iter().map(buy).collect(),
            boxes: shopping.boxes.saturating_sub(found),
            cost: shopping.cost,
        }
    }
}

/// Kinds that do the same in the same number are one step.
fn together(mut steps: Vec<Step>) -> Vec<Step> {
    steps.sort_by_key(|step| step.cost);
    let mut known: Vec<Step> = Vec::new();
    for step in steps {
        let alike = |other: &&mut Step| match (other.buy.as_slice(), step.buy.as_slice()) {
            ([one], [another]) => {
                other.boxes == step.boxes && one.category == another.category && one.units == another.units
            }
            _ => false,
        };
        match known.iter_mut().find(alike) {
            Some(other) => {
                let kinds = step.buy.into_iter().flat_map(|buy| buy.kinds);
                other.buy[0].kinds.extend(kinds);
            }
            None => known.push(step),
        }
    }
    known
}
