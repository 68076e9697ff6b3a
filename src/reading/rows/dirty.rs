//! Rules 14 and 16: order, spacing and dirt.

use super::differs;

const DIRTY: [(&str, &str); 22] = [
    ("  6   combs    1.00  ", "combs | 6 | 1.00"),
    ("6\tcombs\t1.00", "combs | 6 | 1.00"),
    ("6 combs 1.00.", "combs | 6 | 1.00"),
    ("6 combs. 1.00", "combs | 6 | 1.00"),
    ("6 COMBS 1.00 EACH", "combs | 6 | 6.00"),
    ("6, combs, 1.00, each", "combs | 6 | 6.00"),
    ("6 combs,1.00", "combs | 6 | 1.00"),
    ("6 combs $1.00,tote 4", "combs | 6 | 1.00 | place tote 4"),
    ("\u{1b}[31m6 combs\u{1b}[0m 1.00", "combs | 6 | 1.00"),
    ("6 combs\u{9b}2J 1.00", "combs | 6 | 1.00"),
    ("6 combs\u{202e} 1.00", "combs | 6 | 1.00"),
    ("6\u{b}combs\u{c}1.00\u{85}each", "combs | 6 | 6.00"),
    ("6 co\u{0}mbs 1.00", "combs | 6 | 1.00"),
    ("6\u{a0}combs\u{a0}1.00", "combs | 6 | 1.00"),
    ("6 combs 1.00 (bought 12, 3 broken; 5c off)", "combs | 6 | 1.00"),
    ("6 combs 1.00 (open, 50% off", "combs | 6 | 1.00"),
    ("6 combs $ 1.00", "combs | 6 | 1.00"),
    ("6 combs - 1.00", "combs | 6 | 1.00"),
    ("6 combs 1.00!", "combs | 6 | 1.00"),
    ("now only 6 combs, bought, paid 1.00", "combs | 6 | 1.00"),
    ("", "- | 1 | - | ask name,paid"),
    ("...", "- | 1 | - | ask name,paid"),
];

#[test]
fn dirt_does_no_harm() {
    let wrong: Vec<String> = DIRTY.iter().filter_map(|(line, expected)| differs(line, expected)).collect();
    assert!(wrong.is_empty(), "{} lines:\n{}", wrong.len(), wrong.join("\n"));
}
