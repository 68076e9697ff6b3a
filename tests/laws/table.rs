//! Several people, each at a computer of their own, whose files are joined now and then.

use std::collections::BTreeMap;

use brimful::model::id::LotId;
use brimful::model::measure::Units;
use brimful::model::rows::{BoxRow, LotRow};
use brimful::store::{Memory, Store};

use crate::dice::Dice;
use crate::laws::{Reached, Shown, costs_hold, oracle_agrees, shown, stale_counts};
use crate::play::{Person, Tally, events, join, season};

/// A run of several people.
pub struct Table {
    pub people: Vec<Person>,
    pub dice: Dice,
    pub reached: Reached,
    pub told: String,
}

impl Table {
    /// People who did `acts` things, joining files in between; what must hold was checked after each join.
    pub fn play(people: u16, seed: u64, acts: u32) -> Table {
        let told = format!("{people} people, seed {seed}, {acts} acts");
        let all = (0..people).map(|nth| Person::new(nth, seed)).collect();
        let mut table = Table { people: all, dice: Dice::new(!seed), reached: Reached::default(), told };
        let mut left = acts;
        while left > 0 {
            let some = table.dice.between(1, 12).min(left);
            let who = table.somebody();
            table.people[who].acts(some);
            left -= some;
            if people > 1 && table.dice.chance(35) {
                table.some_join();
            }
        }
        for person in &table.people {
            holds(&person.store, &table.told);
        }
        table
    }

    fn somebody(&mut self) -> usize {
        let all: Vec<usize> = (0..self.people.len()).collect();
        self.dice.pick(&all).unwrap()
    }

    /// One takes in another's file; now and then both do.
    fn some_join(&mut self) {
        let (one, other) = (self.somebody(), self.somebody());
        if one == other {
            return;
        }
        self.join(one, other);
        if self.dice.chance(40) {
            self.join(other, one);
        }
    }

    /// `one` takes in what `other` has.
    pub fn join(&mut self, one: usize, other: usize) {
        let theirs = self.people[other].store.clone();
        let before = (self.people[one].store.lots().unwrap(), theirs.lots().unwrap());
        self.people[one].take_in(&theirs);
        let store = &self.people[one].store;
        let rows = holds(store, &self.told);
        note(&mut self.reached, &before.0, &before.1, &rows);
        let (stale, twins) = stale_counts(store);
        self.reached.stale_counts += stale;
        self.reached.twin_counts += twins;
    }

    pub fn tally(&self) -> Tally {
        let mut all = Tally::default();
        self.people.iter().for_each(|person| all.add(person.tally));
        all
    }
}

impl Reached {
    pub fn add(&mut self, other: Reached) {
        self.bare_units += other.bare_units;
        self.spent_twice += other.spent_twice;
        self.covered_later += other.covered_later;
        self.withdrawn_but_used += other.withdrawn_but_used;
        self.boxes_withdrawn += other.boxes_withdrawn;
        self.stale_counts += other.stale_counts;
        self.twin_counts += other.twin_counts;
        self.twin_boxes += other.twin_boxes;
    }
}

/// The cost laws, the oracle, and rows made anew; what is shown, for more.
pub fn holds(store: &Memory, told: &str) -> Shown {
    let rows = shown(store);
    costs_hold(&rows, told);
    oracle_agrees(&rows, &events(store), told);
    let mut anew = store.clone();
    anew.rebuild().unwrap();
    rows.must_equal(&shown(&anew), &format!("kept up to date and made anew, {told}"));
    rows
}

/// A new computer that takes in whole files, one after the other.
pub fn joined<'s>(stores: impl IntoIterator<Item = &'s Memory>) -> Memory {
    let mut all = Memory::new(season());
    for store in stores {
        join(&mut all, &store.kept().unwrap());
    }
    all
}

/// What a join brought about.
fn note(reached: &mut Reached, ours: &[LotRow], theirs: &[LotRow], now: &Shown) {
    let by_id = |rows: &[LotRow]| rows.iter().map(|row| (row.lot, row.clone())).collect::<BTreeMap<LotId, _>>();
    let (ours, theirs) = (by_id(ours), by_id(theirs));
    let all_spent = |row: &LotRow| row.standing.on_hand.is_zero() && row.standing.bare.is_zero();
    for row in &now.lots {
        let bare = |rows: &BTreeMap<_, LotRow>| rows.get(&row.lot).map(|row| row.standing.bare);
        let most = bare(&ours).max(bare(&theirs)).unwrap_or(Units::ZERO);
        let (a, b) = (ours.get(&row.lot), theirs.get(&row.lot));
        let both = a.is_some_and(all_spent) && b.is_some_and(all_spent);
        reached.bare_units += u32::from(row.standing.bare > most);
        reached.spent_twice += u32::from(both && !row.withdrawn && !row.standing.bare.is_zero());
        reached.covered_later += u32::from(row.standing.bare < most);
        let known = |row: Option<&LotRow>| row.is_some_and(|row| row.withdrawn);
        reached.withdrawn_but_used += u32::from(row.withdrawn && !known(a) && !known(b));
    }
    let count = |of: fn(&&BoxRow) -> bool| u32::try_from(now.boxes.iter().filter(of).count()).unwrap();
    reached.boxes_withdrawn += count(|row| row.withdrawn);
    reached.twin_boxes += count(|row| row.twin > 0);
}
