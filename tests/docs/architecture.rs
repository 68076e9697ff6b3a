//! Which floor may use which: every path in `src` is read and held to the arrows.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Each floor and the floors it may name.
const ARROWS: &[(&str, &[&str])] = &[
    ("model", &[]),
    ("catalogue", &["model"]),
    ("reading", &["model", "catalogue"]),
    ("find", &["model", "catalogue"]),
    ("fit", &["model"]),
    ("report", &["model", "catalogue"]),
    ("store", &["model"]),
    ("suits", &["model"]),
    ("cautions", &["model", "catalogue"]),
    ("season", &["model", "catalogue", "reading", "find", "report", "store", "suits", "cautions", "fit", "plan"]),
    ("plan", &["model"]),
    ("tui", &["season", "model"]),
    // The shell opens the terminal interface; it knows nothing of its inside.
    ("cli", &["season", "model", "tui"]),
];

/// Crates that only one floor may name.
const OWNED: &[(&str, &str)] =
    &[("rusqlite", "store"), ("clap", "cli"), ("directories", "cli"), ("fuzzy_matcher", "find"), ("ratatui", "tui")];

/// Within the terminal interface: words that a folder or file may not name, and why not.
const INSIDE_TUI: &[(&str, &[&str], &str)] = &[
    ("tui/app", &["ratatui", "tui::draw", "tui::term"], "what is on the screens is plain values"),
    ("tui/draw", &["tui::back", "tui::term", "crossterm"], "drawing asks nobody"),
    ("tui/back", &["ratatui", "tui::draw", "tui::term"], "what stands behind the screens draws nothing"),
];

/// Words that reach for the clock; the pure floors are told the time.
const CLOCKS: &[&str] = &["Timestamp::now", "ZonedDateTime::now", "SystemTime::now", "Instant::now"];
const PURE: &[&str] =
    &["model", "catalogue", "reading", "find", "report", "season", "suits", "cautions", "fit", "plan"];

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in folder.read_dir().unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// Every file of `src` with its floor and its lines of code, comments left out.
fn code() -> Vec<(String, PathBuf, Vec<String>)> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let read = |path: PathBuf| {
        let inner = path.strip_prefix(&src).unwrap();
        let floor = inner.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        let lines = text.lines().filter(|line| !line.trim_start().starts_with("//")).map(str::to_owned).collect();
        (floor, path, lines)
    };
    sources(&src).into_iter().map(read).collect()
}

/// The floors that a line names: `crate::store::…` names store.
fn named(line: &str) -> Vec<&str> {
    let after = line.match_indices("crate::").map(|(at, word)| &line[at + word.len()..]);
    after.map(|rest| rest.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or("")).collect()
}

#[test]
fn every_arrow_points_the_right_way() {
    let arrows: BTreeMap<&str, &[&str]> = ARROWS.iter().copied().collect();
    let mut seen = BTreeMap::new();
    for (floor, path, lines) in code() {
        let Some(allowed) = arrows.get(floor.as_str()) else {
            assert!(["lib.rs", "main.rs"].contains(&floor.as_str()), "{}: a floor without arrows", path.display());
            continue;
        };
        for line in &lines {
            for other in named(line) {
                *seen.entry(floor.clone()).or_insert(0) += 1;
                assert!(other == floor || allowed.contains(&other), "{}: {floor} → {other}: {line}", path.display());
            }
            // Two steps up may leave the floor without its name being seen.
            assert!(!line.contains("super::super::"), "{}: name the floor with crate:: in {line}", path.display());
        }
    }
    for (floor, _) in ARROWS.iter().filter(|(floor, _)| *floor != "model") {
        assert!(seen.contains_key(*floor), "{floor} names nothing: is this test reading the right lines?");
    }
}

#[test]
fn a_crate_that_belongs_to_one_floor_is_named_there_alone() {
    for (floor, path, lines) in code() {
        for (name, owner) in OWNED {
            let found = lines.iter().find(|line| line.contains(&format!("{name}::")));
            assert!(found.is_none() || floor == *owner, "{}: only {owner} may name {name}: {found:?}", path.display());
        }
    }
}

#[test]
fn the_parts_of_the_terminal_interface_keep_apart() {
    let mut seen = 0;
    for (_, path, lines) in code() {
        let place = path.to_string_lossy().replace('\\', "/");
        for (part, words, why) in INSIDE_TUI.iter().filter(|(part, ..)| place.contains(&format!("src/{part}/"))) {
            seen += 1;
            for word in *words {
                let found = lines.iter().find(|line| line.contains(&format!("{word}::")));
                assert!(found.is_none(), "{place}: {part} may not name {word}, for {why}: {found:?}");
            }
        }
        let only_term = place.ends_with("src/tui/term.rs");
        assert!(only_term || !lines.iter().any(|line| line.contains("crossterm::")), "{place} names the terminal");
    }
    assert!(seen > 20, "only {seen} files of the terminal interface were found");
}

#[test]
fn no_pure_floor_reads_a_clock() {
    for (floor, path, lines) in code().iter().filter(|(floor, ..)| PURE.contains(&floor.as_str())) {
        for clock in CLOCKS {
            let found = lines.iter().find(|line| line.contains(clock));
            assert!(found.is_none(), "{} ({floor}): {found:?}", path.display());
        }
    }
}

#[test]
fn files_and_functions_stay_small() {
    let mut lengths = Vec::new();
    for (_, path, _) in code() {
        let text = std::fs::read_to_string(&path).unwrap();
        let count = text.lines().count();
        assert!(count <= 500, "{}: {count} lines", path.display());
        for (name, length) in functions(&text) {
            assert!(length <= 60, "{}: {name} has {length} lines", path.display());
            lengths.push(length);
        }
    }
    lengths.sort_unstable();
    assert!(lengths.len() > 500, "only {} functions found", lengths.len());
    let (median, p99) = (lengths[lengths.len() / 2], lengths[lengths.len() * 99 / 100]);
    println!("{} functions, median {median} lines, p99 {p99}", lengths.len());
    assert!(median <= 8 && p99 <= 60, "median {median}, p99 {p99}");
}

/// Functions with their lengths in lines, by the indentation that the formatter gives.
fn functions(text: &str) -> Vec<(String, usize)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        let code = line.trim_start();
        let indent = line.len() - code.len();
        let head = code.trim_start_matches("pub ").trim_start_matches("pub(super) ").trim_start_matches("pub(crate) ");
        let Some(rest) = head.trim_start_matches("const ").strip_prefix("fn ") else { continue };
        if code.ends_with(';') {
            continue;
        }
        let closing = format!("{}}}", " ".repeat(indent));
        let end = if code.ends_with('}') { Some(0) } else { lines[index..].iter().position(|line| *line == closing) };
        let name = rest.split(['(', '<']).next().unwrap_or("").to_owned();
        found.extend(end.map(|length| (name, length + 1)));
    }
    found
}
