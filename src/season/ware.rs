//! One thing of the stock, small enough that all of them can be held at once.

use std::sync::Arc;

use jiff::civil::Date;

use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::currency::Currency;
use crate::model::id::LotId;
use crate::model::lot::Level;
use crate::model::measure::Units;
use crate::model::money::{Money, each};
use crate::model::rules::Level as CautionLevel;
use crate::model::whom::ForWhom;

/// One time a thing was bought, where the price is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bought {
    /// The day, where the haul tells one.
    pub date: Option<Date>,
    /// What all of it cost.
    pub paid: Money,
    /// How many.
    pub units: Units,
}

/// How careful to be with a thing for one age group.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Mark {
    /// The age group.
    pub ages: Ages,
    /// The strictest of its cautions.
    pub level: CautionLevel,
}

/// What tells a thing from all others: title, who for, ages.
pub(super) type Key<'a> = (&'a str, Option<ForWhom>, Option<(u8, Option<u8>)>);

/// A thing: its batches are the same to whoever packs. What many things share is kept once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Ware {
    /// What lists show: name, colours, size.
    pub title: Box<str>,
    /// The kind's name in the catalogue.
    pub kind: Option<Arc<str>>,
    /// The category it serves.
    pub category: Option<Category>,
    /// Who it is for; either, if not said.
    pub for_whom: Option<ForWhom>,
    /// The ages it is for; any, if not said.
    pub ages: Option<Ages>,
    /// Its size.
    pub size: Option<Arc<str>>,
    /// Its colours.
    pub colours: Arc<[Arc<str>]>,
    /// Its theme.
    pub theme: Option<Arc<str>>,
    /// Where its units on hand lie, joined by commas; where none is on hand, the place it lay in last.
    pub tote: Arc<str>,
    /// What was said of it: sealed, breakable.
    pub flags: Arc<[Arc<str>]>,
    /// The age groups that it wants care for.
    pub marks: Box<[Mark]>,
    /// Units on hand.
    pub on_hand: u32,
    /// How much there is, if nobody counts it.
    pub level: Option<Level>,
    /// Of those, set aside.
    pub aside: u32,
    /// Its batches in order of use.
    pub lots: Box<[LotId]>,
    /// Each time it was bought at a known price, oldest first.
    pub bought: Box<[Bought]>,
    /// What one of those on hand costs; empty where none is on hand.
    pub each: Arc<str>,
    /// How much of the title is the name.
    pub(super) name_ends: u16,
    /// Whether the name alone leads to another category than the one it serves.
    pub(super) names_category: bool,
}

impl Ware {
    /// The name without colours and size.
    pub fn name(&self) -> &str {
        self.title.get(..usize::from(self.name_ends)).unwrap_or(&self.title)
    }

    /// Units on hand that no box holds.
    pub fn free(&self) -> u32 {
        self.on_hand.saturating_sub(self.aside)
    }

    /// The strictest caution on it for an age group.
    pub fn careful(&self, ages: Ages) -> Option<CautionLevel> {
        self.marks.iter().find(|mark| mark.ages == ages).map(|mark| mark.level)
    }

    /// Whether it is the same thing: title, who for and ages, whatever is said otherwise.
    pub fn same(&self, other: &Ware) -> bool {
        self.key() == other.key()
    }

    /// What one cost the last time it was bought, and when that was.
    pub fn last_each(&self, currency: Currency) -> Option<(String, Option<Date>)> {
        let last = self.bought.last()?;
        Some((each(last.paid, last.units.count(), currency), last.date))
    }

    /// The words that, typed in a line of a haul, read back to this thing.
    pub fn words(&self) -> String {
        let mut parts = vec![self.name().to_owned()];
        parts.extend((!self.colours.is_empty()).then(|| self.colours.join(" and ")));
        parts.extend(self.size.as_ref().map(|size| format!("size {}", size.to_lowercase())));
        parts.extend(self.for_whom.map(|whom| format!("for a {whom}")));
        parts.extend(self.ages.map(ages_words));
        parts.extend(self.theme.as_ref().map(|theme| format!("theme {theme}")));
        parts.extend(place(&self.tote).map(str::to_owned));
        let category = self.category.as_ref().filter(|_| self.names_category);
        parts.extend(category.map(|category| format!("as {}", category.word())));
        parts.join(", ")
    }

    /// What tells it from all others, in the order of the shelf.
    pub(super) fn key(&self) -> Key<'_> {
        (&self.title, self.for_whom, self.ages.map(|ages| (ages.from(), ages.to())))
    }
}

fn ages_words(ages: Ages) -> String {
    match ages.to() {
        Some(to) if to == ages.from() => format!("age {to}"),
        Some(to) => format!("ages {}-{to}", ages.from()),
        None => format!("ages {}+", ages.from()),
    }
}

/// The first of the places, if it is one that a line of a haul can name: a word and a label with a number or of one
/// letter.
fn place(totes: &str) -> Option<&str> {
    const PLACES: [&str; 7] = ["tote", "bin", "shelf", "drawer", "crate", "basket", "cupboard"];
    let first = totes.split(", ").next()?;
    let (word, label) = first.split_once(' ')?;
    let short = label.len() == 1 || label.bytes().any(|b| b.is_ascii_digit());
    let plain = label.bytes().all(|b| b.is_ascii_alphanumeric());
    (PLACES.contains(&word) && short && plain).then_some(first)
}

#[cfg(test)]
mod tests {
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::model::lot::LotFacts;
    use crate::reading::About;
    use crate::season::logging::lot_facts;
    use crate::season::sample::fill;
    use crate::store::Memory;

    #[test]
    fn words_read_back_to_the_thing() {
        let season = fill(Memory::new(SeasonId::new(CountedIds::new(1).fresh()))).unwrap();
        let shelf = season.shelf().unwrap();
        assert!(shelf.len() > 100);
        let mut strayed = Vec::new();
        for ware in shelf.wares() {
            let line = format!("2 {} 1.00", ware.words());
            let said = season.read(&line).unwrap().remove(0);
            let reading = said.reading().unwrap_or_else(|| panic!("{line}"));
            let facts: LotFacts = lot_facts(reading, false, None);
            let same = facts.title() == *ware.title
                && (facts.for_whom, facts.ages) == (ware.for_whom, ware.ages)
                && facts.theme.as_deref() == ware.theme.as_deref()
                && facts.category == ware.category
                && facts.tote.as_deref().is_none_or(|tote| ware.tote.starts_with(tote));
            // How many are in a set of crayons is no matter of the thing's own words.
            let asks = reading.questions.iter().any(|question| question.about != About::Units);
            if !same || asks {
                strayed.push(format!("{line} -> {facts:?} {:?}", reading.questions));
            }
        }
        assert!(strayed.is_empty(), "{}: {strayed:#?}", strayed.len());
    }
}
