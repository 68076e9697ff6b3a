//! Questions: what is on hand, where is it, what is in a box, what did it cost.

use std::collections::BTreeMap;

use jiff::civil::Date;
use rust_decimal::Decimal;

use super::names::{Thing, day_of, name};
use super::{ActError, Season, Which};
use crate::find::{Name, closest, find};
use crate::model::category::Category;
use crate::model::currency::Currency;
use crate::model::event::Subject;
use crate::model::fact::Fact;
use crate::model::haul::HaulFacts;
use crate::model::id::{BoxId, HaulId, LotId};
use crate::model::measure::Units;
use crate::model::money::{KnownSum, Money, each};
use crate::model::profile::Profile;
use crate::model::rows::LotRow;
use crate::model::text::normal;
use crate::model::whom::ForWhom;
use crate::report::Sum;
use crate::report::average::MovingAverage;
use crate::report::costs::{Bought, CategoryCost, CostOfBox, Costs, Prices};
use crate::report::places::{InBox, InTote, Place, Places};
use crate::report::stock::{Batch, Stock, StockLine};
use crate::store::Store;

/// Which part of the stock is asked for.
#[derive(Debug, Clone, Default)]
pub struct StockWish {
    /// Words that the things answer to; empty: all.
    pub words: String,
    /// Only what lies in this tote.
    pub tote: Option<String>,
    /// Only this category.
    pub category: Option<Category>,
    /// Show each batch.
    pub batches: bool,
}

/// Which boxes a review looks at.
#[derive(Debug, Clone, Default)]
pub struct ReviewWish {
    /// Only those that lack this category or kind.
    pub lacks: Option<String>,
    /// Only this age group.
    pub ages: Option<crate::model::age::Ages>,
    /// Only for a girl, a boy, or either.
    pub for_whom: Option<Option<ForWhom>>,
    /// Closed boxes and those handed in as well.
    pub all: bool,
}

impl<S: Store> Season<S> {
    /// What is on hand.
    pub fn stock(&self, wish: &StockWish) -> Result<Stock, ActError> {
        let tote = wish.tote.as_deref().map(normal);
        let wanted = |lot: &LotRow| {
            !lot.standing.on_hand.is_zero()
                && (tote.is_none() || lot.facts.tote == tote)
                && (wish.category.is_none() || lot.facts.category == wish.category)
        };
        let things = answering(&wish.words, self.things(wanted)?);
        let profile = self.profile()?;
        let hauls = self.haul_facts()?;
        let total = things.iter().flat_map(|thing| &thing.lots).map(on_hand_cost).sum();
        Ok(Stock {
            on_hand: things.iter().map(Thing::on_hand).sum::<Units>().count(),
            aside: things.iter().map(Thing::aside).sum::<Units>().count(),
            cost: Sum::of(total, profile.currency),
            things: things.iter().map(|thing| stock_line(thing, &profile, &hauls)).collect(),
            batches: wish.batches,
        })
    }

    /// Where the things are that the words mean; the closest names only.
    pub fn where_is(&self, words: &str) -> Result<Places, ActError> {
        let things = answering(words, self.things(|_| true)?);
        let labels: BTreeMap<_, String> =
            self.store.boxes()?.into_iter().map(|row| (row.giftbox, row.label())).collect();
        let things = things.iter().map(|thing| self.place(thing, &labels)).collect::<Result<_, ActError>>()?;
        Ok(Places { words: words.to_owned(), things })
    }

    /// Where the thing of these batches is.
    pub fn places_of(&self, lots: &[LotId]) -> Result<Place, ActError> {
        let labels = self.store.boxes()?.into_iter().map(|row| (row.giftbox, row.label())).collect();
        self.place(&self.thing_of(lots)?, &labels)
    }

    /// What the whole season cost, and where that is now.
    pub fn costs(&self) -> Result<Costs, ActError> {
        let profile = self.profile()?;
        let lots = self.store.lots()?;
        let sum = |part: &dyn Fn(&LotRow) -> (Money, Units)| {
            let known = |lot: &LotRow| {
                let (cost, units) = part(lot);
                lot.known(cost, units)
            };
            Sum::of(lots.iter().map(known).sum(), profile.currency)
        };
        // Bundles and kits cost what their parts cost: only what came from outside counts as spent.
        let outside: KnownSum =
            (lots.iter().filter(|lot| lot.haul.is_some())).map(|lot| lot.known(lot.cost_in, lot.facts.units)).sum();
        let by_box = self.costs_of_boxes(&profile)?;
        Ok(Costs {
            currency: profile.currency.code().to_owned(),
            spent: Sum::of(outside, profile.currency),
            boxes: sum(&|lot| (lot.standing.boxed_cost, lot.standing.boxed)),
            on_hand: sum(&|lot| (lot.standing.on_hand_cost, lot.standing.on_hand)),
            loose: sum(&|lot| (lot.standing.loose_cost, lot.standing.loose)),
            lost: sum(&|lot| (lot.standing.lost_cost, lot.standing.lost)),
            returned: sum(&|lot| (lot.standing.returned_cost, lot.standing.returned)),
            refunds: self.refunds(profile.currency)?,
            by_category: by_category(&lots, &profile),
            over_wish: by_box.iter().filter(|row| row.over_wish).count(),
            wish: profile.wish.map(|wish| wish.plain(profile.currency)).unwrap_or_default(),
            by_box,
        })
    }

    /// What was given back for things returned; empty where nothing was.
    fn refunds(&self, currency: Currency) -> Result<String, ActError> {
        let hauls = self.store.hauls()?;
        let sum: Money = hauls.iter().map(|row| row.refunds).sum();
        let any = self.store.lots()?.iter().any(|lot| !lot.standing.returned.is_zero());
        Ok(if any { sum.plain(currency) } else { String::new() })
    }

    /// What a thing cost each time it was bought.
    pub fn prices(&self, words: &str) -> Result<Prices, ActError> {
        self.prices_for(&self.known(Which::Words(words))?)
    }

    /// The same for the thing of these batches.
    pub fn prices_of(&self, lots: &[LotId]) -> Result<Prices, ActError> {
        self.prices_for(&self.thing_of(lots)?)
    }

    fn prices_for(&self, thing: &Thing) -> Result<Prices, ActError> {
        let currency = self.profile()?.currency;
        let hauls = self.haul_facts()?;
        let mut lots: Vec<&LotRow> = thing.lots.iter().filter(|lot| !lot.unpriced && lot.haul.is_some()).collect();
        lots.sort_by_key(|lot| (day(lot, &hauls), lot.added));
        let one = |lot: &LotRow| Decimal::from(lot.cost_in.minor()) / Decimal::from(lot.facts.units.count().max(1));
        let mut sorted: Vec<(Decimal, &LotRow)> = lots.iter().map(|lot| (one(lot), *lot)).collect();
        sorted.sort_by_key(|(price, _)| *price);
        let price = |lot: &LotRow| each(lot.cost_in, lot.facts.units.count(), currency);
        let times = lots.iter().map(|lot| Bought {
            date: day(lot, &hauls),
            shop: lot.haul.and_then(|haul| hauls.get(&haul)).map(|facts| facts.shop.clone()).unwrap_or_default(),
            units: lot.facts.units.count(),
            each: price(lot),
        });
        Ok(Prices {
            name: thing.title.clone(),
            times: times.collect(),
            lowest: sorted.first().map(|(_, lot)| price(lot)).unwrap_or_default(),
            middle: sorted.get(sorted.len().saturating_sub(1) / 2).map(|(_, lot)| price(lot)).unwrap_or_default(),
            average: self.average(thing)?.map(|cents| average_words(cents, currency)).unwrap_or_default(),
        })
    }

    /// What one of a thing on hand cost by moving average, in minor units; none when none is left.
    fn average(&self, thing: &Thing) -> Result<Option<Decimal>, ActError> {
        let mut told = Vec::new();
        for lot in &thing.lots {
            for event in self.store.events_about(Subject::Lot(lot.lot))?.into_iter().filter(|told| told.live) {
                told.push((event.event.order(), event.event, lot));
            }
        }
        told.sort_by_key(|(order, ..)| *order);
        let mut average = MovingAverage::default();
        for (_, event, lot) in told {
            match &event.fact {
                Fact::LotAdded(_) => average.came(lot.facts.units, lot.cost_in),
                Fact::Split(b) if b.into == lot.lot => average.came(lot.facts.units, lot.cost_in),
                Fact::KitMade(b) if b.into == lot.lot => average.came(lot.facts.units, lot.cost_in),
                Fact::PutIn(b) => _ = average.went(b.units),
                Fact::GivenLoose(b) | Fact::Lost(b) => _ = average.went(b.units),
                Fact::Returned(b) => _ = average.went(b.units),
                Fact::Parted(b) if b.into.iter().any(|out| out.lot == lot.lot) => {
                    average.came(lot.facts.units, lot.cost_in);
                }
                Fact::Split(b) => _ = average.went(b.units),
                Fact::Parted(b) => _ = average.went(b.units),
                Fact::TakenBack(b) => {
                    let back = average.each().unwrap_or_default() * Decimal::from(b.units.count());
                    average.back(b.units, back);
                }
                Fact::Found(b) => average.came(b.units, Money::ZERO),
                _ => {}
            }
        }
        Ok(average.each())
    }

    fn place(&self, thing: &Thing, labels: &BTreeMap<BoxId, String>) -> Result<Place, ActError> {
        let mut totes: BTreeMap<String, u32> = BTreeMap::new();
        let mut boxes: BTreeMap<String, (u32, u32)> = BTreeMap::new();
        for lot in &thing.lots {
            if !lot.standing.on_hand.is_zero() {
                *totes.entry(lot.facts.tote.clone().unwrap_or_default()).or_default() += lot.standing.on_hand.count();
            }
            for placed in self.store.placements_of(lot.lot)? {
                let label = labels.get(&placed.giftbox).cloned().unwrap_or_default();
                let (units, aside) = boxes.entry(label).or_default();
                *units += placed.units.count();
                *aside += placed.aside.count();
            }
        }
        let totes = totes.into_iter().map(|(tote, units)| InTote { tote, units }).collect();
        let mut boxes: Vec<InBox> =
            boxes.into_iter().map(|(label, (units, aside))| InBox { label, units, aside }).collect();
        boxes.sort_by_key(|place| (place.label.len(), place.label.clone()));
        Ok(Place { name: thing.title.clone(), totes, boxes })
    }

    fn costs_of_boxes(&self, profile: &Profile) -> Result<Vec<CostOfBox>, ActError> {
        let held = self.held_by_box()?;
        let mut rows = Vec::new();
        for row in self.store.boxes()? {
            let held = held.get(&row.giftbox).map(Vec::as_slice).unwrap_or_default();
            let things = held.iter().map(|held| held.held.units).sum::<Units>().count();
            if things == 0 {
                continue;
            }
            let cost: KnownSum = held.iter().map(|held| held.cost).sum();
            let about = format!("{} {} {}", row.facts.whom(), row.facts.ages, row.facts.theme);
            let over_wish = profile.wish.is_some_and(|wish| cost.known > wish);
            let (label, cost) = (row.label(), Sum::of(cost, profile.currency));
            rows.push(CostOfBox { label, about: about.trim_end().to_owned(), things, cost, over_wish });
        }
        Ok(rows)
    }

    fn haul_facts(&self) -> Result<BTreeMap<HaulId, HaulFacts>, ActError> {
        Ok(self.store.hauls()?.into_iter().map(|row| (row.haul, row.facts)).collect())
    }

    /// The batches by id, for what asks about many.
    pub(super) fn lots_by_id(&self) -> Result<BTreeMap<LotId, LotRow>, ActError> {
        Ok(self.store.lots()?.into_iter().map(|lot| (lot.lot, lot)).collect())
    }
}

/// The things that answer to words, the closest grade only; all of them without words.
fn answering(words: &str, things: Vec<Thing>) -> Vec<Thing> {
    if words.trim().is_empty() {
        return things;
    }
    let names: Vec<Name> = things.iter().map(name).collect();
    closest(&find(words, &names)).iter().map(|hit| things[hit.index].clone()).collect()
}

fn on_hand_cost(lot: &LotRow) -> KnownSum {
    lot.known(lot.standing.on_hand_cost, lot.standing.on_hand)
}

fn day(lot: &LotRow, hauls: &BTreeMap<HaulId, HaulFacts>) -> String {
    let bought: Option<Date> = lot.haul.and_then(|haul| hauls.get(&haul)).map(|facts| facts.date);
    bought.map_or_else(|| day_of(lot.added.clock.millis()), |date| date.to_string())
}

fn average_words(minor: Decimal, currency: crate::model::currency::Currency) -> String {
    let amount = minor / Decimal::from(10_i64.pow(currency.digits().into()));
    amount.round_dp(u32::from(currency.digits()) + 1).to_string()
}

fn by_category(lots: &[LotRow], profile: &Profile) -> Vec<CategoryCost> {
    let mut sums: BTreeMap<Option<Category>, KnownSum> = BTreeMap::new();
    for lot in lots {
        let cost = lot.cost_in - lot.standing.passed_cost;
        let units = lot.standing.units_in - lot.standing.passed;
        let sum = sums.entry(lot.facts.category.clone()).or_default();
        *sum = *sum + lot.known(cost, units);
    }
    let row = |(category, sum)| CategoryCost { category, cost: Sum::of(sum, profile.currency) };
    sums.into_iter().map(row).collect()
}

fn stock_line(thing: &Thing, profile: &Profile, hauls: &BTreeMap<HaulId, HaulFacts>) -> StockLine {
    let facts = thing.lots.first().map(|lot| lot.facts.clone()).unwrap_or_default();
    let cost: KnownSum = thing.lots.iter().map(on_hand_cost).sum();
    let priced = cost.unpriced == 0;
    StockLine {
        name: thing.title.clone(),
        category: facts.category,
        for_whom: facts.for_whom.map(|whom| whom.word().to_owned()).unwrap_or_default(),
        ages: facts.ages.map(|ages| ages.to_string()).unwrap_or_default(),
        level: facts.level.map(|level| level.word().to_owned()).unwrap_or_default(),
        on_hand: thing.on_hand().count(),
        aside: thing.aside().count(),
        each: if priced { each(cost.known, thing.on_hand().count(), profile.currency) } else { "open".to_owned() },
        cost: Sum::of(cost, profile.currency),
        totes: thing.totes(),
        batches: thing.lots.iter().map(|lot| batch(lot, profile, hauls)).collect(),
    }
}

fn batch(lot: &LotRow, profile: &Profile, hauls: &BTreeMap<HaulId, HaulFacts>) -> Batch {
    let haul = lot.haul.and_then(|haul| hauls.get(&haul));
    Batch {
        handle: lot.lot.short(),
        source: lot.facts.source.to_string(),
        date: haul.map(|facts| facts.date.to_string()).unwrap_or_default(),
        shop: haul.map(|facts| facts.shop.clone()).unwrap_or_default(),
        units: lot.facts.units.count(),
        on_hand: lot.standing.on_hand.count(),
        cost: Sum::of(lot.known(lot.cost_in, lot.facts.units), profile.currency),
        tote: lot.facts.tote.clone().unwrap_or_default(),
        expires: lot.facts.expires.clone().unwrap_or_default(),
        notes: lot.facts.notes.clone(),
    }
}
