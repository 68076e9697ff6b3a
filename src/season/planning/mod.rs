//! Which boxes can be finished with what is on hand, what to buy for the others, and setting it aside.

mod demand;
mod even;
mod room;
mod shopping;
mod supply;
mod told;
mod tonight;
mod worth;

use std::collections::BTreeMap;
use std::sync::Arc;

use rust_decimal::Decimal;

use super::names::Thing;
use super::{ActError, Done, Season, Shelf, Ware};
use crate::model::age::Ages;
use crate::model::checklist::{Held, gaps};
use crate::model::currency::Currency;
use crate::model::fact::Fact;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::rows::BoxRow;
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::plan::{self, Demand, Offer, Problem, Shop};
use crate::report::buy::ShoppingPage;
use crate::report::plan::{Applied, BoxPlan};
use crate::store::Store;
use demand::{Kinds, Sorted};
use supply::{Prices, Wanted, offers, stock};
pub use worth::Needs;

/// Which boxes a plan looks at, and what else is asked.
#[derive(Debug, Clone, Default)]
pub struct PlanWish {
    /// What so many finished boxes would take.
    pub boxes: Option<u32>,
    /// How many boxes so much money would finish.
    pub budget: Option<Decimal>,
    /// Only boxes of this age group.
    pub band: Option<Ages>,
    /// How many of the boxes have room for what they get.
    pub room: bool,
    /// How even the boxes are in the number of their things.
    pub even: bool,
}

/// What a plan follows from: the open boxes, what is on hand and what things cost. Plain values, to be reckoned with
/// wherever there is time.
#[derive(Debug)]
pub struct Basis {
    currency: Currency,
    boxes_wished: Option<u32>,
    budget: Option<Money>,
    sorted: Sorted,
    strays: Vec<BoxRow>,
    shelf: Shelf,
    prices: Prices,
}

/// The open boxes, what is on hand and what could be bought, as a problem, with what its parts stand for.
#[derive(Debug)]
pub struct Planning {
    currency: Currency,
    /// What was asked for beside the most boxes.
    boxes_wished: Option<u32>,
    budget: Option<Money>,
    /// Offers have a known price here.
    problem: Problem,
    /// The boxes of each group.
    boxes: Vec<Vec<BoxRow>>,
    /// What each box of a group holds already, kind by kind.
    held: Vec<Kinds>,
    /// All things, on hand or not.
    shelf: Shelf,
    /// The ware that each thing is.
    wares: Vec<Arc<Ware>>,
    /// All that can be bought, at a known price or not.
    offers: Vec<(Wanted, Offer)>,
    prices: Prices,
    /// Open boxes whose ages are no age group of the drive.
    strays: Vec<BoxRow>,
}

/// What is to be set aside for a box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// The box.
    pub giftbox: BoxId,
    /// Batches of a thing, and how many units of it.
    pub things: Vec<(Vec<LotId>, u32)>,
}

/// What goes into one box: things by their place, with units.
type Given<'a> = Vec<(&'a BoxRow, BTreeMap<usize, u32>)>;

impl<S: Store> Season<S> {
    /// How many of the open boxes can be finished, what holds the others back, and the ways out.
    pub fn plan_boxes(&self, wish: &PlanWish, stop: &dyn Stop) -> Result<BoxPlan, ActError> {
        let planning = self.planning(wish)?;
        let most = plan::most(&planning.problem, stop);
        let mut told = planning.plan(&most, stop);
        told.even = wish.even.then(|| planning.evened(&most));
        if wish.room {
            told.room = Some(self.with_room(&planning, &most)?);
        }
        Ok(told)
    }

    /// What to buy so that all open boxes can be finished; or so many of them; or as many as an amount is enough for.
    pub fn to_buy(&self, wish: &PlanWish, stop: &dyn Stop) -> Result<ShoppingPage, ActError> {
        self.planning(wish)?.page(stop)
    }

    /// Sets aside what the boxes still need that can be finished: one act, one undo.
    pub fn apply_plan(&mut self, wish: &PlanWish, stop: &dyn Stop) -> Result<Applied, ActError> {
        let planning = self.planning(wish)?;
        let most = plan::most(&planning.problem, stop);
        let given = planning.given(&most);
        let lots = |at: &usize| &planning.wares[*at].lots[..];
        let parts = given.iter().flat_map(|(row, parts)| parts.iter().map(move |(at, units)| (*row, lots(at), *units)));
        let facts = self.aside_facts(parts)?;
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

    /// Sets things aside as a plan has it: one act, one undo.
    pub fn aside_planned(&mut self, boxes: &[Planned]) -> Result<Done, ActError> {
        let mut parts = Vec::new();
        for planned in boxes {
            let row = self.box_row(planned.giftbox)?;
            parts.extend(planned.things.iter().map(|(lots, units)| (row.clone(), lots.as_slice(), *units)));
        }
        let facts = self.aside_facts(parts.iter().map(|(row, lots, units)| (row, *lots, *units)))?;
        let units: u32 = parts.iter().map(|(_, _, units)| units).sum();
        if facts.is_empty() || facts.iter().map(aside_units).sum::<u32>() < units {
            return Err(ActError::Nothing("Less is left than was planned: look at the plan anew.".to_owned()));
        }
        let mut done = self.act(&facts)?;
        let whom = match parts.first() {
            Some((row, ..)) if boxes.len() == 1 => format!("box {}", row.label()),
            _ => counted(boxes.len() as u64, "box", "boxes"),
        };
        done.said = format!("Set aside {} for {whom}.", counted(u64::from(units), "thing", "things"));
        Ok(done)
    }

    fn aside_facts<'p>(
        &mut self,
        parts: impl Iterator<Item = (&'p BoxRow, &'p [LotId], u32)>,
    ) -> Result<Vec<Fact>, ActError> {
        let mut things: Vec<(&[LotId], Thing)> = Vec::new();
        let mut facts = Vec::new();
        for (row, lots, units) in parts {
            let known = things.iter().position(|(known, _)| *known == lots);
            let at = known.unwrap_or(things.len());
            if known.is_none() {
                things.push((lots, self.thing_of(lots)?));
            }
            let units = Units::new(units).unwrap_or_default();
            facts.extend(self.use_free(row, &mut things[at].1, units, true)?);
        }
        Ok(facts)
    }

    /// All that a plan follows from; `shelf` as it is now. Without `priced` nobody asks what things cost.
    pub fn basis(&self, wish: &PlanWish, shelf: Shelf, priced: bool) -> Result<Basis, ActError> {
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
            let inside: Vec<Held> =
                held.get(&row.giftbox).into_iter().flatten().map(|held| held.held.clone()).collect();
            sorted.add(row, &gaps(&band.checklist, &inside), &inside, &self.catalogue);
        }
        let budget = wish.budget.map(|amount| self.amount(amount)).transpose()?;
        let prices = if priced { Prices::of(&self.store.lots()?) } else { Prices::default() };
        Ok(Basis { currency: profile.currency, boxes_wished: wish.boxes, budget, sorted, strays, shelf, prices })
    }

    fn planning(&self, wish: &PlanWish) -> Result<Planning, ActError> {
        Ok(Planning::of(&self.basis(wish, self.shelf()?, true)?))
    }
}

impl Planning {
    /// The basis as a problem.
    pub fn of(basis: &Basis) -> Planning {
        let Basis { sorted, shelf, prices, .. } = basis;
        let (stock, wares) = stock(shelf.wares(), &sorted.groups);
        let offers = offers(&sorted.groups, prices);
        let priced = offers.iter().filter(|(wanted, _)| wanted.priced).map(|(_, offer)| offer.clone()).collect();
        let demand = Demand { groups: sorted.groups.clone() };
        Planning {
            currency: basis.currency,
            boxes_wished: basis.boxes_wished,
            budget: basis.budget,
            problem: Problem { demand, stock, shop: Shop { offers: priced }, ..Problem::default() },
            boxes: sorted.boxes.clone(),
            held: sorted.held.clone(),
            shelf: shelf.clone(),
            wares,
            offers,
            prices: prices.clone(),
            strays: basis.strays.clone(),
        }
    }
}

fn aside_units(fact: &Fact) -> u32 {
    if let Fact::SetAside(placing) = fact { placing.units.count() } else { 0 }
}

/// Said where boxes that can be finished have all set aside already.
const NOTHING_LEFT: &str = "All that can be finished has what it needs, in it or set aside";

fn known_band(profile: &Profile, band: Option<Ages>) -> Result<(), ActError> {
    let Some(ages) = band.filter(|ages| profile.band(*ages).is_none()) else { return Ok(()) };
    let known: Vec<String> = profile.bands.iter().map(|band| band.ages.to_string()).collect();
    Err(ActError::NotUnderstood(format!("{ages} is no age group of the drive; there is {}", known.join(", "))))
}
