//! Plans told a second time, slowly: every count of boxes is tried, and each is filled need by need with units one by one.

use brimful::plan::{Group, Offer, Plan, Problem, Ware};

/// One need of one box.
struct Place<'a> {
    group: usize,
    of: &'a Group,
    category: &'a str,
    kind: Option<&'a str>,
}

impl Place<'_> {
    fn takes(&self, problem: &Problem, ware: &Ware) -> bool {
        let (from, to) = (self.of.ages.from(), self.of.ages.to().unwrap());
        let years = || from..=to;
        let (youngest, oldest) = ware.ages;
        let fits = |year: u8| (youngest..=oldest).contains(&year);
        let ages = match problem.age_rule {
            brimful::plan::AgeRule::Covers => years().all(fits),
            brimful::plan::AgeRule::Overlaps => years().any(fits),
        };
        ages && (ware.for_whom.is_none() || ware.for_whom == self.of.for_whom)
            && !ware.not_for.contains(&self.group)
            && ware.serves.iter().any(|serves| serves == self.category)
            && self.kind.is_none_or(|kind| kind == ware.kind)
    }
}

/// Every need of every box of a plan.
fn places<'a>(problem: &'a Problem, plan: &Plan) -> Vec<Place<'a>> {
    let mut places = Vec::new();
    for (group, (of, count)) in problem.demand.groups.iter().zip(plan).enumerate() {
        for need in (0..*count).flat_map(|_| &of.needs) {
            let place = |kind| Place { group, of, category: &need.category, kind };
            let named: u32 = need.must.values().sum();
            places.extend(
                need.must
                    .iter()
                    .flat_map(|(kind, count)| (0..*count).map(move |_| kind))
                    .map(|kind| place(Some(kind.as_str()))),
            );
            places.extend((named..need.count).map(|_| place(None)));
        }
    }
    places
}

/// Whether these places can be filled from what is on hand: H. W. Kuhn, The Hungarian method for the assignment
/// problem (1955), in its simplest form: each place looks for a unit, and whoever holds one looks for another.
fn filled(problem: &Problem, places: &[&Place<'_>]) -> bool {
    let units: Vec<&Ware> =
        problem.stock.things.iter().flat_map(|thing| (0..thing.units).map(|_| &thing.ware)).collect();
    let mut held: Vec<Option<usize>> = vec![None; units.len()];
    (0..places.len()).all(|place| finds(problem, places, &units, place, &mut held, &mut vec![false; units.len()]))
}

fn finds(
    problem: &Problem,
    places: &[&Place<'_>],
    units: &[&Ware],
    place: usize,
    held: &mut Vec<Option<usize>>,
    asked: &mut Vec<bool>,
) -> bool {
    for unit in 0..units.len() {
        if asked[unit] || !places[place].takes(problem, units[unit]) {
            continue;
        }
        asked[unit] = true;
        if held[unit].is_none_or(|other| finds(problem, places, units, other, held, asked)) {
            held[unit] = Some(place);
            return true;
        }
    }
    false
}

/// Whether a plan can be filled from what is on hand.
pub fn can_be_filled(problem: &Problem, plan: &Plan) -> bool {
    let places = places(problem, plan);
    filled(problem, &places.iter().collect::<Vec<_>>())
}

/// The least that must be spent for a plan: whatever places are bought for, the others must be filled from stock.
pub fn cost(problem: &Problem, plan: &Plan) -> Option<i64> {
    let places = places(problem, plan);
    let price = |place: &Place<'_>| {
        let offers = problem.shop.offers.iter().filter(|offer: &&Offer| place.takes(problem, &offer.ware));
        offers.map(|offer| offer.price).min()
    };
    let prices: Vec<Option<i64>> = places.iter().map(price).collect();
    let spent = |bought: u32| -> Option<i64> {
        let is_bought = |at: &usize| bought & (1 << at) != 0;
        let cost: Option<i64> = (0..places.len()).filter(is_bought).map(|at| prices[at]).sum();
        let rest: Vec<&Place<'_>> = (0..places.len()).filter(|at| !is_bought(at)).map(|at| &places[at]).collect();
        cost.filter(|_| filled(problem, &rest))
    };
    (0..1_u32 << places.len()).filter_map(spent).min()
}

/// Every plan there is.
pub fn plans(problem: &Problem) -> Vec<Plan> {
    let mut plans: Vec<Plan> = vec![Vec::new()];
    for group in &problem.demand.groups {
        let longer = |plan: &Plan| {
            let plan = plan.clone();
            (0..=group.boxes).map(move |count| plan.iter().copied().chain([count]).collect())
        };
        plans = plans.iter().flat_map(longer).collect();
    }
    plans
}

/// Whether a plan can be filled with no more of any kind in a box's category than its group allows, tried place by place.
pub fn can_be_filled_with_caps(problem: &Problem, plan: &Plan) -> bool {
    let mut boxes = Vec::new();
    for (group, count) in plan.iter().enumerate() {
        for _ in 0..*count {
            let mut one = vec![0; plan.len()];
            one[group] = 1;
            boxes.push(places(problem, &one));
        }
    }
    let mut left: Vec<u32> = problem.stock.things.iter().map(|thing| thing.units).collect();
    let order: Vec<(usize, &Place<'_>)> =
        boxes.iter().enumerate().flat_map(|(at, places)| places.iter().map(move |place| (at, place))).collect();
    fill(problem, &order, &mut left, &mut Vec::new())
}

fn fill(
    problem: &Problem,
    rest: &[(usize, &Place<'_>)],
    left: &mut [u32],
    given: &mut Vec<(usize, String, String)>,
) -> bool {
    let Some(((giftbox, place), rest)) = rest.split_first() else { return true };
    for thing in 0..left.len() {
        let ware = &problem.stock.things[thing].ware;
        let key = (*giftbox, place.category.to_owned(), ware.kind.clone());
        let has = given.iter().filter(|known| **known == key).count();
        let full = place.of.caps.get(&ware.kind).is_some_and(|most| has >= *most as usize);
        if left[thing] == 0 || full || !place.takes(problem, ware) {
            continue;
        }
        left[thing] -= 1;
        given.push(key);
        if fill(problem, rest, left, given) {
            return true;
        }
        given.pop();
        left[thing] += 1;
    }
    false
}
