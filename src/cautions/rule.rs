//! What a rule is.

use super::{Caution, Child, Looked, Remedy, When};
use crate::model::rules::Level;

/// A built-in rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its id, by which a drive's rules name it.
    pub id: &'static str,
    /// What it is about, in a few words.
    pub about: &'static str,
    /// It speaks of children younger than this; none: of all.
    pub under: Option<u8>,
    /// Where it stands.
    pub source: &'static str,
    /// What the box's sheet says to the parent, if the thing is given.
    pub sheet: &'static str,
    pub(super) look: Look,
}

/// How a rule looks at a thing.
pub(super) type Look = fn(&Scene<'_>) -> Option<Said>;

/// What a rule looks at.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scene<'a> {
    pub thing: &'a Looked<'a>,
    /// The youngest who may get it, in whole years.
    pub age: u8,
    pub when: When,
}

/// What a rule says of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Said {
    pub level: Level,
    pub text: String,
    pub remedy: Remedy,
}

/// Shortens the rules: a level, what to do, and the words.
pub(super) fn say(level: Level, remedy: Remedy, text: String) -> Said {
    Said { level, text, remedy }
}

impl Rule {
    /// What it says of a thing for a child.
    pub(super) fn judge(&self, thing: &Looked<'_>, child: Child, when: When) -> Option<Caution> {
        let said = self.said(thing, child.youngest, when)?;
        Some(Caution {
            rule: self.id.to_owned(),
            level: said.level,
            thing: thing.name.to_owned(),
            text: said.text,
            source: self.source.to_owned(),
            sheet: self.sheet.to_owned(),
            remedy: said.remedy,
        })
    }

    /// Whether it would speak of this thing for a child of some age.
    pub(super) fn concerns(&self, thing: &Looked<'_>, when: When) -> bool {
        (0..=Rule::OLDEST).any(|age| self.said(thing, age, when).is_some())
    }

    /// No rule begins to speak above this age: the oldest for whom something is a children's product (16 CFR 1200.2).
    const OLDEST: u8 = 12;

    fn said(&self, thing: &Looked<'_>, age: u8, when: When) -> Option<Said> {
        let speaks = self.under.is_none_or(|under| age < under);
        speaks.then(|| (self.look)(&Scene { thing, age, when })).flatten()
    }
}
