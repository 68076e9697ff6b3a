//! The contributors' guide names every floor and every dependency, and the licence both texts.

use std::path::Path;

fn page(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

#[test]
fn every_dependency_has_its_reason() {
    let manifest = page("Cargo.toml");
    let guide = page("DEVELOPERS.md");
    let section = |name: &'static str| {
        let lines = manifest.lines().skip_while(move |line| *line != name).skip(1);
        lines.take_while(|line| !line.starts_with('[')).filter_map(|line| line.split_once(" = ")).map(|(name, _)| name)
    };
    let names: Vec<&str> = section("[dependencies]").collect();
    assert!(names.len() > 10, "{names:?}");
    for name in &names {
        assert!(guide.contains(&format!("\n| {name} | ")), "DEVELOPERS.md does not say why {name} is there");
    }
    for name in section("[dev-dependencies]") {
        assert!(guide.contains(name), "DEVELOPERS.md does not name {name}");
    }
    let rows = guide.split("## Dependencies").nth(1).unwrap().lines().filter(|line| line.starts_with("| "));
    assert_eq!(rows.count(), names.len() + 1, "a row for a crate that is not there");
}

#[test]
fn every_floor_is_on_the_map() {
    let guide = page("DEVELOPERS.md");
    let map = page("src/lib.rs");
    for entry in Path::new(env!("CARGO_MANIFEST_DIR")).join("src").read_dir().unwrap() {
        let entry = entry.unwrap();
        let name = entry.file_name().into_string().unwrap();
        if entry.path().is_dir() {
            assert!(guide.contains(&format!("`src/{name}/`")), "DEVELOPERS.md has no {name}");
            assert!(map.contains(&format!("[`{name}`]")), "src/lib.rs has no {name}");
        }
    }
}

#[test]
fn the_licence_has_both_texts() {
    let licence = page("LICENSE");
    assert!(licence.contains("Permission is hereby granted, free of charge"));
    assert!(licence.contains("TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION"));
    assert!(page("Cargo.toml").contains("license = \"MIT OR Apache-2.0\""));
}

#[test]
fn nothing_new_stands_at_the_top() {
    let known =
        ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "src", "tests", "sample", "target"];
    for entry in Path::new(env!("CARGO_MANIFEST_DIR")).read_dir().unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(name.starts_with('.') || known.contains(&name.as_str()), "{name} is new at the top");
    }
}

/// Every function of the tests, and of the tests beside the code.
fn tests_there_are() -> std::collections::BTreeSet<String> {
    let mut names = std::collections::BTreeSet::new();
    let mut folders = vec!["tests", "src"]
        .into_iter()
        .map(|name| Path::new(env!("CARGO_MANIFEST_DIR")).join(name))
        .collect::<Vec<_>>();
    while let Some(folder) = folders.pop() {
        for entry in folder.read_dir().unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                let functions = text.split("#[test]").skip(1).filter_map(|rest| rest.split_once("fn "));
                names.extend(functions.filter_map(|(_, rest)| Some(rest.split_once('(')?.0.to_owned())));
                // Laws are functions inside a macro.
                let laws = text.lines().filter_map(|line| line.trim().strip_prefix("fn "));
                names.extend(laws.filter_map(|rest| Some(rest.split_once('(')?.0.to_owned())));
            }
        }
    }
    names
}

#[test]
fn each_habit_names_tests_that_are_there() {
    let guide = page("DEVELOPERS.md");
    let habits = guide.split("## Habits of good terminal programs").nth(1).unwrap().split("\n## ").next().unwrap();
    let rows: Vec<&str> = habits.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| |")).collect();
    assert_eq!(rows.len(), 40);
    let there = tests_there_are();
    for row in rows.iter().filter(|row| !row.contains("measured, not tested")) {
        let named = row.rsplit('|').nth(1).unwrap().split('`').skip(1).step_by(2).collect::<Vec<_>>();
        assert!(!named.is_empty(), "{row}");
        for name in named {
            assert!(there.contains(name), "there is no test {name}: {row}");
        }
    }
}
