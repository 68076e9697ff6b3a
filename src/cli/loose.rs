//! `loose`, `lose` and `found`: stock that leaves or comes outside hauls and boxes.

use super::Answer;
use super::shell::Shell;
use super::words::count_and_thing;

/// Give things loose, outside any box.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful loose 2 balls --to \"the twins next door\"")]
pub struct LooseArgs {
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
    /// To whom
    #[arg(long, default_value = "", hide_default_value = true)]
    to: String,
}

/// Take off what was lost or broke, even if it was set aside.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful lose 1 soap dish --how cracked")]
pub struct LoseArgs {
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
    /// How
    #[arg(long, default_value = "", hide_default_value = true)]
    how: String,
}

/// Add what turned up; it costs nothing more.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful found 2 combs")]
pub struct FoundArgs {
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
}

pub fn loose(args: &LooseArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    shell.act(|season| season.loose(units, &thing, &args.to))
}

pub fn lose(args: &LoseArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    shell.act(|season| season.lose(units, &thing, &args.how))
}

pub fn found(args: &FoundArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    shell.act(|season| season.found(units, &thing))
}
