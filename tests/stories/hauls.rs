//! Logging hauls: what is saved, what is asked, what is told.

use crate::shell::{Computer, line};

#[test]
fn a_haul_in_plain_words_is_kept_to_the_cent() {
    let home = Computer::new();
    let text = "at Corner Bazaar, 2027-02-16\ntax 0.10\npostage 1.00\ncoupon 0.20\nreceipt 6.50\ntote 4\n\
                12 toothbrushes 1.50\n3 combs 1.10\n2 for $3 soap dishes, tote 5\n";
    let told = home.tell(&["log"], text);
    assert_eq!(told.code, 0, "{}", told.err);
    // 1.50 + 1.10 + 3.00 = 5.60; with 0.10 tax and 1.00 postage less 0.20 coupon: 6.50.
    assert!(told.out.starts_with("Logged 3 lines, 6.50 paid, 2027-02-16, Corner Bazaar."), "{}", told.out);
    assert!(told.out.contains("It adds up to the receipt."));
    let stock = home.json(&["stock", "--batches"]);
    // 0.90 on top over 1.50 : 1.10 : 3.00 is 0.241, 0.177, 0.482: 24, 18 and 48 cents.
    let costs: Vec<(String, String, String)> = (stock["things"].as_array().unwrap().iter())
        .map(|thing| {
            let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
            (text(&thing["name"]), text(&thing["cost"]["known"]), text(&thing["totes"][0]))
        })
        .collect();
    let expected = [("combs", "1.28", "tote 4"), ("soap dishes", "3.48", "tote 5"), ("toothbrushes", "1.74", "tote 4")];
    assert_eq!(costs, expected.map(|(a, b, c)| (a.to_owned(), b.to_owned(), c.to_owned())));
}

#[test]
fn a_line_in_doubt_saves_nothing_of_the_haul() {
    let home = Computer::new();
    for (lines, asked) in [
        (vec!["12 combs 1.00", "5 soaps 2 for $3"], "line 2"),
        (vec!["a few stickers 50c"], "line 1"),
        (vec!["toothbrush"], "what did it cost"),
        (vec!["1.00"], "what is it"),
        (vec!["12 combs 1.00", &"x".repeat(501)], "500"),
    ] {
        let args = [&["log"], lines.as_slice()].concat();
        let err = home.no(1, &args);
        assert!(err.contains("Nothing was saved yet.") && err.contains(asked), "{err}");
    }
    assert_eq!(home.ok(&["stock"]), "Nothing on hand. `brimful log` writes what you bought.\n");
    assert_eq!(home.ok(&["history"]), "Nothing was done yet.\n");
}

#[test]
fn a_price_may_stay_open_and_is_settled_later() {
    let home = Computer::new();
    let out = home.ok(&["log", "--open-price", "2 combs", "4 soaps 1.00"]);
    assert!(out.contains("1 line saved with the price open."), "{out}");
    home.ok(&["box", "plan", "6-8"]);
    home.ok(&["put", "1", "comb"]);
    let out = home.ok(&["cost"]);
    assert!(line(&out, "Spent").contains("at least 1.00; 2 things unpriced"), "{out}");
    assert_eq!(home.json(&["cost", "1"])["cost"]["unpriced"], 1);
    // 25 cents for two combs: the first takes 12 (half to even), the last takes the rest.
    home.ok(&["mend", "comb", "--paid", "0.25"]);
    assert_eq!(home.json(&["cost", "1"])["cost"]["known"], "0.12");
    home.ok(&["put", "1", "comb"]);
    assert_eq!(home.json(&["cost", "1"])["cost"]["known"], "0.25");
    let out = home.ok(&["cost"]);
    assert!(line(&out, "Spent").ends_with(" 1.25"), "{out}");
    home.ok(&["mend", "comb", "--paid", "unknown"]);
    assert_eq!(home.json(&["cost", "1"])["cost"]["unpriced"], 2);
}

#[test]
fn the_first_day_is_counted_without_prices() {
    let home = Computer::new();
    let text = "opening count, tote 7, 2027-01-02\n9 combs\ntote 3\n14 notebooks\n";
    let told = home.tell(&["log"], text);
    assert_eq!(told.code, 0, "{}", told.err);
    assert!(told.out.starts_with("Logged 2 lines, 2027-01-02."), "{}", told.out);
    assert_eq!(home.ok(&["where-is", "comb"]), "combs: 9 in tote 7\n");
    assert_eq!(home.ok(&["where-is", "notebook"]), "notebooks: 14 in tote 3\n");
    let batches = home.ok(&["stock", "comb", "--batches"]);
    assert!(batches.contains("opening count 2027-01-02"), "{batches}");
}

#[test]
fn a_receipt_that_does_not_agree_is_told_and_mended() {
    let home = Computer::new();
    let out = home.tell(&["log"], "receipt 1.40\n2 combs 1.00\n").out;
    assert!(out.contains("The receipt says 0.40 more than the lines."), "{out}");
    let handle = home.json(&["hauls"])["hauls"][0]["handle"].as_str().unwrap().to_owned();
    home.ok(&["mend-haul", &handle, "--tax", "0.40", "--at", "Mill Lane Market"]);
    let hauls = home.ok(&["hauls"]);
    assert!(line(&hauls, &handle).ends_with("1.40  adds up"), "{hauls}");
    assert_eq!(home.json(&["stock"])["cost"]["known"], "1.40");
    home.ok(&["log", "--at", "Mill Lane Market", "--on", "2027-05-05", "soap .50"]);
    assert!(
        home.no(1, &["mend-haul", "mill lane", "--tax", "1"])
            .contains(&format!("{handle}  2027-10-14 Mill Lane Market"))
    );
    home.ok(&["mend-haul", "mill lane 2027-05-05", "--tax", "1"]);
    assert!(home.no(2, &["mend-haul", "zzzzz", "--tax", "1"]).contains("no haul is called \"zzzzz\""));
}

#[test]
fn a_correction_reaches_what_is_already_packed() {
    let home = Computer::new();
    home.ok(&["log", "4 combs 1.00"]);
    home.ok(&["box", "plan", "6-8"]);
    home.ok(&["put", "1", "2", "combs"]);
    assert_eq!(home.json(&["box", "show", "1"])["cost"]["known"], "0.50");
    home.ok(&["mend", "comb", "--paid", "3.00", "--name", "Wide combs", "--tote", "tote 9"]);
    assert_eq!(home.json(&["box", "show", "1"])["cost"]["known"], "1.50");
    assert_eq!(home.ok(&["where-is", "wide comb"]), "wide combs: 2 in tote 9; 2 in box 1\n");
    home.ok(&["undo"]);
    assert_eq!(home.json(&["box", "show", "1"])["cost"]["known"], "0.50");
    assert!(home.no(1, &["mend", "comb", "--paid", "1.00"]).contains("so already"));
}

#[test]
fn reading_changes_nothing_and_needs_no_season() {
    let home = Computer::new();
    let out = home.ok(&["read", "tiara 2.50 half off", "5 soaps 2 for $3"]);
    assert!(out.starts_with("1 tiara"), "{out}");
    assert!(out.contains("1.25 paid, regular 2.50"), "{out}");
    assert!(out.contains("? "), "{out}");
    assert!(!home.file().exists());
    let said = home.tell(&["read", "--json"], "comb 50c\n\u{1b}[31m2 pens $1\u{1b}[0m; wallet 5\n");
    let lines: Vec<serde_json::Value> = said.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 3);
    assert!(lines.iter().all(|line| line["version"] == 1));
    assert_eq!((&lines[1]["n"], &lines[2]["n"]), (&2.into(), &2.into()));
    assert_eq!((&lines[1]["name"], &lines[1]["units"], &lines[1]["paid"]), (&"pens".into(), &2.into(), &"1.00".into()));
    assert!(!said.out.contains('\u{1b}'));
    let long = "y".repeat(501);
    let said = home.tell(&["read", "--json"], &format!("comb 50c\n{long}\n"));
    assert_eq!(said.code, 2);
    assert!(said.out.lines().nth(1).unwrap().contains("\"error\""), "{}", said.out);
}
