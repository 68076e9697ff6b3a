//! `pull`: what to fetch from which tote.

use super::Answer;
use super::shell::Shell;
use crate::season::Season;

/// What is set aside for open boxes, by the tote it lies in: to fetch it and put it in.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful pull
  brimful put 4 ruler")]
pub struct Args {
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    shell.answer(args.json, Season::pull_list)?;
    Ok(0)
}
