//! `cost`: what it cost.

use super::Answer;
use super::shell::Shell;
use crate::season::Season;

/// What it cost: the whole season, one box, or one thing each time it was bought.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful cost
  brimful cost 12
  brimful cost --of toothbrush")]
pub struct Args {
    /// A box's number
    #[arg(value_name = "BOX")]
    giftbox: Option<String>,
    /// A thing, each time it was bought
    #[arg(long, value_name = "THING", conflicts_with = "giftbox")]
    of: Option<String>,
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    match (&args.giftbox, &args.of) {
        (Some(giftbox), _) => shell.answer(args.json, |season| season.box_card(giftbox)).map(|_| 0),
        (None, Some(thing)) => shell.answer(args.json, |season| season.prices(thing)).map(|_| 0),
        (None, None) => shell.answer(args.json, Season::costs).map(|_| 0),
    }
}
