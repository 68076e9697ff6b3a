//! Fetching, the last night and the drive's rules, tried on a season that is kept nowhere.

use jiff::civil::date;
use proptest::prelude::*;

use super::{BoxChange, Desk, LogHow, Moment, NightRow, PutHow, Season, misfits, offers};
use crate::catalogue::Catalogue;
use crate::model::category::Category;
use crate::model::id::{CountedIds, Ids, PlacementId, SeasonId};
use crate::model::measure::Units;
use crate::model::profile::{Line, Profile, Wanted};
use crate::report::Report;
use crate::store::{Memory, Store};

const SAMPLE: &str = include_str!("../../sample/profile.toml");

fn season() -> Season<Memory> {
    let mut ids = CountedIds::new(0x31);
    let store = Memory::new(SeasonId::new(ids.fresh()));
    let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
    let moment = Moment { now_millis: 1_826_000_000_000, today: date(2027, 11, 15) };
    Season::new(store, Box::new(ids), desk, moment)
}

fn log(season: &mut Season<Memory>, tote: &str, text: &str) {
    let tote = Some(tote.to_owned()).filter(|tote| !tote.is_empty());
    season.log(text, &LogHow { tote, ..LogHow::default() }).unwrap();
}

fn aside(season: &mut Season<Memory>, giftbox: &str, count: u32, words: &str) {
    let how = PutHow { aside: true, ..PutHow::default() };
    season.put(giftbox, Units::new(count).unwrap(), words, &how).unwrap();
}

fn put(season: &mut Season<Memory>, giftbox: &str, words: &str) {
    season.put(giftbox, Units::ONE, words, &PutHow::default()).unwrap();
}

/// Things set aside from three places for boxes 1, 2 and 3; box 3 is closed.
fn waiting() -> Season<Memory> {
    let mut season = season();
    log(&mut season, "tote 10", "4 combs .40");
    log(&mut season, "tote 2", "3 rulers .50\n6 erasers .60");
    log(&mut season, "", "2 dolls 4.00");
    season.plan("3 girl 6-8 ocean").unwrap();
    aside(&mut season, "2", 1, "ruler");
    aside(&mut season, "1", 2, "ruler");
    aside(&mut season, "1", 1, "comb");
    aside(&mut season, "2", 1, "doll");
    aside(&mut season, "3", 3, "eraser");
    season.step("3", BoxChange::Close).unwrap();
    season
}

fn all_placements(season: &Season<Memory>) -> Vec<PlacementId> {
    let list = season.pull_list().unwrap();
    list.totes.iter().flat_map(|tote| &tote.rows).flat_map(|row| row.placements.clone()).collect()
}

#[test]
fn the_pull_list_goes_from_tote_to_tote_and_leaves_closed_boxes_out() {
    let list = waiting().pull_list().unwrap();
    let told = "tote 2\n □ 3 rulers   boxes 1 (2), 2\n\
                tote 10\n □ 1 comb   box 1\n\
                nobody said where\n □ 1 doll   box 2\n\n 5 things to fetch\n";
    assert_eq!(list.text(), told);
    let json: serde_json::Value = serde_json::from_str(&list.json()).unwrap();
    let row = &json["totes"][0]["rows"][0];
    assert_eq!(row["boxes"], serde_json::json!([{"box": "1", "units": 2}, {"box": "2", "units": 1}]));
    assert!(row.get("placements").is_none());
    assert_eq!(season().pull_list().unwrap().text(), "Nothing is set aside.\n");
}

#[test]
fn what_was_fetched_goes_in_as_one_act() {
    let mut season = waiting();
    let before = season.pull_list().unwrap();
    let rulers = before.totes[0].rows[0].placements.clone();
    let done = season.fetch(&rulers).unwrap();
    assert_eq!(done.said, "Put 2 rulers into box 1. Put 1 ruler into box 2.");
    let left = season.pull_list().unwrap();
    assert_eq!(left.totes.iter().map(|tote| tote.tote.as_str()).collect::<Vec<_>>(), ["tote 10", ""]);
    assert_eq!(season.box_card("1").unwrap().line.things, 2);
    season.undo().unwrap();
    assert_eq!(season.pull_list().unwrap(), before);
}

#[test]
fn what_is_not_on_hand_is_named_and_nothing_goes_in() {
    let mut season = waiting();
    let all = all_placements(&season);
    season.lose(Units::ONE, "rulers", "broke").unwrap();
    let kept = season.store().kept().unwrap();
    let said = season.fetch(&all).unwrap_err().to_string();
    assert_eq!(said, "Only 2 rulers on hand that no box holds, 3 asked.");
    assert_eq!(season.store().kept().unwrap(), kept);
    season.take("2", Units::ONE, "ruler").unwrap();
    season.fetch(&all[..1]).unwrap();
    assert!(season.fetch(&all[..1]).is_err(), "it is in already");
    assert!(season.fetch(&[]).is_err(), "nothing was ticked");
}

/// Three boxes near the end: 2 lacks least, 1 lacks more, 3 is for another group; 4 is closed, 5 handed in.
fn near_the_end() -> Season<Memory> {
    let mut season = season();
    season.set_profile(SAMPLE).unwrap();
    let rules = [("checklist, 3–5", "1 toy"), ("checklist, 6–8", "1 toothbrush, 2 hygiene, 2 school")];
    for (what, words) in rules {
        season.mend_rule(what, words).unwrap();
    }
    log(&mut season, "tote 1", "4 toothbrushes .80\n1 comb .10\n1 glue stick .30\n1 ruler .20");
    log(&mut season, "tote 1", "2 notebooks .40\n1 ball ages 6-8 .50\n3 dolls for boys 3.00");
    season.plan("2 girl 6-8 ocean").unwrap();
    season.plan("girl 3-5").unwrap();
    season.plan("2 boy 6-8").unwrap();
    season
}

fn rows(season: &Season<Memory>) -> Vec<NightRow> {
    season.last_night().unwrap().rows
}

#[test]
fn the_last_night_serves_the_box_nearest_to_full_first() {
    let mut season = near_the_end();
    for words in ["toothbrush", "comb", "notebook"] {
        put(&mut season, "2", words);
    }
    put(&mut season, "1", "toothbrush");
    aside(&mut season, "1", 1, "notebook");
    for closed in ["4", "5"] {
        put(&mut season, closed, "toothbrush");
        season.step(closed, BoxChange::Close).unwrap();
    }
    season.step("5", BoxChange::HandIn(date(2027, 11, 14))).unwrap();
    let night = season.last_night().unwrap();
    assert_eq!((night.drop_off.as_str(), night.days_left, night.handed_in), ("2027-11-18", Some(3), 1));
    let told: Vec<(&str, Vec<&str>, &str, bool)> = (night.rows.iter())
        .map(|row| {
            let stops = row.stops.iter().map(String::as_str).collect();
            (row.label.as_str(), stops, row.fix.as_str(), row.fix_from_stock)
        })
        .collect();
    let one = "1 set aside never went in";
    let expected = [
        ("2", vec!["needs 1 school", "not closed"], "glue stick is on hand", true),
        ("3", vec!["needs 1 toy", "not closed"], "nothing on hand suits: buy 1 toy for a girl of 3–5", false),
        (
            "1",
            vec!["needs 1 hygiene, 1 school", one, "not closed"],
            "put in what is set aside; ruler is on hand; buy 1 hygiene for a girl of 6–8",
            false,
        ),
        ("4", vec!["needs 1 hygiene, 2 school", "closed, not handed in"], "hand it in on 2027-11-18", true),
    ];
    assert_eq!(told, expected);
}

#[test]
fn a_full_box_wants_closing_and_one_that_came_back_wants_a_look() {
    let mut season = near_the_end();
    season.mend_rule("checklist, 6-8", "toothbrush").unwrap();
    for giftbox in ["1", "2"] {
        put(&mut season, giftbox, "toothbrush");
    }
    season.step("2", BoxChange::Close).unwrap();
    season.step("2", BoxChange::HandIn(date(2027, 11, 14))).unwrap();
    season.step("2", BoxChange::CameBack(date(2027, 11, 15))).unwrap();
    season.step("3", BoxChange::Drop).unwrap();
    let rows = rows(&season);
    assert_eq!(rows.iter().map(|row| row.label.as_str()).collect::<Vec<_>>(), ["1", "4", "5", "2"]);
    assert_eq!((rows[0].stops.join("; "), rows[0].fix.as_str()), ("not closed".to_owned(), "close it"));
    assert_eq!(rows[1].fix, "toothbrush is on hand");
    assert_eq!((rows[3].stops.join("; "), rows[3].fix_from_stock), ("came back".to_owned(), true));
}

#[test]
fn the_time_that_is_left_in_words() {
    let mut season = season();
    let left = |season: &Season<Memory>| season.last_night().unwrap().time_left();
    assert_eq!(left(&season), "No drop-off day is known.");
    season.mend_rule("drop-off", "16 Nov 2027").unwrap();
    assert_eq!(left(&season), "Drop-off 2027-11-16, 1 day left.");
    season.mend_rule("drop-off", "2027-11-20, 2027-11-15").unwrap();
    assert_eq!(left(&season), "The drop-off is today, 2027-11-15.");
    season.mend_rule("drop-off", "2027-11-13, 2027-11-01").unwrap();
    assert_eq!(left(&season), "The last drop-off was 2027-11-13, 2 days ago.");
}

fn row(season: &Season<Memory>, what: &str) -> String {
    let rows = season.rule_rows().unwrap();
    rows.into_iter().find(|row| row.what == what).unwrap().words
}

/// Each row's own words, said again, change nothing.
fn says_itself(season: &mut Season<Memory>) {
    for row in season.rule_rows().unwrap() {
        let said = season.mend_rule(&row.what, &row.words).unwrap_err().to_string();
        assert_eq!(said, "The drive's rules are so already.", "{row:?}");
    }
}

#[test]
fn every_row_read_back_is_what_it_was() {
    let mut season = season();
    says_itself(&mut season);
    season.set_profile(SAMPLE).unwrap();
    says_itself(&mut season);
    let rows = season.rule_rows().unwrap();
    let told: Vec<(&str, &str)> = rows.iter().map(|row| (row.what.as_str(), row.words.as_str())).collect();
    let list = "3 hygiene, 4 school, 2 clothing, 2 toy, 1 wow item, 1 toothbrush";
    let expected = [
        ("name", "Quillhaven Gift Box Drive 2027"),
        ("age groups", "3-5, 6-8, 9-12"),
        ("checklist, 3–5", "3 hygiene, 3 school, 2 clothing, 2 toy, 1 wow item, 1 toothbrush"),
        ("checklist, 6–8", list),
        ("checklist, 9–12", list),
        ("box, inside", "33 x 20 x 12 cm"),
        ("box, weight", "3 kg"),
        ("wish per box", "9.00"),
        ("fee per box", "10.00"),
        ("drop-off", "2027-11-18, 2027-11-20, 2027-11-21"),
        ("currency", "USD"),
    ];
    assert_eq!(told, expected);
}

#[test]
fn each_row_is_mended_alone_and_taken_back() {
    let mut season = season();
    season.set_profile(SAMPLE).unwrap();
    let before = season.rule_rows().unwrap();
    let changes = [
        ("Name", "Otter Bay Drive", "name", "Otter Bay Drive"),
        ("checklist, 6-8", "Hygiene, 2 notebooks, 12 stickers", "checklist, 6–8", "1 hygiene, 2 notebook, 12 sticker"),
        ("box, inside", "10 x 12 x 8 in", "box, inside", "30.5 x 25.4 x 20.3 cm"),
        ("box, weight", "", "box, weight", ""),
        ("wish per box", "$8.5", "wish per box", "8.50"),
        ("fee per box", "0", "fee per box", "0.00"),
        ("drop-off", "18 Nov 2027", "drop-off", "2027-11-18"),
        ("currency", "eur", "currency", "EUR"),
    ];
    for (what, words, row, becomes) in changes {
        season.mend_rule(what, words).unwrap();
        let mended = season.rule_rows().unwrap();
        let differ: Vec<_> = mended.iter().zip(&before).filter(|(new, old)| new != old).map(|(new, _)| new).collect();
        assert_eq!(differ.len(), 1, "{differ:?}");
        assert_eq!((differ[0].what.as_str(), differ[0].words.as_str()), (row, becomes));
        season.undo().unwrap();
        assert_eq!(season.rule_rows().unwrap(), before);
    }
}

#[test]
fn what_cannot_be_read_says_what_where_and_what_would_do() {
    let mut season = season();
    let kept = season.store().kept().unwrap();
    let mut says = |what: &str, words: &str| season.mend_rule(what, words).unwrap_err().to_string();
    let knows = "\"name\", \"age groups\", \"checklist, 3–5\", \"checklist, 6–8\", \"checklist, 9–12\", \"box, inside\", \
                 \"box, weight\", \"wish per box\", \"fee per box\", \"drop-off\", \"currency\"";
    assert_eq!(says("lid", "red"), format!("\"lid\" is no rule of a drive; there is {knows}"));
    assert_eq!(says("name", " "), "name: a drive has a name; write it");
    assert_eq!(says("age groups", "3-6, 6-8"), "age groups: 3–6 and 6–8 overlap; each age belongs to one group");
    assert_eq!(
        says("checklist, 6–8", "3 gizmo"),
        "checklist, 6–8: \"gizmo\" is no category and no kind that is known; write \"category gizmo\" or \"kind gizmo\""
    );
    assert!(
        says("checklist, 6–8", "3 toy, 1 toys")
            .ends_with("toy stands there twice; write it once with the number of all")
    );
    assert!(says("checklist, 6–8", "100 toy").ends_with("a line asks for 1 to 99"));
    assert!(says("box, inside", "33 x 20 x 12").ends_with("write for example 33 x 20 x 12 cm"));
    assert!(says("box, weight", "heavy").ends_with("write for example 3 kg"));
    assert_eq!(says("wish per box", "9.005"), "wish per box: \"9.005\" is no amount of USD; write for example 9.00");
    assert!(says("fee per box", "-1").contains("is no amount of USD"));
    assert!(says("drop-off", "soon").ends_with("\"soon\" is no day; write 2027-11-18 or 18 Nov 2027"));
    assert!(says("currency", "shells").contains("three letters of ISO 4217"));
    assert_eq!(season.store().kept().unwrap(), kept);
}

#[test]
fn an_amount_that_another_currency_has_not_is_named() {
    let mut season = season();
    season.mend_rule("wish per box", "8.50").unwrap();
    let said = season.mend_rule("currency", "JPY").unwrap_err().to_string();
    assert_eq!(said, "currency: JPY has no 8.50; mend the wish per box first");
    season.mend_rule("wish per box", "8").unwrap();
    season.mend_rule("currency", "JPY").unwrap();
    assert_eq!(row(&season, "wish per box"), "8");
}

#[test]
fn boxes_go_along_with_a_changed_group() {
    let mut season = season();
    season.mend_rule("checklist, 6–8", "5 toy").unwrap();
    season.plan("2 girl 6-8").unwrap();
    season.plan("boy 9-12").unwrap();
    season.step("2", BoxChange::Close).unwrap();
    let done = season.mend_rule("age groups", "3-5, 6-9, 10-12").unwrap();
    assert_eq!(done.notes, ["Age groups: 3-5, 6-9, 10-12.", "For 6–9 now: boxes 1, 2.", "For 10–12 now: box 3."]);
    assert_eq!(row(&season, "checklist, 6–9"), "5 toy");
    let ages = |season: &Season<Memory>| {
        season.box_list().unwrap().boxes.into_iter().map(|line| line.ages).collect::<Vec<_>>()
    };
    assert_eq!(ages(&season), ["6–9", "6–9", "10–12"]);
    season.undo().unwrap();
    assert_eq!(ages(&season), ["6–8", "6–8", "9–12"]);
    assert_eq!(row(&season, "age groups"), "3-5, 6-8, 9-12");
}

#[test]
fn boxes_of_a_group_that_goes_are_named() {
    let mut season = season();
    season.plan("2 girl 6-8").unwrap();
    season.plan("boy 9-12").unwrap();
    let refused =
        |season: &mut Season<Memory>, words: &str| season.mend_rule("age groups", words).unwrap_err().to_string();
    let said = refused(&mut season, "3-5, 9-12");
    assert!(said.starts_with("age groups: boxes 1, 2 would be left without a group: 6–8 is gone or parted."), "{said}");
    assert!(refused(&mut season, "3-6, 7-12").contains("boxes 1, 2"));
    assert!(refused(&mut season, "3-5, 6-8").contains("box 3 would"));
    season.step("3", BoxChange::Drop).unwrap();
    season.mend_rule("age groups", "3-5, 6-8").unwrap();
    season.mend_rule("age groups", "5-8").unwrap();
    season.undo().unwrap();
    assert_eq!(season.box_list().unwrap().boxes[0].ages, "6–8");
}

fn asked_for() -> impl Strategy<Value = Wanted> {
    let names =
        prop_oneof![Just("toothbrush"), Just("gizmo"), Just("music"), Just("wow"), Just("toys"), Just("kind ball")];
    (any::<bool>(), names).prop_map(|(kind, name)| {
        if kind { Wanted::Kind(name.to_owned()) } else { Wanted::Category(Category::from(name)) }
    })
}

proptest! {
    #[test]
    fn any_checklist_is_read_back_as_it_is_written(of in prop::collection::btree_set(asked_for(), 0..6)) {
        let mut profile = Profile::default();
        let line = |(of, count): (Wanted, u32)| Line { of, count };
        profile.bands[1].checklist = of.into_iter().zip(1..).map(line).collect();
        let mut season = season();
        season.set_profile(&profile.to_toml()).unwrap();
        prop_assert_eq!(&season.profile().unwrap(), &profile);
        for row in season.rule_rows().unwrap() {
            let said = season.mend_rule(&row.what, &row.words).map_err(|error| error.to_string());
            prop_assert_eq!(said.unwrap_err(), "The drive's rules are so already.", "{:?}", row);
        }
    }
}

#[test]
fn the_catalogue_names_what_uses_name() {
    let catalogue = Catalogue::built_in();
    for kind in crate::suits::kinds_with_a_use() {
        assert!(catalogue.kinds().iter().any(|known| known.name == kind), "{kind} is no kind of the catalogue");
    }
}
#[test]
fn what_is_offered_for_a_line_comes_off_the_shelf() {
    let mut season = season();
    season.mend_rule("checklist, 6-8", "4 school, 1 toothbrush").unwrap();
    log(&mut season, "tote 1", "3 notebooks, coral .30\n2 notebooks, red .20\n2 rulers .20\n1 eraser .10\n4 combs .40");
    log(&mut season, "tote 1", "2 pencil cases for boys 1.00\n1 glue stick ages 9-12 .30\n1 pens, coral .10");
    season.plan("2 girl 6-8 ocean, teal and coral").unwrap();
    put(&mut season, "1", "notebook, coral");
    aside(&mut season, "1", 1, "ruler");
    aside(&mut season, "2", 1, "eraser");
    let (shelf, card) = (season.shelf().unwrap(), season.box_card("1").unwrap());
    let profile = season.profile().unwrap();
    let school = Wanted::Category(Category::School);
    let found = offers(shelf.wares(), &card, &profile, Some(&school), 9);
    let told: Vec<(&str, &str, u32)> =
        found.iter().map(|offer| (&*offer.ware.title, offer.remark.as_str(), offer.aside_here)).collect();
    let expected = [
        ("rulers", "set aside for it", 1),
        ("pens, coral", "", 0),
        ("notebooks, red", "has a notebook", 0),
        ("notebooks, coral", "has this already", 0),
    ];
    assert_eq!(told, expected);
    assert_eq!(found[1].reasons, ["nothing to write with in it yet", "coral, a colour of this box"]);
    let against = |title: &str| misfits(shelf.wares().iter().find(|ware| &*ware.title == title).unwrap(), &card);
    assert_eq!(against("pencil cases").as_deref(), Some("for a boy"));
    assert_eq!(against("glue stick").as_deref(), Some("ages 9–12"));
    assert_eq!(against("eraser").as_deref(), Some("none on hand that no box holds"));
    assert_eq!((against("rulers"), against("combs")), (None, None));
}
