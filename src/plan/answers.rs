//! The answers to a written problem, as `brimful plan --problem` prints them.

use std::collections::BTreeMap;

use serde::Serialize;

use super::file::Instance;
use super::most::{most, unlimited};
use super::shopping::{Wish, cheapest, lacks, with_budget};
use crate::model::stop::Stop;

/// All answers; money in whole minor units.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Answers {
    /// The most complete boxes that were found, from the stock alone.
    pub max_complete: u32,
    /// No plan completes more.
    pub upper: u32,
    /// Whether both are the same.
    pub proven: bool,
    /// By category: the most boxes if it never ran out.
    pub max_if_unlimited: BTreeMap<String, u32>,
    /// By category: things that are missing to complete all boxes.
    pub short_items_by_category: BTreeMap<String, i64>,
    /// The least money that completes all boxes; none if that can't be bought.
    pub min_cost_all: Option<i64>,
    /// The same by category.
    pub min_cost_all_by_category: BTreeMap<String, Option<i64>>,
    /// Boxes asked for, the least money found for them, and what no shopping does it for less than.
    pub min_cost_for: Vec<(u32, Option<i64>, Option<i64>)>,
    /// Money asked for, the most boxes found for it, and what no shopping exceeds.
    pub max_with_budget: Vec<(i64, u32, u32)>,
    /// Complete boxes by group, from the stock alone.
    pub plan: BTreeMap<String, u32>,
}

/// Answers a problem; each question may take until the stop that is made for it.
pub fn answer(instance: &Instance, stop: impl Fn() -> Box<dyn Stop>) -> Answers {
    let Instance { problem, categories, boxes, budgets } = instance;
    let best = most(problem, &*stop());
    let lacks = lacks(problem);
    let lack = |category: &String| lacks.iter().find(|lack| lack.category == *category);
    let by_category = |of: &String| (of.clone(), lack(of).map_or(Some(0), |lack| lack.cost));
    let cheapest_for = |&count: &u32| {
        let found = cheapest(problem, Wish::Boxes(count), &*stop());
        (count, found.shopping.map(|shopping| shopping.cost), found.at_least)
    };
    let most_for = |&amount: &i64| {
        let found = with_budget(problem, amount, &*stop());
        (amount, found.shopping.boxes, found.at_most)
    };
    let groups = problem.demand.groups.iter().map(|group| group.name.clone());
    Answers {
        max_complete: best.found,
        upper: best.at_most,
        proven: best.found == best.at_most,
        max_if_unlimited: categories.iter().map(|of| (of.clone(), unlimited(problem, of, &*stop()).found)).collect(),
        short_items_by_category: categories
            .iter()
            .map(|of| (of.clone(), lack(of).map_or(0, |lack| lack.units)))
            .collect(),
        min_cost_all: cheapest(problem, Wish::All, &*stop()).shopping.map(|shopping| shopping.cost),
        min_cost_all_by_category: categories.iter().map(by_category).collect(),
        min_cost_for: boxes.iter().map(cheapest_for).collect(),
        max_with_budget: budgets.iter().map(most_for).collect(),
        plan: groups.zip(best.plan).collect(),
    }
}
