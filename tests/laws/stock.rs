//! One batch, unit by unit: every unit is an entry of its own, with its cents and the place it is in.
//!
//! Slow on purpose and written from the laws alone. A unit never vanishes and no cent is made or
//! lost here, since all that ever happens is that units change places and that the cents of one
//! place are dealt out again among the units that stay and those that go.
//!
//! What the laws leave open and this model takes from the program:
//! - bare units that leave a holder strike that holder's oldest bare entries;
//! - found units cover the oldest bare units first, as units that come back do;
//! - units that come cover one bare entry (the bare units of one event) after the other, and each
//!   entry takes its share of what the coming units still carry in one go;
//! - units that are moved from box to box keep their cost, the bare ones go first, and what was
//!   bare is then as old as the move;
//! - only what a holder has can leave it; more is passed over in silence;
//! - units put in use up what their own placement had set aside;
//! - of what nobody counts, units that go into a box or are given loose come from nowhere and for nothing;
//!   whatever else leaves it is taken from those on hand.

use std::collections::BTreeMap;

use brimful::model::event::Event;
use brimful::model::fact::{Counted, Fact, Moved, Placing};
use brimful::model::id::{BoxId, EventId, LotId, PlacementId};
use brimful::model::lot::LotField;
use brimful::model::measure::Units;
use brimful::model::rows::Way;

use crate::sums;

/// Where a unit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Hand,
    /// On its way back; nothing stays here once an event is told.
    Coming,
    /// Just there, since nobody counts it; nothing stays here either.
    Conjured,
    In(PlacementId),
    Out(EventId),
}

/// A unit that came and has its part of the cost.
#[derive(Debug, Clone, Copy)]
struct Unit {
    place: Place,
    cents: i64,
}

/// A unit that left though none was there.
#[derive(Debug, Clone, Copy)]
struct Bare {
    place: Place,
    since: EventId,
}

/// Units in or for a box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    pub giftbox: BoxId,
    pub aside: i64,
    pub units: i64,
    pub bare: i64,
    pub cents: i64,
}

/// Units that left otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Left {
    pub way: Way,
    pub units: i64,
    pub bare: i64,
    pub cents: i64,
}

/// One batch.
pub struct Stock {
    lot: LotId,
    units: Vec<Unit>,
    /// Oldest first.
    bare: Vec<Bare>,
    aside: BTreeMap<PlacementId, i64>,
    boxes: BTreeMap<PlacementId, BoxId>,
    ways: BTreeMap<EventId, Way>,
    uncounted: bool,
}

pub fn count(units: Units) -> i64 {
    i64::from(units.count())
}

impl Stock {
    /// So many units that cost so much together, all on hand.
    pub fn new(lot: LotId, units: i64, cents: i64, uncounted: bool) -> Stock {
        let whole = (0..units).map(|_| Unit { place: Place::Hand, cents: 0 }).collect();
        let (aside, boxes, ways) = (BTreeMap::new(), BTreeMap::new(), BTreeMap::new());
        let mut stock = Stock { lot, units: whole, bare: Vec::new(), aside, boxes, ways, uncounted };
        let all: Vec<usize> = stock.at(Place::Hand);
        stock.deal(&all, cents);
        stock
    }

    /// One live event of this batch, in the one order.
    pub fn tell(&mut self, event: &Event) {
        match &event.fact {
            Fact::SetAside(b) => self.set_aside(b, count(b.units)),
            Fact::LetGo(b) => self.set_aside(b, -count(b.units)),
            Fact::PutIn(b) => {
                self.set_aside(b, -count(b.units));
                self.conjure(count(b.units));
                self.take(event.uid, count(b.units), Place::In(b.placement));
            }
            Fact::TakenBack(b) => {
                self.leave(event.uid, b.placement, count(b.units), Place::Coming);
                self.settle();
            }
            Fact::Moved(b) => self.carry(event.uid, b),
            Fact::GivenLoose(b) => {
                self.conjure(count(b.units));
                self.go(event.uid, count(b.units), Way::Loose);
            }
            Fact::LotMended(b) => {
                for field in &b.set {
                    if let LotField::Level(level) = field {
                        self.uncounted = level.is_some();
                    }
                }
            }
            Fact::Lost(b) => self.go(event.uid, count(b.units), Way::Lost),
            Fact::Returned(b) => self.go(event.uid, count(b.units), Way::Returned),
            Fact::Found(b) => self.find(count(b.units)),
            Fact::Counted(b) => self.counted(event.uid, b),
            Fact::Split(b) if b.lot == self.lot => self.go(event.uid, count(b.units), Way::Passed),
            Fact::Parted(b) if b.lot == self.lot => self.go(event.uid, count(b.units), Way::Passed),
            Fact::KitMade(b) => {
                let of_this = b.parts.iter().filter(|part| part.lot == self.lot);
                let units = of_this.map(|part| count(part.units)).sum();
                self.go(event.uid, units, Way::Passed);
            }
            _ => {}
        }
    }

    /// Units that came and have not gone.
    pub fn units_in(&self) -> i64 {
        sums::size(self.units.len())
    }

    /// Units on hand and their cents.
    pub fn on_hand(&self) -> (i64, i64) {
        self.held(Place::Hand)
    }

    pub fn bare(&self) -> i64 {
        sums::size(self.bare.len())
    }

    /// All placements that hold something or wait for something.
    pub fn placed(&self) -> BTreeMap<PlacementId, Placed> {
        let of = |(&placement, &giftbox): (&PlacementId, &BoxId)| {
            let (whole, cents) = self.held(Place::In(placement));
            let bare = self.bare_at(Place::In(placement));
            let aside = self.aside.get(&placement).copied().unwrap_or(0);
            (placement, Placed { giftbox, aside, units: whole + bare, bare, cents })
        };
        self.boxes.iter().map(of).filter(|(_, held)| held.aside > 0 || held.units > 0).collect()
    }

    /// All that left other than into a box.
    pub fn left(&self) -> BTreeMap<EventId, Left> {
        let of = |(&event, &way): (&EventId, &Way)| {
            let (whole, cents) = self.held(Place::Out(event));
            let bare = self.bare_at(Place::Out(event));
            (event, Left { way, units: whole + bare, bare, cents })
        };
        self.ways.iter().map(of).collect()
    }

    fn set_aside(&mut self, b: &Placing, more: i64) {
        self.boxes.entry(b.placement).or_insert(b.giftbox);
        let aside = self.aside.entry(b.placement).or_insert(0);
        *aside = (*aside + more).max(0);
    }

    /// What nobody counts is there whenever it is wanted, and what is wanted costs nothing.
    fn conjure(&mut self, units: i64) {
        if self.uncounted {
            self.units.extend((0..units).map(|_| Unit { place: Place::Conjured, cents: 0 }));
        }
    }

    /// Off hand to a place; those that are not there go bare.
    fn take(&mut self, event: EventId, wanted: i64, to: Place) {
        let taken = self.shift(Place::Conjured, wanted, to);
        let taken = taken + self.shift(Place::Hand, wanted - taken, to);
        self.bare.extend((taken..wanted).map(|_| Bare { place: to, since: event }));
    }

    fn go(&mut self, event: EventId, wanted: i64, way: Way) {
        if wanted > 0 {
            self.ways.insert(event, way);
            self.take(event, wanted, Place::Out(event));
        }
    }

    /// Out of a placement, bare ones first; these are gone when they come home, and bare still in another box.
    fn leave(&mut self, event: EventId, from: PlacementId, wanted: i64, to: Place) {
        let wanted = wanted.min(self.held(Place::In(from)).0 + self.bare_at(Place::In(from)));
        let bare = wanted.min(self.bare_at(Place::In(from)));
        for _ in 0..bare {
            let oldest = self.bare.iter().position(|bare| bare.place == Place::In(from)).unwrap();
            self.bare.remove(oldest);
            if to != Place::Coming {
                self.bare.push(Bare { place: to, since: event });
            }
        }
        self.shift(Place::In(from), wanted - bare, to);
    }

    fn carry(&mut self, event: EventId, b: &Moved) {
        self.boxes.entry(b.to_placement).or_insert(b.to_box);
        self.leave(event, b.placement, count(b.units), Place::In(b.to_placement));
    }

    fn find(&mut self, units: i64) {
        self.units.extend((0..units).map(|_| Unit { place: Place::Coming, cents: 0 }));
        self.settle();
    }

    fn counted(&mut self, event: EventId, b: &Counted) {
        let more = count(b.found) - count(b.expected);
        if more > 0 { self.find(more) } else { self.go(event, -more, Way::Lost) }
    }

    /// Coming units take the places of bare ones, oldest entry first; the others lie on hand.
    fn settle(&mut self) {
        while let Some(&oldest) = self.bare.first()
            && self.held(Place::Coming).0 > 0
        {
            let entry = |bare: &Bare| bare.place == oldest.place && bare.since == oldest.since;
            let wanted = self.bare.iter().take_while(|bare| entry(bare)).count();
            let covered = self.shift(Place::Coming, sums::size(wanted), oldest.place);
            for _ in 0..covered {
                self.bare.remove(0);
            }
        }
        self.shift(Place::Coming, i64::MAX, Place::Hand);
    }

    /// Moves up to `wanted` units with their share of the cents that lie at `from`; says how many.
    fn shift(&mut self, from: Place, wanted: i64, to: Place) -> i64 {
        let (there, cents) = self.held(from);
        let moving = wanted.min(there);
        if moving == 0 {
            return 0;
        }
        let share = sums::share(cents, moving, there);
        let all = self.at(from);
        let (going, staying) = all.split_at(usize::try_from(moving).unwrap());
        self.deal(going, share);
        self.deal(staying, cents - share);
        for &i in going {
            self.units[i].place = to;
        }
        moving
    }

    /// Cents over some units, as evenly as whole cents go.
    fn deal(&mut self, among: &[usize], cents: i64) {
        let size = sums::size(among.len());
        for (&i, nth) in among.iter().zip(0..) {
            self.units[i].cents = cents / size + i64::from(nth < cents % size);
        }
    }

    fn at(&self, place: Place) -> Vec<usize> {
        (0..self.units.len()).filter(|&i| self.units[i].place == place).collect()
    }

    fn held(&self, place: Place) -> (i64, i64) {
        let there = self.units.iter().filter(|unit| unit.place == place);
        there.fold((0, 0), |(units, cents), unit| (units + 1, cents + unit.cents))
    }

    fn bare_at(&self, place: Place) -> i64 {
        sums::size(self.bare.iter().filter(|bare| bare.place == place).count())
    }
}
