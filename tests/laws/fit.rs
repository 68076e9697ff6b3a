//! What must hold of every answer to whether things fit.

use brimful::fit::check::check;
use brimful::fit::{Answer, Engine, Plan, Problem, Room, Shape, Space, Thing, gauge, layers, lid, order, what_else};
use brimful::model::stop::Stop;
use proptest::prelude::*;

struct Never;

impl Stop for Never {
    fn stopped(&self) -> bool {
        false
    }
}

fn answer(problem: &Problem, ways: u64) -> Answer {
    let mut engine = Engine::new(problem.clone(), 1);
    engine.run(&Never, ways);
    engine.best()
}

fn size(lo: i32, hi: i32) -> impl Strategy<Value = [i32; 3]> {
    [lo..hi, lo..hi, lo..hi]
}

/// A thing of any sort: stiff, soft, a holder, to be seen first, weak; now and then all of it.
fn thing() -> impl Strategy<Value = Thing> {
    let shapes = prop::collection::vec((size(5, 160), any::<[bool; 3]>()), 1..3);
    let press = prop::sample::select(vec![0, 0, 0, 10, 25, 50]);
    let room = prop::option::weighted(0.2, (size(20, 120), any::<bool>()));
    let belongs = prop::collection::vec(0..6_usize, 0..2);
    let weak = prop::option::weighted(0.2, 0..3000_u32);
    (shapes, 1..3_u16, 0..5000_u32, press, room, belongs, prop::bool::weighted(0.15), weak).prop_map(
        |(shapes, count, weight, press, room, belongs, on_top, weak)| Thing {
            name: String::new(),
            shapes: shapes.into_iter().map(|(size, up)| Shape { size, up: [up[0], up[1], true] }).collect(),
            count,
            weight,
            press,
            room: room.map(|(size, swells)| Room { size, swells }),
            belongs,
            on_top,
            weak,
        },
    )
}

fn problem() -> impl Strategy<Value = Problem> {
    let edge = prop::sample::select(vec![0, 0, 1, 3]);
    (size(60, 300), edge, prop::collection::vec(thing(), 1..10))
        .prop_map(|(inside, edge, things)| Problem { space: Space::with_edge(inside, edge), things })
}

/// Stiff things alone, large for their box: the sets of which something can be proved.
fn crowded() -> impl Strategy<Value = Problem> {
    prop::collection::vec(size(40, 210), 1..7).prop_map(|sizes| {
        let thing = |size| Thing { shapes: vec![Shape::any_way(size)], count: 1, ..Thing::default() };
        Problem { space: Space::bare([200, 190, 180]), things: sizes.into_iter().map(thing).collect() }
    })
}

fn told(problem: &Problem, plan: &Plan) -> usize {
    let steps = order(problem, plan);
    let _ = (layers(problem, plan), lid(problem, plan), gauge(problem, plan));
    steps.iter().map(|step| usize::from(step.count)).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn every_plan_holds_and_every_thing_of_it_has_its_step(problem in problem()) {
        if let Some(plan) = answer(&problem, 12).plan() {
            prop_assert_eq!(check(&problem, plan), Ok(()));
            prop_assert_eq!(told(&problem, plan), plan.placed.len());
        }
    }

    #[test]
    fn the_same_seed_and_number_of_ways_come_to_the_same_answer(problem in problem()) {
        let mut slices = Engine::new(problem.clone(), 1);
        slices.run(&Never, 5);
        slices.run(&Never, 15);
        let mut anew = Engine::new(problem, 1);
        anew.run(&Never, 5);
        anew.run(&Never, 15);
        prop_assert_eq!(slices.best(), anew.best());
    }

    #[test]
    fn what_is_impossible_stays_so_in_another_order_and_in_a_turned_box(problem in crowded(), by in 0..7_usize) {
        let mut other = problem.clone();
        other.things.reverse();
        let by = by % other.things.len();
        other.things.rotate_left(by);
        other.space.inside.swap(0, 1);
        prop_assert_eq!(answer(&problem, 0).key() == "impossible", answer(&other, 0).key() == "impossible");
    }

    #[test]
    fn what_fits_is_not_impossible_with_more_room_nor_with_less_to_pack(problem in crowded(), more in size(0, 40)) {
        if matches!(answer(&problem, 40), Answer::Fits(_) | Answer::FitsTight { .. }) {
            let mut roomy = problem.clone();
            for (side, more) in roomy.space.inside.iter_mut().zip(more) {
                *side += more;
            }
            prop_assert_ne!(answer(&roomy, 0).key(), "impossible");
            let mut fewer = problem.clone();
            fewer.things.pop();
            prop_assert_ne!(answer(&fewer, 0).key(), "impossible");
        }
    }

    #[test]
    fn what_drops_in_fits_when_packed_anew(problem in problem(), more in size(5, 80)) {
        let fits = answer(&problem, 12);
        let whole = fits.plan().filter(|plan| plan.is_whole());
        if let Some(plan) = whole {
            let thing = Thing { shapes: vec![Shape::any_way(more)], count: 1, ..Thing::default() };
            let room = what_else(&problem, plan, std::slice::from_ref(&thing), &Never);
            if !room.drops_in.is_empty() {
                let mut with = problem.clone();
                with.things.push(thing);
                prop_assert_ne!(answer(&with, 0).key(), "impossible");
            }
        }
    }
}
