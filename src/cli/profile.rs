//! `profile`: the drive's rules.

use std::path::PathBuf;

use super::shell::{Failure, Shell, read_file, tell_done};
use super::{Answer, out};
use crate::season::ActError;

/// Show the drive's rules as TOML, or set them from a file.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful profile > drive.toml
  brimful profile drive.toml")]
pub struct Args {
    /// The rules to set
    rules: Option<PathBuf>,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let Some(path) = &args.rules else {
        let profile = shell.to_read_rules()?.profile().map_err(|error| shell.placed(error))?;
        out::print(&profile.to_toml())?;
        return Ok(0);
    };
    let toml = read_file(path)?;
    let mut season = shell.to_write()?;
    match season.set_profile(&toml) {
        Ok(done) => tell_done(&done),
        Err(ActError::Profile(why)) => Err(Failure::Call(format!("{}: {why}", path.display()))),
        Err(error) => Err(shell.placed(error)),
    }
}
