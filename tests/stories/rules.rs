//! The drive's rules, and money of other kinds.

use crate::shell::{Computer, line};

const RULES: &str = "name = \"Our drive\"\ncurrency = \"USD\"\n\
                     checklist = [{ category = \"hygiene\", count = 2 }, { kind = \"toothbrush\", count = 1 }]\n\
                     [[band]]\nages = [6, 8]\n";

#[test]
fn rules_are_shown_set_and_followed() {
    let home = Computer::new();
    let builtin = home.ok(&["profile"]);
    assert_eq!(builtin.matches("[[band]]").count(), 3, "{builtin}");
    assert!(!home.file().exists(), "looking makes no file");
    home.write("drive.toml", RULES);
    home.ok(&["profile", "drive.toml"]);
    home.write("shown.toml", &home.ok(&["profile"]));
    assert!(home.no(1, &["profile", "shown.toml"]).contains("so already"));
    home.ok(&["log", "3 combs .30", "toothbrush .20"]);
    home.ok(&["box", "plan", "girl 6-8"]);
    home.ok(&["put", "1", "2 combs"]);
    let review = home.ok(&["review"]);
    assert!(line(&review, "1  girl").ends_with("✓        ○ 1"), "{review}");
    assert!(home.ok(&["put", "1", "toothbrush"]).contains("Box 1 has all that it must hold"));
    let err = home.no(2, &["box", "plan", "girl 3-5"]);
    assert!(err.contains("3–5 is no age group of this drive"), "{err}");
}

#[test]
fn what_is_wrong_in_rules_is_said_with_its_place() {
    let home = Computer::new();
    home.write("drive.toml", &RULES.replace("checklist", "chekclist"));
    let err = home.no(2, &["profile", "drive.toml"]);
    assert!(err.contains("drive.toml") && err.contains("line 3, column 1") && err.contains("chekclist"), "{err}");
    home.write("drive.toml", &RULES.replace("[6, 8]", "[8, 6]"));
    assert!(home.no(2, &["profile", "drive.toml"]).contains("runs backwards"));
    assert!(home.no(2, &["profile", "nowhere.toml"]).contains("nowhere.toml"));
}

#[test]
fn the_currency_stays_once_amounts_are_kept() {
    let home = Computer::new();
    home.ok(&["log", "comb .30"]);
    home.write("drive.toml", &RULES.replace("USD", "EUR"));
    let err = home.no(1, &["profile", "drive.toml"]);
    assert!(err.contains("Amounts are kept in USD already"), "{err}");
}

#[test]
fn money_without_and_with_three_decimals() {
    for (code, line_of, paid, each) in
        [("JPY", "3 combs ¥250", "250", "83.3"), ("KWD", "3 combs KWD 1.000", "1.000", "0.3333")]
    {
        let home = Computer::new();
        home.write("drive.toml", &RULES.replace("USD", code));
        home.ok(&["profile", "drive.toml"]);
        let said = home.ok(&["log", line_of]);
        assert!(said.contains(&format!("{paid} paid")), "{said}");
        let stock = home.json(&["stock"]);
        assert_eq!((&stock["cost"]["known"], &stock["things"][0]["each"]), (&paid.into(), &each.into()));
    }
}
