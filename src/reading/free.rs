//! Rules 4 and 14: what cost nothing, and words that say nothing more.

use super::line::Line;
use super::question::About;
use super::taken::What;
use super::words::SMALL;

const FREE: [&str; 12] = [
    "free of charge",
    "for free",
    "free",
    "no charge",
    "for nothing",
    "gifted",
    "given to us",
    "given",
    "was donated",
    "donated",
    "freebie",
    "a freebie",
];
const FILLER: [&str; 8] = ["on sale", "now", "paid", "only", "bought", "got", "found", "just"];

/// Finds words that say it cost nothing.
pub(super) fn free(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let end = line.any_phrase(at, &FREE).or_else(|| gift(line, at))?;
        if line.hangs(at, end) {
            return None;
        }
        if at > 0 && line.number(at - 1).is_some() && !counts_all(line, at - 1) {
            line.doubt(at - 1..end, About::Paid, "how many of them were free?");
            return Some(end);
        }
        line.take(at..end, What::Free);
        line.draft.free = true;
        Some(end)
    });
}

/// *a gift*, but a gift bag is a thing.
fn gift(line: &Line<'_>, at: usize) -> Option<usize> {
    let end = line.any_phrase(at, &["as a gift", "a gift"])?;
    let noun = line.word(end).is_some_and(|word| !SMALL.contains(&word));
    (!noun && !line.hangs_behind(end)).then_some(end)
}

/// Whether the number counts the whole line, because it begins it or is written as `x3`.
fn counts_all(line: &Line<'_>, at: usize) -> bool {
    let times = at.checked_sub(1).is_some_and(|before| line.is(before, &["x", "qty"]));
    times || line.tokens.iter().take(at).all(|token| token.took.is_some())
}

/// Drops words that say nothing more.
pub(super) fn filler(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let end = line.any_phrase(at, &FILLER).filter(|&end| !line.hangs(at, end))?;
        line.take(at..end, What::Filler);
        Some(end)
    });
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, paid, questions};

    #[test]
    fn free_is_paid_nothing() {
        for words in ["free", "no charge", "for nothing", "gifted", "given", "donated", "freebie", "a gift", "for free"]
        {
            let line = format!("comb {words}");
            assert_eq!(paid(&line).as_deref(), Some("0.00"), "{line}");
            assert_eq!(name(&line), "comb", "{line}");
            assert!(questions(&line).is_empty(), "{line}");
        }
        assert_eq!(paid("3 free combs").as_deref(), Some("0.00"));
        assert_eq!(paid("comb, a gift from neighbour").as_deref(), Some("0.00"));
    }

    #[test]
    fn free_and_a_price_asks() {
        for line in ["comb free 1.00", "comb free half off", "combs buy 1 get 1 free"] {
            assert_eq!(paid(line), None, "{line}");
            assert!(questions(line).contains(&"paid"), "{line}");
        }
    }

    #[test]
    fn what_only_sounds_free() {
        assert_eq!(paid("a gift bag 50c").as_deref(), Some("0.50"));
        assert_eq!(name("a gift bag 50c"), "gift bag");
        assert_eq!(paid("sugar-free lip balm 1.00").as_deref(), Some("1.00"));
        assert_eq!(name("now only found comb on sale, paid 1.00"), "comb");
    }
}
