//! How long things take, as a table: `cargo bench`. Decides nothing; wall time on this machine.
//!
//! The peer of the season in a file is the same season kept nowhere: what is left is the price of the disk.
#![allow(
    clippy::panic,
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a measurement prints, and stops when something is not there"
)]

mod fit;
mod frames;
#[path = "../published/loading.rs"]
mod loading;
mod nouns;
mod plan;
#[path = "../published/plan_file.rs"]
mod plan_file;
mod shelf;

use std::time::{Duration, Instant};

use brimful::model::id::{CountedIds, Ids, SeasonId};
use brimful::model::measure::Units;
use brimful::season::{Desk, LogHow, Memory, Moment, PutHow, ReviewWish, Season, Sqlite, StockWish};
use brimful::store::Store;
use jiff::civil::date;

const HAULS: u32 = 50;
const LINES: u32 = 200;

/// A haul of different things, the same in every run.
fn haul(number: u32) -> String {
    const KINDS: [&str; 8] = ["combs", "soaps", "notebooks", "pencils", "erasers", "rulers", "balls", "cups"];
    const COLOURS: [&str; 5] = ["red", "blue", "teal", "coral", "navy"];
    let line = |n: u32| {
        let (kind, colour) = (KINDS[(n % 8) as usize], COLOURS[(n % 5) as usize]);
        format!("{} {kind} number h{number}n{n}q {}.{:02}, {colour}\n", 2 + n % 20, 1 + n % 7, n % 100)
    };
    format!("tax 1.00\n{}", (0..LINES).map(line).collect::<String>())
}

fn season<S: Store>(store: S) -> Season<S> {
    let mut ids = CountedIds::new(9);
    let desk = Desk::Fixed { device: ids.device(), by: String::new() };
    Season::new(store, Box::new(ids), desk, Moment { now_millis: 1_800_000_000_000, today: date(2027, 1, 15) })
}

/// The middle of five times.
fn time(mut what: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..5)
        .map(|_| {
            let began = Instant::now();
            what();
            began.elapsed()
        })
        .collect();
    times.sort();
    times[2]
}

fn once(what: impl FnOnce()) -> Duration {
    let began = Instant::now();
    what();
    began.elapsed()
}

/// What is measured of one kind of store.
fn measure<S: Store>(store: S) -> Vec<(&'static str, Duration)> {
    let mut season = season(store);
    let hauls: Vec<String> = (0..HAULS).map(haul).collect();
    let logged = once(|| hauls.iter().for_each(|text| _ = season.log(text, &LogHow::default()).unwrap()));
    season.plan("50 girl 6-8").unwrap();
    let put = time(|| _ = season.put("1", Units::ONE, "h3n7q", &PutHow::default()).unwrap());
    let each = time(|| {
        season.each("1-2", "h4n8q", false).unwrap();
        season.undo().unwrap();
    });
    vec![
        ("log one haul of 200 lines", logged / HAULS),
        ("put one in, found by name", put),
        ("one into each of two, and undo", each),
        ("stock, 10,000 batches", time(|| _ = season.stock(&StockWish::default()).unwrap())),
        ("review of 50 boxes", time(|| _ = season.review(&ReviewWish::default()).unwrap())),
        ("where is it", time(|| _ = season.where_is("notebooks teal").unwrap())),
        ("rebuild", time(|| season.rebuild().unwrap())),
        ("check", time(|| _ = season.check().unwrap())),
    ]
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if shelf::alone(&arguments) {
        return;
    }
    if arguments.iter().any(|word| word == "fit") {
        return fit::measure();
    }
    if arguments.iter().any(|word| word == "nouns") {
        return nouns::nouns();
    }
    if arguments.iter().any(|word| word == "plan") {
        return plan::measure();
    }
    if arguments.iter().any(|word| word == "shelf") {
        return shelf::measure();
    }
    let id = SeasonId::new(CountedIds::new(1).fresh());
    let folder = tempfile::tempdir().unwrap();
    let file = measure(Sqlite::open_or_create(&folder.path().join("season.brimful"), id).unwrap());
    let memory = measure(Memory::new(id));
    println!("{:34} {:>12} {:>12} {:>8}", "", "in a file", "in memory", "ratio");
    for ((what, filed), (_, kept)) in file.iter().zip(&memory) {
        let millis = |time: &Duration| format!("{:.2} ms", time.as_secs_f64() * 1000.0);
        let ratio = filed.as_secs_f64() / kept.as_secs_f64().max(1e-9);
        println!("{what:34} {:>12} {:>12} {ratio:>8.1}", millis(filed), millis(kept));
    }
    let text: String = (0..10).map(haul).collect();
    let season = season(Memory::new(id));
    let read = time(|| _ = season.read(&text).unwrap());
    println!("{:34} {:>9.1} µs", "reading one line", read.as_secs_f64() * 1e6 / f64::from(10 * LINES + 10));
    shelf::measure();
}
