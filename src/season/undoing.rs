//! Undo, redo, and the history of what was done.

use super::{ActError, Done, Season, say};
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, OfAct};
use crate::model::id::ActId;
use crate::report::history::{History, Moment, Step};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// Takes back this computer's latest act.
    pub fn undo(&mut self) -> Result<Done, ActError> {
        let device = self.device()?;
        let nothing = || ActError::Nothing("Nothing to undo: this computer has done nothing here yet.".to_owned());
        let row = self.store.undoable(device)?.ok_or_else(nothing)?;
        let was = self.sentence_of(row.act)?;
        match self.act(&[Fact::Voided(OfAct { act: row.act })]) {
            Ok(_) => Ok(Done { said: format!("Took back: {was}"), notes: Vec::new() }),
            Err(ActError::Refused(Refusal::RestedOn { acts })) => Err(self.rested_on(&was, &acts)?),
            Err(error) => Err(error),
        }
    }

    /// Brings back what was undone last.
    pub fn redo(&mut self) -> Result<Done, ActError> {
        let device = self.device()?;
        let nothing = || ActError::Nothing("Nothing to bring again.".to_owned());
        let row = self.store.redoable(device)?.ok_or_else(nothing)?;
        let was = self.sentence_of(row.act)?;
        self.act(&[Fact::Restored(OfAct { act: row.act })])?;
        Ok(Done { said: format!("Brought again: {was}"), notes: Vec::new() })
    }

    /// What was done, newest first.
    pub fn history(&self, limit: usize) -> Result<History, ActError> {
        let step = |row: crate::model::rows::ActRow| {
            let events = self.store.events_of(row.act)?;
            let facts: Vec<Fact> = events.iter().map(|event| event.fact.clone()).collect();
            Ok(Step {
                when: Moment(row.order.clock.millis()),
                by: row.by,
                what: say::sentence(&self.store, &facts)?,
                undone: !row.live,
            })
        };
        Ok(History { steps: self.store.deeds(limit)?.into_iter().map(step).collect::<Result<_, ActError>>()? })
    }

    fn sentence_of(&self, act: ActId) -> Result<String, ActError> {
        let events = self.store.events_of(act)?;
        let facts: Vec<Fact> = events.iter().map(|event| event.fact.clone()).collect();
        Ok(say::sentence(&self.store, &facts)?)
    }

    fn rested_on(&self, was: &str, acts: &[ActId]) -> Result<ActError, ActError> {
        let mut lines = Vec::new();
        for act in acts.iter().take(12) {
            lines.push(format!("  {}", self.sentence_of(*act)?));
        }
        let lines = lines.join("\n");
        Ok(ActError::Nothing(format!(
            "Can't take back: {was}\nOther acts, from another computer, rest on it:\n{lines}\nTake those back there first."
        )))
    }
}
