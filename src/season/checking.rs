//! Looking the file over, and making its rows anew.

use super::{ActError, Season};
use crate::report::check::{Looked, TroubleLine};
use crate::store::{Store, check};

impl<S: Store> Season<S> {
    /// Every trouble found in the file.
    pub fn check(&self) -> Result<Looked, ActError> {
        let found = check(&self.store)?;
        let line =
            |trouble: crate::store::Trouble| TroubleLine { what: trouble.what, remedy: trouble.remedy.to_owned() };
        Ok(Looked { events: self.store.kept()?.len(), troubles: found.into_iter().map(line).collect() })
    }

    /// Drops all that is shown and makes it anew from what was done.
    pub fn rebuild(&mut self) -> Result<(), ActError> {
        self.touched.all = true;
        Ok(self.store.rebuild()?)
    }
}
