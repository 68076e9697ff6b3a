//! The sample, and the laws looked at from the outside with SQL.

use rusqlite::{Connection, OpenFlags};

use crate::shell::Computer;

#[test]
fn the_sample_is_made_apart_from_ones_own_season() {
    let home = Computer::new();
    home.ok(&["log", "comb .50"]);
    let own = std::fs::read(home.file()).unwrap();
    let out = home.ok(&["sample", "--no-tui"]);
    assert!(out.contains("9 of 24 boxes full, 1 closed"), "{out}");
    assert!(out.contains("state/sample/season.brimful"), "{out}");
    assert_eq!(std::fs::read(home.file()).unwrap(), own);
    // Opened again it is as one left it.
    let sample = home.path("state/sample/season.brimful");
    home.ok(&["--file", sample.to_str().unwrap(), "box", "close", "2"]);
    assert!(home.ok(&["sample"]).contains("2 closed"));
    // Fresh is anew, and the old one is kept.
    assert!(home.ok(&["sample", "--fresh"]).contains("1 closed"));
    let kept = home.path("state/sample/season.brimful.old-1");
    assert!(home.ok(&["--file", kept.to_str().unwrap(), "box", "show", "2"]).contains("closed:"));
}

#[test]
fn the_sample_is_a_year_of_hauls_and_24_boxes() {
    let home = Computer::new();
    home.ok(&["sample", "here"]);
    let file = home.path("here/season.brimful");
    let ask = |args: &[&str]| home.json(&[&["--file", file.to_str().unwrap()], args].concat());
    let hauls = ask(&["hauls"])["hauls"].as_array().unwrap().clone();
    let lines: u64 = hauls.iter().map(|haul| haul["lines"].as_u64().unwrap()).sum();
    assert!(hauls.len() >= 7 && lines >= 150, "{} hauls, {lines} lines", hauls.len());
    // Where there is a receipt, the lines add up to it.
    let receipts: Vec<_> = hauls.iter().filter(|haul| haul["receipt"] != "").collect();
    assert!(receipts.len() >= 6);
    assert!(receipts.iter().all(|haul| haul["over"] == ""), "{receipts:?}");
    let boxes = ask(&["box", "list"])["boxes"].as_array().unwrap().clone();
    let full: Vec<_> = boxes.iter().filter(|giftbox| giftbox["full"] == true).collect();
    assert_eq!((boxes.len(), full.len()), (24, 9));
    // No batch is left without a category, and nothing wants settling.
    let things = ask(&["stock"])["things"].as_array().unwrap().clone();
    let unknown: Vec<_> =
        things.iter().filter(|thing| thing["category"].is_null()).map(|thing| &thing["name"]).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
    assert_eq!(ask(&["review"])["settle"]["items"].as_array().unwrap().len(), 0);
}

/// The cost laws as anybody can ask them of the file.
#[test]
fn the_laws_hold_in_sql() {
    let home = Computer::new();
    home.ok(&["sample", "here"]);
    let file = home.path("here/season.brimful");
    let flag = file.to_str().unwrap();
    for args in [&["lose", "2 gel pens"][..], &["loose", "star stickers"], &["split", "star pencils", "--of", "2"]] {
        home.ok(&[&["--file", flag], args].concat());
    }
    let connection = Connection::open_with_flags(&file, OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    let number = |sql: &str| connection.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap();
    let lots = number("SELECT COUNT(*) FROM lot");
    assert!(lots > 190, "{lots}");
    let laws = [
        "cost_in = on_hand_cost + boxed_cost + loose_cost + lost_cost + passed_cost",
        "min(cost_in, on_hand_cost, boxed_cost, loose_cost, lost_cost, passed_cost) >= 0",
        "on_hand > 0 OR on_hand_cost = 0",
        "units_in = boxed + loose + lost + passed + on_hand - bare",
    ];
    for law in laws {
        assert_eq!(number(&format!("SELECT COUNT(*) FROM lot WHERE {law}")), lots, "{law}");
    }
    // The lines of a haul and what came on top of them are what its batches cost.
    let spent = number("SELECT SUM(cost_in) FROM lot WHERE haul IS NOT NULL");
    let lines = number("SELECT SUM(paid) FROM lot WHERE haul IS NOT NULL");
    let on_top = number("SELECT SUM(facts ->> 'tax' + facts ->> 'postage' - facts ->> 'coupon') FROM haul");
    assert_eq!(spent, lines + on_top);
    let placed = "SELECT COUNT(*) FROM lot WHERE boxed_cost <> \
                  (SELECT COALESCE(SUM(cost), 0) FROM placement WHERE placement.lot = lot.lot)";
    assert_eq!(number(placed), 0);
    assert!(number("SELECT SUM(passed_cost) FROM lot") > 0 && number("SELECT SUM(lost_cost) FROM lot") > 0);
}
