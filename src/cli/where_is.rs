//! `where-is`: the tote a thing lies in, and the boxes that have it.

use super::Answer;
use super::shell::Shell;

/// Where a thing is. Exit code 1 if nothing is called so.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful where-is glue")]
pub struct Args {
    /// What it is called, or a few letters of it
    #[arg(required = true)]
    words: Vec<String>,
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let places = shell.answer(args.json, |season| season.where_is(&args.words.join(" ")))?;
    Ok(u8::from(places.things.is_empty()))
}
