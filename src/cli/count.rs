//! `count`: what is really there.

use super::Answer;
use super::shell::{Shell, lines_or_stdin};
use crate::model::lot::Level;
use crate::season::CountLine;

/// Count what is really there: what is missing is taken off as lost, what is over is added as found.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful count \"9 combs\"
  brimful count --tote \"tote 7\" \"9 combs\" \"no glue stick\"
  brimful count --tote \"tote 7\" < counted.txt")]
pub struct Args {
    /// The counts, each in quotes; without any, standard input, one a line
    counts: Vec<String>,
    /// Only what should lie in this tote; what wasn't counted is named
    #[arg(long)]
    tote: Option<String>,
}

/// How much there is of a thing that nobody counts; what goes into a box of it costs nothing there.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful level beads low")]
pub struct LevelArgs {
    /// The thing
    thing: String,
    /// plenty, low or gone; counted: it is counted again
    level: HowMuch,
}

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum HowMuch {
    Plenty,
    Low,
    Gone,
    Counted,
}

pub fn level(args: &LevelArgs, shell: &Shell) -> Answer {
    let level = match args.level {
        HowMuch::Plenty => Some(Level::Plenty),
        HowMuch::Low => Some(Level::Low),
        HowMuch::Gone => Some(Level::Gone),
        HowMuch::Counted => None,
    };
    shell.act(|season| season.level(&args.thing, level))
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let text = lines_or_stdin(&args.counts)?;
    let lines = text.lines().filter(|line| !line.trim().is_empty()).map(CountLine::from);
    let lines = lines.collect::<Result<Vec<_>, _>>()?;
    shell.act(|season| season.count(args.tote.as_deref(), &lines))
}
