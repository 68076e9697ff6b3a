//! Small cases reckoned by hand: they pin the program and the oracle alike, so that neither is only
//! ever compared with the other.

use brimful::model::commit::Holdings;
use brimful::model::fact::{
    Fact, Found, Gone, HaulLogged, HaulMended, KitMade, LotAdded, LotMended, Moved, OfAct, Part, Placing, Split,
};
use brimful::model::haul::{HaulFacts, HaulField};
use brimful::model::id::{BoxId, HaulId, Ids, LotId, PlacementId};
use brimful::model::lot::{LotFacts, LotField, Source};
use brimful::model::measure::Units;
use brimful::model::money::Money;
use brimful::model::project::Tables;
use brimful::model::rows::Way;
use brimful::store::Store;
use jiff::civil::date;

use crate::play::Person;
use crate::table::holds;

fn units(count: u32) -> Units {
    Units::new(count).unwrap()
}

fn person(nth: u16) -> Person {
    let mut person = Person::new(nth, 0);
    // The second one's clock runs a little behind, so that it is known whose act is older.
    person.now = 1_800_000_000_000 + u64::from(nth) * 100;
    person
}

impl Person {
    fn buys(&mut self, count: u32, cents: i64, haul: Option<HaulId>) -> LotId {
        let lot = self.ids.lot();
        let paid = Money::new(cents);
        let facts = LotFacts { name: "comb".to_owned(), units: units(count), paid, ..LotFacts::default() };
        self.must(vec![Fact::LotAdded(LotAdded { lot, haul, facts })]);
        lot
    }

    fn plans(&mut self) -> BoxId {
        let ages = brimful::model::age::Ages::new(6, Some(8)).unwrap();
        let (giftbox, theme, palette) = (self.ids.giftbox(), String::new(), Vec::new());
        let facts = brimful::model::giftbox::BoxFacts { number: 1, for_whom: None, ages, theme, palette };
        self.must(vec![Fact::BoxPlanned(brimful::model::fact::BoxPlanned { giftbox, facts })]);
        giftbox
    }

    fn puts(&mut self, lot: LotId, giftbox: BoxId, count: u32) -> PlacementId {
        let placement = self.ids.placement();
        self.must(vec![Fact::PutIn(Placing { placement, lot, giftbox, units: units(count) })]);
        placement
    }

    fn takes_back(&mut self, placement: PlacementId, count: u32) {
        let row = self.store.placement(placement).unwrap().unwrap();
        let (lot, giftbox) = (row.lot, row.giftbox);
        self.must(vec![Fact::TakenBack(Placing { placement, lot, giftbox, units: units(count) })]);
    }

    fn loses(&mut self, lot: LotId, count: u32) {
        self.must(vec![Fact::Lost(Gone { lot, units: units(count), words: String::new() })]);
    }

    /// Units, bare ones and cents in a placement; the laws and the oracle are asked as well.
    fn holds(&self, placement: PlacementId) -> (u32, u32, i64) {
        holds(&self.store, "by hand");
        let row = self.store.placement(placement).unwrap().unwrap();
        (row.units.count(), row.bare.count(), row.cost.minor())
    }

    /// Units and cents on hand.
    fn hand(&self, lot: LotId) -> (u32, i64) {
        holds(&self.store, "by hand");
        let standing = self.store.lot(lot).unwrap().unwrap().standing;
        (standing.on_hand.count(), standing.on_hand_cost.minor())
    }

    fn cost_in(&self, lot: LotId) -> i64 {
        holds(&self.store, "by hand");
        self.store.lot(lot).unwrap().unwrap().cost_in.minor()
    }

    fn outs(&self) -> Vec<(Way, u32, u32, i64)> {
        let outs = self.store.outs().unwrap();
        outs.iter().map(|out| (out.way, out.units.count(), out.bare.count(), out.cost.minor())).collect()
    }
}

/// 100 over 3 units: 33.33 is 33, then half of 67 is 33.5 and goes to 34, the even one; the last takes 33.
#[test]
fn three_units_of_a_hundred() {
    let mut ann = person(0);
    let (lot, giftbox) = (ann.buys(3, 100, None), ann.plans());
    let [first, second] = [ann.puts(lot, giftbox, 1), ann.puts(lot, giftbox, 1)];
    assert_eq!((ann.holds(first), ann.holds(second), ann.hand(lot)), ((1, 0, 33), (1, 0, 34), (1, 33)));
    let third = ann.puts(lot, giftbox, 1);
    assert_eq!((ann.holds(third), ann.hand(lot)), ((1, 0, 33), (0, 0)));
    ann.takes_back(second, 1);
    assert_eq!(ann.hand(lot), (1, 34));
    // 66 on hand once the first is back, too: two for 67. One of them is 33.5, so 34.
    ann.takes_back(first, 1);
    ann.loses(lot, 1);
    assert_eq!((ann.hand(lot), ann.outs()), ((1, 33), vec![(Way::Lost, 1, 0, 34)]));
}

/// Both have the same batch and box, and neither sees what the other does until they join.
fn two(count: u32, cents: i64) -> (Person, Person, LotId, BoxId) {
    let (mut ann, mut ben) = (person(0), person(1));
    let (lot, giftbox) = (ann.buys(count, cents, None), ann.plans());
    ben.take_in(&ann.store);
    ben.now = ann.now + 100;
    (ann, ben, lot, giftbox)
}

#[test]
fn the_last_one_twice_and_back() {
    let (mut ann, mut ben, lot, giftbox) = two(1, 100);
    let (hers, his) = (ann.puts(lot, giftbox, 1), ben.puts(lot, giftbox, 1));
    ann.take_in(&ben.store);
    assert_eq!((ann.holds(hers), ann.holds(his), ann.hand(lot)), ((1, 0, 100), (1, 1, 0), (0, 0)));
    ann.takes_back(hers, 1);
    assert_eq!((ann.holds(his), ann.hand(lot)), ((1, 0, 100), (0, 0)));
}

/// Four for 100, all in her box; he packed three and lost one meanwhile, all of them bare.
#[test]
fn what_comes_back_covers_the_oldest_bare_units() {
    let (mut ann, mut ben, lot, giftbox) = two(4, 100);
    let hers = ann.puts(lot, giftbox, 4);
    let his = ben.puts(lot, giftbox, 3);
    ben.loses(lot, 1);
    ann.take_in(&ben.store);
    assert_eq!((ann.holds(hers), ann.holds(his)), ((4, 0, 100), (3, 3, 0)));
    assert_eq!(ann.outs(), [(Way::Lost, 1, 1, 0)]);
    // Two come back with 50: two of his three are covered.
    ann.takes_back(hers, 2);
    assert_eq!((ann.holds(hers), ann.holds(his)), ((2, 0, 50), (3, 1, 50)));
    // Two more with 50: one covers his third with half of that, one covers the lost one.
    ann.takes_back(hers, 2);
    assert_eq!((ann.holds(his), ann.hand(lot), ann.outs()), ((3, 0, 75), (0, 0), vec![(Way::Lost, 1, 0, 25)]));
}

/// Of his three, one bare and two with 50, two are moved on: the bare one and one with 25.
#[test]
fn bare_units_are_moved_first_and_found_ones_cover_for_nothing() {
    let (mut ann, mut ben, lot, giftbox) = two(5, 100);
    ann.loses(lot, 3);
    let his = ben.puts(lot, giftbox, 3);
    ann.take_in(&ben.store);
    // Three of five are 60; two with 40 were left, and the third is bare.
    assert_eq!((ann.holds(his), ann.outs()), ((3, 1, 40), vec![(Way::Lost, 3, 0, 60)]));
    let (there, to_box) = (ann.ids.placement(), ann.plans());
    let moved = Moved { placement: his, lot, giftbox, to_placement: there, to_box, units: units(2) };
    ann.must(vec![Fact::Moved(moved)]);
    assert_eq!((ann.holds(his), ann.holds(there)), ((1, 0, 20), (2, 1, 20)));
    ann.must(vec![Fact::Found(Found { lot, units: units(2) })]);
    assert_eq!((ann.holds(there), ann.hand(lot)), ((2, 0, 20), (1, 0)));
}

/// One bare and one covered unit in his box: one that is taken back is the bare one and brings nothing.
#[test]
fn bare_units_go_back_first_and_bring_nothing() {
    let (mut ann, mut ben, lot, giftbox) = two(2, 9);
    ann.loses(lot, 1);
    let his = ben.puts(lot, giftbox, 2);
    ann.take_in(&ben.store);
    // Half of 9 is 4.5, and 4 is even.
    assert_eq!((ann.holds(his), ann.outs()), ((2, 1, 5), vec![(Way::Lost, 1, 0, 4)]));
    ann.takes_back(his, 1);
    assert_eq!((ann.holds(his), ann.hand(lot)), ((1, 0, 5), (0, 0)));
    ann.takes_back(his, 1);
    assert_eq!(ann.hand(lot), (1, 5));
}

/// Lines of 1.99, 3.50 and 1.01 with 0.46 tax and 1.00 off: 54 cents off by weight are 16.53, 29.08 and
/// 8.39, so 16, 29 and 8, and the one cent left is the first line's.
#[test]
fn a_haul_adds_up_to_its_receipt() {
    let mut ann = person(0);
    let (haul, money) = (ann.ids.haul(), |cents| Money::new(cents).unwrap());
    let facts = HaulFacts { tax: money(46), coupon: money(100), ..HaulFacts::on(date(2027, 1, 2)) };
    ann.must(vec![Fact::HaulLogged(HaulLogged { haul, facts })]);
    let lots = [199, 350, 101].map(|cents| ann.buys(2, cents, Some(haul)));
    assert_eq!(lots.map(|lot| ann.cost_in(lot)), [182, 321, 93]);
    // A coupon over more than everything makes everything free, and no cent less than that.
    let set = vec![HaulField::Coupon(money(5000))];
    ann.must(vec![Fact::HaulMended(HaulMended { haul, set })]);
    assert_eq!(lots.map(|lot| ann.cost_in(lot)), [0, 0, 0]);
    // The last line undone and the coupon too: 46 over 199 and 350 are 16.67 and 29.33.
    let undo = |ann: &mut Person| ann.step_back();
    undo(&mut ann);
    undo(&mut ann);
    let set = vec![HaulField::Coupon(money(0))];
    ann.must(vec![Fact::HaulMended(HaulMended { haul, set })]);
    assert_eq!([ann.cost_in(lots[0]), ann.cost_in(lots[1])], [216, 379]);
}

/// Two of three for 100 are 66.67, so 67; one of two for 5 is 2.5, so 2: the kit cost 69.
#[test]
fn kits_and_bundles_carry_what_went_into_them() {
    let mut ann = person(0);
    let (one, other) = (ann.buys(3, 100, None), ann.buys(2, 5, None));
    let (into, bundle) = (ann.ids.lot(), ann.ids.lot());
    let made = |source: Source, count| LotFacts {
        name: source.to_string(),
        source,
        units: units(count),
        ..LotFacts::default()
    };
    let parts = vec![Part { lot: one, units: units(2) }, Part { lot: other, units: units(1) }];
    ann.must(vec![Fact::KitMade(KitMade { parts, into, facts: made(Source::Kit, 2) })]);
    assert_eq!((ann.cost_in(into), ann.hand(one), ann.hand(other)), (69, (1, 33), (1, 3)));
    // One of two kits is 34.5, so 34, and is broken up into three things.
    let split = Split { lot: into, units: units(1), into: bundle, facts: made(Source::Split, 3) };
    ann.must(vec![Fact::Split(split)]);
    assert_eq!((ann.cost_in(bundle), ann.hand(into)), (34, (1, 35)));
    // The first batch cost 130 after all: two of three are 86.67, so 87; 89 for the kits, and half of it 44.
    let set = vec![LotField::Paid(Money::new(130))];
    ann.must(vec![Fact::LotMended(LotMended { lot: one, set })]);
    assert_eq!((ann.cost_in(into), ann.cost_in(bundle), ann.hand(into)), (89, 44, (1, 45)));
}

/// Two people who both mend 10 to 12 get 12; one who mends to 3 when 4 are packed has one bare.
#[test]
fn the_last_word_on_a_number_wins() {
    let (mut ann, mut ben, lot, giftbox) = two(10, 120);
    let mend = |count| Fact::LotMended(LotMended { lot, set: vec![LotField::Units(units(count))] });
    ann.must(vec![mend(12)]);
    ben.must(vec![mend(12)]);
    ann.take_in(&ben.store);
    assert_eq!(ann.hand(lot), (12, 120));
    let four = ann.puts(lot, giftbox, 4);
    assert_eq!(ann.holds(four), (4, 0, 40));
    ann.must(vec![mend(3)]);
    assert_eq!((ann.holds(four), ann.hand(lot)), ((4, 1, 120), (0, 0)));
    ann.step_back();
    assert_eq!((ann.holds(four), ann.hand(lot)), ((4, 0, 40), (8, 80)));
}

/// Undone there, packed here: it stays in sight, of no units and no cost, and redo mends all.
#[test]
fn a_withdrawn_batch_that_is_used() {
    let (mut ann, mut ben, lot, giftbox) = two(2, 100);
    let act = ann.acts[0];
    ann.must(vec![Fact::Voided(OfAct { act })]);
    let his = ben.puts(lot, giftbox, 1);
    ann.take_in(&ben.store);
    assert!(ann.store.lot(lot).unwrap().unwrap().withdrawn);
    assert_eq!((ann.cost_in(lot), ann.holds(his), ann.hand(lot)), (0, (1, 1, 0), (0, 0)));
    ann.must(vec![Fact::Restored(OfAct { act })]);
    assert_eq!((ann.cost_in(lot), ann.holds(his), ann.hand(lot)), (100, (1, 0, 50), (1, 50)));
}

/// One more put to those that are there, after one was taken back: that last act rests under nothing.
#[test]
fn the_newest_act_can_be_undone_whatever_came_before_it() {
    let mut ann = person(0);
    let (lot, giftbox) = (ann.buys(3, 99, None), ann.plans());
    let placement = ann.puts(lot, giftbox, 2);
    ann.takes_back(placement, 1);
    ann.must(vec![Fact::PutIn(Placing { placement, lot, giftbox, units: units(1) })]);
    assert_eq!(ann.holds(placement), (2, 0, 66));
    ann.step_back();
    assert_eq!(ann.holds(placement), (1, 0, 33));
}
