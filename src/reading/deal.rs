//! Rule 2, first part: `2 for $3`, `three for a dollar`, `4/$1`.

use super::line::Line;
use super::number::number_before;
use super::taken::What;

/// Notes how many a price is for, and takes the small words that lead to a price.
pub(super) fn deals(line: &mut Line<'_>) {
    for i in 0..line.draft.prices.len() {
        let Some(from) = line.draft.prices.get(i).map(|price| price.from) else { continue };
        let Some((start, deal)) = lead(line, from) else { continue };
        line.take(start..from, What::Price);
        if let Some(price) = line.draft.prices.get_mut(i) {
            price.from = start;
            price.deal = deal;
            price.at = line.tokens.get(start).is_some_and(|token| matches!(token.text.as_str(), "at" | "@"));
        }
    }
}

/// Where the words before a price begin, and the number of a deal.
fn lead(line: &Line<'_>, price: usize) -> Option<(usize, Option<u32>)> {
    let last = price.checked_sub(1)?;
    let before = if line.is(last, &[":"]) { last.checked_sub(1)? } else { last };
    if line.is(before, &["for", "/"]) {
        return match number_before(line, before) {
            Some((from, count)) if !dashed(line, from) => Some((from, Some(count))),
            _ => Some((before, None)),
        };
    }
    let of_what =
        before.checked_sub(1).is_some_and(|i| line.is(i, &["half", "the", "regular", "reg", "original", "."]));
    let price = line.is(before, &["price"]) && !of_what;
    // A yard sale is a shop; `reg 5.99 sale 2.99` is a price.
    let sale = line.is(before, &["sale"]) && before.checked_sub(1).is_some_and(|i| line.word(i).is_none());
    (price || sale || line.is(before, &["at", "@", "cost", "costs", "priced", "paid"])).then_some((before, None))
}

fn dashed(line: &Line<'_>, at: usize) -> bool {
    at.checked_sub(1).is_some_and(|before| line.is(before, &["-"])) && line.glued(at)
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{paid, questions, units};

    #[test]
    fn a_deal_is_a_count_unless_another_is_said() {
        assert_eq!((units("combs 2 for $3"), paid("combs 2 for $3")), (Some(2), Some("3.00".into())));
        assert_eq!((units("4/$1 combs"), paid("4/$1 combs")), (Some(4), Some("1.00".into())));
        assert_eq!(units("3/1.00 combs"), Some(3));
        assert_eq!(units("combs three for a dollar"), Some(3));
        assert_eq!(paid("12 combs 4 for a dollar").as_deref(), Some("3.00"));
        assert_eq!(paid("4 packs of 5 vests 2 for $3").as_deref(), Some("6.00"));
        assert_eq!(units("vests pack of 5 2 for $3"), Some(10));
    }

    #[test]
    fn a_deal_that_does_not_divide_asks() {
        for line in ["5 combs 2 for $3", "6 combs 2 for $3 each", "3 packs of 5 vests 2 for $3", "2 for $3 each combs"]
        {
            assert_eq!(paid(line), None, "{line}");
            assert_eq!(questions(line), ["paid"], "{line}");
        }
    }
}
