//! Rule 11: where it came from.

use super::line::Line;
use super::question::About;
use super::taken::What;
use super::token::Shape;
use super::words::{PLACES, SMALL, unit};

const ARTICLES: [&str; 6] = ["the", "a", "an", "my", "our", "her"];
const CONNECTORS: [&str; 6] = ["of", "and", "the", "&", "-", "'"];
const STOPS: [&str; 14] =
    ["a", "an", "some", "few", "several", "theme", "tote", "gift", "girl", "boy", "the", "exp", "wow", "x"];

/// Sets capitalised names of two words and more aside, before other rules find their words in them
/// (Half Price Barn). Only where *at* or *from* itself is in lower case, or capitals mean nothing.
pub(super) fn capitals(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let lower = starts_with(line, at, char::is_lowercase) || line.is(at, &["@"]);
        // Whom a gift is from is said by its own rule.
        let given = at > 0 && line.is(at - 1, &["gift", "gifts", "donation"]);
        if !line.is(at, &["at", "from", "@"]) || !lower || given {
            return None;
        }
        let start = if line.is(at + 1, &ARTICLES) && !capital(line, at + 1) { at + 2 } else { at + 1 };
        let mut end = start;
        while let Some(next) = next_capital(line, end, end == start) {
            end = next;
        }
        let words = (start..end).filter(|&i| capital(line, i)).count();
        let money = line.any_phrase(start, &["half price", "half off"]) == Some(end);
        let dollar = line.is(start, &ARTICLES) && words == 2;
        if words < 2 || money || dollar {
            return None;
        }
        line.take(at..end, What::Shop);
        Some(end)
    });
}

/// Behind one more capitalised word, over small words between.
fn next_capital(line: &Line<'_>, at: usize, first: bool) -> Option<usize> {
    let mut next = at;
    while !first && line.is(next, &CONNECTORS) && next < at + 2 {
        next += 1;
    }
    (capital(line, next) && (first || next > at || !line.is(next, &PLACES))).then_some(next + 1)
}

fn capital(line: &Line<'_>, at: usize) -> bool {
    line.word(at).is_some() && starts_with(line, at, char::is_uppercase)
}

fn starts_with(line: &Line<'_>, at: usize, test: fn(char) -> bool) -> bool {
    let typed = line.tokens.get(at).and_then(|token| line.source.get(token.span.clone()));
    typed.and_then(|typed| typed.chars().next()).is_some_and(test)
}

/// Finds `at harbour thrift`, `from neighbour`; *at* and *from* before anything else are dropped.
pub(super) fn shops(line: &mut Line<'_>) {
    let mut at = 0;
    while at < line.tokens.len() {
        let begun = line.took(at) == Some(What::Shop);
        let bound = line.any_phrase(at, &["at least", "at most"]).is_some();
        if begun || (line.is(at, &["at", "from", "@"]) && !line.hangs(at, at + 1) && !bound) {
            at = shop(line, at, begun).max(at + 1);
        } else {
            at += 1;
        }
    }
    if line.draft.shops.len() > 1 {
        let why = format!("\"{}\": which of these is it from?", line.draft.shops.join("\" and \""));
        line.ask(About::Shop, why);
    }
}

fn shop(line: &mut Line<'_>, at: usize, begun: bool) -> usize {
    let first = if line.is(at + 1, &ARTICLES) && line.word(at + 2).is_some() { at + 2 } else { at + 1 };
    let mut end = at + 1;
    if begun {
        while line.took(end) == Some(What::Shop)
            && !matches!(line.tokens.get(end), Some(token) if token.text == "at" || token.text == "from")
        {
            end += 1;
        }
    } else {
        if line.word(first).is_none_or(|word| SMALL.contains(&word)) {
            line.take(at..at + 1, What::Filler);
            return at + 1;
        }
        end = first + 1;
    }
    while let Some(next) = part(line, end) {
        end = next;
    }
    line.take(at..end, What::Shop);
    let typed = line.typed(at + 1..end);
    if line.tokens.get(at).is_some_and(|token| token.text == "from") {
        line.draft.from = Some(typed.clone());
    }
    line.draft.shops.push(typed);
    end
}

/// The end of a name of somebody or of a shop that begins here: capitals stay whole, else it ends where
/// the rules know something else.
pub(super) fn phrase_end(line: &Line<'_>, at: usize) -> Option<usize> {
    let first = if line.is(at, &ARTICLES) && line.word(at + 1).is_some() { at + 1 } else { at };
    line.word(first).filter(|word| !SMALL.contains(word))?;
    let mut end = first + 1;
    while let Some(next) = part(line, end).or_else(|| next_capital(line, end, false)) {
        end = next;
    }
    Some(end)
}

/// Behind one more word of a shop's name.
fn part(line: &Line<'_>, at: usize) -> Option<usize> {
    let glued_sign = line.is(at, &["'", "-", "."]) && line.glued(at) && line.glued(at + 1);
    let joined = line.is(at, &["&", "and"]);
    let word = if glued_sign || joined { at + 1 } else { at };
    let known = line.word(word).is_none_or(|word| SMALL.contains(&word)) || (!glued_sign && stops(line, word));
    (!known).then_some(word + 1)
}

/// Whether the rules know this word as something other than a name.
pub(super) fn stops(line: &Line<'_>, at: usize) -> bool {
    let Some(token) = line.open(at).filter(|token| token.shape == Shape::Word) else { return true };
    let word = token.text.as_str();
    let colour = line.ctx.catalogue.colours().named(word).is_some_and(|colour| !colour.thing);
    colour || STOPS.contains(&word) || PLACES.contains(&word) || unit(word).is_some() || is_number(line, at)
}

fn is_number(line: &Line<'_>, at: usize) -> bool {
    super::number::number(line, at).is_some()
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
            ("comb at yard sale 1.00", "yard sale"),
            ("comb 1.00 @ Green Gate Store", "Green Gate Store"),
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
