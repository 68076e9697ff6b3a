//! Ages, sizes, places, days: which of two readings, or which of two that were said.

use std::ops::Range;

use jiff::civil::Date;

use super::rewrite::Rewrite;
use crate::reading::line::Line;
use crate::reading::question::About;
use crate::reading::taken::What;
use crate::reading::token::Token;

/// Ways to write a line that leave no doubt about one of these.
pub(super) fn ways(line: &Line<'_>, about: About) -> Vec<String> {
    let mut ways = Vec::new();
    let ranged = matches!(about, About::Ages | About::Size) && line.draft.ranges.len() == 1;
    if ranged {
        ways.extend(ranges(line));
    }
    for (range, _) in line.draft.doubts.iter().filter(|(_, doubt)| *doubt == about) {
        ways.extend(meant(line, range, about));
    }
    ways.extend(one_of(line, about));
    for (range, _) in line.draft.doubts.iter().filter(|(_, doubt)| *doubt == about) {
        ways.push(as_note(line, range.clone()));
    }
    let noted = line.draft.ranges.iter().filter(|_| ranged);
    ways.extend(noted.map(|range| as_note(line, range.tokens.clone())));
    ways
}

/// A bare range of numbers as ages, and as a size.
fn ranges(line: &Line<'_>) -> Vec<String> {
    let mut ways = Vec::new();
    for range in &line.draft.ranges {
        let (from, to) = (range.from, range.to);
        let write = |words: &str| Rewrite::of(line).strike(range.tokens.clone()).add(range.tokens.start, words).write();
        ways.push(write(&format!("ages {from} to {to}")));
        ways.push(write(&format!("size {from}-{to}")));
    }
    ways
}

/// What doubtful words may mean: ages the other way round, a day in one order or the other.
fn meant(line: &Line<'_>, range: &Range<usize>, about: About) -> Vec<String> {
    let tokens = line.tokens.get(range.clone()).unwrap_or_default();
    let numbers: Vec<u32> = tokens.iter().filter_map(Token::whole).collect();
    let words = match (about, numbers.as_slice()) {
        (About::Ages, &[from, to]) => vec![format!("ages {to} to {from}")],
        (About::Date, &[first, second, year]) => days(first, second, year),
        (About::Expires, &[first, second, year]) => {
            days(first, second, year).iter().map(|day| format!("expires {day}")).collect()
        }
        (About::Expires, &[month, year]) => vec![format!("expires {:04}-{month:02}", full(year))],
        _ => Vec::new(),
    };
    words.iter().map(|words| Rewrite::of(line).strike(range.clone()).add(range.start, words).write()).collect()
}

/// Three numbers as a day: month first, day first, or year first.
fn days(first: u32, second: u32, third: u32) -> Vec<String> {
    let orders = [(third, first, second), (third, second, first), (first, second, third)];
    let day = |(year, month, day): (u32, u32, u32)| {
        let year = i16::try_from(full(year)).ok()?;
        Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
    };
    orders.into_iter().filter_map(day).map(|date| date.to_string()).collect()
}

fn full(year: u32) -> u32 {
    if year < 100 { 2000 + year } else { year }
}

/// Where two were said: the line with only the first, with only the second.
fn one_of(line: &Line<'_>, about: About) -> Vec<String> {
    let what = match about {
        About::Ages => What::Ages,
        About::Size => What::Size,
        About::Shop => What::Shop,
        About::Place => What::Place,
        About::Date => What::Date,
        About::Expires => What::Expiry,
        About::Measure => What::Measure,
        About::Theme => What::Theme,
        About::Category => What::Category,
        About::Box => What::Box,
        About::Name | About::Units | About::Paid => return Vec::new(),
    };
    let said = stretches(line, what);
    if said.len() < 2 {
        return Vec::new();
    }
    let only = |kept: &Range<usize>| {
        let others = said.iter().filter(|other| *other != kept);
        others.fold(Rewrite::of(line), |rewrite, other| rewrite.strike(other.clone())).write()
    };
    said.iter().map(only).collect()
}

/// Stretches of words that were taken for one thing; a shop begins with *at* or *from*.
fn stretches(line: &Line<'_>, what: What) -> Vec<Range<usize>> {
    let mut found: Vec<Range<usize>> = Vec::new();
    for at in (0..line.tokens.len()).filter(|&at| line.took(at) == Some(what)) {
        let begins =
            line.tokens.get(at).is_some_and(|token| matches!(token.text.as_str(), "at" | "from" | "tote" | "for"));
        match found.last_mut() {
            Some(last) if last.end == at && !begins => last.end = at + 1,
            _ => found.push(at..at + 1),
        }
    }
    found
}

/// The doubtful words kept as a note, which says nothing.
fn as_note(line: &Line<'_>, range: Range<usize>) -> String {
    let rewrite = Rewrite::of(line).strike(range);
    let words = format!("({})", rewrite.struck_words());
    rewrite.end(&words).write()
}
