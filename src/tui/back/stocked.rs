//! The shelf with what follows from it, worked out before it comes to the thread that draws.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::season::{Shelf, Ware};

/// All things, which of them are on hand, and what lies in which tote.
#[derive(Debug, Clone, Default)]
pub struct Stocked {
    /// All things.
    pub shelf: Shelf,
    /// The places on the shelf of what is on hand.
    pub on_hand: Arc<Vec<usize>>,
    /// The totes, with how much lies in each.
    pub totes: Arc<Vec<(String, u64)>>,
}

impl Stocked {
    /// A shelf, looked over once.
    pub fn of(shelf: Shelf) -> Stocked {
        let there = |(at, ware): (usize, &Arc<Ware>)| (ware.on_hand > 0).then_some(at);
        let on_hand = shelf.wares().iter().enumerate().filter_map(there).collect();
        let totes = totes(&shelf);
        Stocked { shelf, on_hand: Arc::new(on_hand), totes: Arc::new(totes) }
    }
}

/// By name, but tote 9 before tote 10.
fn totes(shelf: &Shelf) -> Vec<(String, u64)> {
    let mut totes: BTreeMap<(usize, &str), u64> = BTreeMap::new();
    for ware in shelf.wares().iter().filter(|ware| ware.on_hand > 0) {
        for tote in ware.tote.split(", ").filter(|tote| !tote.is_empty()) {
            *totes.entry((tote.len(), tote)).or_default() += u64::from(ware.on_hand);
        }
    }
    totes.into_iter().map(|((_, tote), units)| (tote.to_owned(), units)).collect()
}
