//! Rule 2, first part: `2 for $3`, `three for a dollar`, `4/$1`.

use super::number::number_before;
use super::taken::What;
use super::work::Work;

/// Notes how many a price is for, and takes the small words that lead to a price.
pub(super) fn deals(work: &mut Work<'_>) {
    for i in 0..work.draft.prices.len() {
        let Some(from) = work.draft.prices.get(i).map(|price| price.from) else { continue };
        let Some((start, deal)) = lead(work, from) else { continue };
        work.take(start..from, What::Price);
        if let Some(price) = work.draft.prices.get_mut(i) {
            price.from = start;
            price.deal = deal;
            price.at = work.tokens.get(start).is_some_and(|token| matches!(token.text.as_str(), "at" | "@"));
        }
    }
}

/// Where the words before a price begin, and the number of a deal.
fn lead(work: &Work<'_>, price: usize) -> Option<(usize, Option<u32>)> {
    let before = price.checked_sub(1)?;
    if work.is(before, &["for", "/"]) {
        return match number_before(work, before) {
            Some((from, count)) if !dashed(work, from) => Some((from, Some(count))),
            _ => Some((before, None)),
        };
    }
    let of_what =
        before.checked_sub(1).is_some_and(|i| work.is(i, &["half", "the", "regular", "reg", "original", "."]));
    let price = work.is(before, &["price"]) && !of_what;
    (price || work.is(before, &["at", "@", "cost", "costs", "priced", "paid"])).then_some((before, None))
}

fn dashed(work: &Work<'_>, at: usize) -> bool {
    at.checked_sub(1).is_some_and(|before| work.is(before, &["-"])) && work.glued(at)
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
