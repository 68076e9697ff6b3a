//! The drive's rules: shown, set as a whole, and mended row by row.

mod checklist;
mod groups;
mod measures;
mod rule;

use super::{ActError, Done, Season};
use crate::cautions::{RULES, rule as caution};
use crate::model::age::Ages;
use crate::model::fact::{BoxMended, Fact, ProfileSet};
use crate::model::giftbox::{BoxField, BoxState};
use crate::model::profile::{Profile, ProfileError};
use crate::model::rows::BoxRow;
use crate::model::text::normal;
use crate::report::rules::RuleRow;
use crate::store::Store;
use groups::Follows;
use rule::Rule;

impl<S: Store> Season<S> {
    /// Sets the drive's rules from TOML.
    pub fn set_profile(&mut self, toml: &str) -> Result<Done, ActError> {
        let profile = Profile::from_toml(toml)?;
        speaks_of_known_rules(&profile)?;
        if self.store.profile()?.as_ref() == Some(&profile) {
            return Err(so_already());
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
        let row = |rule: Rule| RuleRow { what: rule.what(), words: rule.words(&profile, &self.catalogue) };
        Ok(Rule::all(&profile).into_iter().map(row).collect())
    }

    /// Sets one rule of the drive from words. Boxes of an age group that was changed go along with it, in the same act.
    pub fn mend_rule(&mut self, what: &str, words: &str) -> Result<Done, ActError> {
        let before = self.profile()?;
        let rule = called(what, &before)?;
        let wrong = |why| ActError::NotUnderstood(format!("{}: {why}", rule.what()));
        let profile = rule.read(words, &before, &self.catalogue).map_err(wrong)?;
        if profile == before {
            return Err(so_already());
        }
        let along = self.boxes_along(&before, &profile)?;
        let told = told(rule, &rule.words(&profile, &self.catalogue));
        let mended = |(row, ages): &(BoxRow, Ages)| {
            Fact::BoxMended(BoxMended { giftbox: row.giftbox, set: vec![BoxField::Ages(*ages)] })
        };
        let moved = along.iter().map(mended).collect::<Vec<_>>();
        let mut done = self.act(&[vec![Fact::ProfileSet(ProfileSet { profile })], moved].concat())?;
        done.notes.push(told);
        done.notes.extend(now_for(&along));
        Ok(done)
    }

    /// The boxes whose age group became another, with that; refuses where theirs is simply gone.
    fn boxes_along(&self, before: &Profile, after: &Profile) -> Result<Vec<(BoxRow, Ages)>, ActError> {
        let mut along = Vec::new();
        let mut stranded: Vec<BoxRow> = Vec::new();
        for row in self.store.boxes()?.into_iter().filter(|row| row.state != BoxState::Dropped && !row.withdrawn) {
            if before.band(row.facts.ages).is_none() {
                continue;
            }
            match groups::follows(row.facts.ages, &before.bands, &after.bands) {
                Follows::Same => {}
                Follows::Becomes(ages) => along.push((row, ages)),
                Follows::Gone | Follows::Parted => stranded.push(row),
            }
        }
        let Some(first) = stranded.first() else { return Ok(along) };
        let labels: Vec<String> = stranded.iter().map(BoxRow::label).collect();
        let boxes = if labels.len() == 1 { "box" } else { "boxes" };
        Err(ActError::NotUnderstood(format!(
            "age groups: {boxes} {} would be left without a group: {} is gone or parted. Change its ends only, \
             or give the boxes another group first",
            labels.join(", "),
            first.facts.ages
        )))
    }
}

fn so_already() -> ActError {
    ActError::Nothing("The drive's rules are so already.".to_owned())
}

/// What is so now, in a sentence: `Wish per box: 8.50.`
fn told(rule: Rule, words: &str) -> String {
    let what = super::error::capital(&rule.what());
    let what = what.trim_end_matches('.');
    if words.is_empty() { format!("{what}: no longer said.") } else { format!("{what}: {words}.") }
}

/// Which boxes are for other ages now, a sentence for each group: `For 6–9 now: boxes 1, 2.`
fn now_for(along: &[(BoxRow, Ages)]) -> Vec<String> {
    let mut groups: Vec<(Ages, Vec<String>)> = Vec::new();
    for (row, ages) in along {
        match groups.iter_mut().find(|(known, _)| known == ages) {
            Some((_, labels)) => labels.push(row.label()),
            None => groups.push((*ages, vec![row.label()])),
        }
    }
    let sentence = |(ages, labels): &(Ages, Vec<String>)| {
        format!("For {ages} now: {} {}.", if labels.len() == 1 { "box" } else { "boxes" }, labels.join(", "))
    };
    groups.iter().map(sentence).collect()
}

/// The rule that is called so; a dash between ages may be a plain one.
fn called(what: &str, profile: &Profile) -> Result<Rule, ActError> {
    let key = |words: &str| normal(words).replace('–', "-");
    let rules = Rule::all(profile);
    let wanted = key(what);
    if let Some(rule) = rules.iter().find(|rule| key(&rule.what()) == wanted) {
        return Ok(*rule);
    }
    let known: Vec<String> = rules.iter().map(|rule| format!("\"{}\"", rule.what())).collect();
    Err(ActError::NotUnderstood(format!("\"{what}\" is no rule of a drive; there is {}", known.join(", "))))
}
/// A drive's rule that changes a built-in caution names one there is.
fn speaks_of_known_rules(profile: &Profile) -> Result<(), ActError> {
    let unknown = profile.rules.iter().filter_map(|rule| rule.about.as_deref()).find(|id| caution(id).is_none());
    let Some(unknown) = unknown else { return Ok(()) };
    let known: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    let why = format!("no built-in caution is called \"{unknown}\"; there is {}", known.join(", "));
    Err(ActError::Profile(ProfileError::Sense { field: "rule.about", why }))
}
