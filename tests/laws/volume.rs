//! Many acts: a hundred thousand in memory, two thousand in a file.

use brimful::model::event::Subject;
use brimful::model::project::Tables;
use brimful::store::{CommitError, Sqlite, Store, check};

use crate::laws::{costs_hold, oracle_agrees, shown};
use crate::play::{Person, events, join, season};

/// The most events that one batch gets in a long run, so that the run is long and not one batch of it.
const MOST_OF_A_BATCH: usize = 1000;

#[test]
fn a_hundred_thousand_acts() {
    let mut person = Person::new(0, 2027);
    person.asks = false;
    for tenth in 1..=10 {
        person.acts(10_000);
        let rows = shown(&person.store);
        costs_hold(&rows, &format!("tenth {tenth}"));
        if tenth % 5 == 0 {
            oracle_agrees(&rows, &events(&person.store), &format!("tenth {tenth}"));
        }
    }
    person.tally.most_succeeded();
    let longest = person.lots.iter().map(|lot| person.store.events_about(Subject::Lot(*lot)).unwrap().len()).max();
    assert!(longest < Some(MOST_OF_A_BATCH), "one batch has {longest:?} events");
    let before = shown(&person.store);
    person.store.rebuild().unwrap();
    before.must_equal(&shown(&person.store), "made anew");
    println!("{:?}, {} batches, at most {longest:?} events each", person.tally, before.lots.len());
}

/// A file and a season in memory that are told the same acts: the same answers, the same rows, the same bytes.
#[test]
fn two_thousand_acts_in_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.brimful");
    let mut file = Sqlite::open_or_create(&path, season()).unwrap();
    let mut person = Person::new(0, 7);
    let mut other = Person::new(1, 7);
    for nth in 1..=2000 {
        same_answer(&mut person, &mut file);
        if nth % 250 == 0 {
            shown(&file).must_equal(&shown(&person.store), &format!("file and memory, act {nth}"));
        }
        if nth % 500 == 0 {
            other.take_in(&person.store);
            other.acts(30);
            person.take_in(&other.store);
            join(&mut file, &other.store.kept().unwrap());
            shown(&file).must_equal(&shown(&person.store), &format!("file and memory, joined at act {nth}"));
        }
    }
    person.tally.most_succeeded();
    drop(file);
    let file = Sqlite::open(&path).unwrap();
    assert_eq!(check(&file).unwrap(), []);
    assert_eq!(file.unsound().unwrap(), Vec::<String>::new());
    assert_eq!(file.kept().unwrap(), person.store.kept().unwrap());
    let rows = shown(&file);
    rows.must_equal(&shown(&person.store), "opened again");
    costs_hold(&rows, "opened again");
    oracle_agrees(&rows, &events(&file), "opened again");
}

/// One act told to both: kept by both as the same count, or refused by both in the same words.
fn same_answer(person: &mut Person, file: &mut Sqlite) {
    let (act, here) = person.act();
    match (here, file.commit(&act)) {
        (Ok(here), Ok(there)) => assert_eq!(here, there),
        (Err(here), Err(CommitError::Refused(there))) => assert_eq!(here, there),
        (here, there) => panic!("memory says {here:?}, the file {there:?}: {act:?}"),
    }
    let (memory, device) = (&person.store, person.device);
    assert_eq!(file.undoable(device).unwrap(), memory.undoable(device).unwrap(), "what can be undone, {act:?}");
    assert_eq!(file.redoable(device).unwrap(), memory.redoable(device).unwrap(), "what can be redone, {act:?}");
    assert_eq!(file.newest_of(device).unwrap(), memory.newest_of(device).unwrap(), "the newest event, {act:?}");
}
