//! What screens ask that would be slow to gather from all rows.

use jiff::civil::date;

use super::{Player, lot_of, plan_as, scene, units};
use crate::model::category::Category;
use crate::model::event::Subject;
use crate::model::fact::{Fact, HaulLogged, LotAdded, LotMended, OfAct, PlacementField, PlacementMended, Placing};
use crate::model::haul::HaulFacts;
use crate::model::id::{CountedIds, Ids, LotId};
use crate::model::lot::{LotFacts, LotField};
use crate::model::money::{KnownSum, Money};
use crate::store::{InBox, Store, Totals, check};

fn called(lot: LotId, name: &str, colours: &[&str]) -> Fact {
    let colours = colours.iter().map(|colour| (*colour).to_owned()).collect();
    let facts = LotFacts { name: name.into(), units: units(2), colours, ..LotFacts::default() };
    Fact::LotAdded(LotAdded { lot, haul: None, facts })
}

fn shown(store: &impl Store) -> Vec<LotId> {
    let mut lots = Vec::new();
    store.each_lot(&mut |row| lots.push(row.lot)).unwrap();
    lots
}

pub fn batches_are_shown_by_title_then_by_arrival(mut store: impl Store) {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    let [soap, old, teal, new] = [(); 4].map(|()| ids.lot());
    player.act(&mut store, vec![called(soap, "soap", &[])]).unwrap();
    player.act(&mut store, vec![called(old, "comb", &[])]).unwrap();
    player.act(&mut store, vec![called(teal, "comb", &["teal"])]).unwrap();
    player.act(&mut store, vec![called(new, "comb", &[])]).unwrap();
    assert_eq!(shown(&store), [old, new, teal, soap]);
    let titled = |store: &_, title| -> Vec<LotId> {
        Store::lots_titled(store, title).unwrap().iter().map(|row| row.lot).collect()
    };
    assert_eq!(titled(&store, "comb"), [old, new]);
    assert_eq!(titled(&store, "comb, teal"), [teal]);
    assert!(titled(&store, "com").is_empty());
    assert_eq!(store.titles_on_hand(2).unwrap(), ["comb", "comb, teal"]);
    let set = vec![LotField::Name("yarn".into())];
    player.act(&mut store, vec![Fact::LotMended(LotMended { lot: teal, set })]).unwrap();
    assert_eq!(shown(&store), [old, new, soap, teal]);
    assert_eq!(store.titles_on_hand(9).unwrap(), ["comb", "soap", "yarn, teal"]);
    assert_eq!(check(&store).unwrap(), []);
}

pub fn sums_follow_every_act(mut store: impl Store) {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    assert_eq!(store.totals().unwrap(), Totals::default());
    let (haul, comb, soap) = (ids.haul(), ids.lot(), ids.lot());
    let facts = HaulFacts { tax: Money::new(10).unwrap(), ..HaulFacts::on(date(2027, 1, 9)) };
    let open = LotFacts { name: "soap".into(), units: units(4), ..LotFacts::default() };
    let open = Fact::LotAdded(LotAdded { lot: soap, haul: Some(haul), facts: open });
    player
        .act(&mut store, vec![Fact::HaulLogged(HaulLogged { haul, facts }), lot_of(comb, Some(haul), 3, 100), open])
        .unwrap();
    let spent = |minor, unpriced, about| KnownSum { known: Money::new(minor).unwrap(), unpriced, about };
    let totals = Totals { spent: spent(110, 4, false), on_hand: 7, aside: 0, hauls: 1 };
    assert_eq!(store.totals().unwrap(), totals);
    let giftbox = ids.giftbox();
    let placing = Placing { placement: ids.placement(), lot: comb, giftbox, units: units(2) };
    player.act(&mut store, vec![plan_as(giftbox, 1), Fact::SetAside(placing)]).unwrap();
    assert_eq!(store.totals().unwrap(), Totals { aside: 2, ..totals });
    let set = vec![LotField::About(true), LotField::Paid(Money::new(50))];
    player.act(&mut store, vec![Fact::LotMended(LotMended { lot: soap, set })]).unwrap();
    assert_eq!(store.totals().unwrap().spent, spent(160, 0, true));
    let act = player.last_act.unwrap();
    player.act(&mut store, vec![Fact::Voided(OfAct { act })]).unwrap();
    assert_eq!(store.totals().unwrap(), Totals { aside: 2, ..totals });
    store.rebuild().unwrap();
    assert_eq!(store.totals().unwrap(), Totals { aside: 2, ..totals });
}

pub fn the_latest_haul_of_a_day(mut store: impl Store) {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    let [early, late, other] = [(); 3].map(|()| ids.haul());
    for (haul, day) in [(early, 9), (late, 9), (other, 8)] {
        let facts = HaulFacts::on(date(2027, 1, day));
        player.act(&mut store, vec![Fact::HaulLogged(HaulLogged { haul, facts })]).unwrap();
    }
    assert_eq!(store.latest_haul(date(2027, 1, 9)).unwrap(), Some(late));
    assert_eq!(store.latest_haul(date(2027, 1, 8)).unwrap(), Some(other));
    assert_eq!(store.latest_haul(date(2027, 1, 7)).unwrap(), None);
}

pub fn what_is_in_boxes_is_told_with_its_kind_and_cost(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let set = vec![LotField::Kind(Some("comb".into())), LotField::Category(Some(Category::Hygiene))];
    scene.player.act(&mut store, vec![Fact::LotMended(LotMended { lot: scene.lot, set })]).unwrap();
    let (put, aside) = (scene.placing(1), scene.placing(2));
    let Placing { placement, lot, giftbox, .. } = put;
    let set = vec![PlacementField::Wow(true)];
    let wow = Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set });
    scene.player.act(&mut store, vec![Fact::PutIn(put), wow]).unwrap();
    scene.player.act(&mut store, vec![Fact::SetAside(aside)]).unwrap();
    let held = store.in_box(giftbox).unwrap();
    let told: Vec<_> = held.iter().map(|row: &InBox| (row.held.units, row.held.aside, row.held.wow)).collect();
    assert_eq!(told, [(units(1), units(0), true), (units(0), units(2), false)]);
    assert_eq!(held[0].cost.known.minor(), 33);
    assert_eq!((held[1].held.kind.as_deref(), held[1].held.category.clone()), (Some("comb"), Some(Category::Hygiene)));
    assert_eq!(store.in_boxes().unwrap(), held);
    assert!(store.in_box(scene.ids.giftbox()).unwrap().is_empty());
}

pub fn what_is_allowed_in_a_box_is_told_until_it_is_no_longer(mut store: impl Store) {
    let mut scene = scene(&mut store, 3, 100);
    let put = scene.placing(1);
    let Placing { placement, lot, giftbox, .. } = put;
    let allowed = |why: &str| {
        let set = vec![PlacementField::Allowed(why.to_owned())];
        Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set })
    };
    scene.player.act(&mut store, vec![Fact::PutIn(put), allowed("a helper is there")]).unwrap();
    let told = store.placements_in(giftbox).unwrap()[0].allowed.clone().unwrap();
    assert_eq!((told.why.as_str(), told.by.as_str()), ("a helper is there", "ann"));
    scene.player.act(&mut store, vec![allowed("")]).unwrap();
    assert_eq!(store.placements_in(giftbox).unwrap()[0].allowed, None);
}

pub fn deeds_leave_undoing_out(mut store: impl Store) {
    let mut ids = CountedIds::new(20);
    let mut player = Player::new(1);
    let mut acts = Vec::new();
    for number in 1..=3 {
        player.act(&mut store, vec![plan_as(ids.giftbox(), number)]).unwrap();
        acts.extend(player.last_act);
    }
    player.act(&mut store, vec![Fact::Voided(OfAct { act: acts[2] })]).unwrap();
    let deeds = store.deeds(2).unwrap();
    assert_eq!(deeds.iter().map(|row| (row.act, row.live)).collect::<Vec<_>>(), [(acts[2], false), (acts[1], true)]);
    assert!(store.events_about(Subject::Act(acts[2])).unwrap().len() == 1);
}
