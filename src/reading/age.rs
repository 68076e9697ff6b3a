//! Rule 8, second part: ages.

use super::draft::RangeSaid;
use super::line::Line;
use super::question::About;
use super::taken::What;
use crate::model::age::Ages;

const YEARS: [&str; 7] = ["year olds", "years old", "year old", "yrs", "yr", "yo", "y o"];

/// Years from one number to another, as said.
struct Years {
    from: u32,
    to: Option<u32>,
    end: usize,
}

/// Ages that say that they are ages.
pub(super) fn labelled(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let years = after_label(line, at).or_else(|| limited(line, at)).or_else(|| by_themselves(line, at))?;
        let end = past_years(line, years.end);
        let from = if at > 0 && line.is(at - 1, &["for"]) { at - 1 } else { at };
        keep(line, from..end, years.from, years.to);
        Some(end)
    });
}

/// Two numbers and a dash; only the kind of thing can tell whether they are ages.
pub(super) fn ranges(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let (from, to, end) = range(line, at).filter(|&(_, _, end)| !line.hangs(at, end))?;
        let before = at.checked_sub(1).and_then(|before| line.took(before));
        let beside = before == Some(What::Whom) || line.took(end) == Some(What::Whom);
        line.take(at..end, What::Ages);
        let words = line.typed(at..end);
        line.draft.ranges.push(RangeSaid { from, to, beside, words, tokens: at..end });
        Some(end)
    });
}

/// `ages 6-8`, `age 7`, `aged 4+`.
fn after_label(line: &Line<'_>, at: usize) -> Option<Years> {
    if !line.is(at, &["age", "ages", "aged"]) {
        return None;
    }
    let start = if line.is(at + 1, &[":", "from", "."]) { at + 2 } else { at + 1 };
    if let Some((from, to, end)) = range(line, start) {
        return Some(Years { from, to: Some(to), end });
    }
    let from = line.whole(start)?;
    Some(match and_up(line, start + 1) {
        Some(end) => Years { from, to: None, end },
        None => Years { from, to: Some(from), end: start + 1 },
    })
}

/// `not under 3`, `up to 5`, `under 6`.
fn limited(line: &Line<'_>, at: usize) -> Option<Years> {
    let number = |at: usize| line.whole(at).filter(|_| !line.hangs_behind(at + 1) && !line.is(at + 1, &["%"]));
    if let Some(next) = line.phrase(at, "not under") {
        return Some(Years { from: number(next)?, to: None, end: next + 1 });
    }
    if let Some(next) = line.phrase(at, "up to") {
        return Some(Years { from: 0, to: Some(number(next)?), end: next + 1 });
    }
    let next = line.phrase(at, "under")?;
    // Under 0 runs backwards, and asks.
    let (from, to) = number(next)?.checked_sub(1).map_or((1, 0), |to| (0, to));
    Some(Years { from, to: Some(to), end: next + 1 })
}

/// `9-12 yr`, `7 yr`, `4+`, `6 and up`.
fn by_themselves(line: &Line<'_>, at: usize) -> Option<Years> {
    if line.hangs_before(at) {
        return None;
    }
    if let Some((from, to, end)) = range(line, at) {
        let said = past_years(line, end) > end || line.is(end, &["years", "year"]);
        return said.then_some(Years { from, to: Some(to), end });
    }
    let from = line.whole(at)?;
    if let Some(end) = and_up(line, at + 1) {
        return Some(Years { from, to: None, end });
    }
    (past_years(line, at + 1) > at + 1).then_some(Years { from, to: Some(from), end: at + 1 })
}

/// `+`, `and up`, `or older`.
fn and_up(line: &Line<'_>, at: usize) -> Option<usize> {
    let at = past_years(line, at);
    if line.is(at, &["+"]) {
        return (line.glued(at) && !(line.glued(at + 1) && line.number(at + 1).is_some())).then_some(at + 1);
    }
    line.any_phrase(at, &["and up", "& up", "and over", "and older", "or older", "and above"])
}

/// Behind *yr* and its like, if they stand here as words of their own (3 yo-yos are no ages).
fn past_years(line: &Line<'_>, at: usize) -> usize {
    let start = if line.is(at, &["-"]) && line.glued(at) { at + 1 } else { at };
    let words = line.any_phrase(start, &YEARS).filter(|&end| !line.hangs_behind(end));
    words.or_else(|| line.is(at, &["years"]).then_some(at + 1)).unwrap_or(at)
}

/// `6-8`, `6 to 8`.
fn range(line: &Line<'_>, at: usize) -> Option<(u32, u32, usize)> {
    let from = line.whole(at)?;
    if !line.is(at + 1, &["-", "to"]) {
        return None;
    }
    Some((from, line.whole(at + 2)?, at + 3))
}

/// Ages from `from` to `to`, if they make sense.
pub(super) fn ages(from: u32, to: Option<u32>) -> Option<Ages> {
    let to = to.map(u8::try_from).transpose().ok()?;
    Ages::new(u8::try_from(from).ok()?, to)
}

fn keep(line: &mut Line<'_>, range: std::ops::Range<usize>, from: u32, to: Option<u32>) {
    match ages(from, to) {
        Some(ages) => {
            line.take(range, What::Ages);
            line.draft.ages.push(ages);
        }
        None => line.doubt(range, About::Ages, "these ages make no sense"),
    }
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, read};

    #[test]
    fn ages_in_many_words() {
        for (words, from, to) in [
            ("ages 6-8", 6, Some(8)),
            ("age 7 to 9", 7, Some(9)),
            ("age 7", 7, Some(7)),
            ("ages 6–8", 6, Some(8)),
            ("aged 4+", 4, None),
            ("girl 6-8", 6, Some(8)),
            ("girls 7-9", 7, Some(9)),
            ("3-5 boy", 3, Some(5)),
            ("9-12 yr", 9, Some(12)),
            ("9-12yrs", 9, Some(12)),
            ("for 7 year olds", 7, Some(7)),
            ("4+", 4, None),
            ("6 and up", 6, None),
            ("ages 6 & up", 6, None),
            ("not under 3", 3, None),
            ("up to 5", 0, Some(5)),
            ("under 6", 0, Some(5)),
            ("6-8", 6, Some(8)),
            ("9-12", 9, Some(12)),
        ] {
            let line = format!("spinner {words} 1.00");
            let reading = read(&line);
            let ages = reading.ages.map(|ages| (ages.from(), ages.to()));
            assert_eq!(ages, Some((from, to)), "{line}");
            assert_eq!(name(&line), "spinner", "{line}");
            assert!(reading.questions.is_empty(), "{line}: {:?}", reading.questions);
        }
    }

    #[test]
    fn ages_that_nothing_decides_ask() {
        for line in
            ["jump rope 7-8 1.00", "spinner ages 8-6 1.00", "spinner age 150 1.00", "spinner ages 3-5, ages 6-8 1.00"]
        {
            assert_eq!(about(line), ["ages"], "{line}");
            assert_eq!(read(line).ages, None, "{line}");
        }
        for line in ["leggings 7-8 1.00", "leggings 6-8 1.00", "girl 6-8 leggings 1.00"] {
            assert_eq!(about(line), ["size"], "{line}");
        }
        assert!(about("leggings ages 6-8 1.00").is_empty());
        assert!(about("leggings size 6-8 1.00").is_empty());
    }
}
