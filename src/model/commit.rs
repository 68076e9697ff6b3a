//! What must hold before an act is kept: enough on hand, boxes open, names known.
//!
//! Stores call [`holds`] inside the transaction that would keep the act, so that between the
//! look and the deed nobody else can take the last one.

use std::collections::BTreeMap;

use thiserror::Error;

use super::event::Subject;
use super::fact::{Counted, Fact, Moved, Placing};
use super::giftbox::BoxState;
use super::id::{ActId, BoxId, LotId, PlacementId};
use super::lot::{LotFacts, LotField};
use super::measure::Units;
use super::profile::Profile;
use super::project::{Tables, Told};
use super::rows::{PlacementRow, Standing};

/// Why an act can't be kept, in words for the person who did it.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Refusal {
    /// Too few on hand.
    #[error("only {free} {name} on hand that no box holds, {wanted} asked{}", held(*aside))]
    NotEnough {
        /// What.
        name: String,
        /// Free ones.
        free: Units,
        /// How many were asked for.
        wanted: Units,
        /// Set aside for boxes.
        aside: Units,
    },
    /// Too few in the box or set aside for it.
    #[error("box {label} holds only {there} of that, {wanted} asked")]
    NotInBox {
        /// The box.
        label: String,
        /// How many there are.
        there: Units,
        /// How many were asked for.
        wanted: Units,
    },
    /// The box is not open.
    #[error("box {label} is {state}; {}", way_out(*state))]
    BoxNotOpen {
        /// The box.
        label: String,
        /// What it is.
        state: BoxState,
    },
    /// The step does not follow from where the box stands.
    #[error("box {label} is {state}, so it can't be {wanted}")]
    WrongStep {
        /// The box.
        label: String,
        /// What it is.
        state: BoxState,
        /// What was asked.
        wanted: &'static str,
    },
    /// A box to be taken off the plan still holds things.
    #[error("box {label} still holds or waits for {count} things; take them back first")]
    BoxNotEmpty {
        /// The box.
        label: String,
        /// How many.
        count: Units,
    },
    /// Something was named that isn't there (any more).
    #[error("{0} is not there any more; somebody may have undone it")]
    Unknown(&'static str),
    /// Something would get no name or no units.
    #[error("{0}")]
    Empty(&'static str),
    /// The count was taken before something else moved.
    #[error("{name} changed while it was being counted; count again")]
    CountedTooLate {
        /// What.
        name: String,
    },
    /// Amounts are kept already.
    #[error("amounts are kept in {kept} already, so the drive's currency can't become {wanted}")]
    CurrencyFixed {
        /// The currency in use.
        kept: &'static str,
        /// The one asked for.
        wanted: &'static str,
    },
    /// Other acts rest on the one to be undone.
    #[error("other acts rest on it")]
    RestedOn {
        /// Those acts.
        acts: Vec<ActId>,
    },
}

fn held(aside: Units) -> String {
    if aside.is_zero() { String::new() } else { format!(" ({aside} more set aside for boxes)") }
}

fn way_out(state: BoxState) -> &'static str {
    match state {
        BoxState::Dropped => "undo that first",
        BoxState::HandedIn => "say first that it came back",
        BoxState::Open | BoxState::Closed | BoxState::CameBack => "open it again first",
    }
}

/// What a store must be able to tell for the check, beside its tables.
pub trait Holdings: Tables {
    /// Units in or for a box.
    fn placement(&self, placement: PlacementId) -> Result<Option<PlacementRow>, Self::Error>;
    /// All that is in or set aside for a box.
    fn placements_in(&self, giftbox: BoxId) -> Result<Vec<PlacementRow>, Self::Error>;
    /// The drive's rules, where some were set.
    fn profile(&self) -> Result<Option<Profile>, Self::Error>;
    /// Whether any amount of money is kept.
    fn keeps_amounts(&self) -> Result<bool, Self::Error>;
}

/// Whether the facts of one act can be kept after each other; an inner error is the refusal.
pub fn holds<T: Holdings>(tables: &T, facts: &[Fact]) -> Result<Result<(), Refusal>, T::Error> {
    let mut check = Check { tables, lots: BTreeMap::new(), boxes: BTreeMap::new(), placements: BTreeMap::new() };
    for fact in facts {
        if let Err(stop) = check.fact(fact) {
            return match stop {
                Stop::Refused(refusal) => Ok(Err(refusal)),
                Stop::Failed(error) => Err(error),
            };
        }
    }
    Ok(Ok(()))
}

enum Stop<E> {
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

struct Check<'t, T> {
    tables: &'t T,
    lots: BTreeMap<LotId, Supply>,
    boxes: BTreeMap<BoxId, Box_>,
    placements: BTreeMap<PlacementId, Held>,
}

type Checked<T> = Result<(), Stop<<T as Tables>::Error>>;

impl<T: Holdings> Check<'_, T> {
    fn fact(&mut self, fact: &Fact) -> Checked<T> {
        match fact {
            Fact::ProfileSet(b) => self.currency(&b.profile),
            Fact::HaulLogged(_) => Ok(()),
            Fact::HaulMended(b) => self.known_haul(b.haul),
            Fact::LotAdded(b) => self.new_lot(b.lot, &b.facts),
            Fact::LotMended(b) => self.mend_lot(b.lot, &b.set),
            Fact::SetAside(b) => self.set_aside(b),
            Fact::LetGo(b) => self.let_go(b),
            Fact::PutIn(b) => self.put_in(b),
            Fact::TakenBack(b) => self.take_back(b),
            Fact::Moved(b) => self.carry(b),
            Fact::PlacementMended(b) => self.held(b.placement).map(|_| ()),
            Fact::GivenLoose(b) => self.spend(b.lot, b.units, true),
            Fact::Lost(b) => self.spend(b.lot, b.units, false),
            Fact::Found(b) => self.gain(b.lot, b.units),
            Fact::Counted(b) => self.counted(b),
            Fact::Split(b) => {
                self.spend(b.lot, b.units, true)?;
                self.new_lot(b.into, &b.facts)
            }
            Fact::KitMade(b) => {
                b.parts.iter().try_for_each(|part| self.spend(part.lot, part.units, true))?;
                self.new_lot(b.into, &b.facts)
            }
            Fact::BoxPlanned(b) => {
                let label = b.facts.number.to_string();
                self.boxes.insert(b.giftbox, Box_ { label, state: BoxState::Open });
                Ok(())
            }
            Fact::BoxMended(b) => self.giftbox(b.giftbox).map(|_| ()),
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

    fn known_haul(&self, haul: super::id::HaulId) -> Checked<T> {
        self.failed(|tables| tables.haul(haul))?.map(|_| ()).ok_or(unknown("the haul"))
    }

    fn new_lot(&mut self, lot: LotId, facts: &LotFacts) -> Checked<T> {
        sensible(&facts.name, facts.units)?;
        let (name, on_hand) = (facts.title(), facts.units);
        self.lots.insert(lot, Supply { name, there: on_hand, aside: Units::ZERO });
        Ok(())
    }

    fn mend_lot(&mut self, lot: LotId, set: &[LotField]) -> Checked<T> {
        self.lot(lot)?;
        for field in set {
            match field {
                LotField::Name(name) => sensible(name, Units::ONE)?,
                LotField::Units(units) => sensible("-", *units)?,
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
            self.lots.insert(lot, Supply { name: row.facts.title(), there: on_hand, aside });
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
        let there = if free { hand.there.less(hand.aside) } else { hand.there };
        if wanted.is_zero() {
            return Err(Refusal::Empty("how many? It takes at least one").into());
        }
        if wanted > there {
            let aside = if free { hand.aside } else { Units::ZERO };
            return Err(Refusal::NotEnough { name: hand.name.clone(), free: there, wanted, aside }.into());
        }
        hand.there -= wanted;
        Ok(())
    }

    fn gain(&mut self, lot: LotId, units: Units) -> Checked<T> {
        self.lot(lot)?.there += units;
        Ok(())
    }

    fn set_aside(&mut self, b: &Placing) -> Checked<T> {
        self.open(b.giftbox)?;
        self.spend(b.lot, b.units, true)?;
        let hand = self.lot(b.lot)?;
        hand.there += b.units;
        hand.aside += b.units;
        self.or_begin(b.placement).map(|held| held.aside += b.units)
    }

    fn let_go(&mut self, b: &Placing) -> Checked<T> {
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
        let held = self.or_begin(b.placement)?;
        let reserved = held.aside.min(b.units);
        held.aside -= reserved;
        held.units += b.units;
        self.lot(b.lot)?.aside -= reserved;
        self.spend(b.lot, b.units, true)
    }

    fn take_back(&mut self, b: &Placing) -> Checked<T> {
        self.leave(b.placement, b.giftbox, b.units)?;
        self.gain(b.lot, b.units)
    }

    fn carry(&mut self, b: &Moved) -> Checked<T> {
        self.open(b.to_box)?;
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

fn unknown<E>(what: &'static str) -> Stop<E> {
    Stop::Refused(Refusal::Unknown(what))
}

fn sensible<E>(name: &str, units: Units) -> Result<(), Stop<E>> {
    if name.trim().is_empty() {
        return Err(Refusal::Empty("what is it? It has no name").into());
    }
    if units.is_zero() {
        return Err(Refusal::Empty("how many? It takes at least one").into());
    }
    Ok(())
}

/// The other live acts that speak, later on, of something which this act made.
pub fn resting_on<T: Tables>(tables: &T, act: ActId) -> Result<Vec<ActId>, T::Error> {
    let mut acts = Vec::new();
    for event in tables.events_of(act)? {
        for made in event.fact.creates() {
            // What came before spoke of the same placement as an earlier act had begun it.
            let later = |told: &Told| told.event.order() > event.order();
            for told in tables.events_about(made)?.into_iter().filter(later) {
                let resting = told.event.act;
                if told.live && resting != act && !acts.contains(&resting) && !makes(&told.event.fact, made) {
                    acts.push(resting);
                }
            }
        }
    }
    Ok(acts)
}

/// A later "set aside" of the same placement begins it as well as the first one did.
fn makes(fact: &Fact, subject: Subject) -> bool {
    fact.creates().contains(&subject)
}
