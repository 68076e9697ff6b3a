//! Boxes, things and offers, put together by what they are alike in.
//!
//! Boxes that still need the same for the same children are one *bundle*; lines of checklists that the same things
//! meet are one *spot*; things that fit the very same spots are one *supply*. Fifty thousand boxes come to some
//! hundreds of each, and a plan over these is as good as one over single boxes.

use std::collections::{BTreeMap, BTreeSet};

use super::lines::Lines;
use super::net::Net;
use super::price::Scale;
use super::problem::{Plan, Problem, Ware};

/// A problem put together.
#[derive(Debug, Clone)]
pub(super) struct Compiled {
    pub bundles: Vec<Bundle>,
    /// The categories that some box needs, in the order in which they are first named.
    pub categories: Vec<String>,
    /// One for each category; categories that share things are one.
    pub nets: Vec<Net>,
    /// How the nets tell prices.
    pub scale: Scale,
}

/// Boxes that still need the same for the same children.
#[derive(Debug, Clone)]
pub(super) struct Bundle {
    /// How many boxes.
    pub boxes: i64,
    /// The groups that they are of.
    pub groups: Vec<usize>,
}

/// More boxes of a group than any drive has; what is above it is not counted.
pub(super) const MOST_BOXES: u32 = 10_000_000;

impl Compiled {
    pub fn new(problem: &Problem) -> Compiled {
        let wares = Wares::of(problem);
        let sorts = Sorts::of(problem, &wares);
        let bundles = bundles(problem, &sorts);
        let needs = problem.demand.groups.iter().flat_map(|group| &group.needs);
        let mut categories: Vec<String> = Vec::new();
        for need in needs.filter(|need| need.of_any_kind() > 0 || !need.must.is_empty()) {
            if !categories.contains(&need.category) {
                categories.push(need.category.clone());
            }
        }
        let scale = Scale::of(&problem.shop);
        let mut lines = Lines::new(&wares, &sorts, &categories);
        for (index, bundle) in bundles.iter().enumerate() {
            if let Some(&group) = bundle.groups.first() {
                lines.add(index, group, &problem.demand.groups[group]);
            }
        }
        let whole = lines.into_net(problem, scale);
        Compiled { nets: whole.split(categories.len()), bundles, categories, scale }
    }

    /// The same, but with no end of one category.
    pub fn without(&self, category: usize) -> Compiled {
        let mut free = self.clone();
        for net in &mut free.nets {
            for spot in net.spots.iter_mut().filter(|spot| spot.category == category) {
                spot.per_box.clear();
            }
        }
        free
    }

    /// How many boxes there are of each bundle.
    pub fn all(&self) -> Vec<i64> {
        self.bundles.iter().map(|bundle| bundle.boxes).collect()
    }

    /// A plan over bundles as one over groups: the groups of a bundle are filled as evenly as their sizes let them.
    pub fn by_group(&self, problem: &Problem, counts: &[i64]) -> Plan {
        let mut plan = vec![0; problem.demand.groups.len()];
        for (bundle, count) in self.bundles.iter().zip(counts) {
            let (mut done, mut seen) = (0, 0);
            for &group in &bundle.groups {
                seen += i64::from(problem.demand.groups[group].boxes.min(MOST_BOXES));
                let up_to = count * seen / bundle.boxes.max(1);
                plan[group] = u32::try_from(up_to - done).unwrap_or(0);
                done = up_to;
            }
        }
        plan
    }

    /// A plan over groups as one over bundles.
    pub fn by_bundle(&self, plan: &[u32]) -> Vec<i64> {
        let count = |group: &usize| i64::from(plan.get(*group).copied().unwrap_or(0));
        let sum = |bundle: &Bundle| bundle.groups.iter().map(count).sum::<i64>().min(bundle.boxes);
        self.bundles.iter().map(sum).collect()
    }
}

/// Every different ware, of things and of offers.
pub(super) struct Wares<'a> {
    pub all: Vec<&'a Ware>,
    /// The ware of each thing.
    pub of_things: Vec<usize>,
    /// The ware of each offer.
    pub of_offers: Vec<usize>,
}

impl<'a> Wares<'a> {
    fn of(problem: &'a Problem) -> Wares<'a> {
        let mut known: BTreeMap<&Ware, usize> = BTreeMap::new();
        let mut all = Vec::new();
        let mut index = |ware: &'a Ware| {
            *known.entry(ware).or_insert_with(|| {
                all.push(ware);
                all.len() - 1
            })
        };
        let of_things = problem.stock.things.iter().map(|thing| index(&thing.ware)).collect();
        let of_offers = problem.shop.offers.iter().map(|offer| index(&offer.ware)).collect();
        Wares { all, of_things, of_offers }
    }
}

/// Groups sorted by whom they are for: those of a sort can take the same wares.
pub(super) struct Sorts {
    /// The sort of each group.
    pub of: Vec<usize>,
    /// Which wares fit each sort.
    pub fits: Vec<Vec<bool>>,
}

impl Sorts {
    fn of(problem: &Problem, wares: &Wares<'_>) -> Sorts {
        let groups = &problem.demand.groups;
        let mut refused: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); groups.len()];
        for (index, ware) in wares.all.iter().enumerate() {
            for &group in ware.not_for.range(..groups.len()) {
                refused[group].insert(index);
            }
        }
        let mut known = BTreeMap::new();
        let (mut of, mut fits) = (Vec::new(), Vec::new());
        for (index, group) in groups.iter().enumerate() {
            let key = (group.for_whom, group.ages.from(), group.ages.to(), &refused[index]);
            of.push(*known.entry(key).or_insert_with(|| {
                fits.push(wares.all.iter().map(|ware| ware.fits(problem.age_rule, index, group)).collect());
                fits.len() - 1
            }));
        }
        Sorts { of, fits }
    }
}

/// Groups put together of which each box still needs the same for the same children.
fn bundles(problem: &Problem, sorts: &Sorts) -> Vec<Bundle> {
    let mut known = BTreeMap::new();
    let mut bundles: Vec<Bundle> = Vec::new();
    for (index, group) in problem.demand.groups.iter().enumerate() {
        let mut needs: Vec<_> =
            group.needs.iter().map(|need| (&need.category, need.of_any_kind(), &need.must)).collect();
        needs.sort();
        let at = *known.entry((sorts.of[index], needs, &group.caps)).or_insert(bundles.len());
        if at == bundles.len() {
            bundles.push(Bundle { boxes: 0, groups: Vec::new() });
        }
        bundles[at].boxes += i64::from(group.boxes.min(MOST_BOXES));
        bundles[at].groups.push(index);
    }
    bundles
}
