//! A thing that went back to the shop.

use super::line::Line;
use super::taken::What;
use super::token::Shape;

const LEADING: [&str; 9] = [
    "returned",
    "returning",
    "return",
    "took back",
    "taken back",
    "brought back",
    "sent back",
    "gave back",
    "refund for",
];

/// Finds `returned 2 combs`, `combs, returned`; a return ticket is a thing.
pub(super) fn backs(line: &mut Line<'_>) {
    let first = line.tokens.iter().position(|token| token.shape == Shape::Word || token.took.is_some());
    line.scan(|line, at| {
        let lead = if line.is(at, &["i", "we"]) { at + 1 } else { at };
        let begins = first == Some(at);
        let phrases: &[&str] = if begins { &LEADING } else { &["returned to the shop", "returned", "taken back"] };
        let end = line.any_phrase(lead, phrases).filter(|&end| !line.hangs(at, end))?;
        let alone = line.is(at, &["return"]);
        let counts = line.is(end, &[":", "of", "the"]) || super::number::number(line, end).is_some();
        if alone && !counts {
            return None;
        }
        let end = if line.is(end, &[":", "the"]) { end + 1 } else { end };
        line.take(at..end, What::Returned);
        line.draft.returned = true;
        Some(end)
    });
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, paid, questions, read, units};

    #[test]
    fn a_returned_thing_is_a_line() {
        for (line, count, thing) in [
            ("returned 2 combs 0.50", 2, "combs"),
            ("took back a comb .50", 1, "comb"),
            ("return: 2 combs, 0.25 each", 2, "combs"),
            ("2 combs returned 0.50", 2, "combs"),
            ("I returned the comb 0.50", 1, "comb"),
        ] {
            let reading = read(line);
            assert!(reading.returned, "{line}");
            assert_eq!((units(line), name(line).as_str()), (Some(count), thing), "{line}");
            assert_eq!(paid(line).as_deref(), Some("0.50"), "{line}");
        }
        assert_eq!(questions("returned 2 combs"), ["paid"]);
        assert!(!read("return address stamp 1.00").returned);
        assert_eq!(name("return address stamp 1.00"), "return address stamp");
    }
}
