//! From what a person calls a thing or a box to what it is.

use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::{ActError, Season, Which};
use crate::find::{Closeness, Name, closest, find};
use crate::model::age::Ages;
use crate::model::id::{BoxId, HaulId, LotId};
use crate::model::measure::Units;
use crate::model::rows::{BoxRow, LotRow};
use crate::model::whom::ForWhom;
use crate::store::Store;

/// Batches that are the same to whoever packs: same name, colours, size, for the same children.
#[derive(Debug, Clone)]
pub struct Thing {
    /// What it is called.
    pub title: String,
    /// Its batches, in the order in which they are used up: sooner expiry first, then older.
    pub lots: Vec<LotRow>,
}

impl Thing {
    /// Units on hand.
    pub fn on_hand(&self) -> Units {
        self.lots.iter().map(|lot| lot.standing.on_hand).sum()
    }

    /// Units on hand that no box holds.
    pub fn free(&self) -> Units {
        self.lots.iter().map(LotRow::free).sum()
    }

    /// Units set aside.
    pub fn aside(&self) -> Units {
        self.lots.iter().map(|lot| lot.standing.aside).sum()
    }

    /// Where it lies, each place once.
    pub fn totes(&self) -> Vec<String> {
        let mut totes: Vec<String> = Vec::new();
        for lot in self.lots.iter().filter(|lot| !lot.standing.on_hand.is_zero()) {
            if let Some(tote) = lot.facts.tote.as_ref().filter(|tote| !totes.contains(tote)) {
                totes.push(tote.clone());
            }
        }
        totes
    }

    /// A line to tell it from others: `notebook, teal (6 on hand, tote 2)`.
    fn line(&self) -> String {
        let mut parts = vec![format!("{} on hand", self.on_hand())];
        parts.extend(self.totes());
        parts.extend(self.lots.first().and_then(|lot| lot.facts.for_whom).map(|whom| format!("for a {whom}")));
        format!("{} ({})", self.title, parts.join(", "))
    }
}

type Alike = (String, Option<ForWhom>, Option<(u8, Option<u8>)>);

fn alike(lot: &LotRow) -> Alike {
    let ages = lot.facts.ages.map(|ages: Ages| (ages.from(), ages.to()));
    (lot.facts.title(), lot.facts.for_whom, ages)
}

impl<S: Store> Season<S> {
    /// Things made of the batches that `wanted` picks, by name.
    pub(super) fn things(&self, wanted: impl Fn(&LotRow) -> bool) -> Result<Vec<Thing>, ActError> {
        self.grouped(self.store.lots()?.into_iter().filter(|lot| wanted(lot)).collect())
    }

    /// Things made of these batches, read by id.
    pub(super) fn things_among(&self, lots: &BTreeSet<LotId>) -> Result<Vec<Thing>, ActError> {
        let mut rows = Vec::new();
        for lot in lots {
            rows.extend(self.store.lot(*lot)?);
        }
        self.grouped(rows)
    }

    /// All batches on hand that are of the same thing as this one.
    pub(super) fn same_as(&self, lot: &LotRow) -> Result<Option<Thing>, ActError> {
        let mut rows = self.store.lots_titled(&lot.facts.title())?;
        rows.retain(|row| !row.withdrawn && !row.standing.on_hand.is_zero());
        Ok(self.grouped(rows)?.into_iter().find(|thing| thing.lots.iter().any(|row| row.lot == lot.lot)))
    }

    /// Things made of these batches, by name.
    pub(super) fn grouped(&self, mut rows: Vec<LotRow>) -> Result<Vec<Thing>, ActError> {
        rows.sort_by_key(|row| row.added);
        let bought = self.days_of(&rows)?;
        let mut groups: BTreeMap<Alike, Vec<LotRow>> = BTreeMap::new();
        for lot in rows {
            groups.entry(alike(&lot)).or_default().push(lot);
        }
        let things = groups.into_iter().map(|((title, ..), mut lots)| {
            lots.sort_by_cached_key(|lot| used_up(lot, &bought));
            Thing { title, lots }
        });
        Ok(things.collect())
    }

    /// The days of the hauls that these batches came in.
    fn days_of(&self, rows: &[LotRow]) -> Result<BTreeMap<HaulId, Date>, ActError> {
        let mut days = BTreeMap::new();
        for haul in rows.iter().filter_map(|row| row.haul) {
            if let Entry::Vacant(day) = days.entry(haul) {
                self.store.haul(haul)?.map(|row| day.insert(row.facts.date));
            }
        }
        Ok(days)
    }

    /// The one thing among these that the words mean.
    pub(super) fn one_of(&self, words: &str, things: &[Thing], place: &str) -> Result<Thing, ActError> {
        if let Some(thing) = by_handle(words, things) {
            return Ok(thing);
        }
        let names: Vec<Name> = things.iter().map(name).collect();
        let hits = find(words, &names);
        let best = closest(&hits);
        let plain = plain_name(words, things, best.iter().map(|hit| hit.index));
        match (plain, best) {
            (Some(thing), _) => Ok(thing.clone()),
            (None, [hit]) => Ok(things[hit.index].clone()),
            (None, []) => Err(self.unknown(words, place)?),
            (None, several) => {
                let could_be = several.iter().take(12).map(|hit| things[hit.index].line()).collect();
                Err(ActError::Unclear { words: words.to_owned(), could_be, by_handle: false })
            }
        }
    }

    /// The thing on hand that is meant.
    pub(super) fn on_hand(&self, which: Which<'_>) -> Result<Thing, ActError> {
        let words = match which {
            Which::Words(words) => words,
            Which::Lots(lots) => return self.thing_of(lots),
        };
        let things = self.things(|lot| !lot.withdrawn && !lot.standing.on_hand.is_zero())?;
        self.one_of(words, &things, "on hand")
    }

    /// The thing that is meant, on hand or not.
    pub(super) fn known(&self, which: Which<'_>) -> Result<Thing, ActError> {
        match which {
            Which::Words(words) => self.one_of(words, &self.things(|lot| !lot.withdrawn)?, "here"),
            Which::Lots(lots) => self.thing_of(lots),
        }
    }

    /// The one batch that the words or its five letters mean; the newest of several named by id.
    pub(super) fn lot_called(&self, which: Which<'_>) -> Result<LotRow, ActError> {
        let words = match which {
            Which::Words(words) => words,
            Which::Lots(lots) => {
                let newest = self.thing_of(lots)?.lots.into_iter().max_by_key(|lot| lot.added);
                return newest.ok_or_else(|| ActError::Nothing("None of that is left.".to_owned()));
            }
        };
        let things = self.things(|lot| !lot.withdrawn)?;
        let mut thing = self.one_of(words, &things, "here")?;
        match (thing.lots.pop(), thing.lots.len()) {
            (Some(lot), 0) => Ok(lot),
            (last, _) => {
                thing.lots.extend(last);
                let could_be = thing.lots.iter().map(batch_line).collect();
                Err(ActError::Unclear { words: words.to_owned(), could_be, by_handle: true })
            }
        }
    }

    /// The box of this label.
    pub(super) fn box_called(&self, label: &str) -> Result<BoxRow, ActError> {
        let wanted = label.trim().trim_start_matches("box ").to_lowercase();
        let boxes = self.store.boxes()?;
        boxes.into_iter().find(|row| row.label() == wanted).ok_or_else(|| ActError::NoSuchBox(label.to_owned()))
    }

    /// The id of the box of this label.
    pub fn box_id(&self, label: &str) -> Result<BoxId, ActError> {
        Ok(self.box_called(label)?.giftbox)
    }

    /// Whether there is a box of this label.
    pub fn has_box(&self, label: &str) -> Result<bool, ActError> {
        match self.box_called(label) {
            Ok(_) => Ok(true),
            Err(ActError::NoSuchBox(_)) => Ok(false),
            Err(error) => Err(error),
        }
    }

    /// The boxes of a list such as `1-6,9,12b`; a label named twice counts once.
    pub(super) fn boxes_called(&self, list: &str) -> Result<Vec<BoxRow>, ActError> {
        let all = self.store.boxes()?;
        let mut chosen: Vec<BoxRow> = Vec::new();
        for part in list.split(',').map(str::trim).filter(|part| !part.is_empty()) {
            let before = chosen.len();
            match part.split_once('-').and_then(|(a, b)| Some((a.trim().parse().ok()?, b.trim().parse().ok()?))) {
                Some((from, to)) => {
                    let range = from..=to;
                    chosen.extend(all.iter().filter(|row| range.contains(&row.facts.number)).cloned());
                }
                None => chosen.push(self.box_called(part)?),
            }
            if chosen.len() == before {
                return Err(ActError::NoSuchBox(part.to_owned()));
            }
        }
        chosen.sort_by_key(|row| (row.facts.number, row.twin));
        chosen.dedup_by_key(|row| row.giftbox);
        if chosen.is_empty() {
            Err(ActError::NotUnderstood("which boxes? Write their numbers: 1-6,9".to_owned()))
        } else {
            Ok(chosen)
        }
    }

    fn unknown(&self, words: &str, place: &str) -> Result<ActError, ActError> {
        let all = self.things(|lot| !lot.withdrawn)?;
        let names: Vec<Name> = all.iter().map(name).collect();
        let near = find(words, &names).iter().take(3).map(|hit| format!("\"{}\"", all[hit.index].line())).collect();
        Ok(ActError::Unknown { place: place.to_owned(), words: words.to_owned(), near })
    }
}

/// A thing as it is searched for: its title, and all else that is said of its batches.
pub fn name(thing: &Thing) -> Name {
    let more = thing.lots.iter().map(|lot| lot.facts.haystack()).collect::<Vec<_>>().join(" ");
    Name::new(&thing.title, &more)
}

/// The positions of the names that answer to words, best first: for short lists of boxes, totes and the like.
pub fn find_names(words: &str, names: &[String], limit: usize) -> Vec<usize> {
    let names: Vec<Name> = names.iter().map(|name| Name::new(name, "")).collect();
    find(words, &names).iter().take(limit).map(|hit| hit.index).collect()
}

/// "notebook" means the plain notebook where there is one, although notebooks of a colour fit as well.
fn plain_name<'t>(words: &str, things: &'t [Thing], hits: impl Iterator<Item = usize>) -> Option<&'t Thing> {
    let named = |thing: &&Thing| {
        let name = thing.lots.first().map(|lot| lot.facts.name.clone()).unwrap_or_default();
        find(words, &[Name::new(&name, "")]).first().is_some_and(|hit| hit.closeness == Closeness::Same)
    };
    let mut plain = hits.map(|index| &things[index]).filter(named);
    plain.next().filter(|_| plain.next().is_none())
}

fn by_handle(words: &str, things: &[Thing]) -> Option<Thing> {
    let lot = things.iter().flat_map(|thing| &thing.lots).find(|lot| lot.lot.short() == words)?;
    Some(Thing { title: lot.facts.title(), lots: vec![lot.clone()] })
}

/// One batch in a line, its five letters first.
fn batch_line(lot: &LotRow) -> String {
    let tote = lot.facts.tote.as_deref().map(|tote| format!(", {tote}")).unwrap_or_default();
    format!("{}  {}, {} of {} on hand{tote}", lot.lot.short(), lot.facts.title(), lot.standing.on_hand, lot.facts.units)
}

/// Which batch goes first: sooner expiry, then older by day, then by arrival.
pub fn used_up(lot: &LotRow, bought: &BTreeMap<HaulId, Date>) -> (String, String, u64, LotId) {
    // A month sorts behind its days; what never expires goes last.
    let expires = match lot.facts.expires.as_deref() {
        None => "~".to_owned(),
        Some(day) if day.len() < 10 => format!("{day}-99"),
        Some(day) => day.to_owned(),
    };
    let arrived = lot.added.clock.millis();
    let day = lot.haul.and_then(|haul| bought.get(&haul)).map(ToString::to_string);
    let day = day.unwrap_or_else(|| day_of(arrived));
    (expires, day, lot.added.clock.kept(), lot.lot)
}

/// The day, in UTC, of a clock.
pub fn day_of(millis: u64) -> String {
    let millis = i64::try_from(millis).unwrap_or(i64::MAX);
    let moment = jiff::Timestamp::from_millisecond(millis).unwrap_or(jiff::Timestamp::UNIX_EPOCH);
    moment.strftime("%Y-%m-%d").to_string()
}
