//! Counts in digits and in words.

use super::line::Line;

/// A number in the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Number {
    pub value: u32,
    pub end: usize,
    /// Only *a* or *an*.
    pub article: bool,
}

const ONES: [&str; 19] = [
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// The number that begins here: `12`, `twelve`, `two dozen`, `half a dozen`, `a couple of`, `a`.
pub(super) fn number(line: &Line<'_>, at: usize) -> Option<Number> {
    let counted = |value, end| Some(Number { value, end, article: false });
    if let Some(end) = line.any_phrase(at, &["a half dozen", "half a dozen", "half dozen"]) {
        return counted(6, end);
    }
    let article = line.is(at, &["a", "an"]);
    let (value, end) = if article { (1, at + 1) } else { plain(line, at).unwrap_or((1, at)) };
    if line.is(end, &["dozen", "doz", "dz"]) {
        let dozens = value.checked_mul(12)?;
        return match line.phrase(end + 1, "and a half") {
            Some(end) => counted(dozens.checked_add(6)?, end),
            None => counted(dozens, end + 1),
        };
    }
    if line.is(end, &["thousand"]) {
        return counted(value.checked_mul(1000)?, end + 1);
    }
    if line.is(end, &["hundred"]) {
        return hundreds(line, value.checked_mul(100)?, end + 1);
    }
    if line.is(end, &["couple"]) && (article || end == at) {
        let of = usize::from(line.is(end + 1, &["of"]));
        return counted(2, end + 1 + of);
    }
    (end > at).then_some(Number { value, end, article })
}

/// The number in words or digits that ends just before `end`, with where it begins.
pub(super) fn number_before(line: &Line<'_>, end: usize) -> Option<(usize, u32)> {
    let nearest = end.saturating_sub(5);
    (nearest..end).find_map(|from| {
        let found = number(line, from)?;
        (found.end == end && !found.article && !line.glued(from)).then_some((from, found.value))
    })
}

fn plain(line: &Line<'_>, at: usize) -> Option<(u32, usize)> {
    if let Some(value) = line.whole(at) {
        return Some((value, at + 1));
    }
    below_hundred(line, at)
}

/// `one` to `ninety-nine`; the hyphen may be missing.
pub(super) fn below_hundred(line: &Line<'_>, at: usize) -> Option<(u32, usize)> {
    let word = line.word(at)?;
    if let Some(i) = ONES.iter().position(|&one| one == word) {
        return Some((u32::try_from(i).ok()? + 1, at + 1));
    }
    let tens = (u32::try_from(TENS.iter().position(|&ten| ten == word)?).ok()? + 2) * 10;
    let next = if line.is(at + 1, &["-"]) && line.glued(at + 1) { at + 2 } else { at + 1 };
    let one = line.word(next).and_then(|word| ONES.iter().take(9).position(|&one| one == word));
    match one.and_then(|i| u32::try_from(i).ok()) {
        Some(i) => Some((tens + i + 1, next + 1)),
        None => Some((tens, at + 1)),
    }
}

/// `a hundred and twenty`: what may follow the hundreds.
fn hundreds(line: &Line<'_>, hundreds: u32, end: usize) -> Option<Number> {
    let next = if line.is(end, &["and"]) { end + 1 } else { end };
    let (value, end) = match below_hundred(line, next) {
        Some((rest, end)) => (hundreds.checked_add(rest)?, end),
        None => (hundreds, end),
    };
    Some(Number { value, end, article: false })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::testing::with_line;

    #[test]
    fn numbers_in_words() {
        let value = |line: &str| with_line(line, |line| number(line, 0).map(|n| (n.value, n.article)));
        assert_eq!(value("12 combs"), Some((12, false)));
        assert_eq!(value("twenty-five combs"), Some((25, false)));
        assert_eq!(value("ninety nine combs"), Some((99, false)));
        assert_eq!(value("a comb"), Some((1, true)));
        assert_eq!(value("a dozen combs"), Some((12, false)));
        assert_eq!(value("two dozen combs"), Some((24, false)));
        assert_eq!(value("half a dozen combs"), Some((6, false)));
        assert_eq!(value("a couple of combs"), Some((2, false)));
        assert_eq!(value("couple combs"), Some((2, false)));
        assert_eq!(value("a hundred and twenty beads"), Some((120, false)));
        assert_eq!(value("hundred beads"), Some((100, false)));
        assert_eq!(value("combs"), None);
        assert_eq!(value("4000000000 dozen"), None);
    }
}
