//! Signs and codes of currencies.

use super::token::Shape;
use super::work::Work;
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

/// Codes of other currencies that are plain words: a pen for 1.00 is no price in Peru.
const PLAIN_WORDS: [&str; 3] = ["cop", "pen", "try"];

/// The currency sign or code that begins here, and where it ends.
pub(super) fn sign_at(work: &Work<'_>, at: usize, own: Currency) -> Option<(Sign, usize)> {
    if let Some(end) = spelled(work, at, own.sign()).or_else(|| spelled(work, at, own.code())) {
        return Some((Sign::Own, end));
    }
    if work.is(at + 1, &["$"]) && work.glued(at + 1) {
        let word = work.word(at)?;
        let &(_, code) = DOLLARS.iter().find(|(letters, _)| *letters == word)?;
        return Some((if code == own.code() { Sign::Own } else { Sign::Other }, at + 2));
    }
    let other = Currency::all_signs().into_iter().filter(|sign| !TOO_SHORT.contains(sign));
    let end = other.into_iter().find_map(|sign| spelled(work, at, sign));
    end.or_else(|| foreign_code(work, at)).map(|end| (Sign::Other, end))
}

/// The end of a sign spelled out here, over several glued tokens if it must.
fn spelled(work: &Work<'_>, at: usize, sign: &str) -> Option<usize> {
    let sign = sign.to_lowercase();
    let mut rest = sign.as_str();
    let mut end = at;
    while !rest.is_empty() {
        let token = work.open(end).filter(|token| token.shape != Shape::Number)?;
        if end > at && !token.glued {
            return None;
        }
        rest = rest.strip_prefix(token.text.as_str())?;
        end += 1;
    }
    Some(end)
}

fn foreign_code(work: &Work<'_>, at: usize) -> Option<usize> {
    let word = work.word(at).filter(|word| word.len() == 3 && !PLAIN_WORDS.contains(word))?;
    Currency::by_code(word).is_some().then_some(at + 1)
}
