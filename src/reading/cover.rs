//! Rule 2, second part: what a price covers. *each*, *a pack*, *a pair*, *for all*.

use super::draft::Scope;
use super::line::Line;
use super::question::About;
use super::taken::What;
use super::words::{LOOSE_PACKS, PACKS, unit};
use crate::catalogue::same_word;

/// The price is for everything in the line.
const WHOLE: [&str; 7] = ["for all", "for both", "for the lot", "the lot", "in all", "altogether", "total"];

/// Finds the words that say what a price covers and gives each to its price.
pub(super) fn covers(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let (scope, end) = scope(line, at).filter(|_| !inside_each(line, at))?;
        let counted = at.checked_sub(1).is_some_and(|before| line.whole(before).is_some());
        let may_lead = !counted && (scope == Scope::Each || line.is(at, &["per", "each"]));
        let Some(owner) = owner(line, at, end, may_lead) else { return stray(line, at, end, &scope) };
        let taken = line.draft.prices.get(owner).is_some_and(|price| price.scope != Scope::Bare);
        if taken {
            line.doubt(at..end, About::Paid, "the price is said to cover two things");
            return Some(end);
        }
        line.take(at..end, What::Price);
        if let Some(price) = line.draft.prices.get_mut(owner) {
            price.scope = scope;
        }
        Some(end)
    });
}

/// The words that begin here and what they make a price cover.
fn scope(line: &Line<'_>, at: usize) -> Option<(Scope, usize)> {
    if let Some(end) = line.any_phrase(at, &WHOLE) {
        return Some((Scope::Whole, end));
    }
    let start = if line.is(at, &["/"]) { at + 1 } else { at };
    let each = ["for each", "each one", "each", "ea", "apiece", "per piece", "per item", "a piece"];
    if let Some(end) = line.any_phrase(start, &each).filter(|&end| !line.is(end, &["of"])) {
        let twice =
            || line.word(end).filter(|word| said_twice(line, end, word)).map(|word| Scope::Per(word.to_owned()));
        return match noun(line, end).or_else(twice) {
            Some(scope) if line.is(start, &["each"]) => Some((scope, end + 1)),
            _ => Some((Scope::Each, end)),
        };
    }
    let end = if start > at { start } else { line.any_phrase(at, &["for a", "a", "an", "per", "the"])? };
    let scope = noun(line, end).filter(|_| !line.is(end + 1, &["of"]));
    let said_per = start > at || line.is(at, &["per"]);
    let named = || {
        line.word(end).filter(|word| said_per || said_twice(line, end, word)).map(|word| Scope::Per(word.to_owned()))
    };
    scope.or_else(named).map(|scope| (scope, end + 1))
}

/// `6 pens 10c a pen`: the word of the price is the thing itself, named elsewhere in the line.
fn said_twice(line: &Line<'_>, at: usize, word: &str) -> bool {
    (0..line.tokens.len()).any(|i| i != at && line.word(i).is_some_and(|other| same_word(other, word)))
}

/// `12 in each` says what a pack holds.
fn inside_each(line: &Line<'_>, at: usize) -> bool {
    at.checked_sub(1).is_some_and(|before| line.is(before, &["in"])) && line.is(at, &["each"])
}

/// A pack word or a unit word in the singular.
fn noun(line: &Line<'_>, at: usize) -> Option<Scope> {
    let word = line.word(at)?;
    if (PACKS.contains(&word) || LOOSE_PACKS.contains(&word)) && !(word.ends_with('s')) && !line.hangs(at, at + 1) {
        return Some(Scope::Pack(word.to_owned()));
    }
    unit(word).filter(|(_, many)| !many).map(|(one, _)| Scope::Per(one.to_owned()))
}

/// The price these words stand beside; nothing but money words may lie between.
///
/// Only *each* and *per* may stand before it: "a box 1.00" is the price of a box.
fn owner(line: &Line<'_>, at: usize, end: usize, may_lead: bool) -> Option<usize> {
    let prices = &line.draft.prices;
    let between = |range: std::ops::Range<usize>| {
        range.into_iter().all(|i| {
            matches!(line.took(i), Some(What::Price | What::MarkedDown | What::Note))
                || line.is(i, &[".", ",", "/", "-"])
        })
    };
    let before = prices.iter().rposition(|price| price.to <= at && between(price.to..at));
    let behind = || prices.iter().position(|price| price.from >= end && between(end..price.from));
    before.or_else(|| behind().filter(|_| may_lead))
}

/// *each* far from any price may still speak of the only one; other words are no scope there.
fn stray(line: &mut Line<'_>, at: usize, end: usize, scope: &Scope) -> Option<usize> {
    if *scope != Scope::Each || line.is(at, &["a"]) {
        return None;
    }
    line.take(at..end, What::Price);
    match line.draft.prices.as_mut_slice() {
        [only] if only.scope == Scope::Bare => only.scope = Scope::Stray,
        [] => {}
        _ => line.doubt(at..end, About::Paid, "which price is it that is for each?"),
    }
    Some(end)
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{paid, questions, units};

    #[test]
    fn each_multiplies_by_what_was_bought() {
        for (line, amount) in [
            ("4 notebooks 15c each", "0.60"),
            ("4 notebooks 15c ea.", "0.60"),
            ("4 notebooks 15c apiece", "0.60"),
            ("4 notebooks 15c a piece", "0.60"),
            ("4 notebooks $1/each", "4.00"),
            ("4 notebooks each 15c", "0.60"),
            ("each 15c, 4 notebooks", "0.60"),
            ("2 12-packs pens $1 each", "2.00"),
            ("pencils 12 pack x2 $1 each", "2.00"),
            ("24 coloured pencils 10c each in bundles of 8", "2.40"),
            ("4 notebooks 0.60", "0.60"),
            ("4 notebooks 12.5c each", "0.50"),
        ] {
            assert_eq!(paid(line).as_deref(), Some(amount), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn a_pack_and_a_unit_multiply_by_themselves() {
        for (line, amount) in [
            ("2 packs of 5 vests 3.50 a pack", "7.00"),
            ("2 packs of 5 vests 3.50 per pack", "7.00"),
            ("3 boxes of 16 crayons 50c a box", "1.50"),
            ("3 pairs of socks 1.00 a pair", "3.00"),
            ("5 yards of cord 35c a yard", "1.75"),
            ("6 bars of soap .25 per bar", "1.50"),
            ("pack of 6 pairs of socks 1.00 a pair", "6.00"),
            ("2 gift bags 50c a bag", "1.00"),
            ("4 combs 10c per comb", "0.40"),
            ("4 combs 10c a comb", "0.40"),
            ("5 combs 3.00 for all", "3.00"),
        ] {
            assert_eq!(paid(line).as_deref(), Some(amount), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn where_two_readings_differ_it_asks() {
        for line in [
            "pack of 6 combs 10c each",
            "6 pens at 10 cents",
            "2 packs of 5 pens at $1",
            "6 pens @ 10c",
            "6 socks 1.00 a pair",
            "6 combs 1.00 per brush",
            "6 combs 1.00 a pack",
            "6 ea combs 1.00",
            "6 each 1.00 combs",
        ] {
            assert_eq!(paid(line), None, "{line}");
            assert_eq!(questions(line), ["paid"], "{line}");
        }
        assert_eq!(units("pack of 6 combs 10c each"), Some(6));
        assert_eq!(paid("comb at 10 cents").as_deref(), Some("0.10"));
        assert_eq!(paid("6 pens at 10 cents each").as_deref(), Some("0.60"));
    }
}
