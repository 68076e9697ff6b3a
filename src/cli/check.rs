//! `check` and `rebuild`.

use super::shell::Shell;
use super::{Answer, out};
use crate::season::Season;

/// Look the file over: are its events whole, and does all that is shown follow from them? Exit code 1 if not.
#[derive(Debug, clap::Args)]
pub struct CheckArgs {
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn check(args: &CheckArgs, shell: &Shell) -> Answer {
    let looked = shell.answer(args.json, Season::check)?;
    Ok(u8::from(!looked.troubles.is_empty()))
}

pub fn rebuild(shell: &Shell) -> Answer {
    let mut season = shell.to_write()?;
    season.rebuild().map_err(|error| shell.placed(error))?;
    out::print("Made anew from what was done.\n")?;
    Ok(0)
}
