//! What a season in memory keeps and is asked.

use std::collections::BTreeSet;
use std::sync::Arc;

use jiff::civil::Date;

use super::{Memory, Rows};
use crate::model::checklist::Held;
use crate::model::commit::{Holdings, holds};
use crate::model::event::Event;
use crate::model::fact::Fact;
use crate::model::id::{BoxId, DeviceId, EventId, HaulId, LotId, SeasonId};
use crate::model::kept::Kept;
use crate::model::measure::Units;
use crate::model::project::refresh;
use crate::model::rows::{ActRow, BoxRow, HaulRow, LotRow, OutRow, PlacementRow};
use crate::store::{CommitError, Committed, InBox, Joined, NewAct, Store, StoreError, Totals, committed};

impl Store for Memory {
    fn season(&self) -> SeasonId {
        self.season
    }

    fn commit(&mut self, act: &NewAct) -> Result<Committed, CommitError> {
        holds(self, &act.facts())??;
        let seq = self.newest_of(act.device)?.map_or(0, |(seq, _)| seq);
        let events = act.events(seq, self.clock());
        let done = committed(&events)?;
        let touched = events.iter().flat_map(|event| event.fact.subjects()).collect();
        for event in events {
            self.begin_act(&event);
            self.append(event);
        }
        refresh(self, touched)?;
        Ok(done)
    }

    fn join(&mut self, theirs: &[Kept]) -> Result<Joined, StoreError> {
        let mut joined = Joined::default();
        let mut fresh = Vec::new();
        for kept in theirs {
            let event = kept.event()?;
            match self.uids.get(&kept.uid).and_then(|order| self.events.get(order)) {
                Some(ours) if **ours == event => joined.known += 1,
                Some(_) => return Err(StoreError::Damaged(format!("event {} says something else there", kept.uid))),
                None => fresh.push(event),
            }
        }
        for event in fresh {
            joined.events += 1;
            joined.acts += u64::from(!self.by_act.contains_key(&event.act));
            self.append(event);
        }
        self.rebuild()?;
        Ok(joined)
    }

    fn rebuild(&mut self) -> Result<(), StoreError> {
        self.rows = Rows::default();
        let events: Vec<Arc<Event>> = self.events.values().cloned().collect();
        for event in &events {
            self.begin_act(event);
        }
        refresh(self, events.iter().flat_map(|event| event.fact.subjects()).collect())
    }

    fn unsound(&self) -> Result<Vec<String>, StoreError> {
        Ok(Vec::new())
    }

    fn kept(&self) -> Result<Vec<Kept>, StoreError> {
        Ok(self.events.values().map(|event| Kept::from_event(event)).collect())
    }

    fn newest_of(&self, device: DeviceId) -> Result<Option<(u64, EventId)>, StoreError> {
        let newest = self.by_device.range((device, 0)..=(device, u64::MAX)).next_back();
        Ok(newest.map(|((_, seq), uid)| (*seq, *uid)))
    }

    fn at(&self, device: DeviceId, seq: u64) -> Result<Option<EventId>, StoreError> {
        Ok(self.by_device.get(&(device, seq)).copied())
    }

    fn foreign_commits(&self) -> Result<i64, StoreError> {
        Ok(0)
    }

    fn each_lot(&self, see: &mut dyn FnMut(LotRow)) -> Result<(), StoreError> {
        let mut lots: Vec<(String, &LotRow)> = self.lot_rows().map(|row| (row.facts.title(), row)).collect();
        lots.sort_by(|(title, row), (other, than)| title.cmp(other).then(row.added.cmp(&than.added)));
        for (_, row) in lots {
            see(row.clone());
        }
        Ok(())
    }

    fn lots_titled(&self, title: &str) -> Result<Vec<LotRow>, StoreError> {
        let mut rows: Vec<LotRow> = self.lot_rows().filter(|row| row.facts.title() == title).cloned().collect();
        rows.sort_by_key(|row| row.added);
        Ok(rows)
    }

    fn titles_on_hand(&self, limit: usize) -> Result<Vec<String>, StoreError> {
        let there = self.lot_rows().filter(|row| !row.withdrawn && !row.standing.on_hand.is_zero());
        let titles: BTreeSet<String> = there.map(|row| row.facts.title()).collect();
        Ok(titles.into_iter().take(limit).collect())
    }

    fn totals(&self) -> Result<Totals, StoreError> {
        let outside = self.lot_rows().filter(|row| row.haul.is_some());
        let sum = |part: fn(&LotRow) -> Units| self.lot_rows().map(|row| u64::from(part(row).count())).sum();
        Ok(Totals {
            spent: outside.map(|row| row.known(row.cost_in, row.facts.units)).sum(),
            on_hand: sum(|row| row.standing.on_hand),
            aside: sum(|row| row.standing.aside),
            hauls: self.rows.hauls.len() as u64,
        })
    }

    fn latest_haul(&self, date: Date) -> Result<Option<HaulId>, StoreError> {
        let that_day = self.rows.hauls.values().filter(|row| row.facts.date == date);
        Ok(that_day.max_by_key(|row| row.logged).map(|row| row.haul))
    }

    fn in_boxes(&self) -> Result<Vec<InBox>, StoreError> {
        let boxes: BTreeSet<BoxId> = self.rows.in_box.iter().map(|(giftbox, _)| *giftbox).collect();
        let each = boxes.into_iter().map(|giftbox| self.in_box(giftbox));
        Ok(each.collect::<Result<Vec<_>, _>>()?.into_iter().flatten().collect())
    }

    fn in_box(&self, giftbox: BoxId) -> Result<Vec<InBox>, StoreError> {
        let rows = self.placements_in(giftbox)?;
        let seen = |row: &PlacementRow| {
            let lot = &self.rows.lots.get(&row.lot)?.row;
            let (category, kind) = (lot.facts.category.clone(), lot.facts.kind.clone());
            let held = Held { category, kind, wow: row.wow, units: row.units, aside: row.aside };
            Some(InBox { giftbox, held, cost: lot.known(row.cost, row.units) })
        };
        Ok(rows.iter().filter_map(seen).collect())
    }

    fn lots(&self) -> Result<Vec<LotRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.lots.values().map(|folded| folded.row.clone()).collect();
        rows.sort_by_key(|row| row.added);
        Ok(rows)
    }

    fn boxes(&self) -> Result<Vec<BoxRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.boxes.values().cloned().collect();
        rows.sort_by_key(|row| (row.facts.number, row.twin));
        Ok(rows)
    }

    fn hauls(&self) -> Result<Vec<HaulRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.hauls.values().cloned().collect();
        rows.sort_by_key(|row| row.logged);
        Ok(rows)
    }

    fn placements(&self) -> Result<Vec<PlacementRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.lots.values().flat_map(|folded| folded.placements.clone()).collect();
        rows.sort_by_key(|row| (row.since, row.placement));
        Ok(rows)
    }

    fn placements_of(&self, lot: LotId) -> Result<Vec<PlacementRow>, StoreError> {
        let mut rows = self.rows.lots.get(&lot).map(|folded| folded.placements.clone()).unwrap_or_default();
        rows.sort_by_key(|row| (row.since, row.placement));
        Ok(rows)
    }

    fn outs(&self) -> Result<Vec<OutRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.lots.values().flat_map(|folded| folded.outs.clone()).collect();
        rows.sort_by_key(|row| (row.event, row.lot));
        Ok(rows)
    }

    fn acts(&self, limit: usize) -> Result<Vec<ActRow>, StoreError> {
        let mut rows: Vec<_> = self.rows.acts.values().cloned().collect();
        rows.sort_by_key(|row| std::cmp::Reverse(row.order));
        rows.truncate(limit);
        Ok(rows)
    }

    fn deeds(&self, limit: usize) -> Result<Vec<ActRow>, StoreError> {
        let mut rows = self.acts(usize::MAX)?;
        rows.retain(|row| !row.steps_back);
        rows.truncate(limit);
        Ok(rows)
    }

    fn undoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError> {
        let own = self.rows.acts.values().filter(|row| row.device == device && row.live && !row.steps_back);
        Ok(own.max_by_key(|row| row.order).cloned())
    }

    fn redoable(&self, device: DeviceId) -> Result<Option<ActRow>, StoreError> {
        let own = || self.rows.acts.values().filter(move |row| row.device == device && !row.steps_back);
        let newest = own().map(|row| row.order.seq).max().unwrap_or(0);
        let undone = own().filter_map(|row| row.undone_by.map(|by| (by, row)));
        let undone = undone.filter(|(by, _)| by.device == device && by.seq > newest);
        Ok(undone.max_by_key(|(by, _)| by.seq).map(|(_, row)| row.clone()))
    }

    fn counts(&self) -> Result<Vec<Event>, StoreError> {
        let live = |event: &&Arc<Event>| self.rows.acts.get(&event.act).is_none_or(|act| act.live);
        let counts = self.events.values().filter(|event| matches!(event.fact, Fact::Counted(_)));
        Ok(counts.filter(live).map(|event| (**event).clone()).collect())
    }
}
