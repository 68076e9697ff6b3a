//! The README's table of cautions is made from the rules themselves, and its drive's rules can be read.
//!
//! `BLESS=1 cargo test --test docs` writes the table anew, to be read before it is kept.

use std::path::Path;

use brimful::cautions::RULES;
use brimful::model::profile::Profile;

fn table() -> String {
    let mut rows = "| rule | about | for children | source |\n|---|---|---|---|\n".to_owned();
    for rule in RULES {
        let whom = rule.under.map_or_else(|| "of any age".to_owned(), |age| format!("under {age}"));
        rows.push_str(&format!("| `{}` | {} | {whom} | {} |\n", rule.id, rule.about, rule.source));
    }
    rows
}

#[test]
fn the_readme_lists_the_rules_there_are() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let page = std::fs::read_to_string(&path).unwrap();
    let (before, rest) = page.split_once("<!-- cautions -->\n").expect("the README has a place for the rules");
    let (_, after) = rest.split_once("<!-- end of cautions -->").expect("and its end");
    let made = format!("{before}<!-- cautions -->\n{}<!-- end of cautions -->{after}", table());
    if std::env::var_os("BLESS").is_some() && made != page {
        std::fs::write(&path, &made).unwrap();
        return;
    }
    assert_eq!(page, made);
    assert!(RULES.len() >= 20);
}

#[test]
fn the_rules_of_the_readmes_drive_can_be_read() {
    let page = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap();
    let (_, toml) = page.split_once("```toml\ntravel_days").expect("the README shows rules of a drive");
    let (toml, _) = toml.split_once("```").expect("and ends them");
    let whole = format!("name = \"A drive\"\ncurrency = \"USD\"\ntravel_days{toml}\n[[band]]\nages = [6, 8]\n");
    let profile = Profile::from_toml(&whole).unwrap();
    assert_eq!((profile.travel_days, profile.rules.len()), (Some(60), 2));
}
