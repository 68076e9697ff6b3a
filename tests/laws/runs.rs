//! Random runs on one, two and three computers.

use brimful::model::fact::Fact;
use brimful::model::kept::Kept;
use brimful::store::{Memory, Store};
use proptest::prelude::*;

use crate::dice::Dice;
use crate::laws::{Reached, shown};
use crate::play::{Person, Tally, join, season};
use crate::table::{Table, holds, joined};

/// Runs of fixed seeds: the same in every place, so that what they reach can be asked for.
#[test]
fn laws_hold_in_fixed_runs_which_reach_every_case() {
    let (mut tally, mut reached) = (Tally::default(), Reached::default());
    for seed in 0..450 {
        let table = Table::play(1 + u16::try_from(seed % 3).unwrap(), seed, 160);
        tally.add(table.tally());
        reached.add(table.reached);
    }
    println!("{tally:?} {reached:?}");
    tally.most_succeeded();
    let all = [
        ("bare units", reached.bare_units),
        ("the last unit spent on both sides", reached.spent_twice),
        ("bare units covered by a join", reached.covered_later),
        ("a batch withdrawn but used", reached.withdrawn_but_used),
        ("a box withdrawn but used", reached.boxes_withdrawn),
        ("a stale count", reached.stale_counts),
        ("two counts on one footing", reached.twin_counts),
        ("two boxes of one number", reached.twin_boxes),
    ];
    for (what, times) in all {
        assert!(times > 0, "{what} never came about");
    }
}

/// Whether a fact may only take units that are on hand and that no box waits for.
fn takes_only_what_is_free(fact: &Fact) -> bool {
    matches!(
        fact,
        Fact::SetAside(_) | Fact::PutIn(_) | Fact::Moved(_) | Fact::GivenLoose(_) | Fact::Split(_) | Fact::KitMade(_)
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// The oracle, the laws and the rebuilt rows after every single act of one person.
    #[test]
    fn laws_hold_after_every_act(seed: u64, acts in 1_u32..70) {
        let mut person = Person::new(0, seed);
        for nth in 0..acts {
            _ = person.act();
            holds(&person.store, &format!("seed {seed}, act {nth}"));
        }
    }

    /// Nobody alone takes what is not there or what a box waits for; only corrections, undo and redo,
    /// things lost and counts can bring that about. What is refused changes nothing.
    #[test]
    fn nobody_takes_what_is_not_there(seed: u64, acts in 1_u32..160) {
        let mut person = Person::new(0, seed);
        for nth in 0..acts {
            let before = shown(&person.store);
            let (act, done) = person.act();
            let after = shown(&person.store);
            let why = format!("seed {seed}, act {nth}");
            if done.is_err() {
                before.must_equal(&after, &why);
                continue;
            }
            let all = act.facts.iter().all(|(_, fact)| takes_only_what_is_free(fact));
            if all {
                prop_assert_eq!(before.missing(), after.missing(), "{}: {:?}", why, act);
            }
        }
    }

    #[test]
    fn laws_hold_for_any_people_and_seed(people in 1_u16..=3, seed: u64, acts in 1_u32..220) {
        Table::play(people, seed, acts);
    }

    /// Two computers that join each other, and one that takes in both in either order, twice.
    #[test]
    fn two_files_come_to_the_same_in_any_order(seed: u64, acts in 1_u32..200) {
        let mut table = Table::play(2, seed, acts);
        let [one, other] = [0, 1].map(|nth| table.people[nth].store.clone());
        let whole = shown(&joined([&one, &other]));
        for files in [vec![&other, &one], vec![&one, &other, &one, &other], vec![&other, &other, &one]] {
            whole.must_equal(&shown(&joined(files)), &table.told);
        }
        table.join(0, 1);
        table.join(1, 0);
        for person in &table.people {
            whole.must_equal(&shown(&person.store), &table.told);
        }
    }

    /// Three computers: every order, and chains in which each takes in what another took in before.
    #[test]
    fn three_files_come_to_the_same_in_any_order(seed: u64, acts in 1_u32..200) {
        let mut table = Table::play(3, seed, acts);
        let stores: Vec<Memory> = table.people.iter().map(|person| person.store.clone()).collect();
        let whole = shown(&joined(&stores));
        for order in [[0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
            whole.must_equal(&shown(&joined(order.map(|nth| &stores[nth]))), &table.told);
        }
        for (one, other) in [(0, 1), (2, 0), (1, 2), (0, 2), (0, 2)] {
            table.join(one, other);
        }
        for person in &table.people {
            whole.must_equal(&shown(&person.store), &table.told);
        }
    }

    /// Events that come in any order and in any pieces: what they rest on may come last.
    #[test]
    fn pieces_of_files_come_to_the_same_in_any_order(seed: u64, acts in 1_u32..160) {
        let table = Table::play(3, seed, acts);
        let stores: Vec<&Memory> = table.people.iter().map(|person| &person.store).collect();
        let whole = joined(stores);
        let mut pieces: Vec<Kept> = whole.kept().unwrap();
        let mut dice = Dice::new(seed);
        dice.shuffle(&mut pieces);
        let mut slowly = Memory::new(season());
        for some in pieces.chunks(1 + pieces.len() / 6) {
            join(&mut slowly, some);
            holds(&slowly, &format!("part of the events, {}", table.told));
        }
        shown(&whole).must_equal(&shown(&slowly), &table.told);
    }
}
