//! Making something else of what is on hand, said in a few words: each way has its own.

use rust_decimal::Decimal;

use super::{ActError, Done, KitHow, PartHow, Season, SplitHow, Which};
use crate::model::measure::Units;
use crate::model::text::normal;
use crate::store::Store;

/// A way to make something else of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remake {
    /// Several things put together and given as one.
    Kit,
    /// A pack broken up into bundles.
    Split,
    /// A part taken out of sets.
    PartOut,
    /// Kits taken apart again.
    Apart,
}

/// What the words come to.
#[derive(Debug)]
enum How {
    Kit(KitHow),
    Split(SplitHow),
    PartOut(PartHow),
    Apart(Option<Units>),
}

impl Remake {
    /// Words that would do.
    pub fn example(self) -> &'static str {
        match self {
            Remake::Kit => "2 filled pencil cases: pencil case, 3 pencils, eraser",
            Remake::Split => "8, or 8 from 2 of them",
            Remake::PartOut => "2 sharpeners 15%, or 2 sharpeners 15% from 3 of them",
            Remake::Apart => "2, or all",
        }
    }

    /// What the words would do, in a sentence; where they don't say enough, what they should say.
    pub fn sentence(self, words: &str) -> String {
        match self.read(words) {
            Err(error) => error.to_string(),
            Ok(How::Kit(how)) => {
                let parts: Vec<String> = how.parts.iter().map(|(units, part)| format!("{units} {part}")).collect();
                format!("{} {}, each of {}", how.count, how.name, parts.join(", "))
            }
            Ok(How::Split(how)) => format!("bundles of {}, {}", how.of, from(how.units)),
            Ok(How::PartOut(how)) => {
                let (each, name, percent) = (how.each, &how.name, how.percent);
                format!("{each} {name} out of each, with {percent} of every 100 cents of its cost, {}", from(how.sets))
            }
            Ok(How::Apart(units)) => format!("taken apart again, {}", from(units)),
        }
    }

    fn read(self, words: &str) -> Result<How, ActError> {
        let (what, units) = with_from(words);
        let read = match self {
            Remake::Kit => kit(words).map(How::Kit),
            Remake::Split => number(what).map(|of| How::Split(SplitHow { of: of.count(), units, name: None })),
            Remake::PartOut => part(what, units).map(How::PartOut),
            Remake::Apart if normal(what) == "all" => Some(How::Apart(None)),
            Remake::Apart => number(what).map(|units| How::Apart(Some(units))),
        };
        read.ok_or_else(|| ActError::NotUnderstood(format!("Write for example: {}", self.example())))
    }
}

impl<S: Store> Season<S> {
    /// Makes something else of a thing, as the words say; a kit names its parts itself.
    pub fn remake<'a>(&mut self, way: Remake, which: impl Into<Which<'a>>, words: &str) -> Result<Done, ActError> {
        match way.read(words)? {
            How::Kit(how) => self.kit(&how),
            How::Split(how) => self.split(which, &how),
            How::PartOut(how) => self.part_out(which, &how),
            How::Apart(units) => self.take_apart(which, units),
        }
    }
}

fn from(units: Option<Units>) -> String {
    units.map_or_else(|| "from all that are free".to_owned(), |units| format!("from {units} of them"))
}

/// `8 from 2 of them`: what is said, and out of how many.
fn with_from(words: &str) -> (&str, Option<Units>) {
    let Some((what, rest)) = words.rsplit_once(" from ") else { return (words.trim(), None) };
    let count = rest.trim().trim_end_matches("of them").trim();
    match number(count) {
        Some(units) => (what.trim(), Some(units)),
        None => (words.trim(), None),
    }
}

fn number(words: &str) -> Option<Units> {
    words.trim().parse().ok().and_then(Units::new).filter(|units| !units.is_zero())
}

/// `3 pencils`; one, if no number leads.
fn counted(words: &str) -> Option<(Units, String)> {
    let words = words.trim();
    let (first, rest) = words.split_once(' ').unwrap_or((words, ""));
    let (units, name) = number(first).map_or((Units::ONE, words), |units| (units, rest.trim()));
    (!name.is_empty()).then(|| (units, name.to_owned()))
}

/// `2 filled pencil cases: pencil case, 3 pencils, eraser`.
fn kit(words: &str) -> Option<KitHow> {
    let (called, parts) = words.split_once(':')?;
    let (count, name) = counted(called)?;
    let parts = parts.split(',').filter(|part| !part.trim().is_empty()).map(counted).collect::<Option<Vec<_>>>()?;
    (!parts.is_empty()).then_some(KitHow { name, count, parts, category: None, tote: None })
}

/// `2 sharpeners 15%`: what comes out of each set, and the hundredths of its cost that go along.
fn part(words: &str, sets: Option<Units>) -> Option<PartHow> {
    let (called, share) = words.trim().strip_suffix('%')?.trim_end().rsplit_once(' ')?;
    let percent: Decimal = share.parse().ok()?;
    let (each, name) = counted(called)?;
    Some(PartHow { each, name, percent, sets })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_say_what_is_made() {
        let told = |way: Remake, words: &str| way.sentence(words);
        let kit = "2 filled cases, each of 1 pencil case, 3 pencils, 1 eraser";
        assert_eq!(told(Remake::Kit, "2 filled cases: pencil case, 3 pencils, eraser,"), kit);
        assert_eq!(told(Remake::Split, "8"), "bundles of 8, from all that are free");
        assert_eq!(told(Remake::Split, "8 from 2 of them"), "bundles of 8, from 2 of them");
        assert_eq!(
            told(Remake::PartOut, "2 sharpeners 15 % from 3"),
            "2 sharpeners out of each, with 15 of every 100 cents of its cost, from 3 of them"
        );
        assert_eq!(told(Remake::Apart, "All"), "taken apart again, from all that are free");
        assert_eq!(told(Remake::Apart, "2"), "taken apart again, from 2 of them");
    }

    #[test]
    fn words_that_say_too_little_are_told_what_would_do() {
        for (way, words) in [
            (Remake::Kit, "two cases"),
            (Remake::Kit, "cases:"),
            (Remake::Kit, ": pencils"),
            (Remake::Split, "0"),
            (Remake::Split, "eight"),
            (Remake::PartOut, "sharpeners"),
            (Remake::PartOut, "15%"),
            (Remake::Apart, "some"),
        ] {
            assert_eq!(way.sentence(words), format!("Write for example: {}", way.example()), "{words}");
        }
    }
}
