//! *About*, *I think*, `~`: what is said, but not for sure. The value is kept as said and marked.
//!
//! Words that only bound a value (*at least*, *under*) are no value; the rules of prices and counts ask.

use super::line::Line;
use super::number::number;
use super::question::About;
use super::taken::What;
use super::token::Shape;

/// Before a number or an amount these say that it is not exact.
const BEFORE: [&str; 17] = [
    "about",
    "around",
    "roughly",
    "approx",
    "approximately",
    "maybe",
    "perhaps",
    "probably",
    "almost",
    "nearly",
    "circa",
    "ca",
    "something like",
    "i think it was",
    "i think",
    "i guess",
    "~",
];
/// Behind a number or an amount.
const BEHIND: [&str; 7] = ["or so", "or thereabouts", "more or less", "give or take", "ish", "i think", "i guess"];
/// Wherever they stand.
const ASIDE: [&str; 8] = [
    "i think",
    "i guess",
    "i believe",
    "if i remember right",
    "if i recall",
    "from memory",
    "not sure",
    "or so i think",
];

/// The end of words behind a number or an amount that say it is not exact: `or so`, `-ish`.
fn behind(line: &Line<'_>, at: usize) -> Option<usize> {
    let ish = if line.is(at, &["-"]) && line.glued(at) { at + 1 } else { at };
    let glued = || (line.glued(ish) && line.is(ish, &["ish"])).then_some(ish + 1);
    let apart = if line.is(at, &[","]) { at + 1 } else { at };
    glued().or_else(|| line.any_phrase(apart, &BEHIND))
}

/// Hedges beside an amount; they belong to its words from then on.
pub(super) fn prices(line: &mut Line<'_>) {
    for i in 0..line.draft.prices.len() {
        let Some((from, to)) = line.draft.prices.get(i).map(|price| (price.from, price.to)) else { continue };
        let start = (from.saturating_sub(5)..from).find(|&at| before(line, at) == Some(from));
        let end = behind(line, to);
        if start.is_none() && end.is_none() {
            continue;
        }
        let (start, end) = (start.unwrap_or(from), end.unwrap_or(to));
        line.take(start..end, What::About);
        line.draft.about.push(About::Paid);
        if let Some(price) = line.draft.prices.get_mut(i) {
            (price.from, price.to) = (start, end);
        }
    }
}

/// The end of a hedge that begins here; a full stop may follow its short form.
fn before(line: &Line<'_>, at: usize) -> Option<usize> {
    let end = line.any_phrase(at, &BEFORE).filter(|_| !line.hangs_before(at))?;
    let stop = usize::from(line.is(at, &["approx", "ca"]) && line.is(end, &["."]));
    Some(end + stop)
}

/// Hedges that stand aside, once prices know their words: they speak of the amount beside them, else
/// of the nearest number.
pub(super) fn asides(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let end = line.any_phrase(at, &ASIDE)?;
        let sign =
            |at: usize| line.tokens.get(at).is_some_and(|token| token.shape == Shape::Sign && token.took.is_none());
        let left = (0..at).rev().find(|&i| !sign(i));
        let right = (end..line.tokens.len()).find(|&i| !sign(i));
        let price = |i: Option<usize>| {
            i.is_some_and(|i| matches!(line.took(i), Some(What::Price | What::MarkedDown | What::About)))
        };
        let counts =
            |i: usize| line.took(i) == Some(What::Pack) || number(line, i).is_some_and(|number| !number.article);
        let about = if price(left) || price(right) {
            Some(About::Paid)
        } else {
            let counted = right.is_some_and(counts) || (0..at).any(counts);
            counted.then_some(About::Units)
        };
        line.take(at..end, What::About);
        line.draft.about.extend(about);
        Some(end)
    });
}

/// Hedges beside a number that counts: the number stays for the rules that count.
pub(super) fn counts(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let plain = number(line, at).filter(|number| !number.article && !line.hangs_before(at));
        if let Some((number, end)) = plain.and_then(|number| Some((number, behind(line, number.end)?))) {
            line.take(number.end..end, What::About);
            // 12-ish is no longer part of a word.
            if let Some(hyphen) = line.tokens.get_mut(number.end) {
                hyphen.glued = false;
            }
            line.draft.about.push(About::Units);
            return Some(number.end);
        }
        let start = before(line, at)?;
        let counts = number(line, start).is_some_and(|number| !number.article && !line.hangs(start, number.end));
        if !counts && line.took(start) != Some(What::Pack) {
            return None;
        }
        line.take(at..start, What::About);
        line.draft.about.push(About::Units);
        Some(start)
    });
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, paid, questions, read, units};

    fn doubtful(line: &str) -> Vec<&'static str> {
        read(line).about.iter().map(|about| about.word()).collect()
    }

    #[test]
    fn a_doubtful_price_is_kept_as_said() {
        for (line, amount, thing) in [
            ("combs about 1.25", "1.25", "combs"),
            ("combs ~1.25", "1.25", "combs"),
            ("combs ~ $3", "3.00", "combs"),
            ("combs for about a dollar", "1.00", "combs"),
            ("combs $3-ish", "3.00", "combs"),
            ("combs 3 dollars or so", "3.00", "combs"),
            ("combs 1.50 I think", "1.50", "combs"),
            ("combs, I think 1.50", "1.50", "combs"),
            ("combs 1.50, I think, tote 4", "1.50", "combs"),
            ("2 packs of 6 combs about ten cents a pack, I think", "0.20", "combs"),
            ("4 notebooks approx. 15c each", "0.60", "notebooks"),
            ("combs maybe 50c", "0.50", "combs"),
        ] {
            assert_eq!(paid(line).as_deref(), Some(amount), "{line}");
            assert_eq!(doubtful(line), ["paid"], "{line}");
            assert_eq!(name(line), thing, "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn a_doubtful_count_is_kept_as_said() {
        for (line, count) in [
            ("about 12 combs 1.00", 12),
            ("~12 combs 1.00", 12),
            ("roughly a dozen combs 1.00", 12),
            ("12 or so combs 1.00", 12),
            ("12-ish combs 1.00", 12),
            ("maybe 20 beads 1.00", 20),
            ("about 3 packs of 6 combs 1.00", 18),
            ("I think 12 combs 1.00", 12),
        ] {
            assert_eq!(units(line), Some(count), "{line}");
            assert_eq!(doubtful(line), ["units"], "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        assert_eq!(doubtful("about 12 combs about 1.00"), ["paid", "units"]);
    }

    #[test]
    fn elsewhere_these_words_are_the_name() {
        for (line, thing) in [
            ("book about trains 1.00", "book about trains"),
            ("all about me poster 1.00", "all about me poster"),
            ("wrap around skirt 1.00", "wrap around skirt"),
        ] {
            assert_eq!(name(line), thing, "{line}");
            assert!(doubtful(line).is_empty(), "{line}");
        }
    }

    #[test]
    fn a_bound_is_no_value() {
        for line in ["combs under 2.00", "combs less than $3", "combs at most 1.00"] {
            assert_eq!((paid(line), questions(line)), (None, vec!["paid"]), "{line}");
        }
        for line in ["at least 12 combs 1.00", "more than 12 combs 1.00", "over 12 combs 1.00"] {
            assert_eq!((units(line), questions(line)), (None, vec!["units"]), "{line}");
        }
    }
}
