//! What screens show, kept ready: rows that follow from the events alone and can be made anew from them.

use serde::{Deserialize, Serialize};

use super::event::Order;
use super::giftbox::{BoxFacts, BoxState};
use super::haul::HaulFacts;
use super::id::{ActId, BoxId, DeviceId, EventId, HaulId, LotId, PlacementId};
use super::lot::LotFacts;
use super::measure::Units;
use super::money::{KnownSum, Money};

/// A batch as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotRow {
    /// Which.
    pub lot: LotId,
    /// The haul it came in.
    pub haul: Option<HaulId>,
    /// What is said of it now.
    pub facts: LotFacts,
    /// Its arrival was undone, yet acts still rest on it.
    pub withdrawn: bool,
    /// Its place in the one order.
    pub added: Order,
    /// The newest live event that speaks of it.
    pub last: EventId,
    /// What it cost to get, with its share of what came on top of the haul.
    pub cost_in: Money,
    /// Whether its price is still open.
    pub unpriced: bool,
    /// Whether its price is doubtful.
    pub about: bool,
    /// Where its units and its cost are.
    pub standing: Standing,
}

impl LotRow {
    /// Units on hand that no box holds.
    pub fn free(&self) -> Units {
        self.standing.on_hand.less(self.standing.aside)
    }

    /// A part of this batch's cost, as a sum that knows what is unknown.
    pub fn known(&self, cost: Money, units: Units) -> KnownSum {
        known(cost, units, self.unpriced, self.about)
    }
}

/// A part of a batch's cost: of a batch without a price, or with a doubtful one.
pub fn known(cost: Money, units: Units, unpriced: bool, about: bool) -> KnownSum {
    let unpriced = if unpriced { u64::from(units.count()) } else { 0 };
    KnownSum { known: cost, unpriced, about: about && !units.is_zero() }
}

/// Where a batch's units and cost are. Cost in = on hand + boxes + loose + lost + returned + passed on.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Standing {
    /// Units that came: bought, made, or found later.
    pub units_in: Units,
    /// On hand, set aside or not.
    pub on_hand: Units,
    /// What those cost.
    pub on_hand_cost: Money,
    /// Set aside for boxes.
    pub aside: Units,
    /// In boxes.
    pub boxed: Units,
    /// What those cost.
    pub boxed_cost: Money,
    /// Given loose.
    pub loose: Units,
    /// What those cost.
    pub loose_cost: Money,
    /// Lost.
    pub lost: Units,
    /// What those cost.
    pub lost_cost: Money,
    /// Returned for money.
    pub returned: Units,
    /// What those had cost.
    pub returned_cost: Money,
    /// Passed on into another batch.
    pub passed: Units,
    /// What those cost.
    pub passed_cost: Money,
    /// Taken though none was left: bare units, which cost nothing and wait for review.
    pub bare: Units,
}

/// Units of a batch set aside for or put into a box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacementRow {
    /// Which.
    pub placement: PlacementId,
    /// The batch.
    pub lot: LotId,
    /// The box.
    pub giftbox: BoxId,
    /// Set aside, still in the tote.
    pub aside: Units,
    /// In the box.
    pub units: Units,
    /// Of those in the box: bare ones.
    pub bare: Units,
    /// What those in the box cost.
    pub cost: Money,
    /// Whether it is the wow item of this box.
    pub wow: bool,
    /// The holder it is tucked into.
    pub inside: Option<PlacementId>,
    /// Why it was chosen; may be empty.
    pub why: String,
    /// Why it is allowed here though a caution speaks against it, and who says so.
    pub allowed: Option<Allowance>,
    /// Its place in the one order.
    pub since: Order,
}

/// That somebody allowed a thing in one box all the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Allowance {
    /// The reason.
    pub why: String,
    /// The short name of who allowed it; may be empty.
    pub by: String,
}

/// How units left the stock other than into a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Given outside any box.
    Loose,
    /// Lost, broken, thrown away, or missing at a count.
    Lost,
    /// Back to the shop, for money.
    Returned,
    /// Into another batch: bundles or kits.
    Passed,
}

/// Units that left a batch by one event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutRow {
    /// The event.
    pub event: EventId,
    /// The batch.
    pub lot: LotId,
    /// How.
    pub way: Way,
    /// How many.
    pub units: Units,
    /// Of those: bare ones.
    pub bare: Units,
    /// What they cost.
    pub cost: Money,
}

/// A box as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BoxRow {
    /// Which.
    pub giftbox: BoxId,
    /// What is said of it now.
    pub facts: BoxFacts,
    /// Where among the boxes of the same number: 0 for the only or the first one.
    pub twin: u32,
    /// Where it stands in its life.
    pub state: BoxState,
    /// Its plan was undone, yet acts still rest on it.
    pub withdrawn: bool,
    /// Its place in the one order.
    pub planned: Order,
}

impl BoxRow {
    /// What people call it: `12`, or `12b` for the second one that two computers called 12.
    pub fn label(&self) -> String {
        match self.twin {
            0 => self.facts.number.to_string(),
            twin => {
                let letter = char::from_u32(u32::from('a') + twin.min(25)).unwrap_or('z');
                format!("{}{letter}", self.facts.number)
            }
        }
    }
}

/// A haul as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HaulRow {
    /// Which.
    pub haul: HaulId,
    /// What is said of it now.
    pub facts: HaulFacts,
    /// What was given back in it for things returned.
    pub refunds: Money,
    /// Its place in the one order.
    pub logged: Order,
}

/// An act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ActRow {
    /// Which.
    pub act: ActId,
    /// The device that did it.
    pub device: DeviceId,
    /// Who.
    pub by: String,
    /// Its first event's place in the one order.
    pub order: Order,
    /// Whether it holds; an undone act does not.
    pub live: bool,
    /// Whether it only undoes another act or brings one again.
    pub steps_back: bool,
    /// The event that undid it last, while it is undone.
    pub undone_by: Option<Order>,
}

/// A batch with all that follows from its events.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folded {
    /// The batch.
    pub row: LotRow,
    /// Its units in and for boxes.
    pub placements: Vec<PlacementRow>,
    /// Its units that left.
    pub outs: Vec<OutRow>,
}
