//! Which boxes can be finished with what is on hand, what to buy for the others, and setting it aside.

mod demand;
mod shopping;
mod supply;

use std::collections::BTreeMap;
use std::sync::Arc;

use rust_decimal::Decimal;

use super::names::Thing;
use super::{ActError, Season, Ware};
use crate::model::age::Ages;
use crate::model::checklist::gaps;
use crate::model::currency::Currency;
use crate::model::measure::Units;
use crate::model::money::{KnownSum, Money};
use crate::model::profile::Profile;
use crate::model::rows::BoxRow;
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::plan::{self, Demand, Most, Offer, Problem, Shop, Shopping, Wish};
use crate::report::Sum;
use crate::report::plan::{Applied, BoxPlan, CategoryRow, GroupRow, PlanBox, Way};
use crate::store::Store;
use demand::Sorted;
use supply::{Prices, Wanted, offers, stock};

/// Which boxes a plan looks at, and what else is asked.
#[derive(Debug, Clone, Default)]
pub struct PlanWish {
    /// What so many finished boxes would take.
    pub boxes: Option<u32>,
    /// How many boxes so much money would finish.
    pub budget: Option<Decimal>,
    /// Only boxes of this age group.
    pub band: Option<Ages>,
}

/// The season as a problem, with what its parts stand for.
struct Planning {
    currency: Currency,
    /// Offers have a known price here.
    problem: Problem,
    /// The boxes of each group.
    boxes: Vec<Vec<BoxRow>>,
    /// The ware that each thing is.
    wares: Vec<Arc<Ware>>,
    /// All that can be bought, at a known price or not.
    offers: Vec<(Wanted, Offer)>,
    prices: Prices,
    /// Open boxes whose ages are no age group of the drive.
    strays: Vec<BoxRow>,
}

/// What goes into one box: things by their place, with units.
type Given<'a> = Vec<(&'a BoxRow, BTreeMap<usize, u32>)>;

impl<S: Store> Season<S> {
    /// How many of the open boxes can be finished, what holds the others back, and the ways out.
    pub fn plan_boxes(&self, wish: &PlanWish, stop: &dyn Stop) -> Result<BoxPlan, ActError> {
        let planning = self.planning(wish)?;
        let most = plan::most(&planning.problem, stop);
        let budget = wish.budget.map(|amount| self.amount(amount)).transpose()?;
        let mut ways = Vec::new();
        if let Some(count) = wish.boxes {
            ways.push(planning.so_many(count, stop));
        }
        if let Some(budget) = budget {
            ways.push(planning.within(budget, stop));
        }
        if most.found < planning.open() {
            ways.push(planning.all_of_them(stop));
        }
        Ok(planning.told(&most, ways, stop))
    }

    /// Sets aside what the boxes still need that can be finished: one act, one undo.
    pub fn apply_plan(&mut self, wish: &PlanWish, stop: &dyn Stop) -> Result<Applied, ActError> {
        let planning = self.planning(wish)?;
        let most = plan::most(&planning.problem, stop);
        let given = planning.given(&most);
        let mut things: BTreeMap<usize, Thing> = BTreeMap::new();
        let mut facts = Vec::new();
        for (row, parts) in &given {
            for (&at, &units) in parts {
                let mut thing = match things.remove(&at) {
                    Some(thing) => thing,
                    None => self.thing_of(&planning.wares[at].lots)?,
                };
                let units = Units::new(units).unwrap_or_default();
                facts.extend(self.use_free(row, &mut thing, units, true)?);
                things.insert(at, thing);
            }
        }
        if facts.is_empty() {
            let finished = if most.found == 0 { "No box can be finished with what is on hand" } else { NOTHING_LEFT };
            return Err(ActError::Nothing(format!("{finished}.")));
        }
        let done = self.act(&facts)?;
        let units: u32 = given.iter().flat_map(|(_, parts)| parts.values()).sum();
        let boxes = planning.plan_boxes(&given);
        let filled = boxes.iter().filter(|giftbox| !giftbox.things.is_empty()).count();
        let things = counted(u64::from(units), "thing", "things");
        let said = format!("Set aside {things} for {}.", counted(filled as u64, "box", "boxes"));
        let all = most.found == planning.open();
        Ok(Applied { said, notes: done.notes, all, boxes, pull: self.pull_list()? })
    }

    fn planning(&self, wish: &PlanWish) -> Result<Planning, ActError> {
        let profile = self.profile()?;
        known_band(&profile, wish.band)?;
        let mut rows: Vec<BoxRow> = self.store.boxes()?.into_iter().filter(|row| row.state.is_open()).collect();
        rows.retain(|row| wish.band.is_none_or(|ages| row.facts.ages == ages));
        rows.sort_by_key(|row| (row.facts.number, row.twin));
        let held = self.held_by_box()?;
        let (mut sorted, mut strays) = (Sorted::default(), Vec::new());
        for row in rows {
            let Some(band) = profile.band(row.facts.ages) else {
                strays.push(row);
                continue;
            };
            let inside = held.get(&row.giftbox).into_iter().flatten().map(|held| held.held.clone());
            sorted.add(row, &gaps(&band.checklist, &inside.collect::<Vec<_>>()), &self.catalogue);
        }
        let Sorted { groups, boxes } = sorted;
        let shelf = self.shelf()?;
        let (stock, wares) = stock(shelf.wares(), &groups);
        let prices = Prices::of(&self.store.lots()?);
        let offers = offers(&groups, &prices);
        let priced = offers.iter().filter(|(wanted, _)| wanted.priced).map(|(_, offer)| offer.clone()).collect();
        let problem = Problem { demand: Demand { groups }, stock, shop: Shop { offers: priced }, ..Problem::default() };
        Ok(Planning { currency: profile.currency, problem, boxes, wares, offers, prices, strays })
    }
}

/// Said where boxes that can be finished have all set aside already.
const NOTHING_LEFT: &str = "All that can be finished has what it needs, in it or set aside";

fn known_band(profile: &Profile, band: Option<Ages>) -> Result<(), ActError> {
    let Some(ages) = band.filter(|ages| profile.band(*ages).is_none()) else { return Ok(()) };
    let known: Vec<String> = profile.bands.iter().map(|band| band.ages.to_string()).collect();
    Err(ActError::NotUnderstood(format!("{ages} is no age group of the drive; there is {}", known.join(", "))))
}

impl Planning {
    /// Boxes that are looked at.
    fn open(&self) -> u32 {
        let boxes = self.boxes.iter().map(Vec::len).sum::<usize>() + self.strays.len();
        u32::try_from(boxes).unwrap_or(u32::MAX)
    }

    /// The same problem with all that can be bought, whether its price is known or not.
    fn shopping_problem(&self) -> Problem {
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

    fn way(&self, aim: &str, shopping: Option<&Shopping>) -> Way {
        let Some(shopping) = shopping else { return Way { aim: aim.to_owned(), ..Way::default() } };
        let units = shopping.list.iter().map(|line| line.units).sum();
        let cost = Some(self.sum(shopping));
        Way { aim: aim.to_owned(), boxes: shopping.boxes, units, cost, at_most: None }
    }

    /// What a shopping costs; things that nobody knows a price of are counted apart.
    fn sum(&self, shopping: &Shopping) -> Sum {
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
            groups: self.group_rows(most),
            categories: self.category_rows(stop),
            boxes: self.plan_boxes(&given),
            strays: self.strays.iter().map(|row| (row.label(), row.facts.ages.to_string())).collect(),
        }
    }

    /// Boxes that stand outside every age group can't be finished, and count among all.
    fn headline(&self, most: &Most) -> String {
        let mut problem = self.by_name();
        for stray in &self.strays {
            let (for_whom, ages) = (stray.facts.for_whom, stray.facts.ages);
            let (name, needs, caps) = (ages.to_string(), Vec::new(), BTreeMap::new());
            problem.demand.groups.push(plan::Group { name, boxes: 1, for_whom, ages, needs, caps, room: None });
        }
        plan::headline(&problem, most)
    }

    /// A problem with one group for all boxes of the same children, as they are spoken of.
    fn by_name(&self) -> Problem {
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
    fn explained(&self, most: &Most, shown: &Problem) -> plan::Explanation {
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
    fn needed(&self, category: &str) -> u32 {
        let per_box = |group: &plan::Group| -> u32 {
            let of_it = group.needs.iter().filter(|need| need.category == category);
            of_it.map(|need| need.of_any_kind() + need.must.values().sum::<u32>()).sum()
        };
        self.problem.demand.groups.iter().map(|group| group.boxes.saturating_mul(per_box(group))).sum()
    }

    /// Free units of a category, or of a kind of it, that suit a box which needs some.
    fn suiting(&self, category: &str, kind: Option<&str>) -> u32 {
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
    fn given(&self, most: &Most) -> Given<'_> {
        let dealt = plan::assign(&self.problem, &most.plan).unwrap_or_default();
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

    fn plan_boxes(&self, given: &[(&BoxRow, BTreeMap<usize, u32>)]) -> Vec<PlanBox> {
        let told = |(row, parts): &(&BoxRow, BTreeMap<usize, u32>)| PlanBox {
            label: row.label(),
            things: parts.iter().map(|(at, units)| (self.wares[*at].title.to_string(), *units)).collect(),
        };
        given.iter().map(told).collect()
    }
}
