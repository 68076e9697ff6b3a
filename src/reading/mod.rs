//! A line of plain words, understood.
//!
//! A line is cut into words, numbers and signs (`token`). The families of rules, in the order of
//! one table (`families`), each take what they understand and note it in a draft, as said. At the
//! end `resolve` puts the notes together: how many there are (`units`), what was paid (`paid`),
//! and what only a person can settle. Reading never fails: what is not understood is the name, or
//! a question.
//!
//! The law of this floor: a question may stay open, but units and paid are never silently wrong.

mod age;
mod back;
mod bundle;
mod category;
mod choice;
mod colour;
mod count;
mod cover;
mod date;
mod deal;
mod discount;
mod draft;
mod families;
mod flag;
mod for_box;
mod free;
mod haul;
mod hedge;
mod line;
mod measure;
mod money;
mod name;
mod number;
mod outright;
mod pack;
mod paid;
mod place;
mod question;
mod report;
mod resolve;
mod say;
mod shop;
mod sign;
mod size;
mod source;
mod taken;
mod theme;
mod token;
mod units;
mod whom;
mod words;
mod write;

#[cfg(test)]
mod corpus;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;

use jiff::civil::Date;

pub use haul::{Entry, Head, Said, read_haul, read_said};
pub use question::{About, Choice, Question};
pub use report::{Outcome, Reading, Refused};
pub use taken::{Taken, What};
pub use write::words;

use crate::catalogue::Catalogue;
use crate::model::habit::Habits;
use crate::model::profile::Profile;
use crate::model::text::clean;
use families::FAMILIES;
use line::Line;

/// The most characters a line may have.
pub const LONGEST_LINE: usize = 500;

/// What a line is read against.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// The drive's rules: currency, age groups, categories.
    pub profile: &'a Profile,
    /// Known kinds and colours.
    pub catalogue: &'a Catalogue,
    /// Answers that were given before.
    pub habits: &'a Habits,
    /// The shop of the haul, unless the line names another.
    pub shop: Option<&'a str>,
    /// The day on which the line is read.
    pub today: Date,
    /// Whether a missing price is a question; not under an opening count.
    pub price_asked: bool,
}

/// Reads one purchase; `n` is the number of its line.
pub fn read_line(n: usize, line: &str, ctx: &Context<'_>) -> Outcome {
    let line = clean(line);
    match refused(n, line.trim()) {
        Some(refused) => Outcome::Refused(refused),
        None => read_clean(n, line.trim(), ctx),
    }
}

/// The pieces of a text, cleaned, each with the number of its line; blank ones are skipped.
fn pieces(text: &str) -> Vec<(usize, Result<String, Refused>)> {
    let mut found = Vec::new();
    for (i, line) in text.split('\n').enumerate() {
        let (n, line) = (i + 1, clean(line));
        if let Some(refused) = refused(n, line.trim()) {
            found.push((n, Err(refused)));
            continue;
        }
        let parts = split(&line).into_iter().map(str::trim).filter(|part| !part.is_empty());
        found.extend(parts.map(|part| (n, Ok(part.to_owned()))));
    }
    found
}

fn refused(n: usize, line: &str) -> Option<Refused> {
    let letters = line.chars().count();
    (letters > LONGEST_LINE).then(|| Refused {
        n,
        error: format!("Line {n} has {letters} letters; {LONGEST_LINE} is the most. Part it into several lines."),
    })
}

/// Parts a cleaned line at each `;` outside parentheses.
pub fn split(line: &str) -> Vec<&str> {
    let mut depth = 0_usize;
    line.split(|c| {
        match c {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        c == ';' && depth == 0
    })
    .collect()
}

fn read_clean(n: usize, typed: &str, ctx: &Context<'_>) -> Outcome {
    let mut reading = understand(n, typed, ctx);
    choice::offer(&mut reading, ctx);
    Outcome::Read(Box::new(reading))
}

/// What a clean line says; its questions have no answers yet.
fn understand(n: usize, typed: &str, ctx: &Context<'_>) -> Reading {
    resolve::resolve(n, noted(typed, ctx))
}

/// A clean line with all that the rules noted of it.
fn noted<'a>(typed: &'a str, ctx: &'a Context<'a>) -> Line<'a> {
    let mut line = Line::new(typed, ctx);
    for family in FAMILIES {
        family(&mut line);
    }
    line
}
