//! `join`: another computer's file.

use std::path::PathBuf;

use super::shell::{Failure, Shell};
use super::{Answer, out};
use crate::season::ActError;

/// Join another computer's file into this one. The other file is only read; joining twice changes nothing.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful join /media/stick/season.brimful")]
pub struct Args {
    /// The other computer's file
    other: PathBuf,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let mut season = shell.to_write()?;
    let theirs = season.look_into(&args.other).map_err(|error| match error {
        ActError::Store(error) => Failure::File(args.other.clone(), error),
        error => Failure::Act(error),
    })?;
    let done = season.join(&theirs).map_err(|error| shell.placed(error))?;
    let notes: String = done.notes.iter().map(|note| format!("{note}\n")).collect();
    out::print(&format!("{}\n{notes}", done.said))?;
    Ok(0)
}
