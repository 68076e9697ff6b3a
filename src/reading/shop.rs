//! Rule 11: where it came from.

use super::question::About;
use super::taken::What;
use super::token::Shape;
use super::words::{PLACES, SMALL, unit};
use super::work::Work;

const ARTICLES: [&str; 6] = ["the", "a", "an", "my", "our", "her"];
const CONNECTORS: [&str; 6] = ["of", "and", "the", "&", "-", "'"];
const STOPS: [&str; 14] =
    ["a", "an", "some", "few", "several", "theme", "tote", "gift", "girl", "boy", "the", "exp", "wow", "x"];

/// Sets capitalised names of two words and more aside, before other rules find their words in them
/// (Half Price Barn). Only where *at* or *from* itself is in lower case, or capitals mean nothing.
pub(super) fn capitals(work: &mut Work<'_>) {
    work.scan(|work, at| {
        if !work.is(at, &["at", "from"]) || !starts_with(work, at, char::is_lowercase) {
            return None;
        }
        let start = if work.is(at + 1, &ARTICLES) && !capital(work, at + 1) { at + 2 } else { at + 1 };
        let mut end = start;
        while let Some(next) = next_capital(work, end, end == start) {
            end = next;
        }
        let words = (start..end).filter(|&i| capital(work, i)).count();
        let money = work.any_phrase(start, &["half price", "half off"]) == Some(end);
        let dollar = work.is(start, &ARTICLES) && words == 2;
        if words < 2 || money || dollar {
            return None;
        }
        work.take(at..end, What::Shop);
        Some(end)
    });
}

/// Behind one more capitalised word, over small words between.
fn next_capital(work: &Work<'_>, at: usize, first: bool) -> Option<usize> {
    let mut next = at;
    while !first && work.is(next, &CONNECTORS) && next < at + 2 {
        next += 1;
    }
    (capital(work, next) && (first || next > at || !work.is(next, &PLACES))).then_some(next + 1)
}

fn capital(work: &Work<'_>, at: usize) -> bool {
    work.word(at).is_some() && starts_with(work, at, char::is_uppercase)
}

fn starts_with(work: &Work<'_>, at: usize, test: fn(char) -> bool) -> bool {
    let typed = work.tokens.get(at).and_then(|token| work.line.get(token.span.clone()));
    typed.and_then(|typed| typed.chars().next()).is_some_and(test)
}

/// Finds `at harbour thrift`, `from neighbour`; *at* and *from* before anything else are dropped.
pub(super) fn shops(work: &mut Work<'_>) {
    let mut at = 0;
    while at < work.tokens.len() {
        let begun = work.took(at) == Some(What::Shop);
        if begun || (work.is(at, &["at", "from"]) && !work.hangs(at, at + 1)) {
            at = shop(work, at, begun).max(at + 1);
        } else {
            at += 1;
        }
    }
    if work.draft.shops.len() > 1 {
        let why = format!("\"{}\": which of these is it from?", work.draft.shops.join("\" and \""));
        work.ask(About::Shop, why);
    }
}

fn shop(work: &mut Work<'_>, at: usize, begun: bool) -> usize {
    let first = if work.is(at + 1, &ARTICLES) && work.word(at + 2).is_some() { at + 2 } else { at + 1 };
    let mut end = at + 1;
    if begun {
        while work.took(end) == Some(What::Shop)
            && !matches!(work.tokens.get(end), Some(token) if token.text == "at" || token.text == "from")
        {
            end += 1;
        }
    } else {
        if work.word(first).is_none_or(|word| SMALL.contains(&word)) {
            work.take(at..at + 1, What::Filler);
            return at + 1;
        }
        end = first + 1;
    }
    while let Some(next) = part(work, end) {
        end = next;
    }
    work.take(at..end, What::Shop);
    let typed = work.typed(at + 1..end);
    work.draft.shops.push(typed);
    end
}

/// Behind one more word of a shop's name.
fn part(work: &Work<'_>, at: usize) -> Option<usize> {
    let glued_sign = work.is(at, &["'", "-", "."]) && work.glued(at) && work.glued(at + 1);
    let joined = work.is(at, &["&", "and"]);
    let word = if glued_sign || joined { at + 1 } else { at };
    let known = work.word(word).is_none_or(|word| SMALL.contains(&word)) || (!glued_sign && stops(work, word));
    (!known).then_some(word + 1)
}

/// Whether the rules know this word as something other than a name.
pub(super) fn stops(work: &Work<'_>, at: usize) -> bool {
    let Some(token) = work.open(at).filter(|token| token.shape == Shape::Word) else { return true };
    let word = token.text.as_str();
    let colour = work.ctx.catalogue.colours().named(word).is_some_and(|colour| !colour.thing);
    colour || STOPS.contains(&word) || PLACES.contains(&word) || unit(word).is_some() || is_number(work, at)
}

fn is_number(work: &Work<'_>, at: usize) -> bool {
    super::number::number(work, at).is_some()
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, paid, read};

    #[test]
    fn shops_end_where_something_else_begins() {
        for (line, shop) in [
            ("comb 1.00 at harbour thrift", "harbour thrift"),
            ("comb at harbour thrift, 1.00", "harbour thrift"),
            ("comb at Harbour thrift 1.00", "Harbour thrift"),
            ("comb from neighbour 1.00", "neighbour"),
            ("comb from neighbour pink 1.00", "neighbour"),
            ("comb from neighbour free ages 6-8", "neighbour"),
            ("comb from neighbour tote 7 1.00", "neighbour"),
            ("comb from neighbour wow 1.00", "neighbour"),
            ("comb at green gate 1.00", "green gate"),
            ("comb 1.00 at Green Gate Store", "Green Gate Store"),
            ("comb 1.00 at the Green Gate Store pink", "the Green Gate Store"),
            ("comb 1.00 at Half Price Barn", "Half Price Barn"),
            ("comb 1.00 at Salt & Pepper Store", "Salt & Pepper Store"),
            ("comb 1.00 from Girls Club", "Girls Club"),
            ("comb 1.00 at salt & pepper", "salt & pepper"),
        ] {
            assert_eq!(read(line).shop.as_deref(), Some(shop), "{line}");
            assert_eq!(name(line), "comb", "{line}");
            assert!(about(line).is_empty(), "{line}: {:?}", about(line));
        }
        assert!(read("comb 1.00 at Green Gate Store").colours.is_empty());
        assert_eq!(read("comb 1.00 at the Green Gate Store pink").colours, ["pink"]);
    }

    #[test]
    fn prices_are_no_shops() {
        for line in ["comb at 10 cents", "comb 2.00 at 50% off", "comb at $3", "comb 2.00 at half price"] {
            assert_eq!(read(line).shop, None, "{line}");
            assert_eq!(name(line), "comb", "{line}");
            assert!(paid(line).is_some(), "{line}");
        }
        assert_eq!(about("comb 1.00 at harbour, from neighbour"), ["shop"]);
    }
}
