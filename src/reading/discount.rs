//! Rule 3: marked down, and what it cost before.

use rust_decimal::Decimal;

use super::number::number;
use super::question::About;
use super::taken::What;
use super::work::Work;

const BEFORE: [&str; 10] = [
    "marked down from",
    "marked from",
    "reduced from",
    "down from",
    "was",
    "regularly",
    "regular",
    "reg",
    "originally",
    "orig",
];
const OTHER_WORDS: [&str; 8] = ["discount", "discounted", "reduced", "sale", "less", "minus", "save", "saved"];

/// Finds regular prices and what was taken off.
pub(super) fn discounts(work: &mut Work<'_>) {
    work.scan(regular);
    work.scan(off);
    work.scan(unclear);
}

/// `was 6.99`, `reg. price 6.99`, `marked down from 6.99`.
fn regular(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let mut end = work.any_phrase(at, &BEFORE)?;
    while work.is(end, &["price", ".", ":", "at"]) {
        end += 1;
    }
    let price = work.draft.prices.iter_mut().find(|price| price.from == end)?;
    price.regular = true;
    price.from = at;
    let to = price.to;
    work.take(at..end, What::MarkedDown);
    Some(to)
}

/// `50% off`, `75 percent off`, `half off`, `half price`.
fn off(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let (percent, end) = share(work, at)?;
    let from = if at > 0 && work.is(at - 1, &["at", "@", "for"]) { at - 1 } else { at };
    if percent > Decimal::ONE_HUNDRED {
        work.doubt(from..end, About::Paid, "more than all of it is taken off");
    } else {
        work.take(from..end, What::MarkedDown);
        work.draft.offs.push(percent);
    }
    Some(end)
}

fn share(work: &Work<'_>, at: usize) -> Option<(Decimal, usize)> {
    let half = ["half off", "half price", "half the price"];
    if let Some(end) = work.any_phrase(at, &half) {
        return Some((Decimal::from(50), end));
    }
    if work.whole(at) == Some(1) && work.is(at + 1, &["/"]) && work.whole(at + 2) == Some(2) {
        return work.any_phrase(at + 3, &["off", "price"]).map(|end| (Decimal::from(50), end));
    }
    let (percent, end) = percent(work, at)?;
    work.phrase(end, "off").map(|end| (percent, end))
}

/// A number with `%` or *percent* behind it.
fn percent(work: &Work<'_>, at: usize) -> Option<(Decimal, usize)> {
    let (value, end) = match work.number(at) {
        Some(token) => (token.decimal()?, at + 1),
        None => number(work, at).map(|number| (Decimal::from(number.value), number.end))?,
    };
    let end = work.any_phrase(end, &["%", "percent", "per cent", "pct"])?;
    Some((value, end))
}

/// An amount taken off, a third off, a percentage beside *discount*: nothing here decides these.
fn unclear(work: &mut Work<'_>, at: usize) -> Option<usize> {
    if work.is(at, &["off"]) && !work.hangs(at, at + 1) {
        let price = work.draft.prices.iter().position(|price| price.to == at);
        let fraction = at > 0 && work.is(at - 1, &["third", "quarter", "thirds"]);
        let slash = at > 2 && work.is(at - 2, &["/"]) && work.number(at - 1).is_some();
        let plain = at > 0 && work.number(at - 1).is_some();
        if let Some(price) = price {
            let from = work.draft.prices.remove(price).from;
            work.doubt(from..at + 1, About::Paid, "what was left to pay?");
        } else if fraction || slash || plain {
            let from = if slash { at.saturating_sub(3) } else { at - 1 };
            work.doubt(from..at + 1, About::Paid, "how much was taken off?");
        } else {
            return None;
        }
        return Some(at + 1);
    }
    let (_, end) = percent(work, at)?;
    let beside = |at: usize| work.is(at, &OTHER_WORDS);
    let before = at > 0 && (beside(at - 1) || work.is(at - 1, &["down"]));
    if !before && !beside(end) {
        return None;
    }
    work.doubt(at..end, About::Paid, "how much was taken off?");
    Some(end)
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{paid, questions, regular};

    fn both(line: &str) -> (Option<String>, Option<String>) {
        assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        (regular(line), paid(line))
    }

    fn prices(regular: &str, paid: &str) -> (Option<String>, Option<String>) {
        (Some(regular.to_owned()), Some(paid.to_owned()))
    }

    #[test]
    fn a_discount_makes_the_price_the_regular_one() {
        assert_eq!(both("tiara 2.50 half off"), prices("2.50", "1.25"));
        assert_eq!(both("tiara half price 2.50"), prices("2.50", "1.25"));
        assert_eq!(both("tiara 2.50 at 50% off"), prices("2.50", "1.25"));
        assert_eq!(both("tiara 75 percent off 8.00"), prices("8.00", "2.00"));
        assert_eq!(both("tiara 1/2 off 8.00"), prices("8.00", "4.00"));
        assert_eq!(both("tiara was 6.99, 75% off"), prices("6.99", "1.75"));
        assert_eq!(both("tiara 100% off 8.00"), prices("8.00", "0.00"));
    }

    #[test]
    fn the_other_price_is_what_was_paid() {
        assert_eq!(both("tiara was 6.99 now 3.00"), prices("6.99", "3.00"));
        assert_eq!(both("tiara 3.00 reg. 6.99"), prices("6.99", "3.00"));
        assert_eq!(both("tiara 3.00, marked down from 6.99"), prices("6.99", "3.00"));
        assert_eq!(both("tiara regular price $7 3.00"), prices("7.00", "3.00"));
        assert_eq!(both("3 tees .99 each was 2.00"), prices("6.00", "2.97"));
        assert_eq!(both("6 soaps 2 for $3 originally $4"), prices("12.00", "9.00"));
    }

    #[test]
    fn rounding_is_per_thing_priced() {
        assert_eq!(both("3 tees .99 each half off"), prices("2.97", "1.50"));
        assert_eq!(both("3 tees .99 half off each"), prices("2.97", "1.50"));
        assert_eq!(both("3 tees .99 half off"), prices("0.99", "0.50"));
        assert_eq!(both("2 packs of 5 vests 3.33 a pack half off"), prices("6.66", "3.34"));
        assert_eq!(both("6 soaps 2 for .99 half off"), prices("2.97", "1.50"));
    }

    #[test]
    fn facts_that_agree_do_not_ask_and_those_that_differ_do() {
        assert_eq!(both("tiara was 8.00 half off 4.00"), prices("8.00", "4.00"));
        for line in [
            "tiara was 8.00 half off 3.00",
            "tiara 3.00 2.00",
            "tiara $1 off",
            "tiara 3.00 $1 off",
            "tiara a third off 3.00",
            "tiara 3.00 20% discount",
            "tiara 3.00 20 off",
            "tiara 50% off 20% off 3.00",
            "tiara 150% off 3.00",
            "tiara was 2.00 now 3.00",
            "tiara was 2.00",
            "tiara half off",
        ] {
            assert_eq!(paid(line), None, "{line}");
            assert!(questions(line).contains(&"paid"), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn other_percentages_are_part_of_the_name() {
        assert_eq!(paid("100% cotton tee 2.00").as_deref(), Some("2.00"));
        assert!(questions("100% cotton tee 2.00").is_empty());
        assert_eq!(paid("regular comb 1.00").as_deref(), Some("1.00"));
    }
}
