//! A season told a second time, from the events and the laws alone.
//!
//! It shares with the program the words of events, and nothing that works out what follows from them:
//! the order, what is undone, who wins a field, what a line of a haul costs, what moved units cost are
//! all found here again, the slow way.

use std::collections::{BTreeMap, BTreeSet};

use brimful::model::event::Event;
use brimful::model::fact::Fact;
use brimful::model::haul::HaulField;
use brimful::model::id::{ActId, DeviceId, EventId, HaulId, LotId, PlacementId};
use brimful::model::lot::{LotFacts, LotField};
use brimful::model::money::Money;

use crate::stock::{Left, Placed, Stock, count};
use crate::sums;

/// A batch as the laws have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    pub withdrawn: bool,
    pub unpriced: bool,
    pub name: String,
    pub cost_in: i64,
    pub units_in: i64,
    /// Units and cents.
    pub on_hand: (i64, i64),
    pub bare: i64,
    pub placed: BTreeMap<PlacementId, Placed>,
    pub left: BTreeMap<EventId, Left>,
}

/// A batch on the way: what is said of it, before it is known what that comes to.
struct Said<'e> {
    origin: &'e Event,
    haul: Option<HaulId>,
    withdrawn: bool,
    name: String,
    units: i64,
    paid: Option<i64>,
    uncounted: bool,
    events: Vec<&'e Event>,
}

/// The events of a season in the one order.
pub struct Told<'e> {
    pub all: Vec<&'e Event>,
    pub live: Vec<&'e Event>,
    pub undone: BTreeSet<ActId>,
}

impl Told<'_> {
    pub fn new(events: &[Event]) -> Told<'_> {
        let mut all: Vec<&Event> = events.iter().collect();
        all.sort_by_key(|event| place(event));
        let undone = undone(&all);
        let live = all.iter().copied().filter(|event| !undone.contains(&event.act)).collect();
        Told { all, live, undone }
    }

    pub fn holds(&self, event: &Event) -> bool {
        !self.undone.contains(&event.act)
    }
}

/// All batches of a season.
pub fn batches(told: &Told<'_>) -> BTreeMap<LotId, Batch> {
    let said = said(told);
    let tops = on_top(&told.live);
    let mut shares = BTreeMap::new();
    for (haul, top) in tops {
        shares.extend(lines(&said, haul, top));
    }
    let mut order: Vec<LotId> = said.keys().copied().collect();
    order.sort_by_key(|lot| place(said[lot].origin));
    let mut done: BTreeMap<LotId, Batch> = BTreeMap::new();
    for lot in order {
        let batch = batch(lot, &said[&lot], shares.get(&lot).copied().unwrap_or(0), &done);
        done.insert(lot, batch);
    }
    done
}

/// The one order.
fn place(event: &Event) -> (u64, DeviceId, u64, EventId) {
    (event.clock.kept(), event.device, event.seq, event.uid)
}

/// Acts whose latest word is that they are undone.
fn undone(told: &[&Event]) -> BTreeSet<ActId> {
    let mut undone = BTreeSet::new();
    for event in told {
        match &event.fact {
            Fact::Voided(b) => _ = undone.insert(b.act),
            Fact::Restored(b) => _ = undone.remove(&b.act),
            _ => {}
        }
    }
    undone
}

/// What begins a batch, or several.
fn begun(fact: &Fact) -> Vec<(LotId, Option<HaulId>, &LotFacts)> {
    let one = match fact {
        Fact::LotAdded(b) => Some((b.lot, b.haul, &b.facts)),
        Fact::Split(b) => Some((b.into, None, &b.facts)),
        Fact::KitMade(b) => Some((b.into, None, &b.facts)),
        Fact::Parted(b) => return b.into.iter().map(|out| (out.lot, None, &out.facts)).collect(),
        _ => None,
    };
    one.into_iter().collect()
}

/// The batches that a fact speaks of.
fn named(fact: &Fact) -> Vec<LotId> {
    let begun = begun(fact).into_iter().map(|(lot, _, _)| lot);
    let others = match fact {
        Fact::LotMended(b) => vec![b.lot],
        Fact::SetAside(b) | Fact::LetGo(b) | Fact::PutIn(b) | Fact::TakenBack(b) => vec![b.lot],
        Fact::Moved(b) => vec![b.lot],
        Fact::PlacementMended(b) => vec![b.lot],
        Fact::GivenLoose(b) | Fact::Lost(b) => vec![b.lot],
        Fact::Returned(b) => vec![b.lot],
        Fact::Found(b) => vec![b.lot],
        Fact::Counted(b) => vec![b.lot],
        Fact::Split(b) => vec![b.lot],
        Fact::Parted(b) => vec![b.lot],
        Fact::KitMade(b) => b.parts.iter().map(|part| part.lot).collect(),
        _ => Vec::new(),
    };
    let all: BTreeSet<LotId> = others.into_iter().chain(begun).collect();
    all.into_iter().collect()
}

/// Every batch that began and of which something live speaks; the last to say a field wins.
fn said<'e>(told: &Told<'e>) -> BTreeMap<LotId, Said<'e>> {
    let mut said = BTreeMap::new();
    for &origin in &told.all {
        for (lot, haul, facts) in begun(&origin.fact) {
            let (units, paid) = (count(facts.units), facts.paid.map(Money::minor));
            let (withdrawn, name) = (!told.holds(origin), facts.name.clone());
            let (uncounted, events) = (facts.level.is_some(), Vec::new());
            said.entry(lot).or_insert(Said { origin, haul, withdrawn, name, units, paid, uncounted, events });
        }
    }
    for &event in &told.live {
        for lot in named(&event.fact) {
            let Some(said) = said.get_mut(&lot) else { continue };
            said.events.push(event);
            let Fact::LotMended(mended) = &event.fact else { continue };
            for field in &mended.set {
                match field {
                    LotField::Units(units) => said.units = count(*units),
                    LotField::Paid(paid) => said.paid = paid.map(Money::minor),
                    LotField::Name(name) => said.name.clone_from(name),
                    _ => {}
                }
            }
        }
    }
    said.retain(|_, said| !said.events.is_empty());
    said
}

/// What was given back in each haul for things returned.
pub fn refunds(told: &Told<'_>) -> BTreeMap<HaulId, i64> {
    let mut sums: BTreeMap<HaulId, i64> = BTreeMap::new();
    for event in &told.live {
        if let Fact::Returned(b) = &event.fact {
            *sums.entry(b.haul).or_default() += b.refund.minor();
        }
    }
    sums
}

/// What comes on top of each haul that holds: tax, postage, and the coupon taken off.
fn on_top(live: &[&Event]) -> BTreeMap<HaulId, i64> {
    let mut hauls: BTreeMap<HaulId, [i64; 4]> = BTreeMap::new();
    for event in live {
        match &event.fact {
            Fact::HaulLogged(b) => {
                let facts = &b.facts;
                hauls.insert(b.haul, [facts.tax, facts.postage, facts.coupon, facts.unexplained].map(Money::minor));
            }
            Fact::HaulMended(b) => {
                let Some(sums) = hauls.get_mut(&b.haul) else { continue };
                for field in &b.set {
                    match field {
                        HaulField::Tax(tax) => sums[0] = tax.minor(),
                        HaulField::Postage(postage) => sums[1] = postage.minor(),
                        HaulField::Coupon(coupon) => sums[2] = coupon.minor(),
                        HaulField::Unexplained(amount) => sums[3] = amount.minor(),
                        _ => {}
                    }
                }
            }
            _ => {}
        }
    }
    hauls.into_iter().map(|(haul, [tax, postage, coupon, odd])| (haul, tax + postage - coupon + odd)).collect()
}

/// What each line of a haul gets of what comes on top; a coupon takes no more off than there is.
fn lines(said: &BTreeMap<LotId, Said<'_>>, haul: HaulId, top: i64) -> Vec<(LotId, i64)> {
    let mut lines: Vec<(&LotId, &Said<'_>)> = said.iter().filter(|(_, said)| said.haul == Some(haul)).collect();
    lines.retain(|(_, said)| !said.withdrawn);
    lines.sort_by_key(|(_, said)| place(said.origin));
    let weights: Vec<i64> = lines.iter().map(|(_, said)| said.paid.unwrap_or(0)).collect();
    if lines.is_empty() {
        return Vec::new();
    }
    let shares = sums::largest_remainder(top.max(-weights.iter().sum::<i64>()), &weights);
    lines.iter().map(|(lot, _)| **lot).zip(shares).collect()
}

/// One batch, once all that it may be made of is done.
fn batch(lot: LotId, said: &Said<'_>, share: i64, done: &BTreeMap<LotId, Batch>) -> Batch {
    let (mut units, mut cost_in, mut unpriced) = (said.units, said.paid.unwrap_or(0) + share, said.paid.is_none());
    if !matches!(said.origin.fact, Fact::LotAdded(_)) {
        let sources: Vec<&Batch> = done.values().filter(|batch| batch.left.contains_key(&said.origin.uid)).collect();
        cost_in = sources.iter().map(|batch| batch.left[&said.origin.uid].cents).sum();
        if let Fact::Parted(parted) = &said.origin.fact {
            let weights: Vec<i64> = parted.into.iter().map(|out| i64::from(out.share)).collect();
            let at = parted.into.iter().position(|out| out.lot == lot).unwrap();
            cost_in = sums::largest_remainder(cost_in, &weights)[at];
        }
        unpriced = sources.iter().any(|batch| batch.unpriced);
    }
    if said.withdrawn {
        (units, cost_in, unpriced) = (0, 0, false);
    }
    let mut stock = Stock::new(lot, units, cost_in, said.uncounted);
    said.events.iter().for_each(|event| stock.tell(event));
    Batch {
        withdrawn: said.withdrawn,
        unpriced,
        name: said.name.clone(),
        cost_in,
        units_in: stock.units_in(),
        on_hand: stock.on_hand(),
        bare: stock.bare(),
        placed: stock.placed(),
        left: stock.left(),
    }
}
