//! What can go wrong with a season's file, each with what to do about it.

use thiserror::Error;

use crate::model::commit::Refusal;
use crate::model::kept::KeptError;

/// Why a season's file can't be used, or an act couldn't be kept. Nothing is ever half kept.
#[derive(Debug, Error)]
pub enum StoreError {
    /// No file there.
    #[error("there is no season there; `brimful log` begins one")]
    NotThere,
    /// Not a database at all.
    #[error("this is no season's file: it isn't a database. Nothing was changed; name another file with --file")]
    NotADatabase,
    /// A database of something else.
    #[error("this is a database of another program. Nothing was changed; name another file with --file")]
    Foreign,
    /// Written by a newer program.
    #[error(
        "a newer Brimful wrote this file (version {found}, this one knows {known}). Nothing was changed; update Brimful"
    )]
    Newer {
        /// The file's version.
        found: u32,
        /// The newest known one.
        known: u32,
    },
    /// The place can't be written to.
    #[error(
        "this place can't be written to; nothing was saved. Make it writable, or copy the file elsewhere and name it with --file"
    )]
    ReadOnly,
    /// No room left.
    #[error("the disk is full; nothing of this was saved. Make some room and do it again")]
    Full,
    /// Another program holds the file.
    #[error("another Brimful is writing to this file; nothing was lost. Try again in a moment")]
    Locked,
    /// The file's bytes are not as written.
    #[error("the file is damaged: {0}. Keep a copy of it, then bring back a backup or join another computer's file")]
    Damaged(String),
    /// An event in it can't be used.
    #[error("{0}")]
    Event(#[from] KeptError),
    /// Two seasons count in different money.
    #[error("that file counts in {theirs}, this one in {ours}; they can't be joined. Nothing was changed")]
    OtherCurrency {
        /// This file's currency.
        ours: &'static str,
        /// That file's.
        theirs: &'static str,
    },
    /// The system refused.
    #[error("{0}")]
    Io(String),
}

/// Why an act was not kept.
#[derive(Debug, Error)]
pub enum CommitError {
    /// It can't be done as things stand.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The file didn't take it.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl From<std::io::Error> for StoreError {
    fn from(error: std::io::Error) -> StoreError {
        match error.kind() {
            std::io::ErrorKind::NotFound => StoreError::NotThere,
            std::io::ErrorKind::PermissionDenied | std::io::ErrorKind::ReadOnlyFilesystem => StoreError::ReadOnly,
            std::io::ErrorKind::StorageFull => StoreError::Full,
            _ => StoreError::Io(error.to_string()),
        }
    }
}
