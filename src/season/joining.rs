//! Taking in another computer's file.

use std::path::Path;

use super::{ActError, Done, Season};
use crate::model::commit::Holdings;
use crate::model::kept::Kept;
use crate::model::text::counted;
use crate::store::{Memory, Store, StoreError, read_foreign};

/// What another season's file holds.
#[derive(Debug)]
pub struct Theirs {
    events: Vec<Kept>,
    season: Memory,
}

impl<S: Store> Season<S> {
    /// Reads another season's file, whole and checked; errors are that file's.
    pub fn look_into(&self, path: &Path) -> Result<Theirs, ActError> {
        let events = read_foreign(path)?;
        let mut season = Memory::new(self.store.season());
        season.join(&events)?;
        Ok(Theirs { events, season })
    }

    /// Joins what was read from another file into this season.
    pub fn join(&mut self, theirs: &Theirs) -> Result<Done, ActError> {
        self.same_money(&theirs.season)?;
        let joined = self.store.join(&theirs.events)?;
        if joined.events == 0 {
            return Ok(Done { said: "Nothing new in that file.".to_owned(), notes: Vec::new() });
        }
        self.touched.all = true;
        self.relearn();
        let acts = counted(joined.acts, "act", "acts");
        let mut notes = Vec::new();
        let settle = self.settle()?;
        if !settle.items.is_empty() {
            let things = counted(settle.items.len() as u64, "thing wants", "things want");
            notes.push(format!("{things} a look: `brimful review` lists them."));
        }
        Ok(Done { said: format!("Brought in {acts} from that file. They stay together from now on."), notes })
    }

    /// Amounts of two currencies can't be added up.
    fn same_money(&self, other: &Memory) -> Result<(), ActError> {
        let ours = self.profile()?.currency;
        let theirs = other.profile()?.unwrap_or_default().currency;
        if ours != theirs && (self.store.keeps_amounts()? || other.keeps_amounts()?) {
            let (ours, theirs) = (ours.code(), theirs.code());
            return Err(StoreError::OtherCurrency { ours, theirs }.into());
        }
        Ok(())
    }
}
