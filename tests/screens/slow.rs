//! A season whose file takes its time: each act waits at a gate until it is let through, or is refused there.

use std::sync::{Arc, Condvar, Mutex, MutexGuard};
use std::time::Duration;

use brimful::model::commit::Holdings;
use brimful::model::event::{Event, Subject};
use brimful::model::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, PlacementId, SeasonId};
use brimful::model::kept::Kept;
use brimful::model::profile::Profile;
use brimful::model::project::{Tables, Told};
use brimful::model::rows::{ActRow, BoxRow, Folded, HaulRow, LotRow, OutRow, PlacementRow};
use brimful::store::{CommitError, Committed, InBox, Joined, NewAct, Store, StoreError, Totals};
use jiff::civil::Date;

/// No test waits as long as this unless it is lost.
pub const LOST: Duration = Duration::from_secs(60);

#[derive(Debug, Default)]
struct Counts {
    came: usize,
    may_pass: usize,
    to_fail: usize,
}

/// The gate before a file.
#[derive(Debug, Clone, Default)]
pub struct Gate(Arc<(Mutex<Counts>, Condvar)>);

impl Gate {
    fn counts(&self) -> MutexGuard<'_, Counts> {
        self.0.0.lock().unwrap()
    }

    /// Lets so many acts through.
    pub fn let_through(&self, acts: usize) {
        self.counts().may_pass += acts;
        self.0.1.notify_all();
    }

    /// Lets one act come as far as the disk, which is full.
    pub fn let_fail(&self) {
        self.counts().to_fail += 1;
        self.let_through(1);
    }

    /// How many acts have come so far.
    pub fn came(&self) -> usize {
        self.counts().came
    }

    /// Waits at the gate; tells whether the disk takes it.
    fn pass(&self) -> bool {
        let mut counts = self.counts();
        counts.came += 1;
        self.0.1.notify_all();
        let (mut counts, late) = self.0.1.wait_timeout_while(counts, LOST, |counts| counts.may_pass == 0).unwrap();
        assert!(!late.timed_out(), "nobody opens the gate");
        counts.may_pass -= 1;
        let fails = counts.to_fail > 0;
        counts.to_fail -= usize::from(fails);
        !fails
    }
}

/// A store behind a gate.
#[derive(Debug)]
pub struct Slow<S> {
    pub store: S,
    pub gate: Gate,
}

macro_rules! hand_on {
    ($($name:ident($($arg:ident: $of:ty),*) -> $out:ty;)*) => {
        $(fn $name(&self, $($arg: $of),*) -> Result<$out, StoreError> {
            self.store.$name($($arg),*)
        })*
    };
}

macro_rules! hand_on_changes {
    ($($name:ident($($arg:ident: $of:ty),*) -> $out:ty;)*) => {
        $(fn $name(&mut self, $($arg: $of),*) -> Result<$out, StoreError> {
            self.store.$name($($arg),*)
        })*
    };
}

impl<S: Store> Tables for Slow<S> {
    type Error = StoreError;

    hand_on! {
        events_about(subject: Subject) -> Vec<Told>;
        events_of(act: ActId) -> Vec<Arc<Event>>;
        act(act: ActId) -> Option<ActRow>;
        lot(lot: LotId) -> Option<LotRow>;
        lots_of(haul: HaulId) -> Vec<LotRow>;
        outs_of(event: EventId) -> Vec<OutRow>;
        giftbox(giftbox: BoxId) -> Option<BoxRow>;
        boxes_numbered(number: u32) -> Vec<BoxRow>;
        haul(haul: HaulId) -> Option<HaulRow>;
    }

    hand_on_changes! {
        put_act(row: &ActRow) -> ();
        put_lot(folded: &Folded) -> ();
        drop_lot(lot: LotId) -> ();
        put_box(row: &BoxRow) -> ();
        drop_box(giftbox: BoxId) -> ();
        put_haul(row: &HaulRow) -> ();
        drop_haul(haul: HaulId) -> ();
        put_profile(profile: Option<&Profile>) -> ();
    }
}

impl<S: Store> Holdings for Slow<S> {
    hand_on! {
        placement(placement: PlacementId) -> Option<PlacementRow>;
        placements_in(giftbox: BoxId) -> Vec<PlacementRow>;
        profile() -> Option<Profile>;
        keeps_amounts() -> bool;
    }
}

impl<S: Store> Store for Slow<S> {
    fn season(&self) -> SeasonId {
        self.store.season()
    }

    fn commit(&mut self, act: &NewAct) -> Result<Committed, CommitError> {
        if self.gate.pass() { self.store.commit(act) } else { Err(StoreError::Full.into()) }
    }

    hand_on_changes! {
        join(theirs: &[Kept]) -> Joined;
        rebuild() -> ();
    }

    hand_on! {
        unsound() -> Vec<String>;
        kept() -> Vec<Kept>;
        newest_of(device: DeviceId) -> Option<(u64, EventId)>;
        at(device: DeviceId, seq: u64) -> Option<EventId>;
        foreign_commits() -> i64;
        each_lot(see: &mut dyn FnMut(LotRow)) -> ();
        lots() -> Vec<LotRow>;
        lots_titled(title: &str) -> Vec<LotRow>;
        titles_on_hand(limit: usize) -> Vec<String>;
        totals() -> Totals;
        latest_haul(date: Date) -> Option<HaulId>;
        in_boxes() -> Vec<InBox>;
        in_box(giftbox: BoxId) -> Vec<InBox>;
        boxes() -> Vec<BoxRow>;
        hauls() -> Vec<HaulRow>;
        placements() -> Vec<PlacementRow>;
        placements_of(lot: LotId) -> Vec<PlacementRow>;
        outs() -> Vec<OutRow>;
        acts(limit: usize) -> Vec<ActRow>;
        deeds(limit: usize) -> Vec<ActRow>;
        undoable(device: DeviceId) -> Option<ActRow>;
        redoable(device: DeviceId) -> Option<ActRow>;
        counts() -> Vec<Event>;
    }
}
