//! What a plan comes to, in plain values.

use std::collections::{BTreeMap, BTreeSet};

use super::{Given, Planning};
use crate::model::money::{KnownSum, Money};
use crate::model::rows::BoxRow;
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::plan::{self, Demand, Most, Problem, Shop, Shopping, Wish};
use crate::report::Sum;
use crate::report::plan::{BoxPlan, CategoryRow, GroupRow, PlanBox, PlanThing, Way};

impl Planning {
    /// How many of the boxes can be finished, what holds the others back, and the ways out.
    pub(super) fn plan(&self, most: &Most, stop: &dyn Stop) -> BoxPlan {
        let mut ways = Vec::new();
        ways.extend(self.boxes_wished.map(|count| self.so_many(count, stop)));
        ways.extend(self.budget.map(|budget| self.within(budget, stop)));
        if most.found < self.open() {
            ways.push(self.all_of_them(stop));
        }
        self.told(most, ways, stop)
    }

    /// Boxes that are looked at.
    pub(super) fn open(&self) -> u32 {
        let boxes = self.boxes.iter().map(Vec::len).sum::<usize>() + self.strays.len();
        u32::try_from(boxes).unwrap_or(u32::MAX)
    }

    /// The same problem with all that can be bought, whether its price is known or not.
    pub(super) fn shopping_problem(&self) -> Problem {
        let offers = self.offers.iter().map(|(_, offer)| offer.clone()).collect();
        Problem { shop: Shop { offers }, ..self.problem.clone() }
    }

    fn so_many(&self, count: u32, stop: &dyn Stop) -> Way {
        let found = plan::cheapest(&self.shopping_problem(), Wish::Boxes(count), stop).shopping;
        self.way(&counted(u64::from(count), "box", "boxes"), found.as_ref())
    }

    fn all_of_them(&self, stop: &dyn Stop) -> Way {
        let found = plan::cheapest(&self.shopping_problem(), Wish::All, stop).shopping;
        let aim = if self.strays.is_empty() { "all of them" } else { "all that are in an age group" };
        self.way(aim, found.as_ref())
    }

    fn within(&self, budget: Money, stop: &dyn Stop) -> Way {
        let found = plan::with_budget(&self.problem, budget.minor(), stop);
        let aim = format!("for at most {}", budget.plain(self.currency));
        let mut way = self.way(&aim, Some(&self.with_all_offers(found.shopping)));
        way.at_most = Some(found.at_most);
        way
    }

    pub(super) fn way(&self, aim: &str, shopping: Option<&Shopping>) -> Way {
        let Some(shopping) = shopping else { return Way::none(aim) };
        let units = shopping.list.iter().map(|line| line.units).sum();
        let cost = Some(self.sum(shopping));
        Way { aim: aim.to_owned(), boxes: shopping.boxes, units, cost, at_most: None }
    }

    /// What a shopping costs; things that nobody knows a price of are counted apart.
    pub(super) fn sum(&self, shopping: &Shopping) -> Sum {
        let open = |line: &&plan::Purchase| self.offers.get(line.offer).is_some_and(|(wanted, _)| !wanted.priced);
        let unpriced = shopping.list.iter().filter(open).map(|line| u64::from(line.units)).sum();
        Sum::of(KnownSum { known: Money::total(shopping.cost), unpriced, about: false }, self.currency)
    }

    fn told(&self, most: &Most, ways: Vec<Way>, stop: &dyn Stop) -> BoxPlan {
        let given = self.given(most);
        let shown = self.by_name();
        let amount = |minor: i64| Money::total(minor).plain(self.currency);
        let next = if most.found < self.open() { plan::next(&self.problem, most, stop) } else { Vec::new() };
        BoxPlan {
            open: self.open(),
            can_finish: most.found,
            at_most: most.at_most,
            headline: self.headline(most),
            reasons: plan::reasons(&shown, &self.explained(most, &shown)),
            next: next.iter().map(|step| plan::step_in_words(step, &amount)).collect(),
            ways,
            room: None,
            even: None,
            groups: self.group_rows(most),
            categories: self.category_rows(stop),
            boxes: self.plan_boxes(&given),
            strays: self.strays.iter().map(|row| (row.label(), row.facts.ages.to_string())).collect(),
        }
    }

    /// Boxes that stand outside every age group can't be finished, and count among all.
    pub(super) fn headline(&self, most: &Most) -> String {
        let mut problem = self.by_name();
        for stray in &self.strays {
            let (for_whom, ages) = (stray.facts.for_whom, stray.facts.ages);
            let (name, needs, caps) = (ages.to_string(), Vec::new(), BTreeMap::new());
            problem.demand.groups.push(plan::Group { name, boxes: 1, for_whom, ages, needs, caps, room: None });
        }
        plan::headline(&problem, most)
    }

    /// A problem with one group for all boxes of the same children, as they are spoken of.
    pub(super) fn by_name(&self) -> Problem {
        let mut groups: Vec<plan::Group> = Vec::new();
        for group in &self.problem.demand.groups {
            match groups.iter_mut().find(|known| known.name == group.name) {
                Some(known) => known.boxes += group.boxes,
                None => groups.push(group.clone()),
            }
        }
        groups.sort_by_key(|group| (group.ages.from(), group.for_whom.map(crate::model::whom::ForWhom::word)));
        Problem { demand: Demand { groups }, ..Problem::default() }
    }

    /// What holds back, in terms of groups as they are spoken of.
    pub(super) fn explained(&self, most: &Most, shown: &Problem) -> plan::Explanation {
        let mut explanation = most.explanation.clone();
        for short in &mut explanation.short {
            let names = short.groups.iter().map(|at| &self.problem.demand.groups[*at].name);
            let places = names.filter_map(|name| shown.demand.groups.iter().position(|group| group.name == *name));
            short.groups = places.collect();
            short.groups.sort_unstable();
            short.groups.dedup();
        }
        explanation
    }

    fn group_rows(&self, most: &Most) -> Vec<GroupRow> {
        let row = |group: plan::Group| {
            let same = |(at, _): &(usize, &u32)| self.problem.demand.groups[*at].name == group.name;
            let can_finish = most.plan.iter().enumerate().filter(same).map(|(_, count)| count).sum();
            GroupRow { group: group.name.clone(), open: group.boxes, can_finish }
        };
        self.by_name().demand.groups.into_iter().map(row).collect()
    }

    fn category_rows(&self, stop: &dyn Stop) -> Vec<CategoryRow> {
        let row = |lack: plan::Lack| CategoryRow {
            needed: self.needed(&lack.category),
            on_hand: self.suiting(&lack.category, None),
            short: u32::try_from(lack.units).unwrap_or(0),
            if_never_short: plan::unlimited(&self.problem, &lack.category, stop).found,
            category: lack.category,
        };
        plan::lacks(&self.problem).into_iter().map(row).collect()
    }

    /// Units of a category that all boxes together still need.
    pub(super) fn needed(&self, category: &str) -> u32 {
        let per_box = |group: &plan::Group| -> u32 {
            let of_it = group.needs.iter().filter(|need| need.category == category);
            of_it.map(|need| need.of_any_kind() + need.must.values().sum::<u32>()).sum()
        };
        self.problem.demand.groups.iter().map(|group| group.boxes.saturating_mul(per_box(group))).sum()
    }

    /// Free units of a category, or of a kind of it, that suit a box which needs some.
    pub(super) fn suiting(&self, category: &str, kind: Option<&str>) -> u32 {
        let suits = |thing: &&plan::Thing| {
            let asks = |group: &plan::Group| group.needs.iter().any(|need| need.category == category);
            let fits =
                |(at, group): (usize, &plan::Group)| asks(group) && thing.ware.fits(self.problem.age_rule, at, group);
            thing.ware.serves.iter().any(|of| of == category)
                && kind.is_none_or(|kind| thing.ware.kind == kind)
                && self.problem.demand.groups.iter().enumerate().any(fits)
        };
        self.problem.stock.things.iter().filter(suits).map(|thing| thing.units).sum()
    }

    /// Which things go into which of the boxes that can be finished.
    pub(super) fn given(&self, most: &Most) -> Given<'_> {
        let dealt = plan::assign(&self.varied(most), &most.plan).unwrap_or_default();
        let mut by_box: BTreeMap<(usize, u32), BTreeMap<usize, u32>> = BTreeMap::new();
        for given in dealt.given {
            *by_box.entry((given.group, given.giftbox)).or_default().entry(given.thing).or_default() += given.units;
        }
        let mut rows: Given<'_> = Vec::new();
        for (group, (count, boxes)) in most.plan.iter().zip(&self.boxes).enumerate() {
            for (giftbox, row) in (0..*count).zip(boxes) {
                rows.push((row, by_box.remove(&(group, giftbox)).unwrap_or_default()));
            }
        }
        rows.sort_by_key(|(row, _)| (row.facts.number, row.twin));
        rows
    }

    /// The problem with as few things of the same kind in a box as the plan can do with, category by category.
    ///
    /// Nobody wants four sharpeners in one box; but a box that is full with two combs is better than one that isn't.
    pub(super) fn varied(&self, most: &Most) -> Problem {
        let mut varied = self.problem.clone();
        let kinds = |category: &str| -> BTreeSet<&str> {
            let things = self.problem.stock.things.iter().map(|thing| &thing.ware);
            let of_it = things.filter(|ware| ware.serves.iter().any(|of| of == category));
            of_it.map(|ware| ware.kind.as_str()).filter(|kind| !kind.is_empty()).collect()
        };
        for category in self.categories() {
            let kinds = kinds(&category);
            for of_a_kind in [1, 2] {
                let mut tried = varied.clone();
                for (group, held) in tried.demand.groups.iter_mut().zip(&self.held) {
                    let more = |kind: &str| of_a_kind - held.get(kind).copied().unwrap_or(0).min(of_a_kind);
                    group.caps.extend(kinds.iter().map(|kind| ((*kind).to_owned(), more(kind))));
                }
                if plan::assign(&tried, &most.plan).is_some() {
                    varied = tried;
                    break;
                }
            }
        }
        varied
    }

    /// What boxes still need some of.
    fn categories(&self) -> BTreeSet<String> {
        let needs = self.problem.demand.groups.iter().flat_map(|group| &group.needs);
        needs.map(|need| need.category.clone()).collect()
    }

    pub(super) fn plan_boxes(&self, given: &[(&BoxRow, BTreeMap<usize, u32>)]) -> Vec<PlanBox> {
        let thing = |(at, units): (&usize, &u32)| {
            let ware = &self.wares[*at];
            PlanThing {
                name: ware.title.to_string(),
                units: *units,
                tote: ware.tote.to_string(),
                lots: ware.lots.to_vec(),
            }
        };
        let told = |(row, parts): &(&BoxRow, BTreeMap<usize, u32>)| PlanBox {
            label: row.label(),
            giftbox: row.giftbox,
            things: parts.iter().map(thing).collect(),
        };
        given.iter().map(told).collect()
    }
}
