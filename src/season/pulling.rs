//! From set aside to in: what to fetch from which tote, and putting in what was fetched.

use std::collections::{BTreeMap, BTreeSet};

use super::{ActError, Done, Season};
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, Placing};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::model::measure::Units;
use crate::model::rows::{BoxRow, PlacementRow};
use crate::report::pull::{PullList, PullRow, PullTote};
use crate::store::Store;

/// Units of one thing that wait, each with the box that they wait for.
type Waiting<'a> = Vec<(&'a BoxRow, PlacementRow)>;

impl<S: Store> Season<S> {
    /// What is set aside for open boxes, by the tote it lies in.
    pub fn pull_list(&self) -> Result<PullList, ActError> {
        let lots = self.lots_by_id()?;
        let boxes: BTreeMap<BoxId, BoxRow> = (self.store.boxes()?.into_iter())
            .filter(|row| row.state == BoxState::Open)
            .map(|row| (row.giftbox, row))
            .collect();
        let mut totes: BTreeMap<Place, BTreeMap<String, Waiting<'_>>> = BTreeMap::new();
        for placed in self.store.placements()?.into_iter().filter(|placed| !placed.aside.is_zero()) {
            let (Some(lot), Some(row)) = (lots.get(&placed.lot), boxes.get(&placed.giftbox)) else { continue };
            let things = totes.entry(Place::of(lot.facts.tote.as_deref())).or_default();
            things.entry(lot.facts.title()).or_default().push((row, placed));
        }
        let tote = |(place, things): (Place, BTreeMap<String, Waiting<'_>>)| PullTote {
            tote: place.name,
            rows: things.into_iter().map(|(title, waiting)| pull_row(title, waiting)).collect(),
        };
        Ok(PullList { totes: totes.into_iter().map(tote).collect() })
    }

    /// Puts in what these placements hold set aside: one act, one undo.
    pub fn fetch(&mut self, placements: &[PlacementId]) -> Result<Done, ActError> {
        let mut seen = BTreeSet::new();
        let mut facts = Vec::new();
        let mut fetched: BTreeMap<LotId, Units> = BTreeMap::new();
        for placement in placements.iter().copied().filter(|placement| seen.insert(*placement)) {
            let row = self.store.placement(placement)?.filter(|row| !row.aside.is_zero());
            let PlacementRow { lot, giftbox, aside: units, .. } =
                row.ok_or(ActError::Refused(Refusal::Unknown("what was set aside")))?;
            *fetched.entry(lot).or_default() += units;
            facts.push(Fact::PutIn(Placing { placement, lot, giftbox, units }));
        }
        if facts.is_empty() {
            return Err(ActError::Nothing("Nothing is ticked to put in.".to_owned()));
        }
        self.all_on_hand(&fetched)?;
        self.act(&facts)
    }

    /// Refuses what is not on hand any more, by name.
    fn all_on_hand(&self, fetched: &BTreeMap<LotId, Units>) -> Result<(), ActError> {
        for (lot, units) in fetched {
            let Some(row) = self.store.lot(*lot)? else { continue };
            if row.standing.on_hand < *units {
                let (name, free, wanted) = (row.facts.title(), row.standing.on_hand, *units);
                return Err(ActError::Refused(Refusal::NotEnough { name, free, wanted, aside: Units::ZERO }));
            }
        }
        Ok(())
    }
}

/// A tote's name in the order in which people count: tote 2 before tote 10, what nobody said last.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Place {
    unsaid: bool,
    parts: Vec<(String, u64)>,
    name: String,
}

impl Place {
    fn of(tote: Option<&str>) -> Place {
        let name = tote.unwrap_or_default().to_owned();
        let mut parts = Vec::new();
        let mut rest = name.as_str();
        while !rest.is_empty() {
            let digits = rest.find(|c: char| c.is_ascii_digit()).unwrap_or(rest.len());
            let (word, after) = rest.split_at(digits);
            let end = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
            parts.push((word.to_owned(), after[..end].parse().unwrap_or(u64::MAX)));
            rest = &after[end..];
        }
        Place { unsaid: name.is_empty(), parts, name }
    }
}

fn pull_row(title: String, mut waiting: Waiting<'_>) -> PullRow {
    waiting.sort_by_key(|(row, placed)| (row.facts.number, row.twin, placed.since));
    let mut boxes: Vec<(BoxId, String, u32)> = Vec::new();
    for (row, placed) in &waiting {
        match boxes.last_mut().filter(|(giftbox, ..)| *giftbox == row.giftbox) {
            Some((.., units)) => *units += placed.aside.count(),
            None => boxes.push((row.giftbox, row.label(), placed.aside.count())),
        }
    }
    PullRow {
        title,
        units: boxes.iter().map(|(.., units)| units).sum(),
        boxes,
        placements: waiting.iter().map(|(_, placed)| placed.placement).collect(),
    }
}
