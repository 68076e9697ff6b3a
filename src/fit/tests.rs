//! A box being packed, told in small sets whose answers can be seen by eye.

use super::check::{Fault, check};
use super::cuboid::Cuboid;
use super::*;
use crate::model::stop::Stop;

struct Never;

impl Stop for Never {
    fn stopped(&self) -> bool {
        false
    }
}

fn stiff(name: &str, size: [i32; 3]) -> Thing {
    Thing { name: name.to_owned(), shapes: vec![Shape::any_way(size)], count: 1, ..Thing::default() }
}

fn soft(name: &str, size: [i32; 3], press: u8) -> Thing {
    Thing { press, ..stiff(name, size) }
}

fn holder(name: &str, size: [i32; 3], room: [i32; 3], swells: bool) -> Thing {
    Thing { room: Some(Room { size: room, swells }), ..stiff(name, size) }
}

fn problem(inside: [i32; 3], things: Vec<Thing>) -> Problem {
    Problem { space: Space::bare(inside), things }
}

fn answer(problem: &Problem) -> Answer {
    let mut engine = Engine::new(problem.clone(), 1);
    engine.run(&Never, 200);
    engine.best()
}

/// The words of an answer.
fn said(problem: &Problem) -> String {
    say::answer(problem, &answer(problem))
}

/// The plan of a set that fits.
fn packed(problem: &Problem) -> Plan {
    let answer = answer(problem);
    assert!(matches!(answer, Answer::Fits(_) | Answer::FitsTight { .. }), "{answer:?}");
    answer.plan().unwrap().clone()
}

fn place<'a>(problem: &Problem, plan: &'a Plan, name: &str) -> &'a Placed {
    plan.placed.iter().find(|placed| problem.things[placed.thing].name == name).unwrap()
}

#[test]
fn each_of_the_five_answers_is_given_where_it_is_due() {
    let loose = problem([100, 100, 100], vec![stiff("cup", [60, 60, 60])]);
    assert_eq!(said(&loose), "It all fits.");
    let exact =
        problem([100, 90, 100], vec![Thing { shapes: vec![Shape::lying([100, 60, 10])], ..stiff("book", [1; 3]) }]);
    assert_eq!(said(&exact), "It all fits, but tightly: less than 1 mm is left in length.");
    let pressed = problem([100, 100, 47], vec![stiff("tin", [98, 98, 28]), soft("shirt", [98, 98, 30], 50)]);
    assert!(said(&pressed).contains("pressed to 6"), "{}", said(&pressed));
    // Without the room round the edge it would go in, so that it isn't impossible.
    let near = Problem {
        space: Space::with_edge([100; 3], 1),
        ..problem([1; 3], vec![stiff("cube", [99, 99, 80]), stiff("ring", [5; 3])])
    };
    let words = said(&near);
    assert!(words.starts_with("Couldn't make it fit: "), "{words}");
    assert!(words.ends_with("tried. The best leaves out cube. There may be a way."), "{words}");
    let unknown = problem([100, 100, 100], vec![Thing { shapes: Vec::new(), ..stiff("scarf", [1, 1, 1]) }]);
    assert_eq!(said(&unknown), "Nobody can tell yet: the size isn't known of scarf.");
}

#[test]
fn what_is_impossible_comes_with_its_reason() {
    let full = problem([100, 100, 100], vec![Thing { count: 9, ..stiff("cube", [50, 50, 50]) }]);
    assert_eq!(said(&full), "It can't fit: all of it takes at least 1125 cm³, and the box has 1000 cm³.");
    let long = problem([300, 200, 100], vec![stiff("wand", [340, 10, 10])]);
    let words = "It can't fit: wand is longer than the box, whichever way it lies.";
    assert_eq!(said(&long), format!("{words} It goes in only slanting, laid in by hand."));
    let longer = problem([300, 200, 100], vec![stiff("wand", [400, 10, 10])]);
    assert_eq!(said(&longer), words);
    let two = problem([100, 100, 100], vec![stiff("globe", [60, 60, 60]), stiff("drum", [45, 90, 90])]);
    assert_eq!(said(&two), "It can't fit: globe and drum each go in, but never both.");
    let twice = problem([100, 100, 100], vec![Thing { count: 2, ..stiff("globe", [60, 60, 60]) }]);
    assert_eq!(said(&twice), "It can't fit: two of globe never go in together.");
    // Only two go side by side along each axis, and so eight; by volume fifteen would go in.
    let nine = problem([100, 100, 100], vec![Thing { count: 9, ..stiff("cube", [40, 40, 40]) }]);
    assert_eq!(said(&nine), "It can't fit: side by side they take at least 112.5 of the box's 100 parts.");
    let eight = problem([100, 100, 100], vec![Thing { count: 8, ..stiff("cube", [40, 40, 40]) }]);
    assert_eq!(said(&eight), "It all fits.");
}

/// A tin hides what is in it, so that volume alone says nothing against tins that go into each other.
#[test]
fn what_can_be_tucked_in_is_no_proof_against_a_set() {
    let tin = holder("tin", [100, 100, 100], [98, 98, 98], false);
    let both = problem([100, 100, 100], vec![tin, stiff("cube", [98, 98, 98])]);
    let plan = packed(&both);
    assert_eq!(place(&both, &plan, "cube").inside, Some(0));
}

#[test]
fn pencils_go_into_their_case_and_the_case_into_the_shoe() {
    let case = holder("case", [200, 70, 20], [190, 60, 30], true);
    let pencils = Thing { count: 4, belongs: vec![0], ..stiff("pencil", [180, 8, 8]) };
    let shoe = holder("shoe", [260, 100, 90], [220, 80, 60], false);
    let set = problem([300, 200, 120], vec![case, pencils, shoe, stiff("book", [200, 150, 10])]);
    let plan = packed(&set);
    let case = place(&set, &plan, "case");
    assert_eq!(plan.placed[case.inside.unwrap()].thing, 2);
    let holders =
        plan.placed.iter().filter(|placed| placed.thing == 1).map(|pencil| plan.placed[pencil.inside.unwrap()].thing);
    assert_eq!(holders.collect::<Vec<_>>(), [0; 4]);
    // 4 × 180 × 8 × 8 mm³ make the case 46,080 / (200 × 70) = 3.3, so 4 mm thicker.
    let mut sides = case.solids[0].size();
    sides.sort_unstable();
    assert_eq!(sides, [24, 70, 200]);
    let steps = say::order(&set, &order(&set, &plan));
    assert_eq!(steps[..2], ["1. Put 4 × pencil into case.", "2. Put case into shoe."]);
}

#[test]
fn what_should_be_seen_first_lies_on_top() {
    let doll = Thing { on_top: true, ..stiff("doll", [120, 60, 40]) };
    let books = Thing { count: 3, weight: 4000, ..stiff("book", [180, 120, 20]) };
    let set = problem([200, 130, 110], vec![doll, books]);
    let plan = packed(&set);
    assert_eq!(place(&set, &plan, "doll").bottom(), 60);
    assert_eq!(order(&set, &plan).last().unwrap().thing, 0);
}

#[test]
fn nothing_heavy_comes_to_lie_on_something_weak() {
    let mask = Thing { weak: Some(100), weight: 50, ..stiff("mask", [150, 100, 30]) };
    let stone = Thing { weight: 20_000, ..stiff("stone", [150, 100, 30]) };
    let set = problem([150, 100, 61], vec![mask, stone]);
    let plan = packed(&set);
    assert_eq!((place(&set, &plan, "stone").bottom(), place(&set, &plan, "mask").bottom()), (0, 30));
}

#[test]
fn soft_things_fill_the_gaps_with_no_more_press_than_is_needed() {
    // Round the tin 20 mm are free on one side: 200 × 20 × 100 mm, and the shirts need as much.
    let tin = Thing { weight: 3000, ..stiff("tin", [200, 80, 100]) };
    let whole = problem([200, 100, 100], vec![tin.clone(), soft("shirt", [200, 100, 20], 50)]);
    let plan = packed(&whole);
    assert_eq!(gauge(&whole, &plan).pressed_to, None);
    let two = problem([200, 100, 100], vec![tin.clone(), Thing { count: 2, ..soft("sock", [200, 75, 20], 50) }]);
    let plan = packed(&two);
    // Two of 300 cm³ have 400 cm³; by steps of an eighth that is five eighths, in slices of 94 mm, not of 93.75.
    assert_eq!(gauge(&two, &plan).pressed_to, Some(62));
    assert_eq!(
        say::gauge(&gauge(&two, &plan)),
        "Stiff 80.0 %, soft 18.8 %, free 1.2 %. Soft things are pressed to 62 %. It weighs 0.300 kg."
    );
    let more = problem([200, 100, 100], vec![tin, Thing { count: 3, ..soft("sock", [200, 75, 20], 50) }]);
    assert_eq!(answer(&more).plan().unwrap().left_out, [0, 1]);
}

#[test]
fn what_springs_back_lifts_the_lid() {
    let tin = stiff("tin", [100, 100, 40]);
    let flat = problem([100, 100, 60], vec![tin.clone(), stiff("book", [100, 100, 10])]);
    assert_eq!(lid(&flat, &packed(&flat)), Lid::Closes { spare: 10 });
    let pressed = problem([100, 100, 60], vec![tin.clone(), soft("shirt", [100, 100, 25], 40)]);
    assert!(matches!(lid(&pressed, &packed(&pressed)), Lid::LightPush { by: 1..=9, .. }));
}

#[test]
fn room_round_the_edge_is_kept() {
    let mut set = problem([100, 100, 100], vec![stiff("cube", [98, 98, 98])]);
    set.space.edge = [[1, 1]; 3];
    assert_eq!(packed(&set).placed[0].solids, [Cuboid::at([1; 3], [98; 3])]);
    set.space.edge = [[1, 1], [2, 1], [1, 1]];
    assert_eq!(answer(&set).key(), "not_found");
}

#[test]
fn what_else_goes_in_is_told_apart_by_how() {
    let set = problem([100, 100, 100], vec![stiff("block", [100, 100, 40]), stiff("bar", [100, 40, 60])]);
    let plan = packed(&set);
    let more = [stiff("ball", [60, 60, 60]), stiff("brick", [90, 60, 10]), stiff("crate", [100, 61, 60])];
    let room = what_else(&set, &plan, &more, &Never);
    assert_eq!(room.drops_in, [0, 1]);
    assert_eq!((room.repacked, room.free), (Vec::new(), 360_000));
    let sock = soft("sock", [90, 60, 20], 50);
    assert_eq!(what_else(&set, &plan, &[sock], &Never).drops_in, [0]);
    // The free corner is too narrow for it; with the others moved together there is room.
    let spread = Plan {
        placed: vec![
            Placed { thing: 0, solids: vec![Cuboid::at([0, 0, 0], [100, 100, 40])], inside: None },
            Placed { thing: 1, solids: vec![Cuboid::at([0, 30, 40], [100, 40, 60])], inside: None },
        ],
        ..plan
    };
    assert_eq!(check(&set, &spread), Ok(()));
    assert_eq!(what_else(&set, &spread, &more[..1], &Never).repacked, [0]);
}

#[test]
fn the_way_to_pack_it_goes_from_the_bottom_up() {
    let set = problem(
        [100, 80, 50],
        vec![
            Thing { weight: 2000, ..stiff("board", [100, 80, 10]) },
            Thing { count: 2, weight: 500, shapes: vec![Shape::lying([50, 80, 20])], ..stiff("tile", [1; 3]) },
        ],
    );
    let plan = packed(&set);
    assert_eq!(
        say::order(&set, &order(&set, &plan)),
        [
            "1. Lay in board, on the bottom, in the middle.",
            "2. Lay in tile, 10 mm up, left.",
            "3. Lay in tile, 10 mm up, right."
        ]
    );
    let layers = layers(&set, &plan);
    assert_eq!(layers.iter().map(|layer| (layer.from, layer.to)).collect::<Vec<_>>(), [(0, 10), (10, 30)]);
    let lines = say::layer(&set, &layers[1]);
    assert_eq!(lines[0], "From 10 to 30 mm above the bottom:");
    assert_eq!(lines[1], format!("+{}+  B  2 × tile, 10 to 30 mm high", "-".repeat(44)));
    assert_eq!(lines[2], format!("|{}|", "B".repeat(44)));
    assert_eq!(lines.len(), 1 + 17 + 2);
}

/// One slip after the other in a plan that is right.
#[test]
fn the_checker_sees_every_slip() {
    let tin = holder("tin", [40, 40, 40], [38, 38, 38], false);
    let seen = Thing { on_top: true, ..stiff("seen", [50, 40, 10]) };
    let weak = Thing { weak: Some(10), weight: 5, ..stiff("weak", [50, 50, 10]) };
    let heavy = Thing { weight: 100, ..stiff("heavy", [50, 50, 20]) };
    let set = problem([100, 100, 60], vec![tin, stiff("gem", [10, 10, 10]), seen, weak, heavy]);
    let at = |thing, lo, size, inside| Placed { thing, solids: vec![Cuboid::at(lo, size)], inside };
    let right = Plan {
        space: set.space,
        placed: vec![
            at(0, [0, 0, 0], [40, 40, 40], None),
            at(1, [0, 0, 0], [10, 10, 10], Some(0)),
            at(2, [0, 50, 0], [40, 50, 10], None),
            at(3, [50, 0, 20], [50, 50, 10], None),
            at(4, [50, 0, 0], [50, 50, 20], None),
        ],
        left_out: vec![0; 5],
    };
    assert_eq!(check(&set, &right), Ok(()));
    let slip = |change: &dyn Fn(&mut Plan)| {
        let mut plan = right.clone();
        change(&mut plan);
        check(&set, &plan)
    };
    let moved = |thing: usize, lo: [i32; 3]| {
        slip(&|plan| plan.placed[thing].solids[0] = Cuboid::at(lo, plan.placed[thing].solids[0].size()))
    };
    assert_eq!(slip(&|plan| _ = plan.placed.pop()), Err(Fault::Count(4)));
    assert_eq!(slip(&|plan| plan.placed[2].solids[0].hi[0] += 1), Err(Fault::Form(2)));
    assert_eq!(moved(2, [0, 51, 0]), Err(Fault::Outside(2)));
    assert_eq!(moved(1, [29, 0, 0]), Err(Fault::Outside(1)));
    assert_eq!(moved(2, [0, 39, 0]), Err(Fault::Overlap(0, 2)));
    assert_eq!(slip(&|plan| plan.placed[1].inside = Some(4)), Err(Fault::Holder(1)));
    assert_eq!(moved(2, [0, 50, 1]), Err(Fault::Unsupported(2)));
    assert_eq!(moved(3, [0, 50, 10]), Err(Fault::Hidden(2)));
    let turned = slip(&|plan| {
        plan.placed[3].solids[0] = Cuboid::at([50, 0, 0], [50, 50, 10]);
        plan.placed[4].solids[0] = Cuboid::at([50, 0, 10], [50, 50, 20]);
    });
    assert_eq!(turned, Err(Fault::Overloaded(3)));
}
