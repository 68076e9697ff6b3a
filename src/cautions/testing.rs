//! Help for the tests of the rules.

use std::sync::LazyLock;

use super::{Child, Looked, Remedy, When, rule};
use crate::catalogue::kinds::Catalogue;
use crate::model::kind::Kind;
use crate::model::measure::{Dims, Millimetres};
use crate::model::rules::Level;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// A thing of a kind of the catalogue, of which nothing else was said.
pub(super) fn of_kind(name: &str) -> Looked<'static> {
    of(CATALOGUE.kinds().iter().find(|kind| kind.name == name).unwrap())
}

/// One thing of each kind of the catalogue.
pub(super) fn every_kind() -> Vec<Looked<'static>> {
    CATALOGUE.kinds().iter().map(of).collect()
}

fn of(kind: &'static Kind) -> Looked<'static> {
    Looked {
        name: &kind.name,
        kind: Some(&kind.name),
        category: Some(&kind.category),
        kind_category: Some(&kind.category),
        typical: kind.typical.as_ref(),
        ..Looked::default()
    }
}

/// Sides in whole millimetres.
pub(super) fn size(sides: &[u32]) -> Dims {
    Dims(sides.iter().copied().map(Millimetres).collect())
}

/// What a rule says of a thing for a child of this age: its level and what to do.
pub(super) fn told(id: &str, thing: &Looked<'_>, age: u8) -> Option<(Level, Remedy)> {
    let child = Child { youngest: age, oldest: age };
    let caution = rule(id).unwrap().judge(thing, child, When::default())?;
    Some((caution.level, caution.remedy))
}

/// The words of what a rule says.
pub(super) fn words(id: &str, thing: &Looked<'_>, age: u8) -> String {
    let child = Child { youngest: age, oldest: age };
    rule(id).unwrap().judge(thing, child, When::default()).map(|caution| caution.text).unwrap_or_default()
}
