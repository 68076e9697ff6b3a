//! Boxes: planned in words, copied, changed, closed, opened again, handed in, come back.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::names::Thing;
use super::{ActError, Done, Season};
use crate::model::age::Ages;
use crate::model::fact::{BoxDay, BoxMended, BoxPlanned, BoxStep, Fact, Placing};
use crate::model::giftbox::{BoxFacts, BoxField};
use crate::model::measure::Units;
use crate::model::profile::Profile;
use crate::model::rows::PlacementRow;
use crate::model::text::{clean, normal};
use crate::model::whom::ForWhom;
use crate::store::Store;

/// What words say of a box: `3 girl 6-8 ocean, teal and coral`. What they don't say is none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BoxWords {
    /// How many boxes.
    pub count: Option<u32>,
    /// Who for; an inner none is "either".
    pub for_whom: Option<Option<ForWhom>>,
    /// Which ages.
    pub ages: Option<Ages>,
    /// The theme.
    pub theme: Option<String>,
    /// The colours.
    pub palette: Option<Vec<String>>,
}

/// A step in a box's life.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BoxChange {
    /// Close it.
    Close,
    /// Open it again.
    Reopen,
    /// It was handed in.
    HandIn(Date),
    /// It came back from the drive.
    CameBack(Date),
    /// Take it off the plan.
    Drop,
}

impl BoxWords {
    /// Understands the words; the age group is written as `6-8`.
    pub fn from(words: &str) -> Result<BoxWords, ActError> {
        let words = clean(words);
        let (said, colours) = words.split_once(',').unwrap_or((&words, ""));
        let mut box_words = BoxWords { palette: palette(colours), ..BoxWords::default() };
        let mut theme = Vec::new();
        for (index, word) in normal(said).split(' ').enumerate().filter(|(_, word)| !word.is_empty()) {
            match (word, ages(word)) {
                ("girl" | "girls", _) => box_words.for_whom = Some(Some(ForWhom::Girl)),
                ("boy" | "boys", _) => box_words.for_whom = Some(Some(ForWhom::Boy)),
                ("either" | "any" | "anyone", _) => box_words.for_whom = Some(None),
                (_, Some(ages)) => box_words.ages = Some(ages),
                ("a" | "an" | "for" | "box" | "boxes" | "theme" | "aged" | "ages", _) => {}
                (number, None) if index == 0 && number.parse::<u32>().is_ok() => box_words.count = number.parse().ok(),
                (word, None) => theme.push(word.to_owned()),
            }
        }
        box_words.theme = (!theme.is_empty()).then(|| theme.join(" "));
        let long =
            box_words.theme.iter().chain(box_words.palette.iter().flatten()).any(|word| word.chars().count() > 60);
        match box_words.count {
            Some(0 | 201..) => Err(ActError::NotUnderstood("1 to 200 boxes can be planned at once".to_owned())),
            _ if long => Err(ActError::NotUnderstood("a theme or a colour has 60 letters at the most".to_owned())),
            _ => Ok(box_words),
        }
    }
}

/// What words say of a box, in a sentence, while they are being written.
pub fn box_sentence(words: &str) -> String {
    let said = match BoxWords::from(words) {
        Ok(said) => said,
        Err(error) => return error.to_string(),
    };
    let count = match said.count {
        Some(count) if count != 1 => format!("{count} boxes"),
        _ => "1 box".to_owned(),
    };
    let whom = match said.for_whom {
        Some(Some(whom)) => format!(" for a {whom}"),
        Some(None) => " for either".to_owned(),
        None => String::new(),
    };
    let ages = said.ages.map_or(", no age group yet".to_owned(), |ages| format!(" of {ages}"));
    let theme = said.theme.map(|theme| format!(", {theme}")).unwrap_or_default();
    let colours = said.palette.map(|palette| format!(", {}", palette.join(" and "))).unwrap_or_default();
    format!("{count}{whom}{ages}{theme}{colours}")
}

/// `6-8` or `6–8`; a lone number is a count, not an age.
fn ages(word: &str) -> Option<Ages> {
    let (from, to) = word.split_once(['-', '–'])?;
    Ages::new(from.parse().ok()?, Some(to.parse().ok()?))
}

fn palette(words: &str) -> Option<Vec<String>> {
    let words = normal(words).replace(" and ", ",").replace([';', '/', '&'], ",");
    let colours: Vec<String> =
        words.split(',').map(str::trim).filter(|colour| !colour.is_empty()).map(str::to_owned).collect();
    (!colours.is_empty()).then_some(colours)
}

impl<S: Store> Season<S> {
    /// Plans one box or several alike.
    pub fn plan(&mut self, words: &str) -> Result<Done, ActError> {
        let said = BoxWords::from(words)?;
        let profile = self.profile()?;
        let ages = said.ages.ok_or_else(|| ActError::NotUnderstood(which_group(&profile)))?;
        known_group(&profile, ages)?;
        let first = self.next_number()?;
        let count = said.count.unwrap_or(1);
        let facts = (first..first + count).map(|number| {
            let facts = BoxFacts {
                number,
                for_whom: said.for_whom.flatten(),
                ages,
                theme: said.theme.clone().unwrap_or_default(),
                palette: said.palette.clone().unwrap_or_default(),
            };
            Fact::BoxPlanned(BoxPlanned { giftbox: self.ids.giftbox(), facts })
        });
        let facts = facts.collect::<Vec<_>>();
        self.act(&facts)
    }

    /// Plans another box like this one, and sets aside the same things as far as they are on hand.
    pub fn copy(&mut self, label: &str) -> Result<Done, ActError> {
        let row = self.box_called(label)?;
        let facts = BoxFacts { number: self.next_number()?, ..row.facts.clone() };
        let giftbox = self.ids.giftbox();
        let mut all = vec![Fact::BoxPlanned(BoxPlanned { giftbox, facts })];
        let mut short = Vec::new();
        let held = self.store.placements_in(row.giftbox)?;
        let mut things = self.same_things(&held)?;
        for held in held {
            let mut wanted = held.units + held.aside;
            let same = things.iter_mut().find(|thing| thing.lots.iter().any(|lot| lot.lot == held.lot));
            let Some(thing) = same else { continue };
            for lot in &mut thing.lots {
                let units = wanted.min(lot.free());
                if !units.is_zero() {
                    wanted -= units;
                    lot.standing.aside += units;
                    let placement = self.ids.placement();
                    all.push(Fact::SetAside(Placing { placement, lot: lot.lot, giftbox, units }));
                }
            }
            if !wanted.is_zero() {
                short.push(format!("{wanted} {}", thing.title));
            }
        }
        let left_out = self.leave_out_stopped(&mut all)?;
        let mut done = self.act(&all)?;
        done.notes.extend(left_out);
        if !short.is_empty() {
            done.notes.push(format!("Not on hand for it: {}.", short.join(", ")));
        }
        Ok(done)
    }

    /// The things that a box holds, with all their batches wherever they are.
    fn same_things(&self, held: &[PlacementRow]) -> Result<Vec<Thing>, ActError> {
        let mut titles = BTreeSet::new();
        for held in held {
            titles.extend(self.store.lot(held.lot)?.map(|row| row.facts.title()));
        }
        let mut rows = Vec::new();
        for title in titles {
            rows.extend(self.store.lots_titled(&title)?.into_iter().filter(|row| !row.withdrawn));
        }
        self.grouped(rows)
    }

    /// Changes what the words say of a box, and nothing else.
    pub fn edit(&mut self, label: &str, words: &str) -> Result<Done, ActError> {
        let row = self.box_called(label)?;
        let said = BoxWords::from(words)?;
        if let Some(ages) = said.ages {
            known_group(&self.profile()?, ages)?;
        }
        let set: Vec<BoxField> = (said.for_whom.map(BoxField::For).into_iter())
            .chain(said.ages.map(BoxField::Ages))
            .chain(said.theme.map(BoxField::Theme))
            .chain(said.palette.map(BoxField::Palette))
            .collect();
        if set.is_empty() {
            return Err(ActError::NotUnderstood("what of it? Write for example: boy 6-8 space, blue".to_owned()));
        }
        self.act(&[Fact::BoxMended(BoxMended { giftbox: row.giftbox, set })])
    }

    /// Takes a box a step on in its life.
    pub fn step(&mut self, label: &str, change: BoxChange) -> Result<Done, ActError> {
        let row = self.box_called(label)?;
        let giftbox = row.giftbox;
        let fact = match change {
            BoxChange::Close => Fact::BoxClosed(BoxStep { giftbox }),
            BoxChange::Reopen => Fact::BoxReopened(BoxStep { giftbox }),
            BoxChange::Drop => Fact::BoxDropped(BoxStep { giftbox }),
            BoxChange::HandIn(date) => Fact::BoxHandedIn(BoxDay { giftbox, date }),
            BoxChange::CameBack(date) => Fact::BoxCameBack(BoxDay { giftbox, date }),
        };
        if change == BoxChange::Close {
            self.may_close(&row)?;
        }
        let notes = if change == BoxChange::Close { self.closing_notes(&row)? } else { Vec::new() };
        let mut done = self.act(&[fact])?;
        done.notes.extend(notes);
        Ok(done)
    }

    /// Takes all of a box that came back, or stands open, back to its totes.
    pub fn unpack(&mut self, label: &str) -> Result<Done, ActError> {
        let row = self.box_called(label)?;
        let held = self.store.placements_in(row.giftbox)?;
        let mut facts = Vec::new();
        if !row.state.is_open() {
            facts.push(Fact::BoxReopened(BoxStep { giftbox: row.giftbox }));
        }
        for held in &held {
            let placing = |units| Placing { placement: held.placement, lot: held.lot, giftbox: held.giftbox, units };
            for (units, fact) in [(held.units, Fact::TakenBack as fn(Placing) -> Fact), (held.aside, Fact::LetGo)] {
                if units > Units::ZERO {
                    facts.push(fact(placing(units)));
                }
            }
        }
        if held.is_empty() {
            return Err(ActError::Nothing(format!("Nothing is in box {}.", row.label())));
        }
        self.act(&facts)
    }

    /// What is still missing or waiting when a box is closed; closing it as it is remains hers to decide.
    fn closing_notes(&self, row: &crate::model::rows::BoxRow) -> Result<Vec<String>, ActError> {
        let waiting: Units = self.store.placements_in(row.giftbox)?.iter().map(|held| held.aside).sum();
        let mut notes: Vec<String> = self.still_needs(row)?.into_iter().filter(|note| note.contains("needs")).collect();
        if !waiting.is_zero() {
            notes.push(format!("{waiting} set aside for it never went in."));
        }
        Ok(notes)
    }

    fn next_number(&self) -> Result<u32, ActError> {
        Ok(self.store.boxes()?.iter().map(|row| row.facts.number).max().unwrap_or(0).saturating_add(1))
    }
}

fn which_group(profile: &Profile) -> String {
    let groups: Vec<String> = profile.bands.iter().map(|band| band.ages.to_string().replace('–', "-")).collect();
    format!("for which age group? Write one of {}: girl {} ocean, teal", groups.join(", "), groups[0])
}

fn known_group(profile: &Profile, ages: Ages) -> Result<(), ActError> {
    match profile.band(ages) {
        Some(_) => Ok(()),
        None => Err(ActError::NotUnderstood(format!("{ages} is no age group of this drive; {}", which_group(profile)))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_in_words() {
        let said = BoxWords::from("3 girl 6-8 ocean, teal and coral").unwrap();
        assert_eq!(said.count, Some(3));
        assert_eq!(said.for_whom, Some(Some(ForWhom::Girl)));
        assert_eq!(said.ages, Ages::new(6, Some(8)));
        assert_eq!(said.theme.as_deref(), Some("ocean"));
        assert_eq!(said.palette.unwrap(), ["teal", "coral"]);
        let short = BoxWords::from("9–12 outer space").unwrap();
        assert_eq!((short.count, short.for_whom, short.theme.as_deref()), (None, None, Some("outer space")));
        assert!(BoxWords::from("900 girl 6-8").is_err());
        assert!(BoxWords::from(&"z".repeat(61)).is_err());
    }
}
