//! A batch in the words that one would type for it, and mending it by changing those words.

use super::logging::{doubts, lot_facts};
use super::{ActError, Done, NotLogged, Repriced, Season};
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, LotMended};
use crate::model::id::LotId;
use crate::model::lot::{LotFacts, LotField, Source};
use crate::model::money::Money;
use crate::model::rows::LotRow;
use crate::reading::{Entry, Outcome, Reading, read_haul, words};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// A batch as one would type it: `12 combs, teal, 1.50, tote 4`.
    pub fn line_words(&self, lot: LotId) -> Result<String, ActError> {
        let row = self.batch(lot)?;
        let kind = self.catalogue.kind_of(&row.facts.name);
        let usual = kind.is_some_and(|kind| Some(&kind.category) == row.facts.category.as_ref());
        Ok(words(&row.facts, self.profile()?.currency, usual))
    }

    /// Corrects a batch by its line written anew; only what the words say otherwise is changed.
    pub fn mend_line(&mut self, lot: LotId, words: &str) -> Result<Done, NotLogged> {
        let facts = self.words_anew(lot, words)?;
        Ok(self.correct(&facts)?)
    }

    /// Which boxes those words would make dearer or cheaper; nothing is kept.
    pub fn mend_line_effect(&mut self, lot: LotId, words: &str) -> Result<Vec<Repriced>, NotLogged> {
        let facts = self.words_anew(lot, words)?;
        Ok(self.effects(&facts)?)
    }

    fn words_anew(&self, lot: LotId, words: &str) -> Result<Vec<Fact>, NotLogged> {
        let row = self.batch(lot)?;
        let before = self.line_words(lot)?;
        if words.trim() == before {
            return Err(so_already(&row).into());
        }
        let price_asked = row.facts.paid.is_some();
        let wanted = self.said_anew(words, &row, price_asked)?;
        // Words can't say all that is kept of a batch, so words are held against words.
        let known = self.said_anew(&before, &row, false).unwrap_or_else(|_| row.facts.clone());
        let mut mended = row.facts.clone();
        for field in known.changes_to(&wanted) {
            mended.set(field);
        }
        if mended.paid != row.facts.paid {
            mended.about = false;
            mended.source = source(&mended);
        }
        let set: Vec<LotField> = row.facts.changes_to(&mended);
        if set.is_empty() {
            return Err(so_already(&row).into());
        }
        Ok(vec![Fact::LotMended(LotMended { lot, set })])
    }

    fn batch(&self, lot: LotId) -> Result<LotRow, ActError> {
        let row = self.store.lot(lot)?.filter(|row| !row.withdrawn);
        row.ok_or(ActError::Refused(Refusal::Unknown("that batch")))
    }

    /// What the words make of a batch, read as a line of a haul is.
    fn said_anew(&self, words: &str, row: &LotRow, price_asked: bool) -> Result<LotFacts, NotLogged> {
        let profile = self.profile()?;
        let ctx = self.context(&profile, None, price_asked);
        let mut entries = read_haul(words, &ctx);
        let doubts = doubts(&entries, false);
        if !doubts.is_empty() {
            return Err(NotLogged::Doubts(doubts));
        }
        match (entries.pop(), entries.is_empty()) {
            (Some((_, Entry::Line(Outcome::Read(reading)))), true) => said(&reading, &row.facts),
            _ => Err(not_understood("one line for one batch; what holds for a whole haul stands with the haul")),
        }
    }
}

fn so_already(row: &LotRow) -> ActError {
    ActError::Nothing(format!("{} is so already.", row.facts.title()))
}

fn not_understood(why: &str) -> NotLogged {
    NotLogged::Act(ActError::NotUnderstood(why.to_owned()))
}

/// A reading as a batch that came as this one did.
fn said(reading: &Reading, facts: &LotFacts) -> Result<LotFacts, NotLogged> {
    if reading.shop.is_some() || reading.date.is_some() {
        return Err(not_understood("the shop and the day belong to the whole haul; they are corrected there"));
    }
    Ok(LotFacts { source: facts.source, about: facts.about, ..lot_facts(reading, false, None) })
}

/// What was bought is a gift once it cost nothing, and the other way round.
fn source(facts: &LotFacts) -> Source {
    match facts.source {
        Source::Bought | Source::Given if facts.paid == Some(Money::ZERO) => Source::Given,
        Source::Bought | Source::Given => Source::Bought,
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::store::Memory;

    fn sample() -> Season<Memory> {
        let season = SeasonId::new(CountedIds::new(0x51).fresh());
        crate::season::sample::fill(Memory::new(season)).unwrap()
    }

    #[test]
    fn the_words_of_a_batch_change_nothing() {
        let mut season = sample();
        let lots = season.store().lots().unwrap();
        assert!(lots.len() > 150, "{}", lots.len());
        for lot in lots {
            let words = season.line_words(lot.lot).unwrap();
            match season.mend_line(lot.lot, &words) {
                Err(NotLogged::Act(ActError::Nothing(said))) => assert!(said.ends_with("is so already."), "{said}"),
                other => panic!("{words}: {other:?}"),
            }
            // With other spaces it is not known by its look, only by being read.
            match season.mend_line(lot.lot, &words.replacen(' ', "  ", 1)) {
                Err(NotLogged::Act(ActError::Nothing(_))) => {}
                other => panic!("{words}: {other:?}"),
            }
        }
    }

    #[test]
    fn the_words_of_a_batch_say_all_that_is_kept_of_it() {
        let season = sample();
        for lot in season.store().lots().unwrap() {
            let words = season.line_words(lot.lot).unwrap();
            let read = season.said_anew(&words, &lot, false).unwrap_or_else(|error| panic!("{words}: {error:?}"));
            let lost = lot.facts.changes_to(&read);
            assert!(lost.is_empty(), "{words}: {lost:?}");
        }
    }

    fn logged(text: &str) -> (Season<Memory>, LotId) {
        let mut season = sample();
        season.log(text, &crate::season::LogHow::default()).unwrap();
        let lot = season.store().lots().unwrap().into_iter().max_by_key(|lot| lot.added).unwrap().lot;
        (season, lot)
    }

    #[test]
    fn only_what_the_words_say_otherwise_is_changed() {
        let (mut season, lot) = logged("10 tin whistles 2.50 tote 4 (shiny)");
        assert_eq!(season.line_words(lot).unwrap(), "10 tin whistles, 2.50, tote 4 (shiny)");
        let mut mend = |words: &str| season.mend_line(lot, words).map(|done| done.said);
        assert_eq!(mend("12 tin whistles, 2.50, tote 4 (shiny)").unwrap(), "Corrected tin whistles: how many.");
        let said = mend("12 tin whistles, .25 each, green, ages 6-8, tote 5").unwrap();
        assert_eq!(said, "Corrected tin whistles, green: price, ages, colours, where it lies, notes.");
        assert_eq!(season.line_words(lot).unwrap(), "12 tin whistles, green, ages 6 to 8, 3.00, tote 5");
    }

    #[test]
    fn a_gift_after_all_is_a_gift_and_an_open_price_can_be_said() {
        let (mut season, lot) = logged("opening count\n9 lanterns, as wow");
        assert_eq!(season.line_words(lot).unwrap(), "9 lanterns, as wow");
        season.mend_line(lot, "9 lanterns 4.50 as toy").unwrap();
        let facts = season.store().lots().unwrap().into_iter().find(|row| row.lot == lot).unwrap().facts;
        assert_eq!((facts.source, facts.paid), (Source::OpeningCount, Money::new(450)));
        let (mut season, lot) = logged("9 lanterns 4.50");
        season.mend_line(lot, "9 lanterns free").unwrap();
        let facts = season.store().lots().unwrap().into_iter().find(|row| row.lot == lot).unwrap().facts;
        assert_eq!((facts.source, facts.paid), (Source::Given, Some(Money::ZERO)));
    }

    #[test]
    fn doubts_and_what_belongs_to_the_haul_stop_it() {
        let (mut season, lot) = logged("5 soaps 2.50");
        for (words, why) in [
            ("5 soaps 2 for 3.00", "5 is no multiple of 2"),
            ("a few soaps 2.50", "how many is that"),
            ("5 soaps", "what did it cost"),
        ] {
            match season.mend_line(lot, words) {
                Err(NotLogged::Doubts(doubts)) => assert!(doubts[0].contains(why), "{doubts:?}"),
                other => panic!("{words}: {other:?}"),
            }
        }
        for words in ["5 soaps 2.50 at Green Gate", "tote 4", "5 soaps 2.50; 3 combs .30", ""] {
            let error = season.mend_line(lot, words).unwrap_err();
            assert!(matches!(error, NotLogged::Act(ActError::NotUnderstood(_))), "{words}: {error:?}");
        }
    }
}
