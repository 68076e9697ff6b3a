//! Rule 11: when it was got, and when it goes off.

use jiff::ToSpan;
use jiff::civil::Date;

use super::line::Line;
use super::question::About;
use super::taken::What;

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];
const EXPIRY: [&str; 8] = ["use by", "best by", "best before", "expires", "expiry", "expiring", "expiration", "exp"];
/// Behind these a number is no day.
const NO_DAY: [&str; 12] =
    ["c", "¢", "cent", "cents", "dollar", "dollars", "%", "pack", "ct", "for", "percent", "count"];

/// A day or a month as said.
#[derive(Debug, Clone, Copy)]
enum When {
    Day(Date),
    Month(i16, i8),
    NoYear {
        month: i8,
        day: i8,
    },
    NoDay(i8),
    /// It looks like a date but is none, or can be read two ways.
    Doubtful,
}

/// Finds dates of purchase and of expiry.
pub(super) fn dates(line: &mut Line<'_>) {
    line.scan(|line, at| expiry(line, at).or_else(|| bought(line, at)));
}

fn expiry(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let mut start = line.any_phrase(at, &EXPIRY)?;
    while line.is(start, &[".", ":", "on", "date", "in"]) {
        start += 1;
    }
    let Some((when, end)) = when(line, start) else {
        line.number(start)?;
        let end = line.tokens.len().min(start + 3);
        let end = (start..end).find(|&i| i > start && !line.glued(i)).unwrap_or(end);
        line.doubt(at..end, About::Expires, "which day or month is that?");
        return Some(end);
    };
    let next = |date: Option<Date>| date.map(|date| date.to_string());
    let today = line.ctx.today;
    let said = match when {
        When::Day(day) => Some(day.to_string()),
        When::Month(year, month) => Some(format!("{year:04}-{month:02}")),
        When::NoYear { month, day } => next(nearest(today, month, day, false)),
        When::NoDay(month) => {
            let year = if month < today.month() { today.year() + 1 } else { today.year() };
            Some(format!("{year:04}-{month:02}"))
        }
        When::Doubtful => None,
    };
    match said {
        Some(said) => {
            line.take(at..end, What::Expiry);
            line.draft.expiries.push(said);
        }
        None => line.doubt(at..end, About::Expires, "which day or month is that?"),
    }
    Some(end)
}

fn bought(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let today = line.ctx.today;
    let (when, end) = when(line, at)?;
    let day = match when {
        When::Day(day) => Some(day),
        When::NoYear { month, day } => nearest(today, month, day, true),
        When::Month(year, month) => {
            line.take(at..end, What::Expiry);
            line.draft.expiries.push(format!("{year:04}-{month:02}"));
            return Some(end);
        }
        When::NoDay(_) => return None,
        When::Doubtful => None,
    };
    let from = if at > 0 && line.is(at - 1, &["on"]) { at - 1 } else { at };
    match day {
        Some(day) => {
            line.take(from..end, What::Date);
            line.draft.dates.push(day);
        }
        None => line.doubt(from..end, About::Date, "which day is that?"),
    }
    Some(end)
}

/// The nearest such day, today included, in the past or in the future.
fn nearest(today: Date, month: i8, day: i8, past: bool) -> Option<Date> {
    (0..=8).find_map(|years| {
        let year = if past { today.year() - years } else { today.year() + years };
        let date = Date::new(year, month, day).ok()?;
        (if past { date <= today } else { date >= today }).then_some(date)
    })
}

fn when(line: &Line<'_>, at: usize) -> Option<(When, usize)> {
    if line.hangs_before(at) {
        return None;
    }
    if line.is(at, &["today"]) {
        return Some((When::Day(line.ctx.today), at + 1));
    }
    if line.is(at, &["yesterday"]) {
        let yesterday = line.ctx.today.checked_sub(1.day());
        return Some((yesterday.map_or(When::Doubtful, When::Day), at + 1));
    }
    iso(line, at).or_else(|| slashed(line, at)).or_else(|| month_first(line, at)).or_else(|| day_first(line, at))
}

/// Two digits and no more.
fn two_digits(line: &Line<'_>, at: usize) -> Option<i8> {
    let token = line.number(at).filter(|token| token.text.len() <= 2)?;
    token.text.parse().ok()
}

fn year(line: &Line<'_>, at: usize) -> Option<i16> {
    let token = line.number(at).filter(|token| token.text.len() == 4)?;
    token.text.parse().ok().filter(|year| (2000..2100).contains(year))
}

fn sign(line: &Line<'_>, at: usize, sign: &str) -> bool {
    line.is(at, &[sign]) && line.glued(at) && line.glued(at + 1)
}

/// `2027-03-15`, `2027-03`.
fn iso(line: &Line<'_>, at: usize) -> Option<(When, usize)> {
    let year = year(line, at).filter(|_| sign(line, at + 1, "-"))?;
    let month = two_digits(line, at + 2)?;
    if let Some(day) = two_digits(line, at + 4).filter(|_| sign(line, at + 3, "-")) {
        return Some((Date::new(year, month, day).map_or(When::Doubtful, When::Day), at + 5));
    }
    let known = (1..=12).contains(&month);
    Some((if known { When::Month(year, month) } else { When::Doubtful }, at + 3))
}

/// `03/2027`; with three numbers nobody knows which is the month.
fn slashed(line: &Line<'_>, at: usize) -> Option<(When, usize)> {
    let first = two_digits(line, at).filter(|_| sign(line, at + 1, "/"))?;
    if line.number(at + 2).is_some() && sign(line, at + 3, "/") && line.number(at + 4).is_some() {
        return Some((When::Doubtful, at + 5));
    }
    let year = year(line, at + 2)?;
    let known = (1..=12).contains(&first);
    Some((if known { When::Month(year, first) } else { When::Doubtful }, at + 3))
}

fn month(line: &Line<'_>, at: usize) -> Option<(i8, usize)> {
    let word = line.word(at)?;
    let is = |month: &str| {
        month == word || (word.len() == 3 && month.starts_with(word)) || (word == "sept" && month == "september")
    };
    let month = i8::try_from(MONTHS.iter().position(|month| is(month))?).ok()? + 1;
    let end = if line.is(at + 1, &["."]) && line.glued(at + 1) { at + 2 } else { at + 1 };
    Some((month, end))
}

/// A day of a month, perhaps `15th`.
fn day(line: &Line<'_>, at: usize) -> Option<(i8, usize)> {
    let day = two_digits(line, at).filter(|day| (1..=31).contains(day))?;
    let ordinal = line.is(at + 1, &["st", "nd", "rd", "th"]) && line.glued(at + 1);
    let end = if ordinal { at + 2 } else { at + 1 };
    (!line.is(end, &NO_DAY) && !line.hangs_behind(end)).then_some((day, end))
}

fn with_year(line: &Line<'_>, month: i8, day: i8, end: usize) -> (When, usize) {
    let comma = usize::from(line.is(end, &[","]));
    match year(line, end + comma) {
        Some(year) => (Date::new(year, month, day).map_or(When::Doubtful, When::Day), end + comma + 1),
        None => (When::NoYear { month, day }, end),
    }
}

/// `feb 15`, `feb 15, 2027`, `mar 2027`; a month alone only after a word for expiry.
fn month_first(line: &Line<'_>, at: usize) -> Option<(When, usize)> {
    let (month, next) = month(line, at)?;
    if let Some(year) = year(line, next) {
        return Some((When::Month(year, month), next + 1));
    }
    match day(line, next) {
        Some((day, end)) => Some(with_year(line, month, day, end)),
        None => Some((When::NoDay(month), next)),
    }
}

/// `15 feb`, `15 feb 2027`.
fn day_first(line: &Line<'_>, at: usize) -> Option<(When, usize)> {
    let (day, next) = day(line, at)?;
    let (month, end) = month(line, if line.is(next, &["of"]) { next + 1 } else { next })?;
    Some(with_year(line, month, day, end))
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, read};

    #[test]
    fn days_of_purchase() {
        for (words, day) in [
            ("2027-02-14", "2027-02-14"),
            ("today", "2026-11-25"),
            ("yesterday", "2026-11-24"),
            ("feb 15", "2026-02-15"),
            ("15 feb 2027", "2027-02-15"),
            ("dec 24", "2025-12-24"),
            ("Nov. 25th", "2026-11-25"),
            ("feb 29", "2024-02-29"),
            ("on March 3, 2026", "2026-03-03"),
        ] {
            let line = format!("comb 1.00 {words}");
            assert_eq!(read(&line).date.map(|day| day.to_string()).as_deref(), Some(day), "{line}");
            assert_eq!(name(&line), "comb", "{line}");
            assert!(about(&line).is_empty(), "{line}");
        }
    }

    #[test]
    fn days_and_months_of_expiry() {
        for (words, when) in [
            ("exp 2027-03", "2027-03"),
            ("exp. 2027-03-15", "2027-03-15"),
            ("expires mar 2027", "2027-03"),
            ("use by 15 feb", "2027-02-15"),
            ("best by dec", "2026-12"),
            ("exp mar", "2027-03"),
            ("03/2027", "2027-03"),
            ("mar 2027", "2027-03"),
            ("exp: 3/2027", "2027-03"),
            ("best before nov 25", "2026-11-25"),
        ] {
            let line = format!("lotion 1.00 {words}");
            assert_eq!(read(&line).expires.as_deref(), Some(when), "{line}");
            assert_eq!(name(&line), "lotion", "{line}");
            assert!(about(&line).is_empty(), "{line}");
        }
    }

    #[test]
    fn no_date_is_guessed() {
        for line in ["comb 1.00 2/15/2027", "comb 1.00 feb 30", "comb 1.00 2027-02-30"] {
            assert_eq!(about(line), ["date"], "{line}");
        }
        for line in ["lotion 1.00 exp 3/27", "lotion 1.00 exp 2027-13"] {
            assert_eq!(about(line), ["expires"], "{line}");
        }
        assert_eq!(name("march hare puppet 1.00"), "march hare puppet");
    }
}
