//! People who do things at random, each at a computer of their own.

use std::collections::BTreeSet;

use brimful::model::commit::Refusal;
use brimful::model::event::{Event, Subject};
use brimful::model::fact::{Fact, OfAct};
use brimful::model::id::{ActId, BoxId, CountedIds, DeviceId, HaulId, Ids, LotId, SeasonId};
use brimful::model::kept::Kept;
use brimful::model::project::Tables;
use brimful::store::{CommitError, Committed, Memory, NewAct, Store};

use crate::dice::Dice;

/// Acts tried and refused.
#[derive(Debug, Clone, Copy, Default)]
pub struct Tally {
    pub tried: u32,
    pub refused: u32,
}

impl Tally {
    pub fn add(&mut self, other: Tally) {
        self.tried += other.tried;
        self.refused += other.refused;
    }

    /// Most of what people try is possible; else the runs would say little.
    pub fn most_succeeded(self) {
        let done = self.tried - self.refused;
        let percent = done * 100 / self.tried.max(1);
        assert!(percent >= 60, "only {done} of {} acts succeeded ({percent} in a hundred)", self.tried);
    }
}

/// Somebody at a computer with a season of their own.
pub struct Person {
    pub store: Memory,
    pub device: DeviceId,
    pub dice: Dice,
    pub tally: Tally,
    pub ids: CountedIds,
    pub now: u64,
    pub lots: Vec<LotId>,
    pub boxes: Vec<BoxId>,
    pub hauls: Vec<HaulId>,
    /// Own acts that do something, oldest first.
    pub acts: Vec<ActId>,
    /// Own acts undone since the last new one, in that order.
    undone: Vec<ActId>,
    /// Whether this one also undoes acts out of turn.
    pub out_of_turn: bool,
    /// Whether the season is asked what can be undone, which in a long one takes its time.
    pub asks: bool,
}

/// The season that everybody of a run keeps.
pub fn season() -> SeasonId {
    SeasonId::new(CountedIds::new(1).fresh())
}

/// How far a computer's clock may be off, in milliseconds: right, a blink, an hour, a day.
const OFF: [u64; 6] = [0, 0, 1, 700, 3_600_000, 86_400_000];

impl Person {
    /// The `nth` person of a run.
    pub fn new(nth: u16, seed: u64) -> Person {
        let mut dice = Dice::new(seed.wrapping_mul(16).wrapping_add(u64::from(nth)));
        let mut ids = CountedIds::new(0x100 + nth);
        let now = 1_800_000_000_000 + dice.pick(&OFF).unwrap();
        Person {
            store: Memory::new(season()),
            device: ids.device(),
            dice,
            tally: Tally::default(),
            ids,
            now,
            lots: Vec::new(),
            boxes: Vec::new(),
            hauls: Vec::new(),
            acts: Vec::new(),
            undone: Vec::new(),
            out_of_turn: true,
            asks: true,
        }
    }

    /// Does so many things.
    pub fn acts(&mut self, count: u32) {
        for _ in 0..count {
            _ = self.act();
        }
    }

    /// Does something; the act as it was tried and what came of it.
    pub fn act(&mut self) -> (NewAct, Result<Committed, Refusal>) {
        let facts = self.something();
        let act = self.dress(facts);
        let done = self.keep(&act);
        (act, done)
    }

    /// Does exactly this, which must be possible.
    pub fn must(&mut self, facts: Vec<Fact>) -> NewAct {
        let act = self.dress(facts);
        self.keep(&act).unwrap();
        act
    }

    fn dress(&mut self, facts: Vec<Fact>) -> NewAct {
        self.now += 1000;
        let facts = facts.into_iter().map(|fact| (self.ids.event(), fact)).collect();
        NewAct { act: self.ids.act(), device: self.device, by: "ann".to_owned(), now_millis: self.now, facts }
    }

    fn keep(&mut self, act: &NewAct) -> Result<Committed, Refusal> {
        self.tally.tried += 1;
        match self.store.commit(act) {
            Ok(done) => {
                self.note(act);
                Ok(done)
            }
            Err(CommitError::Refused(refusal)) => {
                self.tally.refused += 1;
                Err(refusal)
            }
            Err(CommitError::Store(error)) => panic!("a season in memory can't fail: {error}"),
        }
    }

    fn note(&mut self, act: &NewAct) {
        for subject in act.facts.iter().flat_map(|(_, fact)| fact.creates()) {
            match subject {
                Subject::Lot(lot) => self.lots.push(lot),
                Subject::Box(giftbox) => self.boxes.push(giftbox),
                Subject::Haul(haul) => self.hauls.push(haul),
                Subject::Act(_) | Subject::Profile | Subject::Placement(_) | Subject::Lessons => {}
            }
        }
        match &act.facts[0].1 {
            Fact::Voided(b) => self.undone.push(b.act),
            Fact::Restored(b) => self.undone.retain(|undone| *undone != b.act),
            _ => {
                self.acts.push(act.act);
                self.undone.clear();
            }
        }
    }

    /// The newest own act that holds; the season must say so too.
    pub fn undoable(&self) -> Option<ActId> {
        let holds = |act: &&ActId| self.store.act(**act).unwrap().unwrap().live;
        let own = self.acts.iter().rev().find(holds).copied();
        if self.asks {
            assert_eq!(self.store.undoable(self.device).unwrap().map(|row| row.act), own, "what can be undone");
        }
        own
    }

    /// The own act undone last, unless something new was done since; the season must say so too.
    pub fn redoable(&self) -> Option<ActId> {
        let own = self.undone.last().copied();
        if self.asks {
            assert_eq!(self.store.redoable(self.device).unwrap().map(|row| row.act), own, "what can be brought again");
        }
        own
    }

    /// Takes in what another one has.
    pub fn take_in(&mut self, other: &Memory) {
        join(&mut self.store, &other.kept().unwrap());
        self.lots = self.store.lots().unwrap().iter().map(|row| row.lot).collect();
        self.boxes = self.store.boxes().unwrap().iter().map(|row| row.giftbox).collect();
        self.hauls = self.store.hauls().unwrap().iter().map(|row| row.haul).collect();
    }

    /// Undoes the newest act; there must be one.
    pub fn step_back(&mut self) {
        let act = self.undoable().unwrap();
        self.must(vec![Fact::Voided(OfAct { act })]);
    }

    /// Brings again what was undone last; there must be something.
    pub fn step_on(&mut self) {
        let act = self.redoable().unwrap();
        self.must(vec![Fact::Restored(OfAct { act })]);
    }

    /// Undoes the newest act unless there is none or others rest on it.
    pub fn try_step_back(&mut self) -> Option<Result<Committed, Refusal>> {
        let act = self.undoable()?;
        let act = self.dress(vec![Fact::Voided(OfAct { act })]);
        Some(self.keep(&act))
    }

    /// Undoes until nothing is left that can be undone; says how many acts that were.
    pub fn undo_all(&mut self) -> usize {
        let mut undone = 0;
        while self.undoable().is_some() {
            self.step_back();
            undone += 1;
        }
        undone
    }

    /// Brings again all that can be brought again; says how many acts that were.
    pub fn redo_all(&mut self) -> usize {
        let mut redone = 0;
        while self.redoable().is_some() {
            self.step_on();
            redone += 1;
        }
        redone
    }
}

/// Takes in events; what the join says of it must be so.
pub fn join(store: &mut impl Store, theirs: &[Kept]) {
    let before = store.kept().unwrap();
    let (uids, acts): (BTreeSet<_>, BTreeSet<_>) = before.iter().map(|kept| (kept.uid, kept.act)).unzip();
    let fresh: Vec<&Kept> = theirs.iter().filter(|kept| !uids.contains(&kept.uid)).collect();
    let fresh_acts: BTreeSet<_> = fresh.iter().map(|kept| kept.act).filter(|act| !acts.contains(act)).collect();
    let said = store.join(theirs).unwrap();
    let [brought, known, acts] = [fresh.len(), theirs.len() - fresh.len(), fresh_acts.len()].map(|n| n as u64);
    assert_eq!((said.events, said.known, said.acts), (brought, known, acts), "events, known ones and acts of a join");
    assert_eq!(store.kept().unwrap().len(), before.len() + fresh.len());
}

/// The events of a season as they are stored.
pub fn events(store: &impl Store) -> Vec<Event> {
    store.kept().unwrap().iter().map(|kept| kept.event().unwrap()).collect()
}
