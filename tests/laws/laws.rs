//! What must hold of every season at every moment.

use std::collections::{BTreeMap, BTreeSet};

use brimful::model::event::Event;
use brimful::model::fact::Fact;
use brimful::model::id::{ActId, BoxId, HaulId, LotId};
use brimful::model::lot::Source;
use brimful::model::money::Money;
use brimful::model::rows::{ActRow, BoxRow, HaulRow, LotRow, OutRow, PlacementRow, Standing, Way};
use brimful::model::{measure::Units, profile::Profile};
use brimful::store::Store;

use crate::boxes::{Planned, boxes};
use crate::oracle::{self, Batch, Told};
use crate::stock::{Left, Placed, count};

/// All that a season shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Shown {
    pub lots: Vec<LotRow>,
    pub placements: Vec<PlacementRow>,
    pub outs: Vec<OutRow>,
    pub boxes: Vec<BoxRow>,
    pub hauls: Vec<HaulRow>,
    pub acts: Vec<ActRow>,
    pub rules: Option<Profile>,
    pub counts: Vec<Event>,
}

pub fn shown(store: &impl Store) -> Shown {
    Shown {
        lots: store.lots().unwrap(),
        placements: store.placements().unwrap(),
        outs: store.outs().unwrap(),
        boxes: store.boxes().unwrap(),
        hauls: store.hauls().unwrap(),
        acts: store.acts(usize::MAX).unwrap(),
        rules: store.profile().unwrap(),
        counts: store.counts().unwrap(),
    }
}

impl Shown {
    /// Nothing but what was undone: the start of a season.
    pub fn is_empty(&self) -> bool {
        let things = self.lots.is_empty() && self.placements.is_empty() && self.outs.is_empty();
        things && self.boxes.is_empty() && self.hauls.is_empty() && self.rules.is_none() && self.counts.is_empty()
    }

    /// Bare units, and units set aside that are not on hand; what nobody counts is never missing.
    pub fn missing(&self) -> (i64, i64) {
        let of = |row: &LotRow| (count(row.standing.bare), count(row.standing.aside) - count(row.standing.on_hand));
        let counted = self.lots.iter().filter(|row| row.facts.level.is_none());
        counted.map(of).fold((0, 0), |sum, (bare, short)| (sum.0 + bare, sum.1 + short.max(0)))
    }

    /// The same, acts left aside: these remember that they were undone once.
    pub fn without_acts(mut self) -> Shown {
        self.acts.clear();
        self
    }

    /// Row by row, so that a failure names the first row that differs and not whole tables.
    pub fn must_equal(&self, other: &Shown, why: &str) {
        same("batches", &self.lots, &other.lots, why);
        same("things in boxes", &self.placements, &other.placements, why);
        same("things that left", &self.outs, &other.outs, why);
        same("boxes", &self.boxes, &other.boxes, why);
        same("hauls", &self.hauls, &other.hauls, why);
        same("acts", &self.acts, &other.acts, why);
        same("counts", &self.counts, &other.counts, why);
        assert_eq!(self.rules, other.rules, "the drive's rules, {why}");
    }
}

fn same<T: PartialEq + std::fmt::Debug>(what: &str, ours: &[T], theirs: &[T], why: &str) {
    for (nth, (one, other)) in ours.iter().zip(theirs).enumerate() {
        assert_eq!(one, other, "{what}, row {nth}, {why}");
    }
    assert_eq!(ours.len(), theirs.len(), "{what}, {why}");
}

/// The cost laws: of each batch, of each haul, of the season.
pub fn costs_hold(shown: &Shown, why: &str) {
    for row in &shown.lots {
        batch_holds(row, why);
    }
    sums_are_of_rows(shown, why);
    hauls_add_up(shown, why);
    let total = |of: fn(&LotRow) -> Money| shown.lots.iter().map(of).sum::<Money>();
    let made = |row: &LotRow| matches!(row.facts.source, Source::Split | Source::Kit | Source::Joined | Source::Part);
    let bought: Money = shown.lots.iter().filter(|row| !made(row)).map(|row| row.cost_in).sum();
    let onward: Money = shown.lots.iter().filter(|row| made(row)).map(|row| row.cost_in).sum();
    let [boxes, hand] = [total(|row| row.standing.boxed_cost), total(|row| row.standing.on_hand_cost)];
    let [loose, lost] = [total(|row| row.standing.loose_cost), total(|row| row.standing.lost_cost)];
    let back = total(|row| row.standing.returned_cost);
    assert_eq!(bought, boxes + loose + lost + back + hand, "what the season cost is somewhere, {why}");
    assert_eq!(total(|row| row.standing.passed_cost), onward, "what is passed on arrives, {why}");
}

fn batch_holds(row: &LotRow, why: &str) {
    let Standing { units_in, on_hand, aside: _, boxed, loose, lost, returned, passed, bare, .. } = row.standing;
    let s = &row.standing;
    let parts = [s.on_hand_cost, s.boxed_cost, s.loose_cost, s.lost_cost, s.returned_cost, s.passed_cost];
    assert_eq!(row.cost_in, parts.into_iter().sum(), "cost in is the sum of its parts, {why}: {row:?}");
    assert!(parts.iter().all(|part| part.minor() >= 0), "no part is negative, {why}: {row:?}");
    assert!(!on_hand.is_zero() || s.on_hand_cost.is_zero(), "nothing on hand costs nothing, {why}: {row:?}");
    let out: i64 = [boxed, loose, lost, returned, passed].map(count).iter().sum();
    assert_eq!(count(units_in), out + count(on_hand) - count(bare), "units in, {why}: {row:?}");
    assert!(on_hand.is_zero() || bare.is_zero(), "nothing is bare while something lies there, {why}: {row:?}");
}

/// What a batch says of its boxes and outs is what those rows say.
fn sums_are_of_rows(shown: &Shown, why: &str) {
    let mut sums: BTreeMap<LotId, [(i64, i64); 5]> = BTreeMap::new();
    let mut bare: BTreeMap<LotId, i64> = BTreeMap::new();
    let mut add = |lot: LotId, at: usize, units: Units, cost: Money, missing: Units| {
        let sum = &mut sums.entry(lot).or_default()[at];
        *sum = (sum.0 + count(units), sum.1 + cost.minor());
        *bare.entry(lot).or_default() += count(missing);
        assert!(cost.minor() >= 0 && missing <= units, "a row of {lot}, {why}");
        assert!(missing < units || cost.is_zero(), "bare units cost nothing, {why}");
    };
    shown.placements.iter().for_each(|row| add(row.lot, 0, row.units, row.cost, row.bare));
    for out in &shown.outs {
        let at = match out.way {
            Way::Loose => 1,
            Way::Lost => 2,
            Way::Passed => 3,
            Way::Returned => 4,
        };
        add(out.lot, at, out.units, out.cost, out.bare);
    }
    for row in &shown.lots {
        let s = &row.standing;
        let said = [
            (s.boxed, s.boxed_cost),
            (s.loose, s.loose_cost),
            (s.lost, s.lost_cost),
            (s.passed, s.passed_cost),
            (s.returned, s.returned_cost),
        ];
        let said = said.map(|(units, cost)| (count(units), cost.minor()));
        assert_eq!(sums.remove(&row.lot).unwrap_or_default(), said, "parts of {}, {why}", row.lot);
        assert_eq!(bare.get(&row.lot).copied().unwrap_or(0), count(s.bare), "bare of {}, {why}", row.lot);
    }
    assert!(sums.is_empty(), "rows of a batch that is not there, {why}: {sums:?}");
}

/// The lines of a haul add up to its receipt: lines, tax and postage, less the coupon, with what nobody
/// can explain, never below nothing.
fn hauls_add_up(shown: &Shown, why: &str) {
    let mut lines: BTreeMap<HaulId, (i64, i64)> = BTreeMap::new();
    for row in shown.lots.iter().filter(|row| !row.withdrawn) {
        let Some(haul) = row.haul else { continue };
        let sum = lines.entry(haul).or_default();
        *sum = (sum.0 + row.facts.paid.map_or(0, Money::minor), sum.1 + row.cost_in.minor());
    }
    let hauls: BTreeMap<HaulId, &HaulRow> = shown.hauls.iter().map(|row| (row.haul, row)).collect();
    for (haul, (paid, cost)) in lines {
        let top = hauls.get(&haul).map_or(0, |row| {
            let facts = &row.facts;
            facts.tax.minor() + facts.postage.minor() - facts.coupon.minor() + facts.unexplained.minor()
        });
        assert_eq!(cost, (paid + top).max(0), "the lines of haul {haul} add up, {why}");
    }
}

/// All that the oracle knows of a season is as it has it.
pub fn oracle_agrees(shown: &Shown, events: &[Event], why: &str) {
    let told = Told::new(events);
    batches_agree(shown, &told, why);
    let refunds = oracle::refunds(&told);
    for row in &shown.hauls {
        let owed = refunds.get(&row.haul).copied().unwrap_or(0);
        assert_eq!(row.refunds.minor(), owed, "refunds of haul {}, {why}", row.haul);
    }
    let planned = |row: &BoxRow| Planned { label: row.label(), state: row.state, withdrawn: row.withdrawn };
    let found: BTreeMap<BoxId, Planned> = shown.boxes.iter().map(|row| (row.giftbox, planned(row))).collect();
    assert_eq!(found, boxes(&told), "boxes, {why}: left the program, right the laws");
    let undone: BTreeSet<ActId> = shown.acts.iter().filter(|row| !row.live).map(|row| row.act).collect();
    let here: BTreeSet<ActId> = told.all.iter().map(|event| event.act).collect();
    assert_eq!(undone, &told.undone & &here, "undone acts, {why}");
    assert_eq!(shown.acts.len(), here.len(), "acts, {why}");
}

/// Every batch is as the oracle has it: in units, in cents, in bare ones, in every box and out.
fn batches_agree(shown: &Shown, told: &Told<'_>, why: &str) {
    let expected = oracle::batches(told);
    let mut found = BTreeMap::new();
    for row in &shown.lots {
        found.insert(row.lot, as_batch(row));
    }
    for row in &shown.placements {
        let (giftbox, aside, units) = (row.giftbox, count(row.aside), count(row.units));
        let placed = Placed { giftbox, aside, units, bare: count(row.bare), cents: row.cost.minor() };
        let before = found.get_mut(&row.lot).unwrap().placed.insert(row.placement, placed);
        assert!(before.is_none(), "a placement is one row, {why}");
    }
    for out in &shown.outs {
        let left = Left { way: out.way, units: count(out.units), bare: count(out.bare), cents: out.cost.minor() };
        found.get_mut(&out.lot).unwrap().left.insert(out.event, left);
    }
    let names = |of: &BTreeMap<LotId, Batch>| of.keys().copied().collect::<BTreeSet<_>>();
    assert_eq!(names(&found), names(&expected), "which batches there are, {why}");
    for (lot, batch) in &found {
        assert_eq!(batch, &expected[lot], "batch {lot}, {why}: left the program, right the laws");
    }
}

fn as_batch(row: &LotRow) -> Batch {
    let s = &row.standing;
    Batch {
        withdrawn: row.withdrawn,
        unpriced: row.unpriced,
        name: row.facts.name.clone(),
        cost_in: row.cost_in.minor(),
        units_in: count(s.units_in),
        on_hand: (count(s.on_hand), s.on_hand_cost.minor()),
        bare: count(s.bare),
        placed: BTreeMap::new(),
        left: BTreeMap::new(),
    }
}

/// What situations a season holds that only a join of files can bring.
#[derive(Debug, Clone, Copy, Default)]
pub struct Reached {
    pub bare_units: u32,
    pub spent_twice: u32,
    pub covered_later: u32,
    pub withdrawn_but_used: u32,
    pub boxes_withdrawn: u32,
    pub stale_counts: u32,
    pub twin_counts: u32,
    pub twin_boxes: u32,
}

/// Counts that were taken before something else moved which came in only later.
pub fn stale_counts(store: &impl Store) -> (u32, u32) {
    let (mut stale, mut twins, mut footings) = (0, 0, BTreeSet::new());
    for event in store.counts().unwrap() {
        let Fact::Counted(b) = &event.fact else { panic!("not a count: {event:?}") };
        let told = store.events_about(brimful::model::event::Subject::Lot(b.lot)).unwrap();
        let seen = told.iter().position(|told| told.event.uid == b.seen).unwrap();
        let between = told[seen + 1..].iter().take_while(|told| told.event.uid != event.uid);
        stale += u32::from(between.filter(|told| told.live && told.event.device != event.device).count() > 0);
        twins += u32::from(!footings.insert((b.lot, b.seen)));
    }
    (stale, twins)
}
