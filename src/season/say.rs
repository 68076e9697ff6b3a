//! What an act did, in a sentence: said when it is done, and again in the history.

use crate::model::event::Subject;
use crate::model::fact::{BoxDay, BoxMended, BoxStep, Fact, KitMade, PlacementField, PlacementMended, Placing};
use crate::model::id::{BoxId, LotId};
use crate::model::lot::{LotField, Source};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::text::{counted, things_of};
use crate::store::{Store, StoreError};

/// Units of things put somewhere: gathered, so that one sentence tells many facts.
struct Phrase {
    /// The words before and after the things: "Put" and "into".
    verb: (&'static str, &'static str),
    things: Vec<(String, Units)>,
    boxes: Vec<String>,
}

/// The facts of one act in plain words.
pub fn sentence(store: &impl Store, facts: &[Fact]) -> Result<String, StoreError> {
    let teller = Teller { store, facts };
    let mut sentences = Vec::new();
    let mut phrases: Vec<(BoxId, Phrase)> = Vec::new();
    for fact in facts {
        if let Some((verb, b)) = placing(fact) {
            teller.gather(&mut phrases, verb, &b)?;
        } else if let Some(words) = teller.other(fact)? {
            sentences.push(words);
        }
    }
    sentences.extend(told(phrases));
    if sentences.is_empty() {
        sentences.extend(teller.remarks()?);
    }
    Ok(sentences.join(" "))
}

fn placing(fact: &Fact) -> Option<((&'static str, &'static str), Placing)> {
    match fact {
        Fact::SetAside(b) => Some((("Set aside", "for"), b.clone())),
        Fact::LetGo(b) => Some((("Let go", "that was set aside for"), b.clone())),
        Fact::PutIn(b) => Some((("Put", "into"), b.clone())),
        Fact::TakenBack(b) => Some((("Took", "back out of"), b.clone())),
        _ => None,
    }
}

/// One sentence for each different deed; boxes that got the same share one.
fn told(phrases: Vec<(BoxId, Phrase)>) -> Vec<String> {
    let mut merged: Vec<Phrase> = Vec::new();
    for (_, phrase) in phrases {
        match merged.iter_mut().find(|known| known.verb == phrase.verb && known.things == phrase.things) {
            Some(known) => known.boxes.extend(phrase.boxes),
            None => merged.push(phrase),
        }
    }
    let say = |phrase: &Phrase| {
        let things: Vec<String> = phrase.things.iter().map(|(title, units)| things_of(*units, title)).collect();
        let boxes = match phrase.boxes.as_slice() {
            [one] => format!("box {one}"),
            many => format!("each of boxes {}", many.join(", ")),
        };
        format!("{} {} {} {boxes}.", phrase.verb.0, things.join(", "), phrase.verb.1)
    };
    merged.iter().map(say).collect()
}

struct Teller<'a, S> {
    store: &'a S,
    facts: &'a [Fact],
}

impl<S: Store> Teller<'_, S> {
    fn gather(
        &self,
        phrases: &mut Vec<(BoxId, Phrase)>,
        verb: (&'static str, &'static str),
        b: &Placing,
    ) -> Result<(), StoreError> {
        let title = self.lot(b.lot)?;
        let known = phrases.iter_mut().find(|(giftbox, phrase)| *giftbox == b.giftbox && phrase.verb == verb);
        let Some((_, phrase)) = known else {
            let boxes = vec![self.giftbox(b.giftbox)?];
            phrases.push((b.giftbox, Phrase { verb, things: vec![(title, b.units)], boxes }));
            return Ok(());
        };
        match phrase.things.iter_mut().find(|(known, _)| *known == title) {
            Some((_, units)) => *units += b.units,
            None => phrase.things.push((title, b.units)),
        }
        Ok(())
    }

    fn other(&self, fact: &Fact) -> Result<Option<String>, StoreError> {
        Ok(Some(match fact {
            Fact::ProfileSet(b) => format!("Set the drive's rules: {}.", b.profile.name),
            Fact::HaulLogged(b) => return self.haul(b),
            Fact::HaulMended(_) => "Corrected the haul.".to_owned(),
            Fact::LotMended(b) => format!("Corrected {}: {}.", self.lot(b.lot)?, changed(&b.set)),
            Fact::Moved(b) => {
                let (from, to) = (self.giftbox(b.giftbox)?, self.giftbox(b.to_box)?);
                format!("Moved {} from box {from} to box {to}.", self.things(b.lot, b.units)?)
            }
            Fact::GivenLoose(b) => format!("Gave {} loose{}.", self.things(b.lot, b.units)?, said(" to", &b.words)),
            Fact::Lost(b) => format!("Took off {}{}.", self.things(b.lot, b.units)?, said(":", &b.words)),
            Fact::Found(b) => format!("Found {}.", self.things(b.lot, b.units)?),
            Fact::Counted(b) => return self.counted(b.lot),
            Fact::Returned(b) => {
                let currency = self.store.profile()?.unwrap_or_default().currency;
                format!("Returned {}, {} given back.", self.things(b.lot, b.units)?, b.refund.plain(currency))
            }
            // What a haul taught goes without saying; alone it is said.
            Fact::KindLearned(b) if self.only_learns() => {
                format!("{} counts for {} from now on.", named(&b.name), b.category.words())
            }
            Fact::KindMeasured(b) => format!("{} is {} from now on.", named(&b.name), b.dims),
            Fact::Split(b) => {
                let (from, into) = (self.things(b.lot, b.units)?, self.things(b.into, b.facts.units)?);
                let of = b.facts.pieces.map(|pieces| format!(" of {pieces}")).unwrap_or_default();
                format!("Made {into}{of} out of {from}.")
            }
            Fact::KitMade(b) => self.kit(b)?,
            Fact::Parted(b) => {
                let outs = b.into.iter().map(|out| self.things(out.lot, out.facts.units));
                let outs = outs.collect::<Result<Vec<_>, StoreError>>()?;
                format!("Parted {} into {}.", self.things(b.lot, b.units)?, outs.join(" and "))
            }
            Fact::BoxPlanned(b) => return self.planned(b.giftbox),
            Fact::BoxMended(BoxMended { giftbox, .. })
            | Fact::BoxClosed(BoxStep { giftbox })
            | Fact::BoxReopened(BoxStep { giftbox })
            | Fact::BoxDropped(BoxStep { giftbox })
            | Fact::LidCloses(BoxStep { giftbox })
            | Fact::BoxHandedIn(BoxDay { giftbox, .. })
            | Fact::BoxCameBack(BoxDay { giftbox, .. }) => stepped(fact, &self.giftbox(*giftbox)?),
            Fact::Voided(_) => "Took an act back.".to_owned(),
            Fact::Restored(_) => "Brought an act again.".to_owned(),
            // Told by their haul, or gathered into one sentence, or only said when there is nothing else.
            Fact::LotAdded(_)
            | Fact::KindLearned(_)
            | Fact::AnswerKept(_)
            | Fact::PlacementMended(_)
            | Fact::SetAside(_)
            | Fact::LetGo(_)
            | Fact::PutIn(_)
            | Fact::TakenBack(_) => return Ok(None),
        }))
    }

    fn kit(&self, b: &KitMade) -> Result<String, StoreError> {
        let made = self.things(b.into, b.facts.units)?;
        if b.facts.source == Source::Joined {
            return Ok(format!("Made {made} one batch."));
        }
        let parts = b.parts.iter().map(|part| self.things(part.lot, part.units));
        let parts = parts.collect::<Result<Vec<_>, StoreError>>()?;
        Ok(format!("Made {made} out of {}.", parts.join(", ")))
    }

    fn only_learns(&self) -> bool {
        self.facts.iter().all(|fact| matches!(fact, Fact::KindLearned(_) | Fact::LotMended(_)))
    }

    /// A haul in which things only went back is told by those.
    fn haul(&self, b: &crate::model::fact::HaulLogged) -> Result<Option<String>, StoreError> {
        let profile = self.store.profile()?.unwrap_or_default();
        let lots: Vec<_> = (self.facts.iter())
            .filter_map(|fact| match fact {
                Fact::LotAdded(lot) if lot.haul == Some(b.haul) => Some(&lot.facts),
                _ => None,
            })
            .collect();
        let went_back = self.facts.iter().any(|fact| matches!(fact, Fact::Returned(back) if back.haul == b.haul));
        if lots.is_empty() && went_back {
            return Ok(None);
        }
        let lines: Money = lots.iter().filter_map(|lot| lot.paid).sum();
        let total = (lines + b.facts.on_top(lines)).plain(profile.currency);
        let shop = said(",", &b.facts.shop);
        let count = counted(lots.len() as u64, "line", "lines");
        let priced = lots.iter().any(|lot| lot.paid.is_some());
        let paid = if priced { format!("{total} paid, ") } else { String::new() };
        Ok(Some(format!("Logged {count}, {paid}{}{shop}.", b.facts.date)))
    }

    /// What was counted together is told by the first of it; batches of one name are one thing.
    fn counted(&self, lot: LotId) -> Result<Option<String>, StoreError> {
        let mut things: Vec<(String, Units)> = Vec::new();
        let mut first = None;
        for fact in self.facts {
            let Fact::Counted(b) = fact else { continue };
            first = first.or(Some(b.lot));
            let title = self.lot(b.lot)?;
            match things.iter_mut().find(|(known, _)| *known == title) {
                Some((_, units)) => *units += b.found,
                None => things.push((title, b.found)),
            }
        }
        let things: Vec<String> = things.iter().map(|(title, units)| things_of(*units, title)).collect();
        Ok((first == Some(lot)).then(|| format!("Counted {}.", things.join(", "))))
    }

    /// Boxes planned together are told by the first of them.
    fn planned(&self, giftbox: BoxId) -> Result<Option<String>, StoreError> {
        let mut planned = self.facts.iter().filter_map(|fact| match fact {
            Fact::BoxPlanned(b) => Some(b),
            _ => None,
        });
        let Some(first) = planned.next().filter(|first| first.giftbox == giftbox) else { return Ok(None) };
        let mut labels = vec![self.giftbox(first.giftbox)?];
        labels.extend(planned.map(|b| self.giftbox(b.giftbox)).collect::<Result<Vec<_>, _>>()?);
        let boxes = if labels.len() == 1 { "box" } else { "boxes" };
        let facts = &first.facts;
        let colours = said(",", &facts.palette.join(" and "));
        let theme = said(",", &facts.theme);
        Ok(Some(format!("Planned {boxes} {}: {} {}{theme}{colours}.", labels.join(", "), facts.whom(), facts.ages)))
    }

    /// An act that only says something of things in a box.
    fn remarks(&self) -> Result<Vec<String>, StoreError> {
        let mut told = Vec::new();
        for fact in self.facts {
            let words = match fact {
                Fact::PlacementMended(b) if matches!(b.set.as_slice(), [PlacementField::Allowed(_)]) => {
                    self.allowed(b)?
                }
                Fact::PlacementMended(b) => {
                    format!("Noted of {} in box {}.", self.lot(b.lot)?, self.giftbox(b.giftbox)?)
                }
                Fact::LotAdded(b) => format!("Added {}.", things_of(b.facts.units, &b.facts.title())),
                _ => continue,
            };
            if !told.contains(&words) {
                told.push(words);
            }
        }
        Ok(told)
    }

    fn allowed(&self, b: &PlacementMended) -> Result<String, StoreError> {
        let (title, label) = (self.lot(b.lot)?, self.giftbox(b.giftbox)?);
        Ok(match b.set.as_slice() {
            [PlacementField::Allowed(why)] if !why.is_empty() => format!("Allowed {title} in box {label}: {why}."),
            _ => format!("No longer allowed {title} in box {label}."),
        })
    }

    fn things(&self, lot: LotId, units: Units) -> Result<String, StoreError> {
        Ok(things_of(units, &self.lot(lot)?))
    }

    /// What a batch is called; one that was undone is called what it was when it came.
    fn lot(&self, lot: LotId) -> Result<String, StoreError> {
        if let Some(row) = self.store.lot(lot)? {
            return Ok(row.facts.title());
        }
        let events = self.store.events_about(Subject::Lot(lot))?;
        let came = events.iter().find_map(|told| match &told.event.fact {
            Fact::LotAdded(b) if b.lot == lot => Some(b.facts.title()),
            Fact::Split(b) if b.into == lot => Some(b.facts.title()),
            Fact::KitMade(b) if b.into == lot => Some(b.facts.title()),
            Fact::Parted(b) => b.into.iter().find(|out| out.lot == lot).map(|out| out.facts.title()),
            _ => None,
        });
        Ok(came.unwrap_or_else(|| "of something".to_owned()))
    }

    fn giftbox(&self, giftbox: BoxId) -> Result<String, StoreError> {
        if let Some(row) = self.store.giftbox(giftbox)? {
            return Ok(row.label());
        }
        let events = self.store.events_about(Subject::Box(giftbox))?;
        let number = events.iter().find_map(|told| match &told.event.fact {
            Fact::BoxPlanned(b) => Some(b.facts.number.to_string()),
            _ => None,
        });
        Ok(number.unwrap_or_else(|| "?".to_owned()))
    }
}

/// A name at the beginning of a sentence.
fn named(name: &str) -> String {
    super::error::capital(name).trim_end_matches('.').to_owned()
}

/// What became of a box, told of its label.
fn stepped(fact: &Fact, label: &str) -> String {
    match fact {
        Fact::BoxClosed(_) => format!("Closed box {label}."),
        Fact::BoxReopened(_) => format!("Opened box {label} again."),
        Fact::BoxHandedIn(b) => format!("Handed in box {label} on {}.", b.date),
        Fact::BoxCameBack(b) => format!("Box {label} came back on {}.", b.date),
        Fact::BoxDropped(_) => format!("Took box {label} off the plan."),
        Fact::LidCloses(_) => format!("Noted that the lid of box {label} closes."),
        _ => format!("Changed box {label}."),
    }
}

/// Words that may be missing, with what joins them.
fn said(joint: &str, words: &str) -> String {
    if words.is_empty() { String::new() } else { format!("{joint} {words}") }
}

/// The fields that a correction names.
fn changed(set: &[LotField]) -> String {
    let name = |field: &LotField| match field {
        LotField::Name(_) => "name",
        LotField::Source(_) => "how it came",
        LotField::Units(_) => "how many",
        LotField::Pieces(_) => "pieces in one",
        LotField::Packs(_) => "packs",
        LotField::Paid(_) => "price",
        LotField::About(_) => "how sure the price is",
        LotField::Level(_) => "how much there is",
        LotField::Lacks(_) => "what it lacks",
        LotField::Giver(_) => "who gave it",
        LotField::Rough(_) => "how sure the number is",
        LotField::Regular(_) => "regular price",
        LotField::Kind(_) => "what it is",
        LotField::Category(_) => "category",
        LotField::For(_) => "who for",
        LotField::Ages(_) => "ages",
        LotField::Size(_) => "size",
        LotField::Colours(_) => "colours",
        LotField::Theme(_) => "theme",
        LotField::Tote(_) => "where it lies",
        LotField::Expires(_) => "expiry",
        LotField::Dims(_) => "measures",
        LotField::Weight(_) => "weight",
        LotField::Flags(_) => "what to be careful of",
        LotField::Notes(_) => "notes",
    };
    set.iter().map(name).collect::<Vec<_>>().join(", ")
}
