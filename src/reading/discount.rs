//! Rule 3: marked down, and what it cost before.

use rust_decimal::Decimal;

use super::line::Line;
use super::number::number;
use super::question::About;
use super::taken::What;
use super::words::{BOUNDS, SMALL};

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
pub(super) fn discounts(line: &mut Line<'_>) {
    line.scan(regular);
    line.scan(off);
    line.scan(unclear);
    line.scan(product);
    line.scan(inexact);
}

/// `was 6.99`, `reg. price 6.99`, `marked down from 6.99`.
fn regular(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let mut end = line.any_phrase(at, &BEFORE)?;
    while line.is(end, &["price", ".", ":", "at"]) {
        end += 1;
    }
    let price = line.draft.prices.iter_mut().find(|price| price.from == end)?;
    price.regular = true;
    price.from = at;
    let to = price.to;
    line.take(at..end, What::MarkedDown);
    Some(to)
}

/// `50% off`, `75 percent off`, `half off`, `half price`.
fn off(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let (percent, end) = share(line, at)?;
    let from = if at > 0 && line.is(at - 1, &["at", "@", "for"]) { at - 1 } else { at };
    if from < at && names_a_shop(line, at..end) {
        line.doubt(from..end + 1, About::Paid, "is that a shop, or half the price?");
        return Some(end + 1);
    }
    if at > 1 && line.phrase(at - 2, "up to").is_some() {
        line.doubt(at - 2..end, About::Paid, "how much was taken off?");
    } else if percent > Decimal::ONE_HUNDRED {
        line.doubt(from..end, About::Paid, "more than all of it is taken off");
    } else {
        line.take(from..end, What::MarkedDown);
        line.draft.offs.push(percent);
    }
    Some(end)
}

/// *At Half Price Barn*: written with capitals that go on into the next word.
fn names_a_shop(line: &Line<'_>, half: std::ops::Range<usize>) -> bool {
    // A line all in capitals says nothing by them.
    let capital = |range| {
        let typed = line.typed(range);
        typed.starts_with(char::is_uppercase) && typed.contains(char::is_lowercase)
    };
    line.word(half.end).is_some() && capital(half.clone()) && capital(half.end..half.end + 1)
}

fn share(line: &Line<'_>, at: usize) -> Option<(Decimal, usize)> {
    let half = ["half off", "half price", "half the price"];
    if let Some(end) = line.any_phrase(at, &half) {
        return Some((Decimal::from(50), end));
    }
    if line.whole(at) == Some(1) && line.is(at + 1, &["/"]) && line.whole(at + 2) == Some(2) {
        return line.any_phrase(at + 3, &["off", "price"]).map(|end| (Decimal::from(50), end));
    }
    let (percent, end) = percent(line, at)?;
    let end = if line.is(end, &["-"]) { end + 1 } else { end };
    line.phrase(end, "off").map(|end| (percent, end))
}

/// A number with `%` or *percent* behind it.
fn percent(line: &Line<'_>, at: usize) -> Option<(Decimal, usize)> {
    let (value, end) = match line.number(at) {
        Some(token) => (token.decimal()?, at + 1),
        None => number(line, at).map(|number| (Decimal::from(number.value), number.end))?,
    };
    let end = line.any_phrase(end, &["%", "percent", "per cent", "pct"])?;
    Some((value, end))
}

/// An amount taken off, a third off, a percentage beside *discount*: nothing here decides these.
fn unclear(line: &mut Line<'_>, at: usize) -> Option<usize> {
    if line.is(at, &["off"]) && !line.hangs(at, at + 1) {
        let price = line.draft.prices.iter().position(|price| price.to == at);
        let fraction = at > 0 && line.is(at - 1, &["third", "quarter", "thirds"]);
        let slash = at > 2 && line.is(at - 2, &["/"]) && line.number(at - 1).is_some();
        let plain = at > 0 && line.number(at - 1).is_some();
        if let Some(price) = price {
            let from = line.draft.prices.remove(price).from;
            line.doubt(from..at + 1, About::Paid, "what was left to pay?");
        } else if fraction || slash || plain {
            let from = if slash { at.saturating_sub(3) } else { at - 1 };
            line.doubt(from..at + 1, About::Paid, "how much was taken off?");
        } else {
            return None;
        }
        return Some(at + 1);
    }
    let (_, end) = percent(line, at)?;
    let beside = |at: usize| line.is(at, &OTHER_WORDS);
    let before = at > 0 && (beside(at - 1) || line.is(at - 1, &["down"]));
    let made_of = line.word(end).is_some_and(|word| !SMALL.contains(&word));
    if !before && !beside(end) && made_of {
        // A 100% cotton tee: the number counts nothing.
        line.take(at..end, What::Name);
        return Some(end);
    }
    line.doubt(at..end, About::Paid, "how much was taken off?");
    Some(end)
}

/// `6x1.00` and `1.00x6`, all in one word: a count beside a price, or a product of them.
fn product(line: &mut Line<'_>, at: usize) -> Option<usize> {
    if !line.is(at, &["x", "*"]) || !line.glued(at) || !line.glued(at + 1) {
        return None;
    }
    let before = at.checked_sub(1)?;
    let (priced_before, priced_behind) =
        (line.took(before) == Some(What::Price), line.draft.prices.iter().any(|price| price.from == at + 1));
    let range = match (line.whole(before), line.whole(at + 1)) {
        (Some(_), _) if priced_behind => before..at + 1,
        (_, Some(_)) if priced_before => at..at + 2,
        _ => return None,
    };
    let end = range.end;
    line.ask(About::Units, format!("\"{}\": is it how many there are?", line.typed(before..at + 2)));
    line.doubt(range, About::Paid, "is it the price of each?");
    Some(end)
}

/// At most a dollar is no amount, and `12 x .10` may be one or a product.
fn inexact(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let end = line.any_phrase(at, &BOUNDS).or_else(|| line.any_phrase(at, &["under", "half of", "half", "x", "*"]))?;
    let price = line.draft.prices.iter().find(|price| price.from == end)?.to;
    // `4x 1.00` is a count and a price.
    if line.glued(at) && line.is(at, &["x"]) {
        return None;
    }
    line.doubt(at..end, About::Paid, "what was it exactly?");
    Some(price)
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
            "tiara 3.00 20%",
            "tiara bogo 3.00",
            "tiara 50% off 20% off 3.00",
            "tiara 150% off 3.00",
            "tiara was 2.00 now 3.00",
            "tiara was 2.00",
            "tiara half off",
            "tiara up to 50% off 2.00",
            "tiara under 2.00",
            "tiara under $5",
            "12 x .10 tiaras",
            "tiara half of 2.00",
            "tiaras 12 x 10c",
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
