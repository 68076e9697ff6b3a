//! What was learned by asking once: read from what was done, and added to the catalogue.

use std::sync::Arc;

use super::{ActError, Done, Reader, Season};
use crate::catalogue::{Catalogue, likely_singular};
use crate::model::category::Category;
use crate::model::event::Subject;
use crate::model::fact::{Fact, KindLearned, LotMended};
use crate::model::habit::Habits;
use crate::model::lot::LotField;
use crate::model::text::normal;
use crate::store::{Store, StoreError};

impl<S: Store> Season<S> {
    /// Reads lines as this season does, by its rules and by what it learned.
    pub fn reader(&self) -> Result<Reader, ActError> {
        let (catalogue, habits) = (Arc::clone(&self.catalogue), Arc::clone(&self.habits));
        Ok(Reader::new(self.profile()?, catalogue, habits, self.moment.today))
    }

    /// Remembers what a thing counts for that the catalogue doesn't know, and says it of what was
    /// logged under that name without a category.
    pub fn learn_kind(&mut self, name: &str, category: &Category) -> Result<Done, ActError> {
        let learned = Self::lesson(name, category)?;
        let mut facts = vec![Fact::KindLearned(learned.clone())];
        let mut of_this = self.store.lots()?;
        of_this.retain(|lot| !lot.withdrawn && lot.facts.category.is_none());
        of_this.retain(|lot| same_name(&lot.facts.name, &learned.name));
        for lot in of_this {
            let set = vec![LotField::Kind(Some(learned.name.clone())), LotField::Category(Some(category.clone()))];
            facts.push(Fact::LotMended(LotMended { lot: lot.lot, set }));
        }
        self.act(&facts)
    }

    /// What was learned, by name.
    pub fn learned_kinds(&self) -> Result<Vec<KindLearned>, ActError> {
        let mut kinds = learned(&self.store)?;
        kinds.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(kinds)
    }

    fn lesson(name: &str, category: &Category) -> Result<KindLearned, ActError> {
        let name = likely_singular(&normal(name));
        if name.is_empty() {
            return Err(ActError::NotUnderstood("of what? Say its name".to_owned()));
        }
        Ok(KindLearned { name, category: category.clone() })
    }

    /// What a line teaches that says the category of a thing which nobody knew.
    pub(super) fn lesson_of(&self, name: &str, category: Option<&Category>) -> Option<KindLearned> {
        let unknown = self.catalogue.kind_of(name).is_none() && self.catalogue.category_of(name).as_ref() != category;
        let category = category.filter(|_| unknown)?;
        Self::lesson(name, category).ok()
    }

    /// Makes the catalogue anew after something was learned, or undone.
    pub(super) fn relearn(&mut self) {
        // What can't be read now is said by whatever is asked of the file next; the built-in kinds stay.
        self.catalogue = catalogue(&self.store).unwrap_or_else(|_| Catalogue::shared());
        self.habits = habits(&self.store).unwrap_or_default();
    }
}

/// The answers that are remembered.
pub(super) fn habits(store: &impl Store) -> Result<Arc<Habits>, StoreError> {
    let mut habits = Habits::default();
    for told in store.events_about(Subject::Lessons)?.into_iter().filter(|told| told.live) {
        if let Fact::AnswerKept(kept) = &told.event.fact {
            habits.learn(&kept.lesson);
        }
    }
    Ok(Arc::new(habits))
}

/// The built-in kinds and those that this season learned.
pub(super) fn catalogue(store: &impl Store) -> Result<Arc<Catalogue>, StoreError> {
    let lessons = learned(store)?;
    if lessons.is_empty() {
        return Ok(Catalogue::shared());
    }
    let mut catalogue = Catalogue::clone(&Catalogue::shared());
    for KindLearned { name, category } in lessons {
        catalogue.learn(&name, category);
    }
    Ok(Arc::new(catalogue))
}

/// Whether two names are one, either perhaps in the plural.
fn same_name(a: &str, b: &str) -> bool {
    likely_singular(&normal(a)) == likely_singular(&normal(b))
}

/// The last word on each name.
fn learned(store: &impl Store) -> Result<Vec<KindLearned>, StoreError> {
    let mut lessons: Vec<KindLearned> = Vec::new();
    for told in store.events_about(Subject::Lessons)?.into_iter().filter(|told| told.live) {
        let Fact::KindLearned(lesson) = &told.event.fact else { continue };
        lessons.retain(|known| !same_name(&known.name, &lesson.name));
        lessons.push(lesson.clone());
    }
    Ok(lessons)
}
