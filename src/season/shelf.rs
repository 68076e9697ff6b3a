//! The shelf: one small entry for each thing, all of them at once, to look through and to search.

use std::sync::Arc;

use super::ware::Ware;
use crate::find::{Marks, Sought, best};
use crate::model::id::LotId;
use crate::model::whom::ForWhom;

/// All things of a season, by title; never changed, and cheap to hand on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shelf {
    wares: Arc<Vec<Arc<Ware>>>,
    /// Where the thing of each batch stands; by batch.
    lots: Arc<Vec<(LotId, u32)>>,
    /// What the search skips by; one for each thing.
    marks: Arc<Vec<Marks>>,
    on_hand: u64,
}

/// Things that take the place of those that stood from one place to before another.
#[derive(Debug)]
pub(super) struct Change {
    pub from: usize,
    pub to: usize,
    pub wares: Vec<Arc<Ware>>,
}

impl Shelf {
    /// A shelf of these things alone.
    pub fn of_few(wares: Vec<Ware>) -> Shelf {
        Shelf::of(wares.into_iter().map(Arc::new).collect())
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
        let at = self.lots.binary_search_by_key(&lot, |(lot, _)| *lot).ok()?;
        self.lots.get(at).and_then(|(_, place)| self.wares.get(*place as usize))
    }

    /// Units on hand in all.
    pub fn units_on_hand(&self) -> u64 {
        self.on_hand
    }

    /// The things that answer to words, best first; every word must be found.
    pub fn find(&self, words: &str, limit: usize) -> Vec<usize> {
        self.find_among(words, |_| true, limit)
    }

    /// The same among the things that `keep` lets through.
    pub fn find_among(&self, words: &str, keep: impl Fn(&Ware) -> bool, limit: usize) -> Vec<usize> {
        let thing = |place: usize| self.wares.get(place).map(|ware| &**ware).filter(|ware| keep(ware));
        best(words, &self.marks, thing, limit)
    }

    /// A shelf of these things, which stand by title already.
    pub(super) fn of(wares: Vec<Arc<Ware>>) -> Shelf {
        let mut lots = lots_from(0, &wares);
        lots.sort_unstable();
        let marks = wares.iter().map(|ware| Marks::of(&&**ware)).collect();
        let on_hand = wares.iter().map(|ware| u64::from(ware.on_hand)).sum();
        Shelf { wares: Arc::new(wares), lots: Arc::new(lots), marks: Arc::new(marks), on_hand }
    }

    /// The places of the things of this title.
    pub(super) fn titled(&self, title: &str) -> (usize, usize) {
        let from = self.wares.partition_point(|ware| *ware.title < *title);
        let same = self.wares.get(from..).unwrap_or_default().iter().take_while(|ware| *ware.title == *title).count();
        (from, from + same)
    }

    /// The shelf after changes, which stand in order and don't overlap.
    pub(super) fn changed(&self, changes: Vec<Change>) -> Shelf {
        let moves = changes.iter().any(|change| !self.has_lots_of(change));
        let mut wares = Vec::with_capacity(self.len() + changes.len());
        let mut marks = Vec::with_capacity(self.len() + changes.len());
        let mut moved: Vec<(usize, usize, Option<usize>)> = Vec::new();
        let mut fresh = Vec::new();
        let mut on_hand = self.on_hand;
        let mut next = 0;
        for Change { from, to, wares: new } in changes {
            moved.push((next, from, Some(wares.len())));
            wares.extend_from_slice(self.wares.get(next..from).unwrap_or_default());
            marks.extend_from_slice(self.marks.get(next..from).unwrap_or_default());
            moved.push((from, to, None));
            let gone = self.wares.get(from..to).unwrap_or_default();
            on_hand -= gone.iter().map(|ware| u64::from(ware.on_hand)).sum::<u64>();
            on_hand += new.iter().map(|ware| u64::from(ware.on_hand)).sum::<u64>();
            fresh.extend(lots_from(wares.len(), &new));
            marks.extend(new.iter().map(|ware| Marks::of(&&**ware)));
            wares.extend(new);
            next = to;
        }
        moved.push((next, self.len(), Some(wares.len())));
        wares.extend_from_slice(self.wares.get(next..).unwrap_or_default());
        marks.extend_from_slice(self.marks.get(next..).unwrap_or_default());
        let lots = if moves { Arc::new(moved_lots(&self.lots, &moved, fresh)) } else { Arc::clone(&self.lots) };
        Shelf { wares: Arc::new(wares), lots, marks: Arc::new(marks), on_hand }
    }

    /// Whether a change leaves every batch where it is.
    fn has_lots_of(&self, change: &Change) -> bool {
        let old = self.wares.get(change.from..change.to).unwrap_or_default();
        let same = |(old, new): (&Arc<Ware>, &Arc<Ware>)| {
            old.lots.len() == new.lots.len() && old.lots.iter().all(|lot| new.lots.contains(lot))
        };
        old.len() == change.wares.len() && old.iter().zip(&change.wares).all(same)
    }
}

/// The batches of things that stand from a place on.
fn lots_from(place: usize, wares: &[Arc<Ware>]) -> Vec<(LotId, u32)> {
    let places = u32::try_from(place).unwrap_or(u32::MAX)..;
    places.zip(wares).flat_map(|(place, ware)| ware.lots.iter().map(move |lot| (*lot, place))).collect()
}

/// Where batches stand after things moved: each stretch of old places with its new beginning, none where it went.
fn moved_lots(
    old: &[(LotId, u32)],
    moved: &[(usize, usize, Option<usize>)],
    fresh: Vec<(LotId, u32)>,
) -> Vec<(LotId, u32)> {
    let place = |old: u32| {
        let old = old as usize;
        let at = moved.partition_point(|(_, to, _)| *to <= old);
        let (from, _, now) = moved.get(at)?;
        u32::try_from((*now)? + old - from).ok()
    };
    let mut lots: Vec<(LotId, u32)> = Vec::with_capacity(old.len() + fresh.len());
    lots.extend(old.iter().filter_map(|(lot, old)| place(*old).map(|place| (*lot, place))));
    lots.extend(fresh);
    // Nearly in order: a merge of what was there and what came.
    lots.sort();
    lots
}

impl Sought for &Ware {
    fn title(&self) -> &str {
        &self.title
    }

    fn more(&self) -> impl Iterator<Item = &str> {
        let said = [self.kind.as_deref(), self.theme.as_deref(), Some(&*self.tote), self.for_whom.map(ForWhom::word)];
        said.into_iter().flatten()
    }

    fn first(&self) -> bool {
        self.on_hand > 0
    }
}
