//! How large things of a kind are, measured once by somebody.

use crate::catalogue::{Catalogue, likely_singular};
use crate::model::event::Subject;
use crate::model::fact::{Fact, KindMeasured};
use crate::model::kind::Kind;
use crate::model::lot::LotFacts;
use crate::model::measure::Dims;
use crate::model::text::{clean, normal};
use crate::season::{ActError, Done, Season};
use crate::store::Store;

/// What was measured, by name; the last word on each.
#[derive(Debug, Clone, Default)]
pub(in crate::season) struct Sizes(Vec<KindMeasured>);

impl<S: Store> Season<S> {
    /// Remembers how large one thing of a kind is; `sides` as a line of a haul says them: `200x150x20 mm`.
    pub fn measure_kind(&mut self, name: &str, sides: &str) -> Result<Done, ActError> {
        let name = key(&self.catalogue, name);
        if name.is_empty() {
            return Err(ActError::NotUnderstood("of what? Say its name".to_owned()));
        }
        let line = format!("1 thing {}", clean(sides));
        let dims = self.read(&line)?.first().and_then(|said| said.reading()?.dims.clone());
        let dims = dims.filter(|dims| dims.0.len() == 3).ok_or_else(|| {
            ActError::NotUnderstood(format!("\"{}\" is no size; say three sides: 200x150x20 mm", clean(sides)))
        })?;
        self.act(&[Fact::KindMeasured(KindMeasured { name, dims })])
    }

    /// What was measured so far, by name.
    pub fn measured_kinds(&self) -> Result<Vec<KindMeasured>, ActError> {
        let mut sizes = self.kind_sizes()?.0;
        sizes.sort_by(|one, other| one.name.cmp(&other.name));
        Ok(sizes)
    }

    pub(in crate::season) fn kind_sizes(&self) -> Result<Sizes, ActError> {
        let mut sizes: Vec<KindMeasured> = Vec::new();
        for told in self.store.events_about(Subject::Lessons)?.into_iter().filter(|told| told.live) {
            let Fact::KindMeasured(measured) = &told.event.fact else { continue };
            sizes.retain(|known| known.name != measured.name);
            sizes.push(measured.clone());
        }
        Ok(Sizes(sizes))
    }
}

impl Sizes {
    /// What was measured of things called like this batch, else of its kind.
    pub fn of(&self, facts: &LotFacts, kind: Option<&Kind>) -> Option<&Dims> {
        let named = |name: &str| self.0.iter().find(|known| known.name == name).map(|known| &known.dims);
        named(&likely_singular(&normal(&facts.name))).or_else(|| named(&kind?.name))
    }
}

/// The kind's own name where exactly that kind is meant, else the name in one form.
fn key(catalogue: &Catalogue, name: &str) -> String {
    let name = normal(&clean(name));
    catalogue.named(&name).map_or_else(|| likely_singular(&name), |kind| kind.name.clone())
}
