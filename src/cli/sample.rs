//! `sample`: an invented drive to look around in; and how a season stands.

use std::path::PathBuf;

use super::shell::{Failure, Shell};
use super::table::{self, LookArgs};
use super::{Answer, out};
use crate::season::{SampleError, Season, open_sample};

/// Look around in an invented drive with hauls of a year and 24 boxes; your own season is not touched.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful sample
  brimful sample try-out --fresh")]
pub struct Args {
    /// The folder it is made in [default: in the state folder]
    folder: Option<PathBuf>,
    /// Print how it stands, on any terminal
    #[arg(long)]
    no_tui: bool,
    /// Begin it anew; the old one is kept beside it
    #[arg(long)]
    fresh: bool,
}

pub fn run(args: Args, shell: &Shell, look: LookArgs) -> Answer {
    let there = made(args.folder, args.fresh, shell)?;
    if !args.no_tui && table::can_be_shown() {
        return table::show(&there, look);
    }
    summary(&there)?;
    let file = there.file.display();
    out::print(&format!("\n{file}\nTo look around: brimful --file {file}\n"))?;
    Ok(0)
}

/// The sample, made if it isn't there, in this folder or in the state folder.
pub fn made(folder: Option<PathBuf>, fresh: bool, shell: &Shell) -> Result<Shell, Failure> {
    let folder = folder.unwrap_or_else(|| shell.state.folder().join("sample"));
    let path = open_sample(&folder, fresh).map_err(|error| match error {
        SampleError::Store { path, error } => Failure::File(path, error),
        error @ SampleError::Line { .. } => Failure::Call(error.to_string()),
    })?;
    Ok(Shell::over(path, shell))
}

/// Prints how the season stands.
pub fn summary(shell: &Shell) -> Answer {
    shell.answer(false, Season::summary).map(|_| 0)
}
