//! Why an act was not done, in words for the person who asked for it.

use thiserror::Error;

use super::Stopped;
use crate::model::commit::Refusal;
use crate::model::profile::ProfileError;
use crate::store::{CommitError, StoreError};

/// Why an act was not done. Nothing was changed by it.
#[derive(Debug, Error)]
pub enum ActError {
    /// It can't be done as things stand.
    #[error("{}", capital(&.0.to_string()))]
    Refused(Refusal),
    /// The file didn't take it.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Words fit several things.
    #[error("\"{words}\" could be:\n{}\nSay a little more of it{}.", listed(could_be), handles(*.by_handle))]
    Unclear {
        /// What was said.
        words: String,
        /// What it could mean.
        could_be: Vec<String>,
        /// Whether five letters before each tell them apart.
        by_handle: bool,
    },
    /// Words fit nothing.
    #[error("Nothing {place} is called \"{words}\".{}", near_words(near))]
    Unknown {
        /// Where it was looked for: `on hand`.
        place: String,
        /// What was said.
        words: String,
        /// What is called something like it.
        near: Vec<String>,
    },
    /// No such box.
    #[error("There is no box {0}; `brimful box list` shows them.")]
    NoSuchBox(String),
    /// The words of the call make no sense.
    #[error("{0}")]
    NotUnderstood(String),
    /// The drive's rules can't be used.
    #[error("{0}")]
    Profile(#[from] ProfileError),
    /// A caution keeps a thing out of a box.
    #[error("{}", .0.whole())]
    Careful(Box<Stopped>),
    /// There is nothing to do.
    #[error("{0}")]
    Nothing(String),
}

impl ActError {
    /// The exit code: 1 where the answer is no, 2 where the call or the data is bad.
    pub fn exit_code(&self) -> u8 {
        match self {
            ActError::Refused(_)
            | ActError::Unclear { .. }
            | ActError::Unknown { .. }
            | ActError::Careful(_)
            | ActError::Nothing(_) => 1,
            ActError::Store(_) | ActError::NoSuchBox(_) | ActError::NotUnderstood(_) | ActError::Profile(_) => 2,
        }
    }
}

impl From<CommitError> for ActError {
    fn from(error: CommitError) -> ActError {
        match error {
            CommitError::Refused(refusal) => ActError::Refused(refusal),
            CommitError::Store(error) => ActError::Store(error),
        }
    }
}

impl From<Refusal> for ActError {
    fn from(refusal: Refusal) -> ActError {
        ActError::Refused(refusal)
    }
}

/// A sentence from a phrase: a capital first, a full stop last.
pub fn capital(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().map(char::to_uppercase);
    let mut sentence: String = first.into_iter().flatten().chain(letters).collect();
    if !sentence.ends_with(['.', '?', '!']) {
        sentence.push('.');
    }
    sentence
}

fn listed(lines: &[String]) -> String {
    lines.iter().map(|line| format!("  {line}")).collect::<Vec<_>>().join("\n")
}

fn handles(by_handle: bool) -> &'static str {
    if by_handle { ", or the five letters in front" } else { "" }
}

fn near_words(near: &[String]) -> String {
    match near {
        [] => String::new(),
        names => format!(" Did you mean {}?", names.join(" or ")),
    }
}
