//! The drive's rules: shown, set.

use super::{ActError, Done, Season};
use crate::model::fact::{Fact, ProfileSet};
use crate::model::profile::Profile;
use crate::report::rules::RuleRow;
use crate::store::Store;

impl<S: Store> Season<S> {
    /// Sets the drive's rules from TOML.
    pub fn set_profile(&mut self, toml: &str) -> Result<Done, ActError> {
        let profile = Profile::from_toml(toml)?;
        if self.store.profile()?.as_ref() == Some(&profile) {
            return Err(ActError::Nothing("The drive's rules are so already.".to_owned()));
        }
        let groups = profile.bands.clone();
        let mut done = self.act(&[Fact::ProfileSet(ProfileSet { profile })])?;
        let lost = self.store.boxes()?.into_iter().filter(|row| !groups.iter().any(|band| band.ages == row.facts.ages));
        let labels: Vec<String> = lost.map(|row| row.label()).collect();
        if !labels.is_empty() {
            done.notes.push(format!("No age group of the drive fits boxes {} any more.", labels.join(", ")));
        }
        Ok(done)
    }

    /// The drive's rules, row by row, each in words as one would type them.
    pub fn rule_rows(&self) -> Result<Vec<RuleRow>, ActError> {
        let profile = self.profile()?;
        Ok(vec![RuleRow { what: "name".to_owned(), words: profile.name }])
    }

    /// Sets one rule of the drive from words.
    pub fn mend_rule(&mut self, what: &str, words: &str) -> Result<Done, ActError> {
        let mut profile = self.profile()?;
        if what != "name" {
            return Err(ActError::NotUnderstood(format!("\"{what}\" is no rule of a drive")));
        }
        profile.name = crate::model::text::clean(words.trim());
        self.set_profile(&profile.to_toml())
    }
}
