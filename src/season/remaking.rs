//! Breaking packs up into bundles, and putting several things together as a kit.

use super::names::Thing;
use super::{ActError, Done, Season, Which};
use crate::model::category::Category;
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, KitMade, Part, Split};
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::Units;
use crate::model::text::{clean, normal};
use crate::store::Store;

/// How units become bundles.
#[derive(Debug, Clone)]
pub struct SplitHow {
    /// Pieces in one bundle.
    pub of: u32,
    /// How many units are broken up; none: all that are free of the batch used up first.
    pub units: Option<Units>,
    /// What a bundle is called; the same name, if nobody says.
    pub name: Option<String>,
}

/// How a kit is made.
#[derive(Debug, Clone)]
pub struct KitHow {
    /// What it is called.
    pub name: String,
    /// How many.
    pub count: Units,
    /// What one kit is made of.
    pub parts: Vec<(Units, String)>,
    /// Its category; the first part's, if nobody says.
    pub category: Option<Category>,
    /// Where the kits lie; where the first part lies, if nobody says.
    pub tote: Option<String>,
}

impl<S: Store> Season<S> {
    /// Breaks units up: a pack of 24 into bundles of 8, or 24 single ones bundled by 8.
    pub fn split<'a>(&mut self, which: impl Into<Which<'a>>, how: &SplitHow) -> Result<Done, ActError> {
        let thing = self.on_hand(which.into())?;
        let lot = thing.lots.iter().find(|lot| !lot.free().is_zero());
        let lot = lot.ok_or_else(|| short(&thing, Units::ONE))?;
        let units = how.units.unwrap_or(lot.free());
        if units > lot.free() {
            return Err(short(&thing, units));
        }
        let pieces = u64::from(units.count()) * u64::from(lot.facts.pieces.unwrap_or(1));
        let bundles = bundles(pieces, how.of)?;
        let facts = LotFacts {
            name: how.name.as_deref().map_or(lot.facts.name.clone(), |name| normal(&clean(name))),
            source: Source::Split,
            units: bundles,
            pieces: Some(how.of).filter(|pieces| *pieces > 1),
            packs: None,
            paid: None,
            regular: None,
            ..lot.facts.clone()
        };
        let split = Split { lot: lot.lot, units, into: self.ids.lot(), facts };
        self.act(&[Fact::Split(split)])
    }

    /// Puts several things together; a kit costs what its parts cost.
    pub fn kit(&mut self, how: &KitHow) -> Result<Done, ActError> {
        let mut parts: Vec<Part> = Vec::new();
        let mut first = None;
        for (each, words) in &how.parts {
            let thing = self.on_hand(Which::Words(words))?;
            let wanted = each.count().checked_mul(how.count.count()).and_then(Units::new);
            let wanted = wanted.ok_or_else(|| ActError::NotUnderstood("that is too many".to_owned()))?;
            add_parts(&mut parts, &thing, wanted)?;
            first = first.or(thing.lots.first().map(|lot| lot.facts.clone()));
        }
        let first = first.ok_or_else(|| ActError::NotUnderstood("a kit of what? Name its parts with --with".into()))?;
        let name = normal(&clean(&how.name));
        let kind = self.catalogue.kind_of(&name).map(|kind| kind.name.clone());
        let facts = LotFacts {
            kind: kind.or(first.kind),
            name,
            source: Source::Kit,
            units: how.count,
            category: how.category.clone().or(first.category),
            tote: how.tote.as_deref().map(normal).or(first.tote),
            for_whom: first.for_whom,
            ages: first.ages,
            colours: first.colours,
            ..LotFacts::default()
        };
        let into = self.ids.lot();
        self.act(&[Fact::KitMade(KitMade { parts, into, facts })])
    }
}

fn bundles(pieces: u64, of: u32) -> Result<Units, ActError> {
    if of == 0 || !pieces.is_multiple_of(u64::from(of)) {
        return Err(ActError::Nothing(format!("{pieces} does not part into {of}s.")));
    }
    let count = u32::try_from(pieces / u64::from(of)).ok().and_then(Units::new);
    count.ok_or_else(|| ActError::NotUnderstood("that is too many".to_owned()))
}

/// Takes units for a kit, the batch that is used up first first; two parts may come from one batch.
fn add_parts(parts: &mut Vec<Part>, thing: &Thing, wanted: Units) -> Result<(), ActError> {
    let mut left = wanted;
    for lot in &thing.lots {
        let taken: Units = parts.iter().filter(|part| part.lot == lot.lot).map(|part| part.units).sum();
        let units = left.min(lot.free() - taken);
        if units.is_zero() {
            continue;
        }
        left -= units;
        match parts.iter_mut().find(|part| part.lot == lot.lot) {
            Some(part) => part.units += units,
            None => parts.push(Part { lot: lot.lot, units }),
        }
    }
    if left.is_zero() { Ok(()) } else { Err(short(thing, wanted)) }
}

fn short(thing: &Thing, wanted: Units) -> ActError {
    let (name, free, aside) = (thing.title.clone(), thing.free(), thing.aside());
    ActError::Refused(Refusal::NotEnough { name, free, wanted, aside })
}
