//! Taking parts out of sets, taking kits apart, and making several batches of one thing one.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::{ActError, Done, Season, Which};
use crate::model::commit::Refusal;
use crate::model::event::Subject;
use crate::model::fact::{Fact, KitMade, Part, PartOut, Parted};
use crate::model::id::LotId;
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::Units;
use crate::model::rows::LotRow;
use crate::model::text::{clean, normal};
use crate::store::Store;

/// What is taken out of each set.
#[derive(Debug, Clone)]
pub struct PartHow {
    /// How many of the part are in one set.
    pub each: Units,
    /// What the part is called.
    pub name: String,
    /// Hundredths of the set's cost that go with the part.
    pub percent: Decimal,
    /// Out of how many sets; none: all that are free of the batch used up first.
    pub sets: Option<Units>,
}

impl<S: Store> Season<S> {
    /// Takes a part out of sets, as a batch of its own with its share of the cost; the sets say from
    /// then on what they lack.
    pub fn part_out<'a>(&mut self, which: impl Into<Which<'a>>, how: &PartHow) -> Result<Done, ActError> {
        let lot = self.first_free(which.into())?;
        let units = how.sets.unwrap_or(lot.free());
        let name = normal(&clean(&how.name));
        let share = how.percent.to_u32().filter(|share| *share <= 100 && how.percent.is_integer());
        let share = share.ok_or_else(|| {
            ActError::NotUnderstood(format!("{} is no share; say whole hundredths from 0 to 100", how.percent))
        })?;
        let count = how.each.count().checked_mul(units.count()).and_then(Units::new).filter(|count| !count.is_zero());
        let count = count.ok_or_else(|| ActError::NotUnderstood("how many of the part? At least one".to_owned()))?;
        if name.is_empty() {
            return Err(ActError::NotUnderstood("what is taken out? Say its name".to_owned()));
        }
        let kind = self.catalogue.kind_of(&name).map(|kind| (kind.name.clone(), kind.category.clone()));
        let (kind, category) = kind.map_or((None, None), |(name, category)| (Some(name), Some(category)));
        let part = LotFacts {
            name: name.clone(),
            source: Source::Part,
            units: count,
            kind,
            category: category.or(lot.facts.category.clone()),
            tote: lot.facts.tote.clone(),
            ..LotFacts::default()
        };
        let mut rest = LotFacts { source: Source::Part, units, paid: None, regular: None, ..lot.facts.clone() };
        rest.packs = None;
        rest.lacks.push(name);
        let into = vec![
            PartOut { lot: self.ids.lot(), facts: rest, share: 100 - share },
            PartOut { lot: self.ids.lot(), facts: part, share },
        ];
        self.act(&[Fact::Parted(Parted { lot: lot.lot, units, into })])
    }

    /// Takes kits apart again: their parts come back as batches of their own, each with the share of the
    /// cost that it brought.
    pub fn take_apart<'a>(&mut self, which: impl Into<Which<'a>>, units: Option<Units>) -> Result<Done, ActError> {
        let lot = self.first_free(which.into())?;
        let made = self.kit_made(&lot)?;
        let units = units.unwrap_or(lot.free());
        let kits = made.facts.units.count();
        let mut into = Vec::new();
        for part in &made.parts {
            let of = self.store.lot(part.lot)?;
            let facts = of.map(|row| row.facts).unwrap_or_default();
            let back = u64::from(part.units.count()) * u64::from(units.count());
            if !back.is_multiple_of(u64::from(kits)) {
                let name = facts.title();
                let why =
                    format!("{} {name} went into {kits} kits: {units} of those hold no whole number.", part.units);
                return Err(ActError::Nothing(why));
            }
            let back = u32::try_from(back / u64::from(kits)).ok().and_then(Units::new).unwrap_or(Units::ZERO);
            let (source, pieces) = (Source::Part, facts.pieces);
            let facts = LotFacts { source, pieces, units: back, packs: None, paid: None, regular: None, ..facts };
            let share = self.brought(&made, part.lot)?;
            into.push(PartOut { lot: self.ids.lot(), facts, share });
        }
        // What cost nothing is shared by the number of things.
        if into.iter().all(|out| out.share == 0) {
            for out in &mut into {
                out.share = out.facts.units.count();
            }
        }
        self.act(&[Fact::Parted(Parted { lot: lot.lot, units, into })])
    }

    /// Makes all free units of a thing's batches one batch; what is in boxes stays with the batch it is of.
    pub fn combine<'a>(&mut self, which: impl Into<Which<'a>>, assorted: bool) -> Result<Done, ActError> {
        let thing = self.on_hand(which.into())?;
        let lots: Vec<&LotRow> = thing.lots.iter().filter(|lot| !lot.free().is_zero()).collect();
        let [first, others @ ..] = lots.as_slice() else {
            return Err(ActError::Nothing(format!("None of the {} is free.", thing.title)));
        };
        if others.is_empty() {
            return Err(ActError::Nothing(format!("{} is one batch already.", thing.title)));
        }
        let mut facts =
            LotFacts { source: Source::Joined, packs: None, paid: None, regular: None, ..first.facts.clone() };
        for lot in others {
            alike(&first.facts, &lot.facts)?;
            let more = lot.facts.colours.iter().filter(|colour| !first.facts.colours.contains(colour));
            facts.colours.extend(more.cloned());
            facts.units += lot.free();
        }
        facts.units = lots.iter().map(|lot| lot.free()).sum();
        if assorted && !facts.flags.iter().any(|flag| flag == "assorted") {
            facts.flags.push("assorted".to_owned());
            facts.flags.sort();
        }
        let parts = lots.iter().map(|lot| Part { lot: lot.lot, units: lot.free() }).collect();
        let into = self.ids.lot();
        self.act(&[Fact::KitMade(KitMade { parts, into, facts })])
    }

    /// The batch of a thing that is used up first and has something free.
    fn first_free(&self, which: Which<'_>) -> Result<LotRow, ActError> {
        let thing = self.on_hand(which)?;
        let free = thing.lots.iter().find(|lot| !lot.free().is_zero()).cloned();
        free.ok_or_else(|| {
            let (name, aside, wanted) = (thing.title.clone(), thing.aside(), Units::ONE);
            Refusal::NotEnough { name, free: Units::ZERO, wanted, aside }.into()
        })
    }

    /// How a kit was made.
    fn kit_made(&self, lot: &LotRow) -> Result<KitMade, ActError> {
        let events = self.store.events_about(Subject::Lot(lot.lot))?;
        let made = events.iter().find_map(|told| match &told.event.fact {
            Fact::KitMade(made) if made.into == lot.lot && lot.facts.source == Source::Kit => Some(made.clone()),
            _ => None,
        });
        made.ok_or_else(|| ActError::Nothing(format!("{} is no kit: it was not put together here.", lot.facts.title())))
    }

    /// What a part brought into its kits, in minor units.
    fn brought(&self, made: &KitMade, part: LotId) -> Result<u32, ActError> {
        let events = self.store.events_about(Subject::Lot(made.into))?;
        let by = events.iter().find(|told| matches!(&told.event.fact, Fact::KitMade(kit) if kit.into == made.into));
        let Some(by) = by else { return Ok(0) };
        let outs = self.store.outs_of(by.event.uid)?;
        let cost = outs.iter().find(|out| out.lot == part).map_or(0, |out| out.cost.minor());
        Ok(u32::try_from(cost).unwrap_or(u32::MAX))
    }
}

/// Refuses to make one batch of things that differ in what matters to a child.
fn alike(one: &LotFacts, other: &LotFacts) -> Result<(), ActError> {
    let differs = [
        ("what it is", one.kind != other.kind),
        ("category", one.category != other.category),
        ("size", one.size != other.size),
        ("who for", one.for_whom != other.for_whom),
        ("ages", one.ages != other.ages),
        ("pieces in one", one.pieces != other.pieces),
        ("what it lacks", one.lacks != other.lacks),
        ("expiry", one.expires != other.expires),
    ];
    let in_what: Vec<&str> = differs.into_iter().filter_map(|(what, differs)| differs.then_some(what)).collect();
    if in_what.is_empty() {
        return Ok(());
    }
    let (name, what) = (&one.name, in_what.join(", "));
    Err(ActError::Nothing(format!("The batches of {name} differ: {what}. They stay apart.")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::season::{Desk, KitHow, LogHow, Moment};
    use crate::store::Memory;

    fn season(text: &str) -> Season<Memory> {
        let mut ids = CountedIds::new(0x91);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: jiff::civil::date(2027, 1, 15) };
        let mut season = Season::new(store, Box::new(ids), desk, moment);
        season.log(text, &LogHow::default()).unwrap();
        season
    }

    /// What is on hand of each batch, and what it cost.
    fn stands(season: &Season<Memory>) -> Vec<String> {
        let lots = season.store().lots().unwrap();
        let there = lots.iter().filter(|lot| !lot.standing.on_hand.is_zero());
        there
            .map(|lot| format!("{} {} {}", lot.standing.on_hand, lot.facts.title(), lot.standing.on_hand_cost.minor()))
            .collect()
    }

    fn units(count: u32) -> Units {
        Units::new(count).unwrap()
    }

    #[test]
    fn a_part_of_a_set_is_a_batch_of_its_own_and_the_set_says_what_it_lacks() {
        let mut season = season("3 art sets 10.00, tote 2");
        let how = |percent| PartHow { each: units(2), name: "Sharpeners".into(), percent, sets: Some(units(2)) };
        let done = season.part_out("art set", &how(Decimal::new(15, 0))).unwrap();
        assert_eq!(done.said, "Parted 2 art sets into 2 art sets, without sharpeners and 4 sharpeners.");
        // Two of three sets at 10.00 take 6.67, of which 15 hundredths are 1.00.
        assert_eq!(stands(&season), ["1 art sets 333", "2 art sets, without sharpeners 567", "4 sharpeners 100"]);
        let parts = season.store().lots().unwrap().pop().unwrap().facts;
        assert_eq!((parts.kind.as_deref(), parts.tote.as_deref()), (Some("sharpener"), Some("tote 2")));
        for wrong in ["12.5", "101", "-1"] {
            assert!(season.part_out("art sets", &how(wrong.parse().unwrap())).is_err(), "{wrong}");
        }
        season.undo().unwrap();
        assert_eq!(stands(&season), ["3 art sets 1000"]);
    }

    #[test]
    fn a_kit_taken_apart_gives_back_what_it_was_made_of_to_the_cent() {
        let mut season = season("2 pencil cases 1.00\n7 pencils .70\n2 erasers free");
        let part = |count, name: &str| (units(count), name.to_owned());
        let parts = vec![part(1, "pencil case"), part(3, "pencil"), part(1, "eraser")];
        let how = KitHow { name: "filled case".into(), count: units(2), parts, category: None, tote: None };
        season.kit(&how).unwrap();
        let done = season.take_apart("filled case", Some(units(1))).unwrap();
        assert_eq!(done.said, "Parted 1 filled case into 1 pencil case and 3 pencils and 1 eraser.");
        assert_eq!(
            stands(&season),
            ["1 pencils 10", "1 filled case 80", "1 pencil cases 50", "3 pencils 30", "1 erasers 0"]
        );
        let no_kit = season.take_apart("pencil cases", None).unwrap_err();
        assert_eq!(no_kit.to_string(), "pencil cases is no kit: it was not put together here.");
    }

    #[test]
    fn batches_of_one_thing_become_one_and_cost_what_they_cost() {
        let mut season = season("4 combs 1.00\n2 combs .33");
        let done = season.combine("combs", false).unwrap();
        assert_eq!(done.said, "Made 6 combs one batch.");
        assert_eq!(stands(&season), ["6 combs 133"]);
        assert_eq!(season.combine("combs", false).unwrap_err().to_string(), "combs is one batch already.");
        season.undo().unwrap();
        assert_eq!(stands(&season).len(), 2);
        season.log("3 combs .30 exp 2027-06", &LogHow::default()).unwrap();
        let differ = season.combine("combs", true).unwrap_err().to_string();
        assert_eq!(differ, "The batches of combs differ: expiry. They stay apart.");
    }
}
