//! A season kept nowhere: for tests, for looking at another file, and before a file exists.

mod ask;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::StoreError;
use crate::model::commit::Holdings;
use crate::model::event::{Clock, Event, Order, Subject};
use crate::model::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, PlacementId, SeasonId};
use crate::model::profile::Profile;
use crate::model::project::{Tables, Told, act_row};
use crate::model::rows::{ActRow, BoxRow, Folded, HaulRow, LotRow, OutRow, PlacementRow};

/// A season in memory.
#[derive(Debug, Clone)]
pub struct Memory {
    season: SeasonId,
    events: BTreeMap<Order, Arc<Event>>,
    uids: BTreeMap<EventId, Order>,
    about: BTreeMap<Subject, BTreeSet<Order>>,
    by_act: BTreeMap<ActId, BTreeSet<Order>>,
    by_device: BTreeMap<(DeviceId, u64), EventId>,
    rows: Rows,
}

/// What follows from the events.
#[derive(Debug, Clone, Default)]
struct Rows {
    profile: Option<Profile>,
    acts: BTreeMap<ActId, ActRow>,
    hauls: BTreeMap<HaulId, HaulRow>,
    boxes: BTreeMap<BoxId, BoxRow>,
    numbers: BTreeSet<(u32, BoxId)>,
    lots: BTreeMap<LotId, Folded>,
    of_haul: BTreeSet<(HaulId, LotId)>,
    in_box: BTreeSet<(BoxId, LotId)>,
    placed: BTreeMap<PlacementId, LotId>,
    out_by: BTreeSet<(EventId, LotId)>,
}

impl Memory {
    /// An empty season.
    pub fn new(season: SeasonId) -> Memory {
        Memory {
            season,
            events: BTreeMap::new(),
            uids: BTreeMap::new(),
            about: BTreeMap::new(),
            by_act: BTreeMap::new(),
            by_device: BTreeMap::new(),
            rows: Rows::default(),
        }
    }

    fn append(&mut self, event: Event) {
        let order = event.order();
        for subject in event.fact.subjects() {
            self.about.entry(subject).or_default().insert(order);
        }
        self.by_act.entry(event.act).or_default().insert(order);
        self.by_device.insert((event.device, event.seq), event.uid);
        self.uids.insert(event.uid, order);
        self.events.insert(order, Arc::new(event));
    }

    fn begin_act(&mut self, event: &Event) {
        self.rows.acts.entry(event.act).or_insert_with(|| act_row(event));
    }

    fn lots_where(&self, ids: impl Iterator<Item = LotId>) -> Vec<&Folded> {
        ids.filter_map(|lot| self.rows.lots.get(&lot)).collect()
    }

    fn lot_rows(&self) -> impl Iterator<Item = &LotRow> {
        self.rows.lots.values().map(|folded| &folded.row)
    }

    fn clock(&self) -> Clock {
        self.events.last_key_value().map(|(order, _)| order.clock).unwrap_or_default()
    }
}

impl Rows {
    fn unlink_lot(&mut self, lot: LotId) {
        let Some(old) = self.lots.remove(&lot) else { return };
        if let Some(haul) = old.row.haul {
            self.of_haul.remove(&(haul, lot));
        }
        for row in old.placements {
            self.in_box.remove(&(row.giftbox, lot));
            self.placed.remove(&row.placement);
        }
        for out in old.outs {
            self.out_by.remove(&(out.event, lot));
        }
    }

    fn link_lot(&mut self, folded: &Folded) {
        let lot = folded.row.lot;
        self.of_haul.extend(folded.row.haul.map(|haul| (haul, lot)));
        for row in &folded.placements {
            self.in_box.insert((row.giftbox, lot));
            self.placed.insert(row.placement, lot);
        }
        self.out_by.extend(folded.outs.iter().map(|out| (out.event, lot)));
        self.lots.insert(lot, folded.clone());
    }
}

impl Tables for Memory {
    type Error = StoreError;

    fn events_about(&self, subject: Subject) -> Result<Vec<Told>, StoreError> {
        let orders = self.about.get(&subject);
        let told = |order: &Order| {
            let event = Arc::clone(self.events.get(order)?);
            let live = self.rows.acts.get(&event.act).is_none_or(|act| act.live);
            Some(Told { event, live })
        };
        Ok(orders.into_iter().flatten().filter_map(told).collect())
    }

    fn events_of(&self, act: ActId) -> Result<Vec<Arc<Event>>, StoreError> {
        let orders = self.by_act.get(&act);
        Ok(orders.into_iter().flatten().filter_map(|order| self.events.get(order)).cloned().collect())
    }

    fn act(&self, act: ActId) -> Result<Option<ActRow>, StoreError> {
        Ok(self.rows.acts.get(&act).cloned())
    }

    fn lot(&self, lot: LotId) -> Result<Option<LotRow>, StoreError> {
        Ok(self.rows.lots.get(&lot).map(|folded| folded.row.clone()))
    }

    fn lots_of(&self, haul: HaulId) -> Result<Vec<LotRow>, StoreError> {
        let range = (haul, LotId::LEAST)..=(haul, LotId::MOST);
        let lots = self.lots_where(self.rows.of_haul.range(range).map(|(_, lot)| *lot));
        Ok(lots.into_iter().map(|folded| folded.row.clone()).collect())
    }

    fn outs_of(&self, event: EventId) -> Result<Vec<OutRow>, StoreError> {
        let range = (event, LotId::LEAST)..=(event, LotId::MOST);
        let lots = self.lots_where(self.rows.out_by.range(range).map(|(_, lot)| *lot));
        Ok(lots.into_iter().flat_map(|folded| &folded.outs).filter(|out| out.event == event).cloned().collect())
    }

    fn giftbox(&self, giftbox: BoxId) -> Result<Option<BoxRow>, StoreError> {
        Ok(self.rows.boxes.get(&giftbox).cloned())
    }

    fn boxes_numbered(&self, number: u32) -> Result<Vec<BoxRow>, StoreError> {
        let range = (number, BoxId::LEAST)..=(number, BoxId::MOST);
        let boxes = self.rows.numbers.range(range).filter_map(|(_, giftbox)| self.rows.boxes.get(giftbox));
        Ok(boxes.cloned().collect())
    }

    fn haul(&self, haul: HaulId) -> Result<Option<HaulRow>, StoreError> {
        Ok(self.rows.hauls.get(&haul).cloned())
    }

    fn put_act(&mut self, row: &ActRow) -> Result<(), StoreError> {
        self.rows.acts.insert(row.act, row.clone());
        Ok(())
    }

    fn put_lot(&mut self, folded: &Folded) -> Result<(), StoreError> {
        self.rows.unlink_lot(folded.row.lot);
        self.rows.link_lot(folded);
        Ok(())
    }

    fn drop_lot(&mut self, lot: LotId) -> Result<(), StoreError> {
        self.rows.unlink_lot(lot);
        Ok(())
    }

    fn put_box(&mut self, row: &BoxRow) -> Result<(), StoreError> {
        self.drop_box(row.giftbox)?;
        self.rows.numbers.insert((row.facts.number, row.giftbox));
        self.rows.boxes.insert(row.giftbox, row.clone());
        Ok(())
    }

    fn drop_box(&mut self, giftbox: BoxId) -> Result<(), StoreError> {
        if let Some(old) = self.rows.boxes.remove(&giftbox) {
            self.rows.numbers.remove(&(old.facts.number, giftbox));
        }
        Ok(())
    }

    fn put_haul(&mut self, row: &HaulRow) -> Result<(), StoreError> {
        self.rows.hauls.insert(row.haul, row.clone());
        Ok(())
    }

    fn drop_haul(&mut self, haul: HaulId) -> Result<(), StoreError> {
        self.rows.hauls.remove(&haul);
        Ok(())
    }

    fn put_profile(&mut self, profile: Option<&Profile>) -> Result<(), StoreError> {
        self.rows.profile = profile.cloned();
        Ok(())
    }
}

impl Holdings for Memory {
    fn placement(&self, placement: PlacementId) -> Result<Option<PlacementRow>, StoreError> {
        let folded = self.rows.placed.get(&placement).and_then(|lot| self.rows.lots.get(lot));
        Ok(folded.and_then(|folded| folded.placements.iter().find(|row| row.placement == placement)).cloned())
    }

    fn placements_in(&self, giftbox: BoxId) -> Result<Vec<PlacementRow>, StoreError> {
        let range = (giftbox, LotId::LEAST)..=(giftbox, LotId::MOST);
        let lots = self.lots_where(self.rows.in_box.range(range).map(|(_, lot)| *lot));
        let rows = lots.into_iter().flat_map(|folded| &folded.placements);
        let mut rows: Vec<_> = rows.filter(|row| row.giftbox == giftbox).cloned().collect();
        rows.sort_by_key(|row| (row.since, row.placement));
        Ok(rows)
    }

    fn profile(&self) -> Result<Option<Profile>, StoreError> {
        Ok(self.rows.profile.clone())
    }

    fn keeps_amounts(&self) -> Result<bool, StoreError> {
        Ok(self.rows.lots.values().any(|folded| folded.row.facts.paid.is_some()))
    }
}
