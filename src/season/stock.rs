//! What happens to stock outside boxes: corrected, moved to another tote, given loose, lost, found.

use rust_decimal::Decimal;

use super::{ActError, Done, Repriced, Season, Which};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, Found, Gone, LotMended};
use crate::model::lot::LotField;
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::text::{clean, normal};
use crate::model::whom::ForWhom;
use crate::store::Store;

/// What is said anew of a batch; what isn't said stays. An inner none sets a field to nothing.
#[derive(Debug, Clone, Default)]
pub struct Mend {
    /// Its name.
    pub name: Option<String>,
    /// How many came.
    pub units: Option<Units>,
    /// What was paid for all of it; none: nobody knows.
    pub paid: Option<Option<Decimal>>,
    /// Its category.
    pub category: Option<Category>,
    /// Where it lies.
    pub tote: Option<Option<String>>,
    /// Who it is for.
    pub for_whom: Option<Option<ForWhom>>,
    /// The ages it is for.
    pub ages: Option<Option<Ages>>,
    /// Its size.
    pub size: Option<Option<String>>,
    /// Its colours.
    pub colours: Option<Vec<String>>,
}

impl<S: Store> Season<S> {
    /// Corrects a batch. What it cost is worked out anew wherever its units are.
    pub fn mend<'a>(&mut self, which: impl Into<Which<'a>>, mend: &Mend) -> Result<Done, ActError> {
        let facts = self.corrections(which.into(), mend)?;
        self.correct(&facts)
    }

    /// Which boxes that correction would make dearer or cheaper; nothing is kept.
    pub fn mend_effect<'a>(&mut self, which: impl Into<Which<'a>>, mend: &Mend) -> Result<Vec<Repriced>, ActError> {
        let facts = self.corrections(which.into(), mend)?;
        self.effects(&facts)
    }

    fn corrections(&self, which: Which<'_>, mend: &Mend) -> Result<Vec<Fact>, ActError> {
        let row = self.lot_called(which)?;
        let mut wanted = row.facts.clone();
        if let Some(name) = &mend.name {
            wanted.name = normal(&clean(name));
            wanted.kind = self.catalogue.kind_of(&wanted.name).map(|kind| kind.name.clone());
        }
        wanted.units = mend.units.unwrap_or(wanted.units);
        if let Some(paid) = mend.paid {
            wanted.paid = paid.map(|amount| self.amount(amount)).transpose()?;
        }
        wanted.category = mend.category.clone().or(wanted.category);
        wanted.tote = mend.tote.clone().unwrap_or(wanted.tote).map(|tote| normal(&clean(&tote)));
        wanted.for_whom = mend.for_whom.unwrap_or(wanted.for_whom);
        wanted.ages = mend.ages.unwrap_or(wanted.ages);
        wanted.size = mend.size.clone().unwrap_or(wanted.size).map(|size| clean(&size).to_uppercase());
        wanted.colours = mend.colours.clone().unwrap_or(wanted.colours);
        let set: Vec<LotField> = row.facts.changes_to(&wanted);
        if set.is_empty() {
            return Err(ActError::Nothing(format!("{} is so already.", row.facts.title())));
        }
        Ok(vec![Fact::LotMended(LotMended { lot: row.lot, set })])
    }

    /// Gives units outside any box.
    pub fn loose<'a>(&mut self, units: Units, which: impl Into<Which<'a>>, to: &str) -> Result<Done, ActError> {
        self.spend(units, which.into(), to, true)
    }

    /// Takes units off that are lost, broken or thrown away, even if they were set aside.
    pub fn lose<'a>(&mut self, units: Units, which: impl Into<Which<'a>>, how: &str) -> Result<Done, ActError> {
        self.spend(units, which.into(), how, false)
    }

    /// Adds units that turned up to the newest batch of their kind; they cost nothing more.
    pub fn found<'a>(&mut self, units: Units, which: impl Into<Which<'a>>) -> Result<Done, ActError> {
        let thing = self.known(which.into())?;
        let Some(lot) = thing.lots.last() else { return Err(ActError::Nothing("Nothing to add to.".to_owned())) };
        if units.is_zero() {
            return Err(ActError::NotUnderstood("how many? It takes at least one".to_owned()));
        }
        self.act(&[Fact::Found(Found { lot: lot.lot, units })])
    }

    fn spend(&mut self, units: Units, which: Which<'_>, said: &str, loose: bool) -> Result<Done, ActError> {
        let thing = self.on_hand(which)?;
        let said = clean(said.trim());
        let mut left = units;
        let mut facts = Vec::new();
        for lot in &thing.lots {
            let there = if loose { lot.free() } else { lot.standing.on_hand };
            let units = left.min(there);
            if units.is_zero() {
                continue;
            }
            left -= units;
            let gone = Gone { lot: lot.lot, units, words: said.clone() };
            facts.push(if loose { Fact::GivenLoose(gone) } else { Fact::Lost(gone) });
        }
        if !left.is_zero() {
            let (name, aside) = (thing.title.clone(), if loose { thing.aside() } else { Units::ZERO });
            return Err(ActError::Refused(Refusal::NotEnough { name, free: units - left, wanted: units, aside }));
        }
        self.act(&facts)
    }

    pub(super) fn amount(&self, amount: Decimal) -> Result<Money, ActError> {
        let currency = self.profile()?.currency;
        let money = Money::from_decimal(amount, currency).filter(|money| !money.is_negative());
        money.ok_or_else(|| ActError::NotUnderstood(format!("{amount} is no amount of {}", currency.code())))
    }
}
