//! What every store must do, told once and run on each kind.

mod asked;

use jiff::civil::date;

use super::{CommitError, Committed, Memory, NewAct, Sqlite, Store, StoreError, check};
use crate::model::age::Ages;
use crate::model::commit::Refusal;
use crate::model::fact::{
    BoxPlanned, BoxStep, Counted, Fact, Found, Gone, HaulLogged, HaulMended, KitMade, LotAdded, LotMended, Moved,
    OfAct, Placing, ProfileSet, Split,
};
use crate::model::giftbox::BoxFacts;
use crate::model::haul::{HaulFacts, HaulField};
use crate::model::id::{ActId, BoxId, CountedIds, DeviceId, HaulId, Ids, LotId, SeasonId};
use crate::model::lot::{LotFacts, LotField};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::profile::Profile;

/// Somebody at one computer.
pub struct Player {
    pub device: DeviceId,
    ids: CountedIds,
    now: u64,
    pub last_act: Option<ActId>,
}

impl Player {
    pub fn new(family: u16) -> Player {
        let mut ids = CountedIds::new(0x100 + family);
        let device = ids.device();
        Player { device, ids, now: 1_800_000_000_000, last_act: None }
    }

    pub fn as_device(device: DeviceId) -> Player {
        Player { device, ..Player::new(9) }
    }

    pub fn act(&mut self, store: &mut impl Store, facts: Vec<Fact>) -> Result<Committed, CommitError> {
        self.now += 1000;
        let act = self.ids.act();
        self.last_act = Some(act);
        let facts = facts.into_iter().map(|fact| (self.ids.event(), fact)).collect();
        store.commit(&NewAct { act, device: self.device, by: "ann".to_owned(), now_millis: self.now, facts })
    }
}

pub fn planned(ids: &mut impl Ids, number: u32) -> Fact {
    plan_as(ids.giftbox(), number)
}

fn plan_as(giftbox: BoxId, number: u32) -> Fact {
    let ages = Ages::new(6, Some(8)).unwrap();
    let facts = BoxFacts { number, for_whom: None, ages, theme: "ocean".into(), palette: Vec::new() };
    Fact::BoxPlanned(BoxPlanned { giftbox, facts })
}

fn units(count: u32) -> Units {
    Units::new(count).unwrap()
}

fn lot_of(lot: LotId, haul: Option<HaulId>, count: u32, paid: i64) -> Fact {
    let facts = LotFacts { name: "comb".into(), units: units(count), paid: Money::new(paid), ..LotFacts::default() };
    Fact::LotAdded(LotAdded { lot, haul, facts })
}

/// A box and a batch of `count` combs for `paid` cents.
struct Scene {
    player: Player,
    ids: CountedIds,
    lot: LotId,
    giftbox: BoxId,
}

fn scene(store: &mut impl Store, count: u32, paid: i64) -> Scene {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    let (lot, giftbox) = (ids.lot(), ids.giftbox());
    player.act(store, vec![plan_as(giftbox, 12)]).unwrap();
    player.act(store, vec![lot_of(lot, None, count, paid)]).unwrap();
    Scene { player, ids, lot, giftbox }
}

impl Scene {
    fn placing(&mut self, count: u32) -> Placing {
        let placement = self.ids.placement();
        Placing { placement, lot: self.lot, giftbox: self.giftbox, units: units(count) }
    }
}

fn cost_in(store: &impl Store, lot: LotId) -> i64 {
    store.lot(lot).unwrap().unwrap().cost_in.minor()
}

fn refused(result: Result<Committed, CommitError>) -> Refusal {
    match result {
        Err(CommitError::Refused(refusal)) => refusal,
        other => panic!("expected a refusal, got {other:?}"),
    }
}

fn taking_and_bringing_back(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let put = scene.placing(1);
    scene.player.act(&mut store, vec![Fact::PutIn(put.clone())]).unwrap();
    let row = store.lot(scene.lot).unwrap().unwrap();
    assert_eq!(
        (row.standing.on_hand, row.standing.on_hand_cost.minor(), row.standing.boxed_cost.minor()),
        (units(2), 67, 33)
    );
    let held = store.placements_in(scene.giftbox).unwrap();
    assert_eq!((held[0].units, held[0].cost.minor()), (units(1), 33));
    scene.player.act(&mut store, vec![Fact::TakenBack(put)]).unwrap();
    let row = store.lot(scene.lot).unwrap().unwrap();
    assert_eq!((row.standing.on_hand, row.standing.on_hand_cost.minor()), (units(3), 100));
    assert!(store.placements_in(scene.giftbox).unwrap().is_empty());
}

fn more_than_there_is_is_refused_and_changes_nothing(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let aside = scene.placing(2);
    scene.player.act(&mut store, vec![Fact::SetAside(aside.clone())]).unwrap();
    let before = store.kept().unwrap();
    let first = scene.placing(1);
    let second = scene.placing(1);
    let both = vec![Fact::PutIn(first), Fact::PutIn(second)];
    let told = refused(scene.player.act(&mut store, both)).to_string();
    assert_eq!(told, "only 0 comb on hand that no box holds, 1 asked (2 more set aside for boxes)");
    assert_eq!(store.kept().unwrap(), before);
    scene.player.act(&mut store, vec![Fact::PutIn(Placing { units: units(3), ..aside })]).unwrap();
    let row = store.lot(scene.lot).unwrap().unwrap();
    assert_eq!((row.standing.on_hand, row.standing.aside, row.standing.boxed_cost.minor()), (units(0), units(0), 100));
}

fn a_closed_box_takes_nothing(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let step = BoxStep { giftbox: scene.giftbox };
    scene.player.act(&mut store, vec![Fact::BoxClosed(step.clone())]).unwrap();
    let put = scene.placing(1);
    let told = refused(scene.player.act(&mut store, vec![Fact::PutIn(put.clone())])).to_string();
    assert_eq!(told, "box 12 is closed; open it again first");
    let twice = refused(scene.player.act(&mut store, vec![Fact::BoxClosed(step.clone())])).to_string();
    assert_eq!(twice, "box 12 is closed, so it can't be closed");
    scene.player.act(&mut store, vec![Fact::BoxReopened(step), Fact::PutIn(put)]).unwrap();
}

fn what_comes_on_top_is_shared_to_the_cent(mut store: impl Store) {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    let haul = ids.haul();
    let facts = HaulFacts { tax: Money::new(10).unwrap(), ..HaulFacts::on(date(2027, 2, 14)) };
    let lots = [ids.lot(), ids.lot(), ids.lot()];
    let mut all = vec![Fact::HaulLogged(HaulLogged { haul, facts })];
    all.extend(lots.iter().map(|lot| lot_of(*lot, Some(haul), 1, 100)));
    player.act(&mut store, all).unwrap();
    assert_eq!(lots.map(|lot| cost_in(&store, lot)), [104, 103, 103]);
    let set = vec![HaulField::Coupon(Money::new(40).unwrap())];
    player.act(&mut store, vec![Fact::HaulMended(HaulMended { haul, set })]).unwrap();
    assert_eq!(lots.map(|lot| cost_in(&store, lot)), [90, 90, 90]);
    let set = vec![LotField::Paid(Money::new(400))];
    player.act(&mut store, vec![Fact::LotMended(LotMended { lot: lots[0], set })]).unwrap();
    assert_eq!(lots.map(|lot| cost_in(&store, lot)), [380, 95, 95]);
}

fn undo_and_redo_leave_what_was(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let put = scene.placing(2);
    scene.player.act(&mut store, vec![Fact::PutIn(put)]).unwrap();
    let before = store.lots().unwrap();
    let device = scene.player.device;
    let undo = |store: &mut _, player: &mut Player| {
        let act = Store::undoable(store, device).unwrap().unwrap().act;
        player.act(store, vec![Fact::Voided(OfAct { act })])
    };
    undo(&mut store, &mut scene.player).unwrap();
    assert_eq!(store.lots().unwrap()[0].standing.on_hand, units(3));
    undo(&mut store, &mut scene.player).unwrap();
    assert!(store.lots().unwrap().is_empty());
    for _ in 0..2 {
        let act = store.redoable(device).unwrap().unwrap().act;
        scene.player.act(&mut store, vec![Fact::Restored(OfAct { act })]).unwrap();
    }
    assert!(store.redoable(device).unwrap().is_none());
    assert_eq!(store.lots().unwrap(), before);
    undo(&mut store, &mut scene.player).unwrap();
    scene.player.act(&mut store, vec![planned(&mut scene.ids, 13)]).unwrap();
    assert!(store.redoable(device).unwrap().is_none(), "a new act ends redo");
}

fn an_act_that_others_rest_on_is_not_undone(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let bought = store.undoable(scene.player.device).unwrap().unwrap().act;
    let mut other = Player::new(2);
    let put = scene.placing(1);
    other.act(&mut store, vec![Fact::PutIn(put)]).unwrap();
    let refusal = refused(scene.player.act(&mut store, vec![Fact::Voided(OfAct { act: bought })]));
    assert_eq!(refusal, Refusal::RestedOn { acts: vec![other.last_act.unwrap()] });
}

fn bundles_carry_their_cost_and_follow_corrections(mut store: impl Store) {
    let mut scene = scene(&mut store, 24, 60);
    let into = scene.ids.lot();
    let facts = LotFacts { name: "comb bundle".into(), units: units(2), ..LotFacts::default() };
    let split = Fact::Split(Split { lot: scene.lot, units: units(16), into, facts });
    scene.player.act(&mut store, vec![split]).unwrap();
    assert_eq!(cost_in(&store, into), 40);
    let set = vec![LotField::Paid(Money::new(90))];
    scene.player.act(&mut store, vec![Fact::LotMended(LotMended { lot: scene.lot, set })]).unwrap();
    assert_eq!(cost_in(&store, into), 60);
}

fn counts_and_finds(mut store: impl Store) {
    let mut scene = scene(&mut store, 10, 100);
    let seen = store.lot(scene.lot).unwrap().unwrap().last;
    let count = Counted { lot: scene.lot, found: units(8), expected: units(10), seen };
    scene.player.act(&mut store, vec![Fact::Counted(count.clone())]).unwrap();
    let row = store.lot(scene.lot).unwrap().unwrap();
    assert_eq!((row.standing.lost, row.standing.lost_cost.minor(), row.standing.on_hand), (units(2), 20, units(8)));
    let stale = refused(scene.player.act(&mut store, vec![Fact::Counted(count)]));
    assert_eq!(stale.to_string(), "comb changed while it was being counted; count again");
    let found = Found { lot: scene.lot, units: units(1) };
    scene.player.act(&mut store, vec![Fact::Found(found)]).unwrap();
    let row = store.lot(scene.lot).unwrap().unwrap();
    assert_eq!((row.standing.units_in, row.standing.on_hand_cost.minor()), (units(11), 80));
    assert_eq!(store.counts().unwrap().len(), 1);
}

fn moving_carries_the_cost(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let there = scene.ids.giftbox();
    let put = scene.placing(2);
    scene.player.act(&mut store, vec![plan_as(there, 13), Fact::PutIn(put.clone())]).unwrap();
    let to_placement = scene.ids.placement();
    let Placing { placement, lot, giftbox, .. } = put;
    let moved = Moved { placement, lot, giftbox, to_placement, to_box: there, units: units(1) };
    scene.player.act(&mut store, vec![Fact::Moved(moved)]).unwrap();
    let cost = |giftbox| store.placements_in(giftbox).unwrap().iter().map(|row| row.cost.minor()).sum::<i64>();
    assert_eq!((cost(scene.giftbox), cost(there)), (33, 34));
}

fn the_last_one_packed_twice_waits_for_review(mut ours: impl Store) {
    let mut scene = scene(&mut ours, 1, 100);
    let mut theirs = Memory::new(ours.season());
    theirs.join(&ours.kept().unwrap()).unwrap();
    let mut other = Player::new(2);
    let (a, b) = (scene.placing(1), scene.placing(1));
    scene.player.act(&mut ours, vec![Fact::PutIn(a)]).unwrap();
    other.act(&mut theirs, vec![Fact::PutIn(b)]).unwrap();
    let joined = ours.join(&theirs.kept().unwrap()).unwrap();
    assert_eq!((joined.events, joined.acts, joined.known), (1, 1, 2));
    let row = ours.lot(scene.lot).unwrap().unwrap();
    assert_eq!((row.standing.bare, row.standing.boxed, row.standing.boxed_cost.minor()), (units(1), units(2), 100));
    let again = ours.join(&theirs.kept().unwrap()).unwrap();
    assert_eq!((again.events, again.known), (0, 3));
    theirs.join(&ours.kept().unwrap()).unwrap();
    assert_eq!(theirs.lots().unwrap(), ours.lots().unwrap());
    assert_eq!(theirs.placements().unwrap(), ours.placements().unwrap());
}

fn two_boxes_of_one_number_are_told_apart(mut ours: impl Store) {
    let mut theirs = Memory::new(ours.season());
    let mut ids = CountedIds::new(30);
    Player::new(1).act(&mut ours, vec![planned(&mut ids, 12)]).unwrap();
    let mut later = Player::new(2);
    later.now += 5000;
    later.act(&mut theirs, vec![planned(&mut ids, 12)]).unwrap();
    ours.join(&theirs.kept().unwrap()).unwrap();
    let labels: Vec<String> = ours.boxes().unwrap().iter().map(crate::model::rows::BoxRow::label).collect();
    assert_eq!(labels, ["12", "12b"]);
}

fn a_withdrawn_batch_that_is_still_used_stays_in_sight(mut ours: impl Store) {
    let mut scene = scene(&mut ours, 2, 100);
    let mut theirs = Memory::new(ours.season());
    theirs.join(&ours.kept().unwrap()).unwrap();
    let act = ours.undoable(scene.player.device).unwrap().unwrap().act;
    scene.player.act(&mut ours, vec![Fact::Voided(OfAct { act })]).unwrap();
    assert!(ours.lots().unwrap().is_empty());
    let put = scene.placing(1);
    Player::new(2).act(&mut theirs, vec![Fact::PutIn(put)]).unwrap();
    ours.join(&theirs.kept().unwrap()).unwrap();
    let row = ours.lot(scene.lot).unwrap().unwrap();
    assert!(row.withdrawn);
    assert_eq!((row.cost_in.minor(), row.standing.bare), (0, units(1)));
}

fn the_currency_stays_once_amounts_are_kept(mut store: impl Store) {
    let mut scene = scene(&mut store, 2, 100);
    let euro = crate::model::currency::Currency::by_code("EUR").unwrap();
    let profile = Profile { currency: euro, ..Profile::default() };
    let set = Fact::ProfileSet(ProfileSet { profile });
    let told = refused(scene.player.act(&mut store, vec![set])).to_string();
    assert_eq!(told, "amounts are kept in USD already, so the drive's currency can't become EUR");
    let named = Profile { name: "Another".into(), ..Profile::default() };
    scene.player.act(&mut store, vec![Fact::ProfileSet(ProfileSet { profile: named })]).unwrap();
    assert_eq!(store.profile().unwrap().unwrap().name, "Another");
}

fn a_placement_stays_with_its_batch_and_box(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let (other_box, other_lot) = (scene.ids.giftbox(), scene.ids.lot());
    let put = scene.placing(1);
    scene.player.act(&mut store, vec![plan_as(other_box, 13), lot_of(other_lot, None, 3, 50)]).unwrap();
    scene.player.act(&mut store, vec![Fact::PutIn(put.clone())]).unwrap();
    for wrong in [
        Fact::TakenBack(Placing { giftbox: other_box, ..put.clone() }),
        Fact::PutIn(Placing { lot: other_lot, ..put.clone() }),
        Fact::SetAside(Placing { giftbox: other_box, ..put.clone() }),
    ] {
        let refusal = refused(scene.player.act(&mut store, vec![wrong]));
        assert_eq!(refusal, Refusal::Unknown("that thing in the box"));
    }
    scene.player.act(&mut store, vec![Fact::TakenBack(put.clone())]).unwrap();
    let emptied = Fact::PutIn(Placing { giftbox: other_box, ..put });
    assert_eq!(refused(scene.player.act(&mut store, vec![emptied])), Refusal::Unknown("that thing in the box"));
}

fn what_makes_no_sense_is_refused(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let fresh = scene.ids.lot();
    let facts = LotFacts { name: "kit".into(), units: units(1), ..LotFacts::default() };
    for wrong in [
        lot_of(scene.lot, None, 3, 100),
        plan_as(scene.giftbox, 14),
        lot_of(fresh, None, 3, -1),
        lot_of(fresh, None, 0, 1),
        Fact::Found(Found { lot: scene.lot, units: units(0) }),
        Fact::KitMade(KitMade { parts: Vec::new(), into: fresh, facts: facts.clone() }),
        Fact::Split(Split { lot: scene.lot, units: units(1), into: scene.lot, facts }),
        Fact::LotMended(LotMended { lot: scene.lot, set: vec![LotField::Paid(Money::new(-5))] }),
        Fact::LotMended(LotMended { lot: scene.lot, set: vec![LotField::Name("  ".into())] }),
    ] {
        let refusal = refused(scene.player.act(&mut store, vec![wrong.clone()]));
        assert!(matches!(refusal, Refusal::Senseless(_)), "{wrong:?}: {refusal:?}");
    }
    assert_eq!(store.lots().unwrap().len(), 1);
}

fn rebuilt_rows_are_the_same(mut store: impl Store) {
    let mut scene = scene(&mut store, 5, 99);
    let put = scene.placing(2);
    let gone = Gone { lot: scene.lot, units: units(1), words: "broken".into() };
    scene.player.act(&mut store, vec![Fact::PutIn(put)]).unwrap();
    scene.player.act(&mut store, vec![Fact::Lost(gone)]).unwrap();
    let before = (store.lots().unwrap(), store.placements().unwrap(), store.acts(99).unwrap());
    store.rebuild().unwrap();
    assert_eq!((store.lots().unwrap(), store.placements().unwrap(), store.acts(99).unwrap()), before);
    assert_eq!(check(&store).unwrap(), []);
}

fn foreign_bytes_are_refused_whole(mut ours: impl Store) {
    let mut theirs = Memory::new(ours.season());
    let mut ids = CountedIds::new(30);
    let mut player = Player::new(1);
    player.act(&mut theirs, vec![planned(&mut ids, 1)]).unwrap();
    player.act(&mut theirs, vec![planned(&mut ids, 2)]).unwrap();
    let mut kept = theirs.kept().unwrap();
    kept[1].hash[0] ^= 1;
    assert!(matches!(ours.join(&kept), Err(StoreError::Event(_))));
    assert!(ours.kept().unwrap().is_empty());
}

use asked::{
    batches_are_shown_by_title_then_by_arrival, deeds_leave_undoing_out, sums_follow_every_act,
    the_latest_haul_of_a_day, what_is_allowed_in_a_box_is_told_until_it_is_no_longer,
    what_is_in_boxes_is_told_with_its_kind_and_cost,
};

macro_rules! suite {
    ($($story:ident),* $(,)?) => {
        mod memory {
            use super::*;
            $(#[test] fn $story() {
                super::$story(Memory::new(SeasonId::new(CountedIds::new(1).fresh())));
            })*
        }

        mod sqlite {
            use super::*;
            $(#[test] fn $story() {
                let folder = tempfile::tempdir().unwrap();
                let season = SeasonId::new(CountedIds::new(1).fresh());
                super::$story(Sqlite::open_or_create(&folder.path().join("s.brimful"), season).unwrap());
            })*
        }
    };
}

suite! {
    taking_and_bringing_back,
    more_than_there_is_is_refused_and_changes_nothing,
    a_closed_box_takes_nothing,
    what_comes_on_top_is_shared_to_the_cent,
    undo_and_redo_leave_what_was,
    an_act_that_others_rest_on_is_not_undone,
    bundles_carry_their_cost_and_follow_corrections,
    counts_and_finds,
    moving_carries_the_cost,
    the_last_one_packed_twice_waits_for_review,
    two_boxes_of_one_number_are_told_apart,
    a_withdrawn_batch_that_is_still_used_stays_in_sight,
    the_currency_stays_once_amounts_are_kept,
    a_placement_stays_with_its_batch_and_box,
    what_makes_no_sense_is_refused,
    rebuilt_rows_are_the_same,
    foreign_bytes_are_refused_whole,
    batches_are_shown_by_title_then_by_arrival,
    sums_follow_every_act,
    the_latest_haul_of_a_day,
    what_is_in_boxes_is_told_with_its_kind_and_cost,
    what_is_allowed_in_a_box_is_told_until_it_is_no_longer,
    deeds_leave_undoing_out,
}
