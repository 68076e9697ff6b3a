//! The shelf: one small entry for each thing, all of them at once, to look through and to search.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::names::Thing;
use super::ware::{Bought, Ware};
use super::{ActError, Season, Touched};
use crate::find::{Name, find};
use crate::model::currency::Currency;
use crate::model::haul::HaulFacts;
use crate::model::id::{HaulId, LotId};
use crate::model::money::{KnownSum, each};
use crate::store::Store;

/// All things of a season, by title; never changed, and cheap to hand on.
#[derive(Debug, Clone, Default)]
pub struct Shelf {
    wares: Arc<Vec<Arc<Ware>>>,
}

impl Shelf {
    /// A shelf of these things alone.
    pub fn of(wares: Vec<Ware>) -> Shelf {
        let mut wares: Vec<Arc<Ware>> = wares.into_iter().map(Arc::new).collect();
        wares.sort_by(|one, other| one.key().cmp(&other.key()));
        Shelf { wares: Arc::new(wares) }
    }

    /// The things, by title.
    pub fn wares(&self) -> &[Arc<Ware>] {
        &self.wares
    }

    /// How many things there are.
    pub fn len(&self) -> usize {
        self.wares.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.wares.is_empty()
    }

    /// Where this thing stands, if it still does.
    pub fn place_of(&self, ware: &Ware) -> Option<usize> {
        self.wares.binary_search_by(|other| other.key().cmp(&ware.key())).ok()
    }

    /// The thing that a batch is of.
    pub fn holding(&self, lot: LotId) -> Option<&Arc<Ware>> {
        self.wares.iter().find(|ware| ware.lots.contains(&lot))
    }

    /// Units on hand in all.
    pub fn units_on_hand(&self) -> u64 {
        self.wares.iter().map(|ware| u64::from(ware.on_hand)).sum()
    }

    /// The things that answer to words, best first; every word must be found.
    pub fn find(&self, words: &str, limit: usize) -> Vec<usize> {
        self.find_among(words, |_| true, limit)
    }

    /// The same among the things that `keep` lets through.
    pub fn find_among(&self, words: &str, keep: impl Fn(&Ware) -> bool, limit: usize) -> Vec<usize> {
        let kept: Vec<usize> = (0..self.len()).filter(|place| keep(&self.wares[*place])).collect();
        let names: Vec<Name> = kept.iter().map(|place| Name::new(&self.wares[*place].title, "")).collect();
        find(words, &names).iter().take(limit).map(|hit| kept[hit.index]).collect()
    }
}

impl<S: Store> Season<S> {
    /// All things, whether on hand or not.
    pub fn shelf(&self) -> Result<Shelf, ActError> {
        let currency = self.profile()?.currency;
        let hauls = self.store.hauls()?.into_iter().map(|row| (row.haul, row.facts)).collect();
        let things = self.things(|lot| !lot.withdrawn)?;
        let wares = things.iter().map(|thing| Arc::new(ware(thing, currency, &hauls))).collect();
        Ok(Shelf { wares: Arc::new(wares) })
    }

    /// The shelf after acts that changed what `touched` names.
    pub fn restock(&self, _shelf: &Shelf, _touched: &Touched) -> Result<Shelf, ActError> {
        self.shelf()
    }

    /// The first things on hand, by title.
    pub fn first_wares(&self, limit: usize) -> Result<Vec<Ware>, ActError> {
        let shelf = self.shelf()?;
        let on_hand = shelf.wares().iter().filter(|ware| ware.on_hand > 0);
        Ok(on_hand.take(limit).map(|ware| Ware::clone(ware)).collect())
    }
}

fn ware(thing: &Thing, currency: Currency, hauls: &BTreeMap<HaulId, HaulFacts>) -> Ware {
    let there = thing.lots.iter().find(|lot| !lot.standing.on_hand.is_zero()).or(thing.lots.last());
    let facts = there.map(|lot| lot.facts.clone()).unwrap_or_default();
    let on_hand = thing.on_hand().count();
    let cost: KnownSum = thing.lots.iter().map(|lot| lot.known(lot.standing.on_hand_cost, lot.standing.on_hand)).sum();
    let mut priced: Vec<_> = thing.lots.iter().filter(|lot| !lot.unpriced && lot.haul.is_some()).collect();
    priced.sort_by_key(|lot| lot.added);
    let bought = priced.iter().map(|lot| Bought {
        date: lot.haul.and_then(|haul| hauls.get(&haul)).map(|facts| facts.date),
        paid: lot.cost_in,
        units: lot.facts.units,
    });
    let each = match cost.unpriced {
        0 => each(cost.known, on_hand, currency),
        _ => "open".to_owned(),
    };
    let shared = |words: Option<String>| words.map(Arc::from);
    Ware {
        title: thing.title.as_str().into(),
        name_ends: u16::try_from(facts.name.len()).unwrap_or(u16::MAX),
        names_category: false,
        kind: shared(facts.kind),
        category: facts.category,
        for_whom: facts.for_whom,
        ages: facts.ages,
        size: shared(facts.size),
        colours: facts.colours.into_iter().map(Arc::from).collect(),
        theme: shared(facts.theme),
        tote: if on_hand > 0 { thing.totes().join(", ").into() } else { facts.tote.unwrap_or_default().into() },
        flags: facts.flags.into_iter().map(Arc::from).collect(),
        on_hand,
        aside: thing.aside().count(),
        lots: thing.lots.iter().map(|lot| lot.lot).collect(),
        bought: bought.collect(),
        each: each.into(),
    }
}
