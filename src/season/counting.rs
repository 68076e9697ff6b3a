//! Counting what is really there, thing by thing or tote by tote.

use std::cmp::Ordering;

use super::names::Thing;
use super::{ActError, Done, Season, Which};
use crate::model::fact::{Counted, Fact, LotMended};
use crate::model::lot::{Level, LotField};
use crate::model::measure::Units;
use crate::model::rows::LotRow;
use crate::model::text::{clean, normal};
use crate::store::Store;

/// One thing counted: `9 combs`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountLine {
    /// How many there are.
    pub found: Units,
    /// What.
    pub words: String,
}

impl CountLine {
    /// Reads `9 combs`, `combs 9` or `no combs`.
    pub fn from(line: &str) -> Result<CountLine, ActError> {
        let line = clean(line);
        let words: Vec<&str> = line.split_whitespace().collect();
        let number = |word: &str| match word.to_lowercase().as_str() {
            "no" | "none" => Some(0),
            digits => digits.parse::<u32>().ok(),
        };
        let read = match words.as_slice() {
            [first, rest @ ..] if number(first).is_some() && !rest.is_empty() => number(first).map(|n| (n, rest)),
            [rest @ .., last] if number(last).is_some() && !rest.is_empty() => number(last).map(|n| (n, rest)),
            _ => None,
        };
        let counted = read.and_then(|(count, words)| Some((Units::new(count)?, words.join(" "))));
        let (found, words) = counted
            .ok_or_else(|| ActError::NotUnderstood(format!("\"{line}\" is no count; write for example: 9 combs")))?;
        Ok(CountLine { found, words })
    }
}

impl<S: Store> Season<S> {
    /// Says how much there is of a thing that nobody counts; none: it is counted again. What is put into a
    /// box of it then costs nothing there: the cost stays with the tote until it is used up.
    pub fn level<'a>(&mut self, which: impl Into<Which<'a>>, level: Option<Level>) -> Result<Done, ActError> {
        let thing = self.known(which.into())?;
        let differing = thing.lots.iter().filter(|lot| lot.facts.level != level);
        let mend = |lot: &LotRow| Fact::LotMended(LotMended { lot: lot.lot, set: vec![LotField::Level(level)] });
        let facts: Vec<Fact> = differing.map(mend).collect();
        if facts.is_empty() {
            return Err(ActError::Nothing(format!("{} is so already.", thing.title)));
        }
        let done = self.act(&facts)?;
        let said = match level {
            Some(level) => format!("{}: {}.", thing.title, level.word()),
            None => format!("{}: counted again.", thing.title),
        };
        Ok(Done { said, ..done })
    }

    /// Keeps a count: what is missing is taken off as lost, what is over is added as found.
    ///
    /// With a tote, only what should lie there is looked at, and what was not counted is named.
    pub fn count(&mut self, tote: Option<&str>, lines: &[CountLine]) -> Result<Done, ActError> {
        let tote = tote.map(normal);
        let here = |place: &Option<String>| tote.is_none() || *place == tote;
        let things = self.things(|lot| !lot.withdrawn && here(&lot.facts.tote))?;
        let place = tote.as_ref().map_or("here".to_owned(), |tote| format!("in {tote}"));
        let mut facts = Vec::new();
        let mut counted = Vec::new();
        let mut differences = Vec::new();
        for line in lines {
            let thing = self.one_of(&line.words, &things, &place)?;
            differences.push(difference(&thing, line.found));
            facts.extend(count_facts(&thing, line.found));
            counted.push(thing.title);
        }
        if facts.is_empty() {
            return Err(ActError::NotUnderstood("what did you count? Write for example: 9 combs".to_owned()));
        }
        let mut done = self.act(&facts)?;
        done.notes = differences;
        let missed = things.iter().filter(|thing| tote.is_some() && !thing.on_hand().is_zero());
        let missed: Vec<String> = missed
            .filter(|thing| !counted.contains(&thing.title))
            .map(|thing| format!("{} {}", thing.on_hand(), thing.title))
            .collect();
        if !missed.is_empty() {
            done.notes.push(format!("Not counted, left as it was: {}.", missed.join(", ")));
        }
        Ok(done)
    }

    /// Keeps a count of one thing, wherever it lies.
    pub fn count_of<'a>(&mut self, found: Units, which: impl Into<Which<'a>>) -> Result<Done, ActError> {
        let thing = self.known(which.into())?;
        let mut done = self.act(&count_facts(&thing, found))?;
        done.notes.push(difference(&thing, found));
        Ok(done)
    }
}

fn difference(thing: &Thing, found: Units) -> String {
    let (title, expected) = (&thing.title, thing.on_hand());
    match found.cmp(&expected) {
        Ordering::Equal => format!("{found} {title}, as expected."),
        Ordering::Less => format!("{found} {title}: {} fewer than expected.", expected - found),
        Ordering::Greater => format!("{found} {title}: {} more than expected.", found - expected),
    }
}

/// Spreads what is missing over the batches that are used up first, and adds what is over to the last one.
fn count_facts(thing: &Thing, found: Units) -> Vec<Fact> {
    let mut missing = thing.on_hand() - found;
    let mut over = found - thing.on_hand();
    let last = thing.lots.len().saturating_sub(1);
    let mut facts = Vec::new();
    for (index, lot) in thing.lots.iter().enumerate() {
        let expected = lot.standing.on_hand;
        let gone = missing.min(expected);
        missing -= gone;
        let extra = if index == last { std::mem::take(&mut over) } else { Units::ZERO };
        if !expected.is_zero() || !extra.is_zero() || index == last && facts.is_empty() {
            let found = expected - gone + extra;
            facts.push(Fact::Counted(Counted { lot: lot.lot, found, expected, seen: lot.last }));
        }
    }
    facts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_in_words() {
        let read = |line| CountLine::from(line).unwrap();
        assert_eq!(read("9 combs"), CountLine { found: Units::new(9).unwrap(), words: "combs".into() });
        assert_eq!(read("combs, wide 9").found.count(), 9);
        assert_eq!(read("no glue stick").found.count(), 0);
        assert!(CountLine::from("combs").is_err());
        assert!(CountLine::from("9").is_err());
    }
}
