//! Doing the facts of an act on a copy of what they touch, to see whether each can be done.

use std::collections::{BTreeMap, BTreeSet};

use super::{Holdings, Refusal, resting_on};
use crate::model::event::Subject;
use crate::model::fact::{BoxMended, BoxStep, Counted, Fact, KindMeasured, KitMade, Moved, Parted, Placing};
use crate::model::giftbox::BoxState;
use crate::model::id::{ActId, BoxId, HaulId, LotId, PlacementId};
use crate::model::lot::{Level, LotFacts, LotField};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::project::Tables;
use crate::model::rows::Standing;

/// Why the check stops.
pub(super) enum Stop<E> {
    Refused(Refusal),
    Failed(E),
}

impl<E> From<Refusal> for Stop<E> {
    fn from(refusal: Refusal) -> Stop<E> {
        Stop::Refused(refusal)
    }
}

/// A batch as it would be after the facts so far.
#[derive(Clone)]
struct Supply {
    name: String,
    there: Units,
    aside: Units,
    level: Option<Level>,
}

/// Units in and for a box after the facts so far.
#[derive(Clone, Copy, Default)]
struct Held {
    units: Units,
    aside: Units,
}

#[derive(Clone)]
struct Box_ {
    label: String,
    state: BoxState,
}

/// A season as it would be after the facts so far.
pub(super) struct Check<'t, T> {
    tables: &'t T,
    lots: BTreeMap<LotId, Supply>,
    boxes: BTreeMap<BoxId, Box_>,
    placements: BTreeMap<PlacementId, Held>,
    homes: BTreeMap<PlacementId, (LotId, BoxId)>,
    /// Hauls of this very act.
    hauls: BTreeSet<HaulId>,
}

type Checked<T> = Result<(), Stop<<T as Tables>::Error>>;

impl<'t, T: Holdings> Check<'t, T> {
    /// A season as it is.
    pub(super) fn of(tables: &'t T) -> Check<'t, T> {
        let (lots, boxes, placements) = (BTreeMap::new(), BTreeMap::new(), BTreeMap::new());
        Check { tables, lots, boxes, placements, homes: BTreeMap::new(), hauls: BTreeSet::new() }
    }

    /// Does one fact, if it can be done after those before it.
    pub(super) fn fact(&mut self, fact: &Fact) -> Checked<T> {
        match fact {
            Fact::ProfileSet(b) => self.currency(&b.profile),
            Fact::HaulLogged(b) => {
                self.hauls.insert(b.haul);
                Ok(())
            }
            Fact::HaulMended(b) => self.known_haul(b.haul),
            Fact::LotAdded(b) => self.new_lot(b.lot, &b.facts),
            Fact::LotMended(b) => self.mend_lot(b.lot, &b.set),
            Fact::SetAside(b) => self.set_aside(b),
            Fact::LetGo(b) => self.let_go(b),
            Fact::PutIn(b) => self.put_in(b),
            Fact::TakenBack(b) => self.take_back(b),
            Fact::Moved(b) => self.carry(b),
            Fact::PlacementMended(b) => {
                self.belongs(b.placement, b.lot, b.giftbox)?;
                self.held(b.placement).map(|_| ())
            }
            Fact::GivenLoose(b) => self.spend(b.lot, b.units, true),
            Fact::Lost(b) => self.spend(b.lot, b.units, false),
            Fact::Found(b) => self.gain(b.lot, b.units),
            Fact::Counted(b) => self.counted(b),
            Fact::Returned(b) => {
                priced(Some(b.refund))?;
                self.known_haul(b.haul)?;
                self.spend(b.lot, b.units, true)
            }
            Fact::KindLearned(b) => sensible(&b.name, Units::ONE),
            Fact::KindMeasured(b) => measured(b),
            Fact::AnswerKept(b) => sensible(b.lesson.topic(), Units::ONE),
            Fact::Split(b) => {
                self.spend(b.lot, b.units, true)?;
                self.new_lot(b.into, &b.facts)
            }
            Fact::KitMade(b) => self.make_kit(b),
            Fact::Parted(b) => self.part(b),
            Fact::BoxPlanned(b) => {
                self.unused(Subject::Box(b.giftbox), self.boxes.contains_key(&b.giftbox))?;
                let label = b.facts.number.to_string();
                self.boxes.insert(b.giftbox, Box_ { label, state: BoxState::Open });
                Ok(())
            }
            Fact::BoxMended(BoxMended { giftbox, .. }) | Fact::LidCloses(BoxStep { giftbox }) => {
                self.giftbox(*giftbox).map(|_| ())
            }
            Fact::BoxClosed(b) => self.step(b.giftbox, &[BoxState::Open], BoxState::Closed),
            Fact::BoxReopened(b) => self.step(b.giftbox, &[BoxState::Closed, BoxState::CameBack], BoxState::Open),
            Fact::BoxHandedIn(b) => self.step(b.giftbox, &[BoxState::Closed], BoxState::HandedIn),
            Fact::BoxCameBack(b) => self.step(b.giftbox, &[BoxState::HandedIn], BoxState::CameBack),
            Fact::BoxDropped(b) => self.drop_box(b.giftbox),
            Fact::Voided(b) => self.undo(b.act),
            Fact::Restored(b) => self.failed(|tables| tables.act(b.act))?.map(|_| ()).ok_or(unknown("the act")),
        }
    }

    fn failed<V>(&self, ask: impl FnOnce(&T) -> Result<V, T::Error>) -> Result<V, Stop<T::Error>> {
        ask(self.tables).map_err(Stop::Failed)
    }

    fn currency(&self, wanted: &Profile) -> Checked<T> {
        let kept = self.failed(T::profile)?.unwrap_or_default().currency;
        if kept != wanted.currency && self.failed(T::keeps_amounts)? {
            return Err(Refusal::CurrencyFixed { kept: kept.code(), wanted: wanted.currency.code() }.into());
        }
        Ok(())
    }

    fn known_haul(&self, haul: HaulId) -> Checked<T> {
        if self.hauls.contains(&haul) {
            return Ok(());
        }
        self.failed(|tables| tables.haul(haul))?.map(|_| ()).ok_or(unknown("the haul"))
    }

    fn new_lot(&mut self, lot: LotId, facts: &LotFacts) -> Checked<T> {
        sensible(&facts.name, facts.units)?;
        priced(facts.paid)?;
        self.unused(Subject::Lot(lot), self.lots.contains_key(&lot))?;
        let (name, on_hand) = (facts.title(), facts.units);
        self.lots.insert(lot, Supply { name, there: on_hand, aside: Units::ZERO, level: facts.level });
        Ok(())
    }

    fn mend_lot(&mut self, lot: LotId, set: &[LotField]) -> Checked<T> {
        self.lot(lot)?;
        for field in set {
            match field {
                LotField::Name(name) => sensible(name, Units::ONE)?,
                LotField::Units(units) => sensible("-", *units)?,
                LotField::Paid(paid) => priced(*paid)?,
                _ => {}
            }
        }
        Ok(())
    }

    fn lot(&mut self, lot: LotId) -> Result<&mut Supply, Stop<T::Error>> {
        if !self.lots.contains_key(&lot) {
            let row = self.failed(|tables| tables.lot(lot))?.filter(|row| !row.withdrawn);
            let row = row.ok_or(unknown("that batch"))?;
            let Standing { on_hand, aside, .. } = row.standing;
            self.lots.insert(lot, Supply { name: row.facts.title(), there: on_hand, aside, level: row.facts.level });
        }
        self.lots.get_mut(&lot).ok_or(unknown("that batch"))
    }

    fn giftbox(&mut self, giftbox: BoxId) -> Result<&mut Box_, Stop<T::Error>> {
        if !self.boxes.contains_key(&giftbox) {
            let row = self.failed(|tables| tables.giftbox(giftbox))?.filter(|row| !row.withdrawn);
            let row = row.ok_or(unknown("that box"))?;
            self.boxes.insert(giftbox, Box_ { label: row.label(), state: row.state });
        }
        self.boxes.get_mut(&giftbox).ok_or(unknown("that box"))
    }

    fn held(&mut self, placement: PlacementId) -> Result<&mut Held, Stop<T::Error>> {
        if !self.placements.contains_key(&placement) {
            let row = self.failed(|tables| tables.placement(placement))?.ok_or(unknown("that thing in the box"))?;
            self.placements.insert(placement, Held { units: row.units, aside: row.aside });
        }
        self.placements.get_mut(&placement).ok_or(unknown("that thing in the box"))
    }

    fn open(&mut self, giftbox: BoxId) -> Result<String, Stop<T::Error>> {
        let found = self.giftbox(giftbox)?;
        let (label, state) = (found.label.clone(), found.state);
        if state.is_open() { Ok(label) } else { Err(Refusal::BoxNotOpen { label, state }.into()) }
    }

    /// Takes units from those on hand; `free` ones only, unless what is set aside may go too.
    fn spend(&mut self, lot: LotId, wanted: Units, free: bool) -> Checked<T> {
        let hand = self.lot(lot)?;
        let uncounted = free && matches!(hand.level, Some(Level::Plenty | Level::Low));
        if uncounted && !wanted.is_zero() {
            return Ok(());
        }
        let there = match hand.level {
            Some(Level::Gone) => Units::ZERO,
            _ if free => hand.there.less(hand.aside),
            _ => hand.there,
        };
        if wanted.is_zero() {
            return Err(Refusal::Senseless("how many? It takes at least one").into());
        }
        if wanted > there {
            let aside = if free { hand.aside } else { Units::ZERO };
            return Err(Refusal::NotEnough { name: hand.name.clone(), free: there, wanted, aside }.into());
        }
        hand.there -= wanted;
        Ok(())
    }

    /// A kit takes all its parts.
    fn make_kit(&mut self, b: &KitMade) -> Checked<T> {
        if b.parts.is_empty() {
            return Err(Refusal::Senseless("a kit of what? It takes at least one part").into());
        }
        b.parts.iter().try_for_each(|part| self.spend(part.lot, part.units, true))?;
        self.new_lot(b.into, &b.facts)
    }

    fn part(&mut self, b: &Parted) -> Checked<T> {
        if b.into.iter().all(|out| out.share == 0) {
            return Err(Refusal::Senseless("parted into what? One part at least has a share of the cost").into());
        }
        self.spend(b.lot, b.units, true)?;
        b.into.iter().try_for_each(|out| self.new_lot(out.lot, &out.facts))
    }

    fn gain(&mut self, lot: LotId, units: Units) -> Checked<T> {
        sensible("-", units)?;
        self.lot(lot)?.there += units;
        Ok(())
    }

    fn set_aside(&mut self, b: &Placing) -> Checked<T> {
        self.open(b.giftbox)?;
        self.belongs(b.placement, b.lot, b.giftbox)?;
        self.spend(b.lot, b.units, true)?;
        let hand = self.lot(b.lot)?;
        hand.there += b.units;
        hand.aside += b.units;
        self.or_begin(b.placement).map(|held| held.aside += b.units)
    }

    fn let_go(&mut self, b: &Placing) -> Checked<T> {
        self.belongs(b.placement, b.lot, b.giftbox)?;
        let label = self.open(b.giftbox)?;
        let held = self.held(b.placement)?;
        let (there, wanted) = (held.aside, b.units);
        if wanted > there || wanted.is_zero() {
            return Err(Refusal::NotInBox { label, there, wanted }.into());
        }
        held.aside -= wanted;
        self.lot(b.lot)?.aside -= wanted;
        Ok(())
    }

    fn put_in(&mut self, b: &Placing) -> Checked<T> {
        self.open(b.giftbox)?;
        self.belongs(b.placement, b.lot, b.giftbox)?;
        let held = self.or_begin(b.placement)?;
        let reserved = held.aside.min(b.units);
        held.aside -= reserved;
        held.units += b.units;
        self.lot(b.lot)?.aside -= reserved;
        self.spend(b.lot, b.units, true)
    }

    fn take_back(&mut self, b: &Placing) -> Checked<T> {
        self.belongs(b.placement, b.lot, b.giftbox)?;
        self.leave(b.placement, b.giftbox, b.units)?;
        self.gain(b.lot, b.units)
    }

    fn carry(&mut self, b: &Moved) -> Checked<T> {
        self.open(b.to_box)?;
        self.belongs(b.placement, b.lot, b.giftbox)?;
        self.belongs(b.to_placement, b.lot, b.to_box)?;
        self.leave(b.placement, b.giftbox, b.units)?;
        self.or_begin(b.to_placement).map(|held| held.units += b.units)
    }

    fn leave(&mut self, placement: PlacementId, giftbox: BoxId, wanted: Units) -> Checked<T> {
        let label = self.open(giftbox)?;
        let held = self.held(placement)?;
        if wanted > held.units || wanted.is_zero() {
            return Err(Refusal::NotInBox { label, there: held.units, wanted }.into());
        }
        held.units -= wanted;
        Ok(())
    }

    /// A placement stays with the batch and the box that it began with.
    fn belongs(&mut self, placement: PlacementId, lot: LotId, giftbox: BoxId) -> Checked<T> {
        let home = if let Some(home) = self.homes.get(&placement) {
            Some(*home)
        } else {
            let told = self.failed(|tables| tables.events_about(Subject::Placement(placement)))?;
            told.iter().find_map(|told| home_of(&told.event.fact, placement))
        };
        let home = *self.homes.entry(placement).or_insert(home.unwrap_or((lot, giftbox)));
        if home == (lot, giftbox) { Ok(()) } else { Err(unknown("that thing in the box")) }
    }

    fn unused(&self, subject: Subject, begun: bool) -> Checked<T> {
        if begun || !self.failed(|tables| tables.events_about(subject))?.is_empty() {
            return Err(Refusal::Senseless("it is there already").into());
        }
        Ok(())
    }

    fn or_begin(&mut self, placement: PlacementId) -> Result<&mut Held, Stop<T::Error>> {
        if !self.placements.contains_key(&placement) {
            let row = self.failed(|tables| tables.placement(placement))?;
            let held = row.map(|row| Held { units: row.units, aside: row.aside });
            self.placements.insert(placement, held.unwrap_or_default());
        }
        self.held(placement)
    }

    fn counted(&mut self, b: &Counted) -> Checked<T> {
        let hand = self.lot(b.lot)?;
        let (name, on_hand) = (hand.name.clone(), hand.there);
        hand.there = b.found;
        let last = self.failed(|tables| tables.lot(b.lot))?.map(|row| row.last);
        if on_hand != b.expected || last != Some(b.seen) {
            return Err(Refusal::CountedTooLate { name }.into());
        }
        Ok(())
    }

    fn step(&mut self, giftbox: BoxId, from: &[BoxState], to: BoxState) -> Checked<T> {
        let found = self.giftbox(giftbox)?;
        if !from.contains(&found.state) {
            let wanted = match to {
                BoxState::Open => "opened again",
                BoxState::Closed => "closed",
                BoxState::HandedIn => "handed in",
                BoxState::CameBack => "said to have come back",
                BoxState::Dropped => "taken off the plan",
            };
            return Err(Refusal::WrongStep { label: found.label.clone(), state: found.state, wanted }.into());
        }
        found.state = to;
        Ok(())
    }

    fn drop_box(&mut self, giftbox: BoxId) -> Checked<T> {
        let label = self.open(giftbox)?;
        let rows = self.failed(|tables| tables.placements_in(giftbox))?;
        let count: Units = rows.iter().map(|row| row.units + row.aside).sum();
        if !count.is_zero() {
            return Err(Refusal::BoxNotEmpty { label, count }.into());
        }
        self.step(giftbox, &[BoxState::Open], BoxState::Dropped)
    }

    fn undo(&self, act: ActId) -> Checked<T> {
        let row = self.failed(|tables| tables.act(act))?;
        if !row.is_some_and(|row| row.live && !row.steps_back) {
            return Err(unknown("the act"));
        }
        let acts = self.failed(|tables| resting_on(tables, act))?;
        if acts.is_empty() { Ok(()) } else { Err(Refusal::RestedOn { acts }.into()) }
    }
}

/// The batch and the box that a fact puts a placement to.
fn home_of(fact: &Fact, placement: PlacementId) -> Option<(LotId, BoxId)> {
    match fact {
        Fact::SetAside(b) | Fact::PutIn(b) | Fact::LetGo(b) | Fact::TakenBack(b) => Some((b.lot, b.giftbox)),
        Fact::Moved(b) if b.to_placement == placement => Some((b.lot, b.to_box)),
        Fact::Moved(b) => Some((b.lot, b.giftbox)),
        _ => None,
    }
}

fn priced<E>(paid: Option<Money>) -> Result<(), Stop<E>> {
    match paid {
        Some(paid) if paid.is_negative() => Err(Refusal::Senseless("a price is never below nothing").into()),
        _ => Ok(()),
    }
}

fn unknown<E>(what: &'static str) -> Stop<E> {
    Stop::Refused(Refusal::Unknown(what))
}

fn sensible<E>(name: &str, units: Units) -> Result<(), Stop<E>> {
    if name.trim().is_empty() {
        return Err(Refusal::Senseless("what is it? It has no name").into());
    }
    if units.is_zero() {
        return Err(Refusal::Senseless("how many? It takes at least one").into());
    }
    Ok(())
}
/// A size that was measured has all three sides.
fn measured<E>(b: &KindMeasured) -> Result<(), Stop<E>> {
    if b.dims.0.len() != 3 {
        return Err(Refusal::Senseless("how large? It takes three sides: 200x150x20 mm").into());
    }
    sensible(&b.name, Units::ONE)
}
