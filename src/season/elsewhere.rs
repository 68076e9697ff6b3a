//! What lies beside the season's own acts: another program's writing, and a line not yet saved.

use super::{ActError, Desk, Season};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// Whether another program changed the file since this was last asked.
    pub fn changed_elsewhere(&mut self) -> Result<bool, ActError> {
        let now = self.store.foreign_commits()?;
        let before = self.seen.replace(now);
        let changed = before.is_some_and(|before| before != now);
        if changed {
            self.relearn();
        }
        Ok(changed)
    }

    /// What was being typed when the program was last left; none where nothing was.
    pub fn kept_draft(&self) -> Result<Option<String>, ActError> {
        match &self.desk {
            Desk::Computer { state, .. } => Ok(state.draft(self.store.season())?),
            Desk::Fixed { .. } => Ok(self.draft.clone()),
        }
    }

    /// Keeps what is being typed, until something else is kept; nothing typed is nothing kept.
    pub fn keep_draft(&mut self, text: &str) -> Result<(), ActError> {
        match &self.desk {
            Desk::Computer { state, .. } => state.keep_draft(self.store.season(), text)?,
            Desk::Fixed { .. } => self.draft = Some(text.to_owned()).filter(|text| !text.is_empty()),
        }
        Ok(())
    }
}
