//! The cost fold: what moved units cost, priced over one batch's events in the one order.
//!
//! Take: with `h` on hand at cost `c`, `min(q, h)` units are covered and take their part of `c`;
//! the others are *bare* and cost nothing. Back: bare units of the placement go first and bring
//! nothing, the rest bring their part. Units that come back or are found cover the oldest bare
//! units of the batch before they lie on hand, so nothing is bare while something is on hand.
//!
//! The laws, whatever the order in which files arrived: cost in = on hand + boxes + loose + lost +
//! returned + passed on; no part below nothing; none on hand means no cost on hand; units in = units out +
//! on hand − bare.

use super::event::Event;
use super::fact::{Counted, Fact, LotMended, Moved, PlacementField, PlacementMended, Placing};
use super::id::{EventId, LotId, PlacementId};
use super::lot::LotField;
use super::measure::Units;
use super::money::Money;
use super::rows::{Allowance, OutRow, PlacementRow, Standing, Way};
use super::share::part_of;

/// Units and what they cost.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Valued {
    units: Units,
    cost: Money,
}

impl Valued {
    /// Takes up to `wanted` units out with their part of the cost.
    fn take(&mut self, wanted: Units) -> Valued {
        let units = wanted.min(self.units);
        let cost = part_of(self.cost, units.count(), self.units.count());
        self.units -= units;
        self.cost -= cost;
        Valued { units, cost }
    }

    fn add(&mut self, other: Valued) {
        self.units += other.units;
        self.cost += other.cost;
    }
}

/// Who holds bare units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holder {
    Placement(PlacementId),
    Out(EventId),
}

/// What one batch's events come to.
#[derive(Debug)]
pub struct Fold {
    lot: LotId,
    units_in: Units,
    hand: Valued,
    placements: Vec<PlacementRow>,
    outs: Vec<OutRow>,
    /// Bare units, oldest first.
    bare: Vec<(Holder, Units)>,
    /// Nobody counts them: what is taken was not there by number, and leaves its cost in the tote.
    uncounted: bool,
}

impl Fold {
    /// Begins with what came in and what all of it cost.
    pub fn new(lot: LotId, units: Units, cost: Money, uncounted: bool) -> Fold {
        // A batch withdrawn or corrected to no units has nothing that a cost could lie on.
        let cost = if units.is_zero() { Money::ZERO } else { cost };
        let hand = Valued { units, cost };
        Fold { lot, units_in: units, hand, placements: Vec::new(), outs: Vec::new(), bare: Vec::new(), uncounted }
    }

    /// Tells one live event; those that move nothing of this batch change nothing.
    pub fn tell(&mut self, event: &Event) {
        match &event.fact {
            Fact::SetAside(b) => self.placement(event, b).aside += b.units,
            Fact::LetGo(b) => self.placement(event, b).aside -= b.units,
            Fact::PutIn(b) => self.put_in(event, b),
            Fact::TakenBack(b) => self.take_back(b),
            Fact::Moved(b) => self.carry(event, b),
            Fact::PlacementMended(b) => self.mend(event, b),
            Fact::GivenLoose(b) => self.lose(event, b.units, Way::Loose),
            Fact::Lost(b) => self.lose(event, b.units, Way::Lost),
            Fact::Found(b) => self.find(b.units),
            Fact::Counted(b) => self.count(event, b),
            Fact::LotMended(b) => self.uncount(b),
            Fact::Returned(b) => self.lose(event, b.units, Way::Returned),
            Fact::Split(b) if b.lot == self.lot => self.lose(event, b.units, Way::Passed),
            Fact::Parted(b) if b.lot == self.lot => self.lose(event, b.units, Way::Passed),
            Fact::KitMade(b) => {
                let units: Units = b.parts.iter().filter(|part| part.lot == self.lot).map(|part| part.units).sum();
                if !units.is_zero() {
                    self.lose(event, units, Way::Passed);
                }
            }
            _ => {}
        }
    }

    /// Where everything is, the placements that still hold or held something, and what left.
    pub fn finish(self) -> (Standing, Vec<PlacementRow>, Vec<OutRow>) {
        let out = |way: Way| self.outs.iter().filter(move |out| out.way == way);
        let units = |way| out(way).map(|out| out.units).sum();
        let cost = |way| out(way).map(|out| out.cost).sum();
        let standing = Standing {
            units_in: self.units_in,
            on_hand: self.hand.units,
            on_hand_cost: self.hand.cost,
            aside: self.placements.iter().map(|p| p.aside).sum(),
            boxed: self.placements.iter().map(|p| p.units).sum(),
            boxed_cost: self.placements.iter().map(|p| p.cost).sum(),
            loose: units(Way::Loose),
            loose_cost: cost(Way::Loose),
            lost: units(Way::Lost),
            lost_cost: cost(Way::Lost),
            returned: units(Way::Returned),
            returned_cost: cost(Way::Returned),
            passed: units(Way::Passed),
            passed_cost: cost(Way::Passed),
            bare: self.bare.iter().map(|(_, units)| *units).sum(),
        };
        (standing, self.placements, self.outs)
    }

    /// The placement an event names, begun if this is its first event.
    fn placement(&mut self, event: &Event, named: &Placing) -> &mut PlacementRow {
        let index = self.placements.iter().position(|p| p.placement == named.placement);
        let index = index.unwrap_or_else(|| {
            self.placements.push(PlacementRow {
                placement: named.placement,
                lot: named.lot,
                giftbox: named.giftbox,
                aside: Units::ZERO,
                units: Units::ZERO,
                bare: Units::ZERO,
                cost: Money::ZERO,
                wow: false,
                inside: None,
                why: String::new(),
                allowed: None,
                since: event.order(),
            });
            self.placements.len() - 1
        });
        &mut self.placements[index]
    }

    fn known(&mut self, placement: PlacementId) -> Option<&mut PlacementRow> {
        self.placements.iter_mut().find(|p| p.placement == placement)
    }

    fn put_in(&mut self, event: &Event, b: &Placing) {
        let covered = self.spend(b.units);
        let bare = b.units - covered.units;
        let row = self.placement(event, b);
        row.aside -= b.units;
        row.units += b.units;
        row.bare += bare;
        row.cost += covered.cost;
        self.note_bare(Holder::Placement(b.placement), bare);
    }

    /// Units leaving a placement: the bare ones first, then covered ones with their part of the cost.
    fn leave(&mut self, placement: PlacementId, wanted: Units) -> (Units, Valued) {
        let Some(row) = self.known(placement) else { return Default::default() };
        let wanted = wanted.min(row.units);
        let bare = wanted.min(row.bare);
        let mut covered = Valued { units: row.units - row.bare, cost: row.cost };
        let leaving = covered.take(wanted - bare);
        row.units -= wanted;
        row.bare -= bare;
        row.cost = covered.cost;
        self.forget_bare(Holder::Placement(placement), bare);
        (bare, leaving)
    }

    fn take_back(&mut self, b: &Placing) {
        let (_, back) = self.leave(b.placement, b.units);
        self.come(back);
    }

    fn carry(&mut self, event: &Event, b: &Moved) {
        let (bare, covered) = self.leave(b.placement, b.units);
        let (wow, why) = self.known(b.placement).map(|row| (row.wow, row.why.clone())).unwrap_or_default();
        let (lot, giftbox, units) = (b.lot, b.to_box, b.units);
        let row = self.placement(event, &Placing { placement: b.to_placement, lot, giftbox, units });
        row.units += bare + covered.units;
        row.bare += bare;
        row.cost += covered.cost;
        row.wow |= wow;
        if row.why.is_empty() {
            row.why = why;
        }
        self.note_bare(Holder::Placement(b.to_placement), bare);
    }

    fn mend(&mut self, event: &Event, b: &PlacementMended) {
        let Some(row) = self.known(b.placement) else { return };
        for field in &b.set {
            match field {
                PlacementField::Why(why) => row.why.clone_from(why),
                PlacementField::Wow(wow) => row.wow = *wow,
                PlacementField::Inside(holder) => row.inside = *holder,
                PlacementField::Allowed(why) => {
                    let allowance = || Allowance { why: why.clone(), by: event.by.clone() };
                    row.allowed = (!why.is_empty()).then(allowance);
                }
            }
        }
    }

    /// From here on it is counted, or it isn't; what was taken before keeps its cost.
    fn uncount(&mut self, b: &LotMended) {
        for field in &b.set {
            if let LotField::Level(level) = field {
                self.uncounted = level.is_some();
            }
        }
    }

    /// Takes units from those on hand; of what nobody counts, as many come as are taken, for nothing.
    fn spend(&mut self, wanted: Units) -> Valued {
        if !self.uncounted {
            return self.hand.take(wanted);
        }
        self.units_in += wanted;
        Valued { units: wanted, cost: Money::ZERO }
    }

    fn lose(&mut self, event: &Event, units: Units, way: Way) {
        // What is used up, lost or goes back takes its cost along, counted or not.
        let covered = if way == Way::Loose { self.spend(units) } else { self.hand.take(units) };
        let bare = units - covered.units;
        let (event, lot, cost) = (event.uid, self.lot, covered.cost);
        self.outs.push(OutRow { event, lot, way, units, bare, cost });
        self.note_bare(Holder::Out(event), bare);
    }

    fn find(&mut self, units: Units) {
        self.units_in += units;
        self.come(Valued { units, cost: Money::ZERO });
    }

    fn count(&mut self, event: &Event, b: &Counted) {
        if b.found > b.expected {
            self.find(b.found - b.expected);
        } else if b.found < b.expected {
            self.lose(event, b.expected - b.found, Way::Lost);
        }
    }

    /// Units that come to the batch cover its oldest bare units; what is left lies on hand.
    fn come(&mut self, mut coming: Valued) {
        while !coming.units.is_zero() && !self.bare.is_empty() {
            let (holder, bare) = self.bare[0];
            let covering = coming.take(bare);
            self.cover(holder, covering);
            self.forget_bare(holder, covering.units);
        }
        self.hand.add(coming);
    }

    fn cover(&mut self, holder: Holder, covering: Valued) {
        match holder {
            Holder::Placement(placement) => {
                if let Some(row) = self.known(placement) {
                    row.bare -= covering.units;
                    row.cost += covering.cost;
                }
            }
            Holder::Out(event) => {
                if let Some(out) = self.outs.iter_mut().find(|out| out.event == event) {
                    out.bare -= covering.units;
                    out.cost += covering.cost;
                }
            }
        }
    }

    fn note_bare(&mut self, holder: Holder, units: Units) {
        if !units.is_zero() {
            self.bare.push((holder, units));
        }
    }

    /// Strikes bare units of one holder from the list, its oldest first.
    fn forget_bare(&mut self, holder: Holder, mut units: Units) {
        for (held_by, bare) in &mut self.bare {
            if *held_by == holder {
                let struck = units.min(*bare);
                *bare -= struck;
                units -= struck;
            }
        }
        self.bare.retain(|(_, bare)| !bare.is_zero());
    }
}
