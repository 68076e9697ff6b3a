//! `log`: a haul in plain words.

use std::path::PathBuf;

use jiff::civil::Date;

use super::Answer;
use super::shell::{Failure, Shell, day, lines_or_stdin, read_file, tell_done};
use crate::season::{LogHow, NotLogged};

/// Log a haul, line by line in plain words: all of it, or nothing while a line is in doubt.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful log --at \"Corner Bazaar\" --tote \"tote 4\" \"12 toothbrushes 1.50\" \"3 for $1 combs\"
  brimful log --from haul.txt
  brimful log --opening --tote \"tote 7\" \"9 combs\" \"14 notebooks\"

Lines of their own say what holds for the whole haul:
  at Corner Bazaar, 2027-02-16
  tax 0.60
  coupon 1.00
  receipt 14.62
  tote 4")]
pub struct Args {
    /// The lines; without any, standard input
    lines: Vec<String>,
    /// Read the lines from a text file
    #[arg(long, value_name = "TEXT", conflicts_with = "lines")]
    from: Option<PathBuf>,
    /// The shop or giver
    #[arg(long, value_name = "SHOP")]
    at: Option<String>,
    /// The day [default: today]
    #[arg(long, value_name = "DAY", value_parser = day)]
    on: Option<Date>,
    /// Where the things lie
    #[arg(long)]
    tote: Option<String>,
    /// The first day's count of what is there: no prices are asked
    #[arg(long)]
    opening: bool,
    /// Save things that nobody knows the price of, to be settled later
    #[arg(long)]
    open_price: bool,
    /// Save it though it looks like a haul that was logged before
    #[arg(long)]
    again: bool,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    // Opened first: what is wrong with the file is better known before the lines are typed.
    let mut season = shell.to_write()?;
    let text = match &args.from {
        Some(path) => read_file(path)?,
        None => lines_or_stdin(&args.lines)?,
    };
    let Args { at: shop, on: date, tote, opening, open_price, again, .. } = args;
    match season.log(&text, &LogHow { date, shop, tote, opening, open_price, again, ..LogHow::default() }) {
        Ok(logged) => tell_done(&logged.done),
        Err(NotLogged::Act(error)) => Err(shell.placed(error)),
        Err(NotLogged::Twice(twin)) => {
            let words = twin.words();
            Err(Failure::No(format!("{words} Nothing was saved. If it is another one, say --again.")))
        }
        Err(NotLogged::Doubts(doubts)) => {
            Err(Failure::No(format!("Nothing was saved yet.\n  {}", doubts.join("\n  "))))
        }
    }
}
