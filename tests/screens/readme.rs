//! The README's screens are drawn anew and compared, and its table of keys is made from the table
//! of actions. `BLESS=1 cargo test --test screens` writes both anew, to be read before they are kept.

use std::path::{Path, PathBuf};

use brimful::tui::app::keymap::Keymap;
use brimful::tui::app::table::{Group, On, TABLE};

use crate::table::Table;

fn path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")
}

/// The page with its screens drawn anew: after `<!-- screen: keys -->` stands what these keys lead to.
fn drawn(page: &str) -> String {
    let mut out = String::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        out.push_str(line);
        out.push('\n');
        let keys = line.strip_prefix("<!-- screen:").and_then(|rest| rest.strip_suffix("-->"));
        if let Some(keys) = keys {
            let mut table = Table::sample(80, 24);
            table.keys(keys.trim());
            // What stood there before is passed over.
            assert_eq!(lines.next(), Some("```text"));
            let _old = lines.by_ref().find(|line| *line == "```");
            out.push_str(&format!("```text\n{}\n```\n", table.screen()));
        }
    }
    out
}

fn keys() -> String {
    let mut rows = String::from("| key | does | |\n|---|---|---|\n");
    for group in [Group::Go, Group::Do, Group::Move, Group::Line] {
        for row in TABLE.iter().filter(|row| row.group == group) {
            let names = Keymap::default().names(row);
            let keys = if names.is_empty() { "by name".to_owned() } else { format!("`{names}`") };
            let some = if row.on == On::All { "" } else { " (on some screens)" };
            rows.push_str(&format!("| {keys} | {} | {}{some} |\n", row.label, row.help));
        }
    }
    rows
}

fn with_keys(page: &str) -> String {
    let (before, rest) = page.split_once("<!-- keys -->\n").expect("the README has a place for the keys");
    let (_, after) = rest.split_once("<!-- end of keys -->").expect("and its end");
    format!("{before}<!-- keys -->\n{}<!-- end of keys -->{after}", keys())
}

#[test]
fn the_readme_shows_real_screens_and_the_keys_there_are() {
    let page = std::fs::read_to_string(path()).unwrap();
    let made = with_keys(&drawn(&page));
    if std::env::var_os("BLESS").is_some() && made != page {
        std::fs::write(path(), &made).unwrap();
        return;
    }
    assert!(page.matches("<!-- screen:").count() >= 4);
    for (number, (shown, real)) in (1..).zip(page.lines().zip(made.lines())) {
        assert_eq!(shown, real, "README.md, line {number}");
    }
    assert_eq!(page.lines().count(), made.lines().count());
}
