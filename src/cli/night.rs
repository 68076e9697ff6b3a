//! `last-night`: what stops each box.

use super::Answer;
use super::shell::Shell;
use crate::season::Season;

/// Each box that is not handed in, what stops it, and its fix from what is on hand or from the shop.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful last-night
  brimful last-night --json")]
pub struct Args {
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    shell.answer(args.json, Season::last_night)?;
    Ok(0)
}
