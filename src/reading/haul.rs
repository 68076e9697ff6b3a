//! A whole haul in plain words: purchases, and lines that speak of all of it.

use jiff::civil::Date;

use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::report::{Outcome, Reading, VERSION};
use super::taken::What;
use super::{Context, pieces, read_clean, understand};
use crate::model::currency::Currency;
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

/// An entry with the words that say it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// The number of the line, from 1.
    pub n: usize,
    /// The words as read.
    pub line: String,
    /// What they say.
    pub entry: Entry,
    /// The currency of the amounts.
    pub currency: Currency,
}

impl Said {
    /// The purchase, unless it is a heading or was refused.
    pub fn reading(&self) -> Option<&Reading> {
        match &self.entry {
            Entry::Line(outcome) => outcome.reading(),
            Entry::Head(_) => None,
        }
    }
}

impl Serialize for Said {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match &self.entry {
            Entry::Line(outcome) => outcome.serialize(to),
            Entry::Head(head) => {
                let mut map = to.serialize_map(None)?;
                map.serialize_entry("version", &VERSION)?;
                map.serialize_entry("n", &self.n)?;
                map.serialize_entry("line", &self.line)?;
                let amount = |sum: &Money| sum.plain(self.currency);
                match head {
                    Head::Tax(sum) => map.serialize_entry("tax", &amount(sum))?,
                    Head::Postage(sum) => map.serialize_entry("postage", &amount(sum))?,
                    Head::Coupon(sum) => map.serialize_entry("coupon", &amount(sum))?,
                    Head::Receipt(sum) => map.serialize_entry("total", &amount(sum))?,
                    Head::Place(place) => map.serialize_entry("place", place)?,
                    Head::At { shop, date } => {
                        map.serialize_entry("shop", shop)?;
                        map.serialize_entry("date", date)?;
                    }
                    Head::Opening { place, date } => {
                        map.serialize_entry("opening", &true)?;
                        map.serialize_entry("place", place)?;
                        map.serialize_entry("date", date)?;
                    }
                }
                map.end()
            }
        }
    }
}

/// Reads a haul's text as [`read_haul`] does, each entry with its words.
pub fn read_said(text: &str, ctx: &Context<'_>) -> Vec<Said> {
    let lines = pieces(text).into_iter().map(|(_, piece)| piece.unwrap_or_default());
    let said = |((n, entry), line)| Said { n, line, entry, currency: ctx.profile.currency };
    read_haul(text, ctx).into_iter().zip(lines).map(said).collect()
}

/// Reads a haul's text, entry by entry as written, each with the number of its line. After an
/// opening count no price is asked.
pub fn read_haul(text: &str, ctx: &Context<'_>) -> Vec<(usize, Entry)> {
    let mut price_asked = ctx.price_asked;
    let mut shop = ctx.shop.map(str::to_owned);
    let mut entries = Vec::new();
    for (n, piece) in pieces(text) {
        let ctx = Context { price_asked, shop: shop.as_deref(), ..*ctx };
        let entry = match piece {
            Err(refused) => Entry::Line(Outcome::Refused(refused)),
            Ok(piece) => match head(&piece, &ctx) {
                Some(head) => Entry::Head(head),
                None => Entry::Line(read_clean(n, &piece, &ctx)),
            },
        };
        match &entry {
            Entry::Head(Head::Opening { .. }) => price_asked = false,
            Entry::Head(Head::At { shop: Some(said), .. }) => shop = Some(said.clone()),
            _ => {}
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

type Words = &'static [&'static str];
type Maker = fn(Money) -> Head;

/// What each sum of a receipt is called; the longer names first.
const SUMS: [(Words, Maker); 19] = [
    (&["sales", "tax"], Head::Tax),
    (&["tax"], Head::Tax),
    (&["vat"], Head::Tax),
    (&["shipping", "and", "handling"], Head::Postage),
    (&["postage"], Head::Postage),
    (&["shipping"], Head::Postage),
    (&["delivery"], Head::Postage),
    (&["store", "coupon"], Head::Coupon),
    (&["coupon"], Head::Coupon),
    (&["coupons"], Head::Coupon),
    (&["voucher"], Head::Coupon),
    (&["discount"], Head::Coupon),
    (&["receipt", "total"], Head::Receipt),
    (&["grand", "total"], Head::Receipt),
    (&["receipt"], Head::Receipt),
    (&["total"], Head::Receipt),
    (&["paid", "in", "all"], Head::Receipt),
    (&["it", "came", "to"], Head::Receipt),
    (&["came", "to"], Head::Receipt),
];
/// Between a sum's name and its amount these say nothing more.
const LINKS: [&str; 5] = ["was", "is", "of", "=", "+"];
/// Behind an amount these say that it is about everything.
const OF_ALL: [&[&str]; 7] = [
    &["off", "all"],
    &["off", "everything"],
    &["off", "the", "lot"],
    &["off", "it", "all"],
    &["in", "all"],
    &["altogether"],
    &["off"],
];

/// `tax 0.60` and its like; `5.00 off all`, `paid 43.17 in all`.
fn sum(words: &[&str], ctx: &Context<'_>) -> Option<Head> {
    let words = words.strip_prefix(&["plus"]).unwrap_or(words);
    let (tail, words) = match OF_ALL.iter().find(|tail| words.ends_with(tail)) {
        Some(tail) => (*tail, words.get(..words.len() - tail.len())?),
        None => (&[] as &[&str], words),
    };
    let named = SUMS.iter().find_map(|(name, head)| Some((*head, words.strip_prefix(*name)?)));
    let (head, rest): (fn(Money) -> Head, _) = match (named, tail) {
        (Some(named), _) => named,
        (None, ["in", "all"] | ["altogether"]) => (Head::Receipt, words.strip_prefix(&["paid"])?),
        (None, ["off", _, ..]) => (Head::Coupon, words),
        _ => return None,
    };
    let linked = rest.first().is_some_and(|word| LINKS.contains(word));
    let amount = rest.get(usize::from(linked)..)?.join(" ");
    let (below, amount) = amount.strip_prefix('-').map_or((false, amount.as_str()), |amount| (true, amount.trim()));
    let sum = bare_reading(amount, ctx, &[What::Price])?.paid?;
    match head(sum) {
        head if !below => Some(head),
        // A coupon is often written as what it takes away.
        Head::Coupon(sum) => Some(Head::Coupon(sum)),
        // More went back than was bought.
        Head::Receipt(sum) => Some(Head::Receipt(-sum)),
        _ => None,
    }
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
    fn sums_of_a_receipt_are_said_in_many_ways() {
        for (line, head) in [
            ("tax was 1.20", Head::Tax(money(120))),
            ("Sales tax: $1.20", Head::Tax(money(120))),
            ("plus tax .30", Head::Tax(money(30))),
            ("shipping and handling 4.95", Head::Postage(money(495))),
            ("delivery 3 dollars", Head::Postage(money(300))),
            ("coupon 5.00 off all", Head::Coupon(money(500))),
            ("coupon -5.00", Head::Coupon(money(500))),
            ("5.00 off everything", Head::Coupon(money(500))),
            ("voucher $2", Head::Coupon(money(200))),
            ("total 43.17", Head::Receipt(money(4317))),
            ("paid 43.17 in all", Head::Receipt(money(4317))),
            ("total = 43.17", Head::Receipt(money(4317))),
            ("receipt -0.60", Head::Receipt(money(-60))),
        ] {
            assert_eq!(heads(&haul(line)), [(1, head)], "{line}");
        }
        for line in [
            "comb 1.00 half off",
            "5.00 off",
            "total eclipse book 1.00",
            "paid 1.00",
            "tax -1.00",
            "delivery truck 2.00",
        ] {
            assert_eq!(heads(&haul(line)), [], "{line}");
        }
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
