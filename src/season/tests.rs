//! Deciding, tried on a season that is kept nowhere: which facts an act comes to.

use jiff::civil::date;

use super::{BoxChange, CountLine, Desk, KitHow, LogHow, Moment, PutHow, Season, SplitHow};
use crate::model::fact::Fact;
use crate::model::id::{CountedIds, Ids, SeasonId};
use crate::model::measure::Units;
use crate::store::{Memory, Store};

fn season() -> Season<Memory> {
    let mut ids = CountedIds::new(0x21);
    let store = Memory::new(SeasonId::new(ids.fresh()));
    let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
    let moment = Moment { now_millis: 1_800_000_000_000, today: date(2027, 1, 15) };
    let mut season = Season::new(store, Box::new(ids), desk, moment);
    let log = |season: &mut Season<Memory>, day, text: &str| {
        let how = LogHow { date: Some(day), tote: Some("tote 4".to_owned()), ..LogHow::default() };
        season.log(text, &how).unwrap();
    };
    log(&mut season, date(2027, 1, 10), "4 combs .40\n2 rulers .50");
    log(&mut season, date(2027, 1, 5), "3 combs .60");
    season.plan("2 girl 6-8 ocean").unwrap();
    season
}

fn units(count: u32) -> Units {
    Units::new(count).unwrap()
}

/// The facts of the newest act, each as a word and how many.
fn newest(season: &Season<Memory>) -> Vec<(&'static str, u32)> {
    let kept = season.store().kept().unwrap();
    let act = kept.last().unwrap().act;
    let facts = kept.iter().filter(|kept| kept.act == act).map(|kept| kept.event().unwrap().fact);
    facts.map(|fact| told(&fact)).collect()
}

fn told(fact: &Fact) -> (&'static str, u32) {
    match fact {
        Fact::SetAside(b) => ("aside", b.units.count()),
        Fact::PutIn(b) => ("in", b.units.count()),
        Fact::TakenBack(b) => ("back", b.units.count()),
        Fact::LetGo(b) => ("let go", b.units.count()),
        Fact::Moved(b) => ("moved", b.units.count()),
        Fact::Counted(b) => ("counted", b.found.count()),
        Fact::Split(b) => ("split", b.facts.units.count()),
        Fact::KitMade(b) => ("kit of", u32::try_from(b.parts.len()).unwrap()),
        Fact::BoxPlanned(b) => ("box", b.facts.number),
        Fact::BoxReopened(_) => ("reopened", 1),
        Fact::PlacementMended(_) => ("said", 1),
        _ => ("other", 0),
    }
}

#[test]
fn the_older_batch_goes_first_and_the_next_one_fills_up() {
    let mut season = season();
    season.put("1", units(5), "combs", &PutHow::default()).unwrap();
    assert_eq!(newest(&season), [("in", 3), ("in", 2)]);
    // 0.60 for the three of the fifth, 0.20 for two of the four of the tenth.
    assert_eq!(season.box_card("1").unwrap().line.cost.known, "0.80");
}

#[test]
fn what_is_set_aside_for_a_box_goes_in_before_more_is_taken() {
    let mut season = season();
    season.put("1", units(2), "combs", &PutHow { aside: true, ..PutHow::default() }).unwrap();
    season.put("1", units(4), "combs", &PutHow { wow: true, ..PutHow::default() }).unwrap();
    assert_eq!(newest(&season), [("in", 2), ("in", 1), ("in", 1), ("said", 1), ("said", 1), ("said", 1)]);
}

#[test]
fn taking_back_begins_with_what_is_in_and_ends_with_what_waits() {
    let mut season = season();
    season.put("1", units(2), "rulers", &PutHow { aside: true, ..PutHow::default() }).unwrap();
    season.put("1", units(1), "rulers", &PutHow::default()).unwrap();
    season.take("1", units(2), "ruler").unwrap();
    assert_eq!(newest(&season), [("back", 1), ("let go", 1)]);
}

#[test]
fn a_refused_act_keeps_nothing() {
    let mut season = season();
    let before = season.store().kept().unwrap();
    assert!(season.put("1", units(8), "combs", &PutHow::default()).is_err());
    assert!(season.each("1-2", "plush", false).is_err());
    assert!(season.step("1", BoxChange::Reopen).is_err());
    assert!(season.carry("1", "2", units(1), "comb").is_err());
    assert_eq!(season.store().kept().unwrap(), before);
}

#[test]
fn one_into_each_takes_from_both_batches_in_one_act() {
    let mut season = season();
    season.plan("3 boy 9-12").unwrap();
    season.each("1-5", "combs", true).unwrap();
    assert_eq!(newest(&season), [("aside", 1); 5]);
    assert_eq!(season.where_is("comb").unwrap().things[0].boxes.len(), 5);
}

#[test]
fn a_count_takes_what_is_missing_from_the_batch_used_up_first() {
    let mut season = season();
    season.count(Some("tote 4"), &[CountLine::from("5 combs").unwrap()]).unwrap();
    assert_eq!(newest(&season), [("counted", 1), ("counted", 4)]);
    season.count(None, &[CountLine::from("combs 9").unwrap()]).unwrap();
    assert_eq!(newest(&season), [("counted", 1), ("counted", 8)]);
}

#[test]
fn a_kit_takes_each_batch_once_and_bundles_need_a_whole_number() {
    let mut season = season();
    let parts = vec![(units(2), "comb".to_owned()), (units(1), "ruler".to_owned()), (units(1), "comb".to_owned())];
    let how = KitHow { name: "Kit".to_owned(), count: units(2), parts, category: None, tote: None };
    season.kit(&how).unwrap();
    // Six combs: three of the older batch and three of the newer one; two rulers.
    assert_eq!(newest(&season), [("kit of", 3)]);
    let split = |of| SplitHow { of, units: None, name: None };
    assert!(season.split("kit", &split(3)).is_err());
    season.split("kit", &split(2)).unwrap();
    assert_eq!(newest(&season), [("split", 1)]);
}

#[test]
fn a_copy_holds_what_is_there_and_unpacking_opens_the_box() {
    let mut season = season();
    season.put("1", units(2), "rulers", &PutHow::default()).unwrap();
    season.put("1", units(1), "comb", &PutHow::default()).unwrap();
    let done = season.copy("1").unwrap();
    assert_eq!(newest(&season), [("box", 3), ("aside", 1)]);
    assert_eq!(done.notes, ["Not on hand for it: 2 rulers."]);
    season.step("1", BoxChange::Close).unwrap();
    season.unpack("1").unwrap();
    assert_eq!(newest(&season), [("reopened", 1), ("back", 2), ("back", 1)]);
}
