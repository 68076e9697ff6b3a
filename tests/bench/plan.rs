//! How long plans take, beside another program's figures: `cargo bench --bench bench -- plan`.
//!
//! Time is that of the processor, for the most boxes, for where they would be if a category never ran out, and for one
//! budget. `HiGHS` (<https://highs.dev>, MIT licence) gets a model of the same groups and kinds of stock from `highs.py`
//! and is run if Python has `highspy`; its time is that of building and solving. Where it isn't there its column is empty.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use brimful::model::stop::Stop;
use brimful::plan::{Instance, most, read_instance, unlimited, with_budget};
use serde_json::{Value, json};

use crate::plan_file::{files, written};

struct Seconds(Instant);

impl Stop for Seconds {
    fn stopped(&self) -> bool {
        Instant::now() >= self.0
    }
}

fn five() -> Seconds {
    Seconds(Instant::now() + Duration::from_secs(5))
}

/// Chance that is the same in every run.
struct Chance(u64);

impl Chance {
    fn between(&mut self, from: u64, to: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + (self.0 >> 33) % (to - from + 1)
    }
}

const CATEGORIES: [&str; 5] = ["hygiene", "school", "clothing", "toy", "wow"];

/// Groups with narrow ages and needs that all differ, and so many per cent of what they need: the worst there is.
fn nasty(seed: u64, groups: u64, most_boxes: u64, percent: u64) -> Value {
    let mut chance = Chance(seed);
    for _ in 0..8 {
        chance.between(0, 1);
    }
    let sex = |chance: &mut Chance| ["girl", "boy", "either"][usize::try_from(chance.between(0, 2)).unwrap()];
    let mut wanted = BTreeMap::new();
    let mut rows = Vec::new();
    for number in 0..groups {
        let (from, count) = (chance.between(2, 13), chance.between(1, most_boxes));
        let need: BTreeMap<&str, u64> = CATEGORIES.iter().map(|category| (*category, chance.between(1, 3))).collect();
        for (category, units) in &need {
            *wanted.entry(*category).or_insert(0) += units * count;
        }
        let for_whom = ["girl", "boy"][usize::try_from(chance.between(0, 1)).unwrap()];
        rows.push(json!({"id": format!("g{number}"), "sex": for_whom, "age_from": from, "age_to": from + 1,
                         "count": count, "need": need}));
    }
    let mut lots = Vec::new();
    for (category, units) in wanted {
        let mut left = units * percent / 100;
        while left > 0 {
            let (some, from) = (chance.between(1, 6 * most_boxes.div_ceil(5)).min(left), chance.between(2, 13));
            lots.push(json!({"category": category, "kind": "any", "quantity": some, "sex": sex(&mut chance),
                             "age_from": from, "age_to": from + chance.between(1, 3)}));
            left -= some;
        }
    }
    let offer = |category: &&str| json!({"category": category, "kind": "any", "sex": "either", "age_from": 0, "age_to": 20, "unit_price": 35});
    let offers: Vec<Value> = CATEGORIES.iter().map(offer).collect();
    json!({"categories": CATEGORIES, "groups": rows, "lots": lots, "price_list": offers})
}

/// The processor's time of this process; wall time where the system doesn't tell.
fn processor() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/self/stat").ok()?;
    let ticks: u64 =
        text.rsplit(')').next()?.split_whitespace().skip(11).take(2).filter_map(|it| it.parse::<u64>().ok()).sum();
    Some(Duration::from_millis(ticks * 10))
}

fn time<T>(what: impl FnOnce() -> T) -> (Duration, T) {
    let (began, wall) = (processor(), Instant::now());
    let done = what();
    let wall = wall.elapsed();
    // Ticks of the system are too coarse for short times.
    let spent =
        began.and_then(|began| processor()?.checked_sub(began)).filter(|spent| *spent > Duration::from_millis(200));
    (spent.unwrap_or(wall), done)
}

/// What `HiGHS` finds and how long it takes, if it is there.
fn highs(file: &Path) -> Option<(String, f64)> {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bench/highs.py");
    let output =
        Command::new("python3").arg(script).arg(file).output().ok().filter(|output| output.status.success())?;
    let text = String::from_utf8(output.stdout).ok()?;
    // It greets before it answers.
    let (found, seconds) = text.lines().last()?.split_once(' ')?;
    Some((found.to_owned(), seconds.parse().ok()?))
}

/// Prints the table.
pub fn measure() {
    println!("{:24} {:>13} {:>9} {:>12} {:>9}   HiGHS", "plans", "most", "time", "unlimited", "a budget");
    let folder = tempfile::tempdir().unwrap();
    let rows = [
        ("500 boxes, 40 groups", 40, 25),
        ("1,000 boxes, 100 groups", 100, 20),
        ("50,000 boxes, 600 groups", 600, 165),
    ];
    for (name, groups, boxes) in rows {
        row(name, &nasty(1, groups, boxes, 75), folder.path());
    }
    for seed in 1..=15 {
        row(&format!("80 tiny groups, {seed}"), &nasty(seed, 80, 5, 75), folder.path());
    }
    for file in files() {
        let name = file.file_stem().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        row(&name, &written(&std::fs::read_to_string(&file).unwrap()).0, folder.path());
    }
    println!("\n{MEASURED_ELSEWHERE}");
}

/// Seconds of the processor that `HiGHS` 1.16.0 took for problems of the same kind, one thread, gap 0, the time in which
/// Python built the model included; on another machine of two shared cores, so no ratio is drawn from it.
const MEASURED_ELSEWHERE: &str = "\
HiGHS, measured elsewhere           most   a budget
158 problems up to 500 boxes       0.006      0.007   middle
                                   0.019      0.029   19 of 20 within
                                   0.22       0.24    slowest
486 boxes, 226 groups              0.32       0.26
4,994 boxes, 312 groups            0.039      0.034
49,986 boxes, 626 groups           0.46       0.49
49,987 boxes, 2,026 groups         0.54       0.35";

fn row(name: &str, written: &Value, folder: &Path) {
    let Instance { problem, categories, .. } = read_instance(&written.to_string()).unwrap();
    let (spent, best) = time(|| most(&problem, &five()));
    let (all, ()) = time(|| categories.iter().for_each(|category| _ = unlimited(&problem, category, &five())));
    let (budget, _) = time(|| with_budget(&problem, 4000, &five()));
    let file = folder.join("problem.json");
    std::fs::write(&file, written.to_string()).unwrap();
    let highs = highs(&file).map_or("not there".to_owned(), |(found, seconds)| format!("{found} in {seconds:.3} s"));
    let found = match best.at_most - best.found {
        0 => best.found.to_string(),
        _ => format!("{}–{}", best.found, best.at_most),
    };
    let seconds = |time: Duration| format!("{:.3} s", time.as_secs_f64());
    println!("{name:24} {found:>13} {:>9} {:>12} {:>9}   {highs}", seconds(spent), seconds(all), seconds(budget));
}
