//! `history`: what was done.

use super::Answer;
use super::shell::Shell;

/// What was done, newest first.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// How many acts
    #[arg(default_value_t = 20)]
    count: usize,
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    shell.answer(args.json, |season| season.history(args.count)).map(|_| 0)
}
