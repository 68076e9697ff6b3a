//! Deciding, tried on a season that is kept nowhere: which facts an act comes to.

use jiff::civil::date;

use super::{BoxChange, CountLine, Desk, KitHow, LogHow, Mend, Moment, PutHow, Season, SplitHow, Touched, Which};
use crate::model::fact::Fact;
use crate::model::id::{CountedIds, Ids, LotId, SeasonId};
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

fn lots(season: &Season<Memory>, words: &str) -> Vec<LotId> {
    let shelf = season.shelf().unwrap();
    shelf.wares()[shelf.find(words, 1)[0]].lots.to_vec()
}

#[test]
fn a_thing_named_by_its_batches_is_the_thing_named_in_words() {
    let by_words = |season: &mut Season<Memory>| {
        season.put("1", units(5), "combs", &PutHow::default()).unwrap();
        season.each("1-2", "ruler", true).unwrap();
        season.take("1", units(4), "combs").unwrap();
        season.carry("1", "2", units(1), "combs").unwrap();
        season.note("2", "combs", "the right green").unwrap();
        season.loose(units(1), "combs", "a neighbour").unwrap();
        season.lose(units(1), "combs", "torn").unwrap();
        season.found(units(2), "combs").unwrap();
    };
    let by_lots = |season: &mut Season<Memory>| {
        let [combs, rulers] = ["combs", "ruler"].map(|words| lots(season, words));
        let (combs, rulers) = (Which::Lots(&combs), Which::Lots(&rulers));
        let boxes: Vec<_> = season.box_list().unwrap().boxes.iter().map(|line| line.giftbox).collect();
        season.put("1", units(5), combs, &PutHow::default()).unwrap();
        season.each_of(&[boxes[1], boxes[0], boxes[1]], rulers, true).unwrap();
        season.take("1", units(4), combs).unwrap();
        season.carry("1", "2", units(1), combs).unwrap();
        season.note("2", combs, "the right green").unwrap();
        season.loose(units(1), combs, "a neighbour").unwrap();
        season.lose(units(1), combs, "torn").unwrap();
        season.found(units(2), combs).unwrap();
    };
    let (mut one, mut other) = (season(), season());
    by_words(&mut one);
    by_lots(&mut other);
    assert_eq!(one.store().kept().unwrap(), other.store().kept().unwrap());
}

#[test]
fn what_is_gone_or_not_in_the_box_is_refused_by_id_too() {
    let mut season = season();
    let (combs, rulers) = (lots(&season, "combs"), lots(&season, "rulers"));
    let before = season.store().kept().unwrap();
    assert!(season.put("1", units(8), Which::Lots(&combs), &PutHow::default()).is_err());
    assert!(season.take("1", units(1), Which::Lots(&rulers)).is_err());
    assert!(season.each_of(&[], Which::Lots(&rulers), false).is_err());
    assert!(season.found(units(1), Which::Lots(&[])).is_err());
    assert_eq!(season.store().kept().unwrap(), before);
    season.undo().unwrap();
    season.undo().unwrap();
    // The three combs of the fifth were logged last.
    let gone = combs[0];
    assert!(season.places_of(&[gone]).is_err());
    season.put("1", units(1), Which::Lots(&combs), &PutHow::default()).unwrap_err();
}

#[test]
fn of_several_batches_the_newest_is_mended_and_all_are_counted() {
    let mut season = season();
    let combs = lots(&season, "combs");
    // The three of the fifth are used first; they were logged after the four of the tenth.
    let mend = Mend { units: Some(units(6)), ..Mend::default() };
    season.mend(Which::Lots(&combs), &mend).unwrap();
    assert_eq!(season.shelf().unwrap().holding(combs[0]).unwrap().on_hand, 10);
    let done = season.count_of(units(5), Which::Lots(&combs)).unwrap();
    assert_eq!(newest(&season), [("counted", 1), ("counted", 4)]);
    assert_eq!(done.notes, ["5 combs: 5 fewer than expected."]);
}

#[test]
fn the_board_tells_what_the_boxes_and_the_stock_come_to() {
    let mut season = season();
    let board = season.board().unwrap();
    assert_eq!((board.on_hand, board.aside, board.hauls, board.spent.as_str()), (9, 0, 2, "1.50"));
    assert_eq!((board.latest_haul, board.drop_off, board.days_left, board.acts), (None, None, None, true));
    season.put("2", units(2), "ruler", &PutHow { aside: true, ..PutHow::default() }).unwrap();
    season.log("1 soap 1.00", &LogHow::default()).unwrap();
    season
        .set_profile(
            "name = \"A drive\"\ncurrency = \"USD\"\ndrop_off = [\"2027-01-10\", \"2027-01-20\"]\n[[band]]\nages = [6, 8]",
        )
        .unwrap();
    let board = season.board().unwrap();
    assert_eq!((board.on_hand, board.aside, board.hauls, board.spent.as_str()), (10, 2, 3, "2.50"));
    assert_eq!((board.drop_off, board.days_left), (Some(date(2027, 1, 20)), Some(5)));
    assert_eq!(board.latest_haul, season.store().hauls().unwrap().last().map(|row| row.haul));
    assert_eq!(
        board.boxes.iter().map(|line| (line.label.as_str(), line.aside)).collect::<Vec<_>>(),
        [("1", 0), ("2", 2)]
    );
    let card = season.box_card_of(board.boxes[1].giftbox).unwrap();
    assert_eq!((card.line.label.as_str(), card.contents[0].lot), ("2", lots(&season, "ruler")[0]));
}

#[test]
fn acts_tell_what_they_touched_once() {
    let mut season = season();
    season.take_touched();
    let rulers = lots(&season, "ruler");
    let boxes = season.box_list().unwrap().boxes;
    season.put("1", units(1), "ruler", &PutHow::default()).unwrap();
    let touched = season.take_touched();
    assert_eq!((touched.lots.len(), touched.lots.first()), (1, rulers.first()));
    assert_eq!(touched.boxes.iter().collect::<Vec<_>>(), [&boxes[0].giftbox]);
    assert!(!touched.rules && !touched.all && touched.hauls.is_empty());
    assert_eq!(season.take_touched(), Touched::default());
    season.undo().unwrap();
    assert_eq!(season.take_touched(), touched);
    assert!(season.put("1", units(9), "ruler", &PutHow::default()).is_err());
    assert!(season.take_touched().is_empty());
}

#[test]
fn at_a_fixed_desk_a_draft_lasts_as_long_as_the_season() {
    let mut season = season();
    assert_eq!(season.kept_draft().unwrap(), None);
    season.keep_draft("12 com").unwrap();
    assert_eq!(season.kept_draft().unwrap().as_deref(), Some("12 com"));
    season.keep_draft("").unwrap();
    assert_eq!(season.kept_draft().unwrap(), None);
    assert!(!season.changed_elsewhere().unwrap());
}
