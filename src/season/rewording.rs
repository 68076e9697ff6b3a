//! A batch in the words that one would type for it, and mending it by changing those words.

use super::logging::{doubts, lot_facts};
use super::{ActError, Done, NotLogged, Season};
use crate::model::age::Ages;
use crate::model::commit::Refusal;
use crate::model::currency::Currency;
use crate::model::fact::{Fact, LotMended};
use crate::model::id::LotId;
use crate::model::lot::{LotFacts, LotField, Source};
use crate::model::measure::{Decigrams, Dims};
use crate::model::money::Money;
use crate::model::rows::LotRow;
use crate::reading::{Context, Entry, Outcome, Reading, read_haul};
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
        known.changes_to(&wanted).into_iter().for_each(|field| mended.set(field));
        if mended.paid != row.facts.paid {
            mended.about = false;
            mended.source = source(&mended);
        }
        let set: Vec<LotField> = row.facts.changes_to(&mended);
        if set.is_empty() {
            return Err(so_already(&row).into());
        }
        Ok(self.act(&[Fact::LotMended(LotMended { lot, set })])?)
    }

    fn batch(&self, lot: LotId) -> Result<LotRow, ActError> {
        let row = self.store.lot(lot)?.filter(|row| !row.withdrawn);
        row.ok_or(ActError::Refused(Refusal::Unknown("that batch")))
    }

    /// What the words make of a batch, read as a line of a haul is.
    fn said_anew(&self, words: &str, row: &LotRow, price_asked: bool) -> Result<LotFacts, NotLogged> {
        let profile = self.profile()?;
        let ctx = Context { profile: &profile, catalogue: &self.catalogue, today: self.moment.today, price_asked };
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

/// All that is said of a batch; `usual`: its category goes without saying.
fn words(facts: &LotFacts, currency: Currency, usual: bool) -> String {
    let mut parts = vec![what(facts)];
    parts.push(facts.colours.join(" and "));
    parts.extend(facts.size.as_ref().map(|size| format!("size {size}")));
    parts.extend(facts.for_whom.map(|whom| format!("for a {whom}")));
    parts.extend(facts.ages.map(ages));
    parts.extend(facts.theme.as_ref().map(|theme| format!("theme {theme}")));
    parts.push(price(facts, currency));
    parts.extend(facts.tote.clone());
    parts.extend(facts.category.as_ref().filter(|_| !usual).map(|category| format!("as {}", category.word())));
    parts.extend(facts.expires.as_ref().map(|when| format!("expires {when}")));
    parts.extend(facts.dims.as_ref().map(measures));
    parts.extend(facts.weight.map(weight));
    parts.extend(facts.flags.iter().map(|flag| flag.replace('-', " ")));
    parts.retain(|part| !part.is_empty());
    let notes = facts.notes.iter().map(|note| format!(" ({note})"));
    parts.join(", ") + &notes.collect::<String>()
}

/// How many of what, with the packs that they came in.
fn what(facts: &LotFacts) -> String {
    let (units, name) = (facts.units.count(), &facts.name);
    let packs = facts.packs.unwrap_or(1);
    match (facts.pieces, facts.packs) {
        (Some(pieces), Some(packs)) if packs == units => format!("{packs} packs of {pieces} {name}"),
        (Some(pieces), _) => {
            let all = units.saturating_mul(pieces);
            match facts.packs.filter(|packs| *packs > 0 && all.is_multiple_of(*packs)) {
                Some(packs) => format!("{packs} packs of {} {name} in bundles of {pieces}", all / packs),
                None => format!("{all} {name} in bundles of {pieces}"),
            }
        }
        (None, Some(_)) if packs > 0 && units.is_multiple_of(packs) => {
            format!("{packs} packs of {} {name}", units / packs)
        }
        (None, _) => format!("{units} {name}"),
    }
}

fn price(facts: &LotFacts, currency: Currency) -> String {
    let plain = |amount: Money| format!("{}{}", amount.plain(currency), sign(currency));
    match (facts.paid, facts.regular) {
        (Some(paid), _) if paid.is_zero() => "free".to_owned(),
        (Some(paid), Some(regular)) => format!("{} was {}", plain(paid), plain(regular)),
        (Some(paid), None) => plain(paid),
        (None, Some(regular)) => format!("was {}", plain(regular)),
        (None, None) => String::new(),
    }
}

/// Whole numbers are an amount only with a sign.
fn sign(currency: Currency) -> String {
    if currency.digits() == 0 { format!(" {}", currency.code()) } else { String::new() }
}

fn ages(ages: Ages) -> String {
    match ages.to() {
        None => format!("ages {} and up", ages.from()),
        Some(to) => format!("ages {} to {to}", ages.from()),
    }
}

fn measures(dims: &Dims) -> String {
    format!("{} mm", dims.0.iter().map(|side| side.0.to_string()).collect::<Vec<_>>().join(" x "))
}

fn weight(weight: Decigrams) -> String {
    format!("{}.{} g", weight.0 / 10, weight.0 % 10)
}
