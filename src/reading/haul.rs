//! A whole haul in plain words: purchases, and lines that speak of all of it.

use jiff::civil::Date;

use super::report::{Outcome, Reading};
use super::taken::What;
use super::{Context, pieces, read_clean, understand};
use crate::model::money::Money;

/// A line that speaks of the whole haul, or of the lines after it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Head {
    /// Where or whom it is from, and when: `at Mill Lane Market, yesterday`.
    At {
        /// The shop or giver, as typed.
        shop: Option<String>,
        /// The day.
        date: Option<Date>,
    },
    /// `tax 0.60`.
    Tax(Money),
    /// `postage 4.95`.
    Postage(Money),
    /// `coupon 1.00`.
    Coupon(Money),
    /// `receipt 14.62`: what the receipt adds up to.
    Receipt(Money),
    /// `opening count, tote 7`: what was there before; no price is asked.
    Opening {
        /// Where the things after it are kept.
        place: Option<String>,
        /// The day of the count.
        date: Option<Date>,
    },
    /// `tote 4`: where the things after it are kept.
    Place(String),
}

/// One entry of a haul's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// It speaks of the whole haul.
    Head(Head),
    /// It is a purchase, or refused.
    Line(Outcome),
}

/// Reads a haul's text, entry by entry as written, each with the number of its line. After an
/// opening count no price is asked.
pub fn read_haul(text: &str, ctx: &Context<'_>) -> Vec<(usize, Entry)> {
    let mut ctx = *ctx;
    let mut entries = Vec::new();
    for (n, piece) in pieces(text) {
        let entry = match piece {
            Err(refused) => Entry::Line(Outcome::Refused(refused)),
            Ok(piece) => match head(&piece, &ctx) {
                Some(head) => Entry::Head(head),
                None => Entry::Line(read_clean(n, &piece, &ctx)),
            },
        };
        if matches!(entry, Entry::Head(Head::Opening { .. })) {
            ctx.price_asked = false;
        }
        entries.push((n, entry));
    }
    entries
}

/// The heading that a line is, if nothing else is left on it.
fn head(line: &str, ctx: &Context<'_>) -> Option<Head> {
    let lower = line.to_lowercase();
    let words: Vec<&str> = lower.split([' ', ',', ':']).filter(|word| !word.is_empty()).collect();
    if let [first, second, ..] = words[..]
        && (first, second) == ("opening", "count")
    {
        let rest = words.get(2..).unwrap_or_default().join(" ");
        if rest.is_empty() {
            return Some(Head::Opening { place: None, date: None });
        }
        let reading = bare_reading(&rest, ctx, &[What::Place, What::Date])?;
        return Some(Head::Opening { place: reading.place, date: reading.date });
    }
    if let Some(head) = sum(&words, ctx) {
        return Some(head);
    }
    only_place(line, ctx).map(Head::Place).or_else(|| at(line, ctx))
}

/// `tax 0.60` and its like.
fn sum(words: &[&str], ctx: &Context<'_>) -> Option<Head> {
    let (head, skip): (fn(Money) -> Head, usize) = match words {
        ["sales", "tax", ..] => (Head::Tax, 2),
        ["receipt", "total", ..] => (Head::Receipt, 2),
        ["tax", ..] => (Head::Tax, 1),
        ["postage" | "shipping", ..] => (Head::Postage, 1),
        ["coupon", ..] => (Head::Coupon, 1),
        ["receipt" | "total", ..] => (Head::Receipt, 1),
        _ => return None,
    };
    let rest = words.get(skip..)?.join(" ");
    let reading = bare_reading(&rest, ctx, &[What::Price])?;
    reading.paid.map(head)
}

fn only_place(line: &str, ctx: &Context<'_>) -> Option<String> {
    bare_reading(line, ctx, &[What::Place])?.place
}

fn at(line: &str, ctx: &Context<'_>) -> Option<Head> {
    let reading = bare_reading(line, ctx, &[What::Shop, What::Date])?;
    let (shop, date) = (reading.shop, reading.date);
    (shop.is_some() || date.is_some()).then_some(Head::At { shop, date })
}

/// A reading of which nothing is left but words of these kinds; no name, no other doubt.
fn bare_reading(line: &str, ctx: &Context<'_>, kinds: &[What]) -> Option<Reading> {
    let ctx = Context { price_asked: false, ..*ctx };
    let reading = understand(0, line, &ctx);
    let sign = |span: std::ops::Range<usize>| line.get(span).is_some_and(|typed| matches!(typed, "," | "." | ":"));
    let only = reading.taken.iter().all(|taken| kinds.contains(&taken.what) || sign(taken.span.clone()));
    let asked = reading.questions.iter().any(|question| question.about != super::About::Name);
    (only && !asked && reading.name.is_empty() && reading.notes.is_empty()).then_some(reading)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::testing::with_context;

    fn haul(text: &str) -> Vec<(usize, Entry)> {
        with_context(|ctx| read_haul(text, ctx))
    }

    fn heads(haul: &[(usize, Entry)]) -> Vec<(usize, Head)> {
        let head = |(n, entry): &(usize, Entry)| match entry {
            Entry::Head(head) => Some((*n, head.clone())),
            Entry::Line(_) => None,
        };
        haul.iter().filter_map(head).collect()
    }

    fn lines(haul: &[(usize, Entry)]) -> Vec<&Reading> {
        let line = |entry| match entry {
            &(_, Entry::Line(ref outcome)) => outcome.reading(),
            _ => None,
        };
        haul.iter().filter_map(line).collect()
    }

    fn money(minor: i64) -> Money {
        Money::new(minor).unwrap()
    }

    #[test]
    fn headings_are_told_from_purchases() {
        let text = "at Mill Lane Market, yesterday\n6 combs .60\ntote 4\ntax 0.60\npostage: 4.95\ncoupon $1\n\n\
                    Receipt 14.62\ntotal 3.00\nfrom neighbour, 2027-02-14\ntotem pole 1.00\ntax book 1.00; tote 5 ; comb .10";
        let haul = haul(text);
        let shop = |shop: &str, date: &str| Head::At { shop: Some(shop.to_owned()), date: date.parse().ok() };
        assert_eq!(
            heads(&haul),
            [
                (1, shop("Mill Lane Market", "2026-11-24")),
                (3, Head::Place("tote 4".to_owned())),
                (4, Head::Tax(money(60))),
                (5, Head::Postage(money(495))),
                (6, Head::Coupon(money(100))),
                (8, Head::Receipt(money(1462))),
                (9, Head::Receipt(money(300))),
                (10, shop("neighbour", "2027-02-14")),
                (12, Head::Place("tote 5".to_owned())),
            ]
        );
        let names: Vec<_> = lines(&haul).iter().map(|reading| reading.name.as_str()).collect();
        assert_eq!(names, ["combs", "totem pole", "tax book", "comb"]);
        assert_eq!(heads(&haul).len() + names.len(), haul.len(), "nothing is refused");
    }

    #[test]
    fn an_opening_count_asks_no_price() {
        let haul = haul("opening count, tote 7, 2027-01-02\n9 combs\n");
        let (place, date) = (Some("tote 7".to_owned()), "2027-01-02".parse().ok());
        assert_eq!(heads(&haul)[0], (1, Head::Opening { place, date }));
        let line = lines(&haul)[0];
        assert!(line.questions.is_empty(), "{:?}", line.questions);
        assert_eq!(line.paid, None);
    }

    #[test]
    fn what_is_more_than_a_heading_is_a_purchase() {
        for text in
            ["tax 0.60 0.70", "tote 4 comb", "tax", "coupon", "at 10 cents", "tax €2", "tote bag", "at market 3 combs"]
        {
            assert_eq!(heads(&haul(text)).len(), 0, "{text}");
        }
    }
}
