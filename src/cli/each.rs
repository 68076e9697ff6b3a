//! `each`: one of a thing into each of several boxes.

use super::Answer;
use super::shell::Shell;

/// One of a thing into each of these boxes: one act, one undo. Exit code 1 if there are too few.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful each 1-6,9 toothbrush
  brimful each 1-24 comb --aside")]
pub struct Args {
    /// The boxes' numbers
    boxes: String,
    /// The thing
    #[arg(required = true)]
    words: Vec<String>,
    /// Only set it aside for each
    #[arg(long)]
    aside: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    shell.act(|season| season.each(&args.boxes, &args.words.join(" "), args.aside))
}
