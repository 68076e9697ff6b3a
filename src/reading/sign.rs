//! Signs and codes of currencies.

use super::line::Line;
use super::token::Shape;
use crate::model::currency::Currency;

/// Whose sign it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    Own,
    Other,
}

/// Letters before a dollar sign, and the currency they mean.
const DOLLARS: [(&str, &str); 11] = [
    ("us", "USD"),
    ("a", "AUD"),
    ("au", "AUD"),
    ("c", "CAD"),
    ("ca", "CAD"),
    ("nz", "NZD"),
    ("hk", "HKD"),
    ("s", "SGD"),
    ("nt", "TWD"),
    ("r", "BRL"),
    ("mx", "MXN"),
];
/// Signs of other currencies that are short words with other meanings.
const TOO_SHORT: [&str; 4] = ["R", "Ft", "lei", "S/"];

/// Codes that are words a packer writes for other things; no line means money by them.
const WORDS: [&str; 3] = ["pen", "try", "cop"];

/// The currency sign or code that begins here, and where it ends.
pub(super) fn sign_at(line: &Line<'_>, at: usize, own: Currency) -> Option<(Sign, usize)> {
    if let Some(end) = spelled(line, at, own.sign()).or_else(|| code(line, at, |code| code == own.code())) {
        return Some((Sign::Own, end));
    }
    if line.is(at + 1, &["$"]) && line.glued(at + 1) {
        let word = line.word(at)?;
        let &(_, code) = DOLLARS.iter().find(|(letters, _)| *letters == word)?;
        return Some((if code == own.code() { Sign::Own } else { Sign::Other }, at + 2));
    }
    let other = Currency::all_signs().into_iter().filter(|sign| !TOO_SHORT.contains(sign));
    let end = other.into_iter().find_map(|sign| spelled(line, at, sign));
    end.or_else(|| code(line, at, |_| true)).map(|end| (Sign::Other, end))
}

/// The end of a sign spelled out here, over several glued tokens if it must.
fn spelled(line: &Line<'_>, at: usize, sign: &str) -> Option<usize> {
    let sign = sign.to_lowercase();
    let mut rest = sign.as_str();
    let mut end = at;
    while !rest.is_empty() {
        let token = line.open(end).filter(|token| token.shape != Shape::Number)?;
        if end > at && !token.glued {
            return None;
        }
        rest = rest.strip_prefix(token.text.as_str())?;
        end += 1;
    }
    Some(end)
}

/// The end of a known currency's code.
fn code(line: &Line<'_>, at: usize, wanted: impl Fn(&str) -> bool) -> Option<usize> {
    let word = line.word(at).filter(|word| word.len() == 3 && !WORDS.contains(word))?;
    Currency::by_code(word).is_some_and(|currency| wanted(currency.code())).then_some(at + 1)
}
