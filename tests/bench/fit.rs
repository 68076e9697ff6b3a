//! `cargo bench --bench bench -- fit`: how full and how often whole, by seconds of one processor core.
//!
//! Published figures beside ours: Araya, Guerrero & Nuñez 2017 reached 95.53 % over classes 1 to 15 in 30 s each, and
//! Araya & Riff 2014 95.40 % in 500 s (as tabled in L. Guesser's thesis, Unicamp 2025); over classes 1 to 7 the latter
//! is given as 96.1 %, Gonçalves & Resende 2012 as 95.7 %, Fanslau & Bortfeldt 2010 as 95.0 % in 320 s (from memory).
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::print_stdout,
    reason = "figures here are small, and a measurement prints"
)]

use std::cell::Cell;
use std::time::{Duration, Instant};

use brimful::fit::{Answer, Engine, Goal, Plan, Problem};
use brimful::model::stop::Stop;

use crate::loading::{BOX, CONTAINER, TYPES, Type, bischoff_ratcliff, cut, loh_nee, mixed, problem, volume};

/// Processor time of this process, which is what counts on a busy machine.
struct Limit {
    wall: Instant,
    seconds: f64,
    /// What the processor had done before; none where nothing tells.
    before: Option<f64>,
    ask: Cell<f64>,
}

impl Limit {
    fn new(seconds: f64) -> Limit {
        Limit { wall: Instant::now(), seconds, before: processor(), ask: Cell::new(seconds) }
    }
}

impl Stop for Limit {
    fn stopped(&self) -> bool {
        let wall = self.wall.elapsed().as_secs_f64();
        if wall < self.ask.get() {
            return false;
        }
        let spent = self.before.zip(processor()).map_or(wall, |(before, now)| now - before);
        let left = self.seconds - spent;
        self.ask.set(wall + left.max(0.0));
        // The kernel counts in hundredths of a second; what is less than half of one is over.
        left < 0.005
    }
}

/// Seconds of the processor that this process has had, in hundredths (proc(5)).
fn processor() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let mut words = stat.rsplit_once(')')?.1.split_whitespace().skip(11).map(str::parse::<f64>);
    Some((words.next()?.ok()? + words.next()?.ok()?) / 100.0)
}

fn solved(problem: Problem, goal: Goal, seconds: f64) -> (Answer, Duration) {
    let (limit, began) = (Limit::new(seconds), Instant::now());
    let mut engine = Engine::towards(problem, goal, 1);
    engine.run(&limit, u64::MAX);
    (engine.best(), began.elapsed())
}

fn filled(seconds: f64, problems: u32) {
    let share = |types: usize, number: u32| {
        let (answer, _) = solved(problem(CONTAINER, &bischoff_ratcliff(types, number)), Goal::Most, seconds);
        100.0 * answer.plan().map_or(0, Plan::volume) as f64 / volume(CONTAINER) as f64
    };
    let class = |types: &usize| (1..=problems).map(|number| share(*types, number)).sum::<f64>() / f64::from(problems);
    let classes: Vec<f64> = TYPES.iter().map(class).collect();
    let each: String = classes.iter().map(|share| format!(" {share:6.2}")).collect();
    println!("{seconds:5} s, first {problems:3}:{each}   mean {:6.2} %", classes.iter().sum::<f64>() / 7.0);
}

fn whole(what: &str, seconds: f64, set: impl Fn(u64) -> Vec<Type>) {
    let mut times = Vec::new();
    for seed in 9001..=9100 {
        let (answer, time) = solved(problem(BOX, &set(seed)), Goal::All, seconds);
        assert_ne!(answer.key(), "impossible");
        if matches!(answer, Answer::Fits(_) | Answer::FitsTight { .. }) {
            times.push(time);
        }
    }
    times.sort_unstable();
    let middle = times.get(times.len() / 2).copied().unwrap_or_default();
    println!("{what:36} {seconds:5} s: whole {:3} of 100, half of them within {middle:.1?}", times.len());
}

pub fn measure() {
    println!("Volume in % of the container, classes 1 to 7 of Bischoff & Ratcliff, seconds of one core:");
    filled(0.05, 100);
    filled(1.0, 10);
    filled(10.0, 4);
    println!("Best known by any method in any time: 96.08 96.50 96.73 96.68 96.67 96.58 96.41, mean 96.52 %");
    println!("(public data of the packing solver fontanf/packingsolver, averaged).");
    let loaded = loh_nee().into_iter().map(|(container, types)| solved(problem(container, &types), Goal::All, 0.05).0);
    let loaded = loaded.filter(|answer| matches!(answer, Answer::Fits(_) | Answer::FitsTight { .. })).count();
    println!("Loh & Nee, all of it in, 0.05 s: {loaded} of 15 (13 can be)");
    whole("30 things of all sorts, 75 % stiff", 0.05, |seed| mixed(30, 0.75, seed));
    whole("30 things of all sorts, 75 % stiff", 1.0, |seed| mixed(30, 0.75, seed));
    whole("30 pieces of a full box, 85 %", 0.05, |seed| cut(30, 0.85, seed));
    whole("30 pieces of a full box, 90 %", 1.0, |seed| cut(30, 0.90, seed));
    first(100);
}

/// How long the first plan for sixty things takes, from the problem to the answer, on the clock.
fn first(sets: u64) {
    let time = |seed: u64| {
        let problem = problem(BOX, &mixed(60, 0.75, seed));
        let began = Instant::now();
        let mut engine = Engine::new(problem, 1);
        engine.run(&Limit::new(1.0), 1);
        let answer = engine.best();
        let time = began.elapsed();
        assert!(answer.plan().is_some());
        time
    };
    let mut times: Vec<Duration> = (9001..9001 + sets).map(time).collect();
    times.sort_unstable();
    let (middle, slowest) = (times[times.len() / 2], times[times.len() - 1]);
    println!("First plan for 60 things: half of {sets} within {middle:.2?}, the slowest {slowest:.2?}");
}
