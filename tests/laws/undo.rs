//! Undo and redo, all the way back and forth.

use brimful::model::fact::{BoxPlanned, Fact};
use brimful::model::giftbox::BoxFacts;
use brimful::model::{age::Ages, id::Ids};
use proptest::prelude::*;

use crate::laws::shown;
use crate::play::Person;
use crate::table::{Table, holds};

fn plan(person: &mut Person) -> Fact {
    let ages = Ages::new(3, Some(5)).unwrap();
    let facts = BoxFacts { number: 99, for_whom: None, ages, theme: String::new(), palette: Vec::new() };
    Fact::BoxPlanned(BoxPlanned { giftbox: person.ids.giftbox(), facts })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// All of it undone is the start, all of it brought again is the end, as often as one likes.
    #[test]
    fn all_undone_is_the_start_and_all_redone_the_end(seed: u64, acts in 1_u32..160, out_of_turn: bool) {
        let mut person = Person::new(0, seed);
        person.out_of_turn = out_of_turn;
        person.acts(acts);
        // Something new, so that what was undone before it stays undone.
        let last = plan(&mut person);
        person.must(vec![last]);
        let live = shown(&person.store).acts.iter().filter(|row| row.live && !row.steps_back).count();
        let end = holds(&person.store, "the end").without_acts();
        for _ in 0..2 {
            prop_assert_eq!(person.undo_all(), live);
            let start = holds(&person.store, "the start");
            prop_assert!(start.is_empty(), "seed {}: {:?}", seed, start.without_acts());
            prop_assert_eq!(person.redo_all(), live);
            holds(&person.store, "the end again").without_acts().must_equal(&end, &format!("seed {seed}"));
        }
    }

    /// Step by step: each undo leads to where the act before it had led, each redo back.
    #[test]
    fn each_step_back_leads_to_where_it_came_from(seed: u64, acts in 1_u32..60) {
        let mut person = Person::new(0, seed);
        person.acts(acts);
        let mut stages = vec![shown(&person.store).without_acts()];
        for _ in 0..12 {
            let (act, done) = person.act();
            let (_, fact) = &act.facts[0];
            if done.is_ok() && !fact.is_about_an_act() {
                stages.push(shown(&person.store).without_acts());
            } else if done.is_ok() {
                // A step back among them: begin anew from here.
                stages = vec![shown(&person.store).without_acts()];
            }
        }
        for stage in stages.iter().rev().skip(1) {
            person.step_back();
            shown(&person.store).without_acts().must_equal(stage, &format!("undone, seed {seed}"));
        }
        for stage in stages.iter().skip(1) {
            person.step_on();
            shown(&person.store).without_acts().must_equal(stage, &format!("redone, seed {seed}"));
        }
    }

    /// Void events join like any other: both sides undo and redo what they did, and still agree.
    #[test]
    fn undone_on_one_side_is_undone_on_both(seed: u64, acts in 1_u32..120) {
        let mut table = Table::play(2, seed, acts);
        let tries = table.dice.between(1, 6);
        for _ in 0..tries {
            for person in &mut table.people {
                person.try_step_back();
            }
        }
        table.join(0, 1);
        table.join(1, 0);
        let [one, other] = [0, 1].map(|nth| shown(&table.people[nth].store));
        one.must_equal(&other, &table.told);
    }
}
