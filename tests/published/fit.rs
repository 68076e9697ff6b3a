//! Loading a container: problems made by the published rule, and how full others' methods and ours get them.
//!
//! Ours counts ways tried, not seconds: the same on every machine. Seconds are measured in `tests/bench/fit.rs`.
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::expect_used,
    reason = "figures here are small, and a problem that isn't there stops"
)]

use brimful::fit::check::check;
use brimful::fit::{Answer, Engine, Goal, Problem};
use brimful::model::stop::Stop;

use crate::loading::{BOX, CONTAINER, TYPES, Type, bischoff_ratcliff, cut, loh_nee, mixed, problem, volume};

struct Never;

impl Stop for Never {
    fn stopped(&self) -> bool {
        false
    }
}

/// The answer after so many ways tried; its plan has been looked over.
fn answer(problem: Problem, goal: Goal, ways: u64) -> Answer {
    let mut engine = Engine::towards(problem, goal, 1);
    engine.run(&Never, ways);
    let answer = engine.best();
    let plan = answer.plan().expect("all sizes are known");
    assert_eq!(check(engine.problem(), plan), Ok(()));
    answer
}

fn fits(answer: &Answer) -> bool {
    matches!(answer, Answer::Fits(_) | Answer::FitsTight { .. })
}

fn share(answer: &Answer, container: [i32; 3]) -> f64 {
    answer.plan().map_or(0, brimful::fit::Plan::volume) as f64 / volume(container) as f64
}

/// The numbers of a problem file in the order of its format.
fn file(types: usize) -> Vec<u32> {
    let mut numbers = vec![100];
    for number in 1..=100 {
        numbers.extend([number, 2_502_505 + 100 * (number - 1), 587, 233, 220, types as u32]);
        for (at, of) in (1..).zip(bischoff_ratcliff(types, number)) {
            numbers.push(at);
            numbers.extend((0..3).flat_map(|side| [of.size[side] as u32, u32::from(of.up[side])]));
            numbers.push(u32::from(of.count));
        }
    }
    numbers
}

/// FNV-1a over the numbers as four bytes each, the lowest first (Fowler, Noll & Vo; RFC 9923).
fn fnv(numbers: &[u32]) -> u64 {
    let step = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
    numbers.iter().flat_map(|number| number.to_le_bytes()).fold(0xcbf2_9ce4_8422_2325, step)
}

/// Typed from thpack1.txt of the OR-Library (problem 1), and hashes over all numbers of thpack1.txt and thpack2.txt.
#[test]
fn the_published_problems_are_made_anew_number_for_number() {
    let of = |size, up, count| Type { size, up, count };
    let first = [
        of([108, 76, 30], [false, false, true], 40),
        of([110, 43, 25], [false, true, true], 33),
        of([92, 81, 55], [true, true, true], 39),
    ];
    assert_eq!(bischoff_ratcliff(3, 1), first);
    assert_eq!((file(3).len(), fnv(&file(3))), (3001, 0x8669_7511_9427_b33f));
    assert_eq!((file(5).len(), fnv(&file(5))), (4601, 0x8858_de79_61a8_e5c8));
}

/// All 700: their boxes take 97 to 100 % of the container, by the rule that makes them.
#[test]
fn every_problem_just_about_fills_its_container() {
    for types in TYPES {
        for number in 1..=100 {
            let cargo: i64 =
                bischoff_ratcliff(types, number).iter().map(|of| i64::from(of.count) * volume(of.size)).sum();
            let share = cargo as f64 / volume(CONTAINER) as f64;
            assert!((0.97..=1.0).contains(&share), "{types} types, problem {number}: {share}");
        }
    }
}

/// 90.1 % is what the hybrid genetic algorithm of Bortfeldt & Gehring (European Journal of Operational Research 131,
/// 2001) reached on average over the seven classes (from memory).
#[test]
fn a_few_ways_tried_load_more_than_a_published_method() {
    let full: f64 = TYPES
        .iter()
        .map(|types| {
            let answer = answer(problem(CONTAINER, &bischoff_ratcliff(*types, 1)), Goal::Most, 40);
            let share = share(&answer, CONTAINER);
            assert!(share > 0.88, "{types} types: {share}");
            share
        })
        .sum();
    assert!(full / 7.0 > 0.901, "{}", full / 7.0);
}

/// Two of the fifteen hold more than their container, so that nobody can load more than thirteen whole.
#[test]
fn all_of_it_goes_in_in_thirteen_of_the_fifteen_of_loh_and_nee() {
    let mut whole = 0;
    let mut full = 0.0;
    for (container, types) in loh_nee() {
        let answer = answer(problem(container, &types), Goal::All, 400);
        full += share(&answer, container) / 15.0;
        if answer.key() == "impossible" {
            let cargo: i64 = types.iter().map(|of| i64::from(of.count) * volume(of.size)).sum();
            assert!(cargo > volume(container));
        }
        whole += usize::from(fits(&answer));
    }
    assert_eq!(whole, 13);
    // With everything in, and the other two full, it would be 71.3 %.
    assert!(full > 0.705, "{full}");
}

#[test]
fn sets_that_are_known_to_fit_are_found_to_fit() {
    let found = (1..=20).filter(|seed| fits(&answer(problem(BOX, &cut(30, 0.85, *seed)), Goal::All, 300))).count();
    assert!(found >= 17, "{found} of 20 at 85 %");
    let found = (1..=20).filter(|seed| fits(&answer(problem(BOX, &cut(15, 0.85, *seed)), Goal::All, 300))).count();
    assert!(found >= 18, "{found} of 20 with fewer pieces");
}

#[test]
fn sets_such_as_are_given_are_found_to_fit() {
    let found = (1..=20).filter(|seed| fits(&answer(problem(BOX, &mixed(30, 0.75, *seed)), Goal::All, 200))).count();
    assert!(found >= 18, "{found} of 20");
}

/// A hundred thousand sets that were one box before they were cut up, hardly shaved.
#[test]
fn what_fits_is_never_called_impossible() {
    for seed in 0..100_000 {
        let pieces = 2 + (seed % 5) as usize;
        let engine = Engine::new(problem(BOX, &cut(pieces, 0.99, seed)), 1);
        assert_ne!(engine.best().key(), "impossible", "seed {seed}, {pieces} pieces");
    }
}
