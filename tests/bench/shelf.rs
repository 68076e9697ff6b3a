//! The shelf with a hundred thousand things: how much memory, how long to fill, to search, to patch.
//!
//! The file is written by a process of its own, so that the memory measured is what the shelf takes.

use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use brimful::model::id::{CountedIds, Ids, SeasonId};
use brimful::model::measure::Units;
use brimful::season::{LogHow, PutHow, Shelf, Sqlite, Which};

use crate::season;

const NOUNS: [&str; 40] = [
    "comb", "soap", "notebook", "pencil", "eraser", "ruler", "ball", "cup", "spoon", "brush", "towel", "scarf", "cap",
    "doll", "lantern", "pillow", "fan", "folder", "mirror", "ribbon", "whistle", "kite", "drum", "plate", "bowl",
    "purse", "wallet", "torch", "bell", "clip", "hook", "button", "spinner", "puppet", "stamp", "sticker", "bracelet",
    "necklace", "belt", "apron",
];
const ADJECTIVES: [&str; 25] = [
    "wooden", "cotton", "plain", "soft", "sturdy", "shiny", "folding", "woven", "painted", "striped", "dotted",
    "woolly", "smooth", "curved", "hollow", "bright", "simple", "padded", "quilted", "knitted", "carved", "rubber",
    "tin", "paper", "felt",
];
const PATTERNS: [&str; 4] = ["leaf", "star", "fish", "moon"];
const COLOURS: [&str; 25] = [
    "red",
    "blue",
    "teal",
    "coral",
    "navy",
    "green",
    "yellow",
    "orange",
    "purple",
    "pink",
    "brown",
    "black",
    "white",
    "grey",
    "gold",
    "silver",
    "turquoise",
    "lavender",
    "maroon",
    "beige",
    "mint",
    "peach",
    "cream",
    "olive",
    "lime",
];
const QUERIES: [&str; 30] = [
    "c", "s", "t", "z", "no", "pe", "er", "te", "mb", "com", "not", "tea", "rib", "ook", "wood", "teal", "tbrs",
    "brck", "kite ", "spoon", "nbktl", "coral", "notebo", "teal no", "pupept", "brcelet", "notebook", "teal kit",
    "wodoen", "qqqqqqqq",
];

fn line(n: usize) -> String {
    let (noun, rest) = (NOUNS[n % 40], n / 40);
    let (adjective, rest) = (ADJECTIVES[rest % 25], rest / 25);
    let (colour, rest) = (COLOURS[rest % 25], rest / 25);
    let pattern = PATTERNS[rest % 4];
    format!("{} {adjective} {pattern} {noun} {}.{:02}, {colour}, tote {}\n", 2 + n % 9, n % 7, 10 + n % 90, 1 + n % 30)
}

pub fn file(folder: &Path, things: usize) -> std::path::PathBuf {
    folder.join(format!("season-{things}.brimful"))
}

/// Writes a season of so many different things and fifty boxes.
fn write(folder: &Path, things: usize) {
    let id = SeasonId::new(CountedIds::new(1).fresh());
    let mut season = season(Sqlite::open_or_create(&file(folder, things), id).unwrap());
    let lines: Vec<usize> = (0..things).collect();
    for chunk in lines.chunks(500) {
        let text: String = chunk.iter().map(|n| line(*n)).collect();
        season.log(&text, &LogHow { open_price: true, ..LogHow::default() }).unwrap();
    }
    season.plan("50 girl 6-8").unwrap();
    let shelf = season.shelf().unwrap();
    assert_eq!(shelf.len(), things);
    for number in 1..=50 {
        for nth in 0..15 {
            let ware = &shelf.wares()[(number * 997 + nth * 61) % things];
            let how = PutHow::default();
            season.put(&number.to_string(), Units::ONE, Which::Lots(&ware.lots), &how).unwrap();
        }
    }
}

/// Memory of this process that is really there, in MB, from what Linux tells.
pub fn resident() -> f64 {
    let text = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = text.lines().find(|line| line.starts_with("VmRSS:")).unwrap_or("VmRSS: 0 kB");
    let kilobytes: f64 = line.split_whitespace().nth(1).and_then(|number| number.parse().ok()).unwrap_or(0.0);
    kilobytes / 1024.0
}

pub fn told(what: &str, times: &mut [Duration]) {
    times.sort();
    let millis = |time: Duration| time.as_secs_f64() * 1000.0;
    let (middle, most) = (times[times.len() / 2], times[times.len() - 1]);
    println!("  {what:38} {:>9.3} ms, at most {:>9.3} ms", millis(middle), millis(most));
}

fn timed<T>(mut what: impl FnMut() -> T, runs: usize) -> Vec<Duration> {
    (0..runs)
        .map(|_| {
            let began = Instant::now();
            drop(what());
            began.elapsed()
        })
        .collect()
}

/// Opens the file and does what a screen does with it.
fn look(folder: &Path, things: usize) {
    let before = resident();
    let id = SeasonId::new(CountedIds::new(1).fresh());
    let mut season = season(Sqlite::open_or_create(&file(folder, things), id).unwrap());
    println!("{things} things");
    told("the board, 50 boxes", &mut timed(|| season.board().unwrap(), 9));
    told("the first 40 things", &mut timed(|| season.first_wares(40).unwrap(), 9));
    let began = Instant::now();
    let shelf = season.shelf().unwrap();
    told("filling the shelf", &mut [began.elapsed()]);
    println!("  memory of the process {:.1} MB ({before:.1} MB before the file was opened)", resident());
    search(&shelf);
    let mut puts = Vec::new();
    let mut patches = Vec::new();
    let mut undos = Vec::new();
    for nth in 0..15 {
        let ware = &shelf.wares()[nth * 601 % things];
        season.take_touched();
        puts.extend(timed(|| season.put("7", Units::ONE, Which::Lots(&ware.lots), &PutHow::default()).unwrap(), 1));
        let touched = season.take_touched();
        patches.extend(timed(|| season.restock(&shelf, &touched).unwrap(), 1));
        undos.extend(timed(|| season.undo().unwrap(), 1));
    }
    told("putting one in, by id", &mut puts);
    told("patching the shelf after it", &mut patches);
    told("undoing it", &mut undos);
    told("history of 50", &mut timed(|| season.history(50).unwrap(), 9));
    println!("  memory of the process at the end {:.1} MB", resident());
}

fn search(shelf: &Shelf) {
    for query in QUERIES {
        let found = shelf.find(query, 50).len();
        told(&format!("find {query:?}: {found}"), &mut timed(|| shelf.find(query, 50), 9));
    }
}

/// What a process of its own does; none where this is the one that was called.
pub fn alone(arguments: &[String]) -> bool {
    let [_, what, folder, things, ..] = arguments else { return false };
    let Ok(things) = things.parse() else { return false };
    match what.as_str() {
        "write" => write(Path::new(folder), things),
        "look" => look(Path::new(folder), things),
        "frames" => crate::frames::look(Path::new(folder), things),
        _ => return false,
    }
    true
}

/// Measures ten thousand things and a hundred thousand.
pub fn measure() {
    let folder = tempfile::tempdir().unwrap();
    let program = std::env::current_exe().unwrap();
    for things in ["10000", "100000"] {
        for what in ["write", "look", "frames"] {
            let done = Command::new(&program).arg(what).arg(folder.path()).arg(things).status().unwrap();
            assert!(done.success());
        }
    }
}
