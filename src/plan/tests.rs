//! Small problems whose answers can be seen.

use std::collections::{BTreeMap, BTreeSet};

use super::*;
use crate::model::age::Ages;
use crate::model::stop::Stop;
use crate::model::whom::ForWhom;

/// Stops at once, or never.
struct Now(bool);

impl Stop for Now {
    fn stopped(&self) -> bool {
        self.0
    }
}

const NEVER: &Now = &Now(false);

/// Girls 6–8, or boys, who need so much of categories.
fn group(name: &str, for_whom: ForWhom, boxes: u32, needs: &[(&str, u32)]) -> Group {
    let need = |(category, count): &(&str, u32)| Need {
        category: (*category).to_owned(),
        count: *count,
        must: BTreeMap::new(),
    };
    Group {
        name: name.to_owned(),
        boxes,
        for_whom: Some(for_whom),
        ages: Ages::new(6, Some(8)).unwrap(),
        needs: needs.iter().map(need).collect(),
        caps: BTreeMap::new(),
        room: None,
    }
}

/// For all ages; for either, unless it is a doll or a car.
fn ware(kind: &str, category: &str) -> Ware {
    let for_whom = match kind {
        "doll" => Some(ForWhom::Girl),
        "car" => Some(ForWhom::Boy),
        _ => None,
    };
    Ware { kind: kind.to_owned(), serves: vec![category.to_owned()], for_whom, ages: (0, 99), not_for: BTreeSet::new() }
}

fn thing(kind: &str, category: &str, units: u32) -> Thing {
    Thing { name: format!("{kind}s"), ware: ware(kind, category), units, room: None }
}

fn offer(kind: &str, category: &str, price: i64, pack: u32) -> Offer {
    Offer { name: kind.to_owned(), ware: ware(kind, category), price, pack }
}

fn problem(groups: Vec<Group>, things: Vec<Thing>, offers: Vec<Offer>) -> Problem {
    let (demand, stock, shop) = (Demand { groups }, Stock { things }, Shop { offers });
    Problem { age_rule: AgeRule::Covers, demand, stock, shop, shown: None }
}

/// Six boxes for girls, each still in need of a hygiene thing; 9 are there where 15 are needed.
fn six_lack_hygiene() -> Problem {
    let girls = group("girls 6–8", ForWhom::Girl, 15, &[("hygiene", 1), ("toy", 1)]);
    let offers = ["comb", "toothbrush", "washcloth"].iter().zip([30, 31, 32]);
    let offers = offers.map(|(kind, price)| offer(kind, "hygiene", price, 1)).collect();
    problem(vec![girls], vec![thing("soap", "hygiene", 9), thing("doll", "toy", 20)], offers)
}

#[test]
fn what_holds_back_is_said_with_its_way_out() {
    let problem = six_lack_hygiene();
    let most = most(&problem, NEVER);
    assert_eq!((most.found, most.at_most), (9, 9));
    assert_eq!(headline(&problem, &most), "You can finish 9 of 15 boxes; that is the most you can finish.");
    assert_eq!(
        reasons(&problem, &most.explanation),
        [
            "Hygiene for girls 6–8 is what holds you back: 9 on hand, 15 needed.",
            "There is enough of toy for every box.",
            "Left over: 11 toys.",
        ]
    );
    let steps = next(&problem, &most, NEVER);
    let said: Vec<String> =
        steps.iter().map(|step| step_in_words(step, &|cents| format!("{}.{:02}", cents / 100, cents % 100))).collect();
    assert_eq!(said, ["6 more combs, toothbrushes or washcloths finish 6 more boxes, about 1.80."]);
}

#[test]
fn what_is_not_known_to_the_end_is_said_so() {
    let problem = six_lack_hygiene();
    let most = most(&problem, &Now(true));
    assert!(most.found <= 9 && most.at_most >= 9);
    let said = headline(&problem, &Most { found: 9, at_most: 12, ..most });
    assert_eq!(said, "You can finish 9 of 15 boxes, perhaps up to 3 more.");
    let cheap = cheapest(&problem, Wish::Boxes(12), &Now(true));
    assert!(cheap.at_least <= Some(90) && cheap.shopping.is_none_or(|shopping| shopping.cost >= 90));
    let within = with_budget(&problem, 60, &Now(true));
    assert!(within.shopping.boxes <= 11 && within.at_most >= 11);
}

#[test]
fn whole_packs_are_bought_and_said() {
    // Six are needed; a pack of four costs 100, single ones 30: two packs cost 200, and so do they by the unit; six single
    // ones 180 before anything is rounded, 4 + 2 would be 160.
    let mut problem = six_lack_hygiene();
    problem.shop.offers = vec![offer("comb", "hygiene", 100, 4)];
    let found = cheapest(&problem, Wish::All, NEVER);
    let shopping = found.shopping.unwrap();
    let line = &shopping.list[0];
    assert_eq!((line.units, line.packs, line.cost), (6, 2, 200));
    assert_eq!((shopping.cost, found.at_least), (200, Some(150)));
    // 150 buys one pack only: four boxes more.
    let within = with_budget(&problem, 150, NEVER);
    assert_eq!((within.shopping.boxes, within.shopping.cost, within.at_most), (13, 100, 15));
    assert_eq!(with_budget(&problem, 99, NEVER).shopping.boxes, 9);
}

#[test]
fn what_cannot_be_bought_has_no_price() {
    let mut problem = six_lack_hygiene();
    problem.shop.offers.clear();
    assert_eq!(cheapest(&problem, Wish::All, NEVER), Cheapest { shopping: None, at_least: None });
    assert_eq!(cheapest(&problem, Wish::Boxes(10), NEVER), Cheapest { shopping: None, at_least: None });
    assert_eq!(cheapest(&problem, Wish::Boxes(16), NEVER), Cheapest { shopping: None, at_least: None });
    assert_eq!(cheapest(&problem, Wish::Boxes(9), NEVER).at_least, Some(0));
    let lack = lacks(&problem).remove(0);
    assert_eq!((lack.category.as_str(), lack.units, lack.cost), ("hygiene", 6, None));
    let said = reasons(&problem, &most(&problem, NEVER).explanation).remove(0);
    assert_eq!(
        said,
        "Hygiene for girls 6–8 is what holds you back: 9 on hand, 15 needed, and no price is known for any."
    );
}

#[test]
fn not_three_combs_in_one_box() {
    let mut girls = group("girls", ForWhom::Girl, 4, &[("hygiene", 3)]);
    let stock = vec![thing("comb", "hygiene", 12), thing("soap", "hygiene", 3)];
    assert_eq!(most(&problem(vec![girls.clone()], stock.clone(), Vec::new()), NEVER).found, 4);
    // With at most two combs each box wants a soap, and there are three.
    girls.caps.insert("comb".to_owned(), 2);
    let capped = problem(vec![girls.clone()], stock.clone(), vec![offer("comb", "hygiene", 1, 1)]);
    assert_eq!(most(&capped, NEVER).found, 3);
    // Buying combs is no way out.
    assert_eq!(cheapest(&capped, Wish::All, NEVER).at_least, None);
    // None at all may be given: nothing can be finished with three soaps but one box.
    girls.caps.insert("comb".to_owned(), 0);
    assert_eq!(most(&problem(vec![girls], stock, Vec::new()), NEVER).found, 1);
}

#[test]
fn a_thing_that_others_need_more_costs_a_box() {
    // Two puzzles for either and a doll: the boys' box needs a puzzle, the girls' boxes can do with the doll.
    let groups = vec![group("girls", ForWhom::Girl, 2, &[("toy", 1)]), group("boys", ForWhom::Boy, 1, &[("toy", 1)])];
    let problem = problem(groups, vec![thing("puzzle", "toy", 2), thing("doll", "toy", 1)], Vec::new());
    assert_eq!(most(&problem, NEVER).found, 3);
    let worth = |thing, group| value_of(&problem, thing, group, NEVER).map(|worth| (worth.lost, worth.lost_at_most));
    assert_eq!([worth(0, 0), worth(0, 1), worth(1, 0)], [Some((0, 0)); 3]);
    assert_eq!(worth(1, 1), None, "a doll is not for the boys");
    let mut fewer = problem.clone();
    fewer.stock.things[0].units = 1;
    // Now the one puzzle is all that the boys' box can have.
    assert_eq!(value_of(&fewer, 0, 0, NEVER).unwrap().lost, 0, "the girls' box is finished instead");
    fewer.demand.groups[0].needs[0].count = 2;
    // A girls' box that needs two stays open; the puzzle put there is lost to the boys.
    fewer.stock.things[1].units = 0;
    assert_eq!(value_of(&fewer, 0, 0, NEVER).unwrap().lost, 1);
}

#[test]
fn the_plan_shown_last_is_kept_while_none_finishes_more() {
    let groups = vec![group("first", ForWhom::Girl, 4, &[("toy", 1)]), group("second", ForWhom::Boy, 4, &[("toy", 1)])];
    let mut problem = problem(groups, vec![thing("puzzle", "toy", 4)], Vec::new());
    assert_eq!(most(&problem, NEVER).plan, [2, 2], "as even as can be");
    problem.shown = Some(vec![3, 1]);
    assert_eq!(most(&problem, NEVER).plan, [3, 1]);
    problem.stock.things[0].units = 6;
    assert_eq!(most(&problem, NEVER).plan, [3, 3]);
    problem.shown = Some(vec![9, 9]);
    assert_eq!(most(&problem, NEVER).plan, [3, 3], "there are no nine");
}

#[test]
fn kinds_and_things_are_dealt_evenly_and_oldest_first() {
    let girls = group("girls", ForWhom::Girl, 3, &[("hygiene", 2)]);
    let stock = vec![thing("soap", "hygiene", 3), thing("comb", "hygiene", 2), thing("comb", "hygiene", 5)];
    let problem = problem(vec![girls], stock, Vec::new());
    let dealt = assign(&problem, &vec![3]).unwrap();
    let of = |giftbox| {
        let given = dealt.given.iter().filter(move |given| given.giftbox == giftbox);
        given.map(|given| (given.thing, given.units)).collect::<Vec<_>>()
    };
    // Three soaps, the two old combs and one of the others: a soap and a comb each.
    assert_eq!([of(0), of(1), of(2)], [vec![(0, 1), (1, 1)], vec![(0, 1), (1, 1)], vec![(0, 1), (2, 1)]]);
    assert_eq!(assign(&problem, &vec![4]), None, "there are only three boxes");
}

#[test]
fn what_is_left_over_makes_boxes_more_even() {
    let groups = vec![group("girls", ForWhom::Girl, 2, &[]), group("boys", ForWhom::Boy, 2, &[])];
    let stock = vec![thing("doll", "toy", 1), thing("puzzle", "toy", 2), thing("soap", "hygiene", 9)];
    let problem = problem(groups, stock, Vec::new());
    let has: Vec<Has> = [(0, 0, 3), (0, 1, 1), (1, 0, 1), (1, 1, 2)]
        .map(|(group, giftbox, units)| Has { group, giftbox, units })
        .into();
    let spread = even_out(&problem, &Assignment::default(), &has, Some("toy"));
    // The doll can only help a girls' box, so both puzzles go to boys: 3, 2, 2 + … the one with 1 first, then a third.
    assert_eq!((spread.fewest, spread.most), (2, 3));
    let to = |group, giftbox| {
        let of = spread.extras.iter().filter(|extra| (extra.group, extra.giftbox) == (group, giftbox));
        of.map(|extra| extra.units).sum::<u32>()
    };
    assert_eq!((to(0, 0), to(0, 1) + to(1, 0) + to(1, 1)), (0, 3));
    assert!(to(0, 1) >= 1 && to(1, 0) >= 1);
    assert_eq!(even_out(&problem, &Assignment::default(), &[], None), Spread::default());
}

#[test]
fn room_is_a_second_number() {
    let mut girls = group("girls", ForWhom::Girl, 2, &[("toy", 2)]);
    girls.room = Some(10);
    let sized = |kind, units, room| Thing { room: Some(room), ..thing(kind, "toy", units) };
    // 8 + 8 and 2 + 2 leave one box too full; 8 + 2 twice just fit.
    let mut problem = problem(vec![girls], vec![sized("kite", 2, 8), sized("ball", 2, 2)], Vec::new());
    let roomy = with_room(&problem, &vec![2]).unwrap();
    assert_eq!((roomy.fit, roomy.of, roomy.over, roomy.unmeasured), (2, 2, Vec::new(), 0));
    problem.stock.things[0].room = Some(9);
    problem.stock.things[1].room = None;
    let roomy = with_room(&problem, &vec![2]).unwrap();
    assert_eq!((roomy.fit, roomy.of, roomy.unmeasured), (2, 2, 2));
    problem.demand.groups[0].room = Some(8);
    assert_eq!(with_room(&problem, &vec![2]).unwrap().fit, 0);
    assert_eq!(most(&problem, NEVER).found, 2, "how many can be finished does not change by it");
}

#[test]
fn nothing_and_far_too_much_are_answered_too() {
    let nothing = Problem::default();
    assert_eq!(most(&nothing, NEVER).found, 0);
    assert_eq!(cheapest(&nothing, Wish::All, NEVER).at_least, Some(0));
    assert_eq!(headline(&nothing, &most(&nothing, NEVER)), "You can finish 0 boxes: all of them.");
    let vast = group("vast", ForWhom::Boy, u32::MAX, &[("toy", u32::MAX), ("wow", 1), ("toy", 3)]);
    let offers = vec![offer("kite", "toy", i64::MAX, u32::MAX), offer("ball", "wow", -5, 0)];
    let problem = problem(vec![vast], vec![thing("ball", "toy", u32::MAX), thing("car", "toy", u32::MAX)], offers);
    let most = most(&problem, NEVER);
    assert!(most.found <= most.at_most);
    _ = (cheapest(&problem, Wish::All, NEVER), with_budget(&problem, i64::MAX, NEVER), lacks(&problem));
    _ = (unlimited(&problem, "toy", NEVER), unlimited(&problem, "no such", NEVER), value_of(&problem, 0, 0, NEVER));
}
