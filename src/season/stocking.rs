//! Filling the shelf: all of it at once, the first of it fast, or only what acts changed.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::sync::Arc;

use jiff::civil::Date;

use super::names::used_up;
use super::shelf::{Change, Shelf};
use super::ware::{Bought, Mark, Ware};
use super::watch::{Inspected, Watch};
use super::{ActError, Season, Touched};
use crate::catalogue::Catalogue;
use crate::model::currency::Currency;
use crate::model::id::HaulId;
use crate::model::lot::LotFacts;
use crate::model::money::{KnownSum, each};
use crate::model::rows::LotRow;
use crate::store::Store;

impl<S: Store> Season<S> {
    /// All things, whether on hand or not. Batches are read one after another, never all at once.
    pub fn shelf(&self) -> Result<Shelf, ActError> {
        let mut maker = self.maker()?;
        maker.dates = self.store.hauls()?.into_iter().map(|row| (row.haul, row.facts.date)).collect();
        let mut wares = Vec::new();
        let mut alike: Vec<LotRow> = Vec::new();
        let mut title = String::new();
        self.store.each_lot(&mut |row| {
            let next = row.facts.title();
            if next != title {
                wares.extend(maker.wares(std::mem::take(&mut alike)));
                title = next;
            }
            alike.push(row);
        })?;
        wares.extend(maker.wares(alike));
        Ok(Shelf::of(wares))
    }

    /// The shelf after acts that changed what `touched` names; only that is read again.
    pub fn restock(&self, shelf: &Shelf, touched: &Touched) -> Result<Shelf, ActError> {
        if touched.all || touched.rules {
            return self.shelf();
        }
        let mut titles = BTreeSet::new();
        for lot in &touched.lots {
            titles.extend(shelf.holding(*lot).map(|ware| ware.title.to_string()));
            titles.extend(self.store.lot(*lot)?.map(|row| row.facts.title()));
        }
        if titles.is_empty() {
            return Ok(shelf.clone());
        }
        let mut maker = self.maker()?;
        let mut changes = Vec::new();
        for title in titles {
            let (from, to) = shelf.titled(&title);
            changes.push(Change { from, to, wares: self.titled(&title, &mut maker)? });
        }
        Ok(shelf.changed(changes))
    }

    /// The first things on hand, by title.
    pub fn first_wares(&self, limit: usize) -> Result<Vec<Ware>, ActError> {
        let mut maker = self.maker()?;
        let mut first = Vec::new();
        for title in self.store.titles_on_hand(limit)? {
            let wares = self.titled(&title, &mut maker)?.into_iter().filter(|ware| ware.on_hand > 0);
            first.extend(wares.map(Arc::unwrap_or_clone));
        }
        first.truncate(limit);
        Ok(first)
    }

    fn titled(&self, title: &str, maker: &mut Maker<'_>) -> Result<Vec<Arc<Ware>>, ActError> {
        let rows = self.store.lots_titled(title)?;
        for haul in rows.iter().filter_map(|row| row.haul) {
            if !maker.dates.contains_key(&haul) {
                maker.dates.extend(self.store.haul(haul)?.map(|row| (haul, row.facts.date)));
            }
        }
        Ok(maker.wares(rows))
    }

    fn maker(&self) -> Result<Maker<'_>, ActError> {
        let profile = self.profile()?;
        let (currency, watch) = (profile.currency, Watch::new(&profile, &self.catalogue));
        // A kit whose parts can't be read now is looked at by itself.
        let inspect = Box::new(|row: &LotRow| self.inspected(row.lot, row.facts.clone()).unwrap_or_default());
        let (dates, words, lists) = (BTreeMap::new(), HashSet::new(), HashSet::new());
        Ok(Maker { catalogue: &self.catalogue, currency, dates, words, lists, watch, inspect })
    }
}

/// Makes things of batches; words that many things share are kept once.
struct Maker<'a> {
    catalogue: &'a Catalogue,
    currency: Currency,
    dates: BTreeMap<HaulId, Date>,
    words: HashSet<Arc<str>>,
    lists: HashSet<Arc<[Arc<str>]>>,
    watch: Watch,
    inspect: Box<dyn Fn(&LotRow) -> Inspected + 'a>,
}

impl Maker<'_> {
    /// The things that batches of one title are of.
    fn wares(&mut self, rows: Vec<LotRow>) -> Vec<Arc<Ware>> {
        let mut alike: BTreeMap<_, Vec<LotRow>> = BTreeMap::new();
        for row in rows.into_iter().filter(|row| !row.withdrawn) {
            let ages = row.facts.ages.map(|ages| (ages.from(), ages.to()));
            alike.entry((row.facts.for_whom, ages)).or_default().push(row);
        }
        alike.into_values().map(|rows| Arc::new(self.ware(rows))).collect()
    }

    fn ware(&mut self, mut rows: Vec<LotRow>) -> Ware {
        rows.sort_by_cached_key(|row| used_up(row, &self.dates));
        let there = |row: &&LotRow| !row.standing.on_hand.is_zero();
        let shown = rows.iter().find(there).or(rows.last());
        let facts = shown.map(|row| row.facts.clone()).unwrap_or_default();
        let on_hand: u32 = rows.iter().map(|row| row.standing.on_hand.count()).sum();
        let free: u32 = rows.iter().map(|row| row.free().count()).sum();
        let tote = if on_hand > 0 { totes(rows.iter().filter(there)) } else { facts.tote.clone().unwrap_or_default() };
        let marks = self.marks(&rows);
        Ware {
            marks,
            title: facts.title().into(),
            name_ends: u16::try_from(facts.name.len()).unwrap_or(u16::MAX),
            names_category: self.names_category(&facts),
            for_whom: facts.for_whom,
            ages: facts.ages,
            kind: facts.kind.map(|kind| self.word(kind)),
            size: facts.size.map(|size| self.word(size)),
            theme: facts.theme.map(|theme| self.word(theme)),
            category: facts.category,
            colours: self.list(facts.colours),
            flags: self.list(facts.flags),
            tote: self.word(tote),
            on_hand,
            level: facts.level,
            // More may be set aside of a batch than is left of it; that takes nothing from the other batches.
            aside: on_hand - free,
            lots: rows.iter().map(|row| row.lot).collect(),
            bought: self.bought(&rows),
            each: self.each(&rows, on_hand),
        }
    }

    /// The strictest caution on any batch on hand, for each age group.
    fn marks(&self, rows: &[LotRow]) -> Box<[Mark]> {
        let there = rows.iter().filter(|row| !row.standing.on_hand.is_zero() || rows.len() == 1);
        let mut marks: Vec<Mark> = Vec::new();
        for mark in there.flat_map(|row| self.watch.marks(&(self.inspect)(row))) {
            match marks.iter_mut().find(|known| known.ages == mark.ages) {
                Some(known) => known.level = known.level.max(mark.level),
                None => marks.push(mark),
            }
        }
        marks.into()
    }

    fn bought(&self, rows: &[LotRow]) -> Box<[Bought]> {
        let mut priced: Vec<&LotRow> = rows.iter().filter(|row| !row.unpriced && row.haul.is_some()).collect();
        let date = |row: &LotRow| row.haul.and_then(|haul| self.dates.get(&haul)).copied();
        priced.sort_by_key(|row| (date(row), row.added));
        priced.iter().map(|row| Bought { date: date(row), paid: row.cost_in, units: row.facts.units }).collect()
    }

    fn each(&mut self, rows: &[LotRow], on_hand: u32) -> Arc<str> {
        let cost: KnownSum = rows.iter().map(|row| row.known(row.standing.on_hand_cost, row.standing.on_hand)).sum();
        let price = if cost.unpriced == 0 { each(cost.known, on_hand, self.currency) } else { "open".to_owned() };
        self.word(price)
    }

    /// Whether a reader who sees only the name would take it for another category.
    fn names_category(&self, facts: &LotFacts) -> bool {
        let told = self.catalogue.kind_of(&facts.name).map(|kind| &kind.category);
        facts.category.as_ref() != told
    }

    fn word(&mut self, word: String) -> Arc<str> {
        if let Some(known) = self.words.get(word.as_str()) {
            return Arc::clone(known);
        }
        let word: Arc<str> = word.into();
        self.words.insert(Arc::clone(&word));
        word
    }

    fn list(&mut self, words: Vec<String>) -> Arc<[Arc<str>]> {
        let words: Vec<Arc<str>> = words.into_iter().map(|word| self.word(word)).collect();
        if let Some(known) = self.lists.get(words.as_slice()) {
            return Arc::clone(known);
        }
        let words: Arc<[Arc<str>]> = words.into();
        self.lists.insert(Arc::clone(&words));
        words
    }
}

/// The places where batches lie, each once.
fn totes<'a>(rows: impl Iterator<Item = &'a LotRow>) -> String {
    let mut totes: Vec<&str> = Vec::new();
    for tote in rows.filter_map(|row| row.facts.tote.as_deref()) {
        if !totes.contains(&tote) {
            totes.push(tote);
        }
    }
    totes.join(", ")
}
