//! The plan for the table: what it comes to, bit by bit, and what buying something would change.

use super::Planning;
use super::supply::Wanted;
use crate::model::category::Category;
use crate::model::id::BoxId;
use crate::model::money::Money;
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::plan::{self, Group, Most, Offer, Problem, Shopping, Thing, Wish};
use crate::report::plan::Way;
use crate::report::tonight::{NeedLine, Tonight, WhatIf};

/// Reasons that are told with the answer.
const REASONS: usize = 3;
/// Things on hand that are named for a need.
const NAMED: usize = 12;

impl Planning {
    /// What can be finished, told as soon as anything is known (at the latest when `quick` is over), and told anew as
    /// more is: what to buy, then how many boxes each of it finishes.
    pub fn tonight(&self, quick: &dyn Stop, stop: &dyn Stop, tell: &mut dyn FnMut(Tonight)) {
        let mut most = plan::most(&self.problem, quick);
        let mut tonight = self.answered(&most);
        tell(tonight.clone());
        let all = || plan::cheapest(&self.shopping_problem(), Wish::All, stop).shopping;
        let shopping = (most.found < self.open()).then(all).flatten();
        self.needs(&mut tonight, shopping.as_ref());
        tell(tonight.clone());
        if most.found < most.at_most {
            let again = Problem { shown: Some(most.plan.clone()), ..self.problem.clone() };
            most = plan::most(&again, stop);
            tonight = self.answered(&most);
            self.needs(&mut tonight, shopping.as_ref());
            tell(tonight.clone());
        }
        if tonight.lines.iter().any(|line| line.short > 0) {
            self.gains(&mut tonight, most.found, stop);
            tell(tonight);
        }
    }

    /// How many boxes could be finished with things that are bought: offers, each with units.
    pub fn what_if(&self, bought: &[(usize, u32)], stop: &dyn Stop) -> WhatIf {
        let most = plan::most(&self.with(bought), stop);
        let offers = || bought.iter().filter_map(|(at, units)| self.offers.get(*at).map(|offer| (offer, *units)));
        let words: Vec<String> = offers().map(|((wanted, offer), units)| in_words(wanted, offer, units)).collect();
        let known = offers().all(|((wanted, _), _)| wanted.priced);
        let cost = offers().map(|((_, offer), units)| cost(offer, units)).fold(0, i64::saturating_add);
        WhatIf {
            bought: words.join(" and "),
            boxes: most.found,
            at_most: most.at_most,
            cost: if known { Money::total(cost).plain(self.currency) } else { String::new() },
        }
    }

    /// The problem with things bought.
    fn with(&self, bought: &[(usize, u32)]) -> Problem {
        let mut problem = self.problem.clone();
        for (offer, units) in bought.iter().filter_map(|(at, units)| Some((&self.offers.get(*at)?.1, *units))) {
            let (name, ware) = (offer.name.clone(), offer.ware.clone());
            problem.stock.things.push(Thing { name, ware, units, room: None });
        }
        problem
    }

    /// What there is to say before anything is known of shopping.
    fn answered(&self, most: &Most) -> Tonight {
        let open = self.open();
        let mut answer = vec![self.headline(most)];
        let shown = self.by_name();
        let explained = self.explained(most, &shown);
        let reasons = plan::reasons(&shown, &explained);
        if most.found < open {
            answer.extend(reasons.iter().take(REASONS.min(explained.short.len())).cloned());
        }
        for stray in &self.strays {
            answer.push(format!("Box {}: {} is no age group of the drive.", stray.label(), stray.facts.ages));
        }
        Tonight {
            open,
            can_finish: most.found,
            at_most: most.at_most,
            answer,
            reasons,
            over: most.explanation.left.iter().map(|left| u32::try_from(left.units).unwrap_or(0)).sum(),
            boxes: self.plan_boxes(&self.given(most)),
            ..Tonight::default()
        }
    }

    /// Adds what the boxes need, and what of it has to be bought.
    fn needs(&self, tonight: &mut Tonight, shopping: Option<&Shopping>) {
        let offers = self.offers.iter().enumerate();
        tonight.lines = offers.map(|(at, (wanted, offer))| self.need(at, wanted, offer, shopping)).collect();
        tonight.lines.sort_by_key(|line| line.short == 0);
        if tonight.can_finish == tonight.open {
            return;
        }
        let boxes = self.boxes.iter().map(Vec::len).sum::<usize>();
        let way = shopping.map_or_else(|| Way::none("all of them"), |shopping| self.way("all of them", Some(shopping)));
        tonight.answer.push(match &way.cost {
            Some(_) if way.units > 0 => {
                tonight.to_buy = way.bought();
                let all = if boxes == 1 { "the box".to_owned() } else { format!("all {boxes}") };
                format!("Buy {}, and {all} can be full.", tonight.to_buy)
            }
            _ => way.words(),
        });
    }

    fn need(&self, at: usize, wanted: &Wanted, offer: &Offer, shopping: Option<&Shopping>) -> NeedLine {
        let (category, kind) = (wanted.category.as_str(), wanted.kind.as_deref());
        let asks = |group: &Group| Planning::of_group(group, wanted) > 0;
        let lines = shopping.map(|shopping| shopping.list.as_slice()).unwrap_or_default();
        let bought = || lines.iter().filter(|line| line.offer == at);
        let short = bought().map(|line| line.units).sum();
        let paid = bought().map(|line| line.cost).fold(0, i64::saturating_add);
        let groups = self.problem.demand.groups.iter().zip(&self.boxes);
        let boxes: Vec<BoxId> = groups
            .filter(|(group, _)| asks(group))
            .flat_map(|(_, boxes)| boxes.iter().map(|row| row.giftbox))
            .collect();
        let suits = self.problem.stock.things.iter().filter(|thing| {
            thing.ware.serves.iter().any(|of| of == category)
                && kind.is_none_or(|kind| thing.ware.kind == kind)
                && self
                    .problem
                    .demand
                    .groups
                    .iter()
                    .enumerate()
                    .any(|(group, it)| asks(it) && thing.ware.fits(self.problem.age_rule, group, it))
        });
        let things: Vec<(String, u32)> = suits.map(|thing| (thing.name.clone(), thing.units)).collect();
        let priced = |text: String| if wanted.priced { text } else { String::new() };
        NeedLine {
            what: kind.map_or_else(|| Category::from(category).words().to_owned(), str::to_owned),
            whom: wanted.whom.clone(),
            needed: self
                .problem
                .demand
                .groups
                .iter()
                .map(|group| group.boxes * Planning::of_group(group, wanted))
                .sum(),
            on_hand: things.iter().map(|(_, units)| units).sum(),
            short,
            each: priced(self.plain(offer)),
            pack: offer.pack.max(1),
            cost: priced(Money::total(paid).plain(self.currency)),
            gains: None,
            sizes: if category == Category::Clothing.word() { self.sizes(wanted) } else { Vec::new() },
            boxes,
            things: things.into_iter().take(NAMED).collect(),
            offer: at,
        }
    }

    /// Units that a box of a group needs of what is wanted.
    fn of_group(group: &Group, wanted: &Wanted) -> u32 {
        let need = group.needs.iter().filter(|need| need.category == wanted.category);
        match &wanted.kind {
            Some(kind) => need.map(|need| need.must.get(kind).copied().unwrap_or(0)).sum(),
            None if wanted.whom.contains(&group.name) => need.map(plan::Need::of_any_kind).sum(),
            None => 0,
        }
    }

    /// How many boxes more each thing to buy finishes: first what finishes most by itself, each on top of those above.
    fn gains(&self, tonight: &mut Tonight, now: u32, stop: &dyn Stop) {
        let short = tonight.lines.iter().filter(|line| line.short > 0).count();
        let found = |bought: &[(usize, u32)]| plan::most(&self.with(bought), stop).found;
        let lines = &mut tonight.lines[..short];
        lines.sort_by_cached_key(|line| std::cmp::Reverse(found(&[(line.offer, line.short)])));
        let (mut bought, mut before) = (Vec::new(), now);
        for line in lines {
            if stop.stopped() {
                return;
            }
            bought.push((line.offer, line.short));
            let then = found(&bought);
            line.gains = Some(then.saturating_sub(before));
            before = then;
        }
    }
}

/// What so many units cost, in whole packs.
fn cost(offer: &Offer, units: u32) -> i64 {
    offer.price.saturating_mul(i64::from(units.div_ceil(offer.pack.max(1))))
}

/// `1 wow item for boys 9–12`, `2 packs of 8 pencils for girls 6–8`.
fn in_words(wanted: &Wanted, offer: &Offer, units: u32) -> String {
    let name = if units == 1 { offer.name.clone() } else { plan::many(&offer.name) };
    let whom = wanted.whom.join(", ");
    if offer.pack > 1 {
        let packs = counted(u64::from(units.div_ceil(offer.pack)), "pack", "packs");
        return format!("{units} {name} ({packs} of {}) for {whom}", offer.pack);
    }
    format!("{units} {name} for {whom}")
}
