//! `take`, `move` and `note`: things that are in a box.

use super::Answer;
use super::shell::Shell;
use super::words::count_and_thing;

/// Take things out of a box, back to their tote; then those only set aside for it.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful take 12 1 eraser")]
pub struct TakeArgs {
    /// The box's number
    #[arg(value_name = "BOX")]
    giftbox: String,
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
}

/// Move things from box to box; says which gap opens.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful move 12 14 2 washcloths")]
pub struct MoveArgs {
    /// Out of this box
    from: String,
    /// Into that one
    to: String,
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
}

/// Note why a thing in a box was chosen.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful note 12 \"notebook, teal\" \"the sea, for the ocean box\"")]
pub struct NoteArgs {
    /// The box's number
    #[arg(value_name = "BOX")]
    giftbox: String,
    /// The thing
    thing: String,
    /// Why
    why: String,
}

pub fn take(args: &TakeArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    shell.act(|season| season.take(&args.giftbox, units, &thing))
}

pub fn carry(args: &MoveArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    shell.act(|season| season.carry(&args.from, &args.to, units, &thing))
}

pub fn note(args: &NoteArgs, shell: &Shell) -> Answer {
    shell.act(|season| season.note(&args.giftbox, &args.thing, &args.why))
}
