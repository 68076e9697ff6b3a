//! `put` and `aside`: things into a box, or held for it.

use super::Answer;
use super::shell::Shell;
use super::words::count_and_thing;
use crate::season::PutHow;

/// Put things into a box. What is set aside for this box goes in first. Exit code 1 if too few are there.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful put 12 2 washcloths, teal
  brimful put 12 plush otter --wow --why \"she lives by the sea\"
  brimful put 12 2 erasers --inside \"pencil case\"")]
pub struct PutArgs {
    /// The box's number
    #[arg(value_name = "BOX")]
    giftbox: String,
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
    /// It is the wow item of this box
    #[arg(long)]
    wow: bool,
    /// Tuck it into this holder, which is in the box already
    #[arg(long, value_name = "HOLDER")]
    inside: Option<String>,
    /// Why it was chosen
    #[arg(long, value_name = "WORDS")]
    why: Option<String>,
    /// Allow it in this box though a caution speaks against it; the reason is kept
    #[arg(long, value_name = "REASON")]
    allow: Option<String>,
}

/// Set things aside for a box, still in their tote. Exit code 1 if too few are free.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful aside 12 2 leggings")]
pub struct AsideArgs {
    /// The box's number
    #[arg(value_name = "BOX")]
    giftbox: String,
    /// How many of what
    #[arg(required = true)]
    words: Vec<String>,
    /// Allow it for this box though a caution speaks against it; the reason is kept
    #[arg(long, value_name = "REASON")]
    allow: Option<String>,
}

pub fn put(args: PutArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    let how = PutHow { aside: false, wow: args.wow, inside: args.inside, why: args.why, allow: args.allow };
    shell.act(|season| season.put(&args.giftbox, units, &thing, &how))
}

pub fn aside(args: AsideArgs, shell: &Shell) -> Answer {
    let (units, thing) = count_and_thing(&args.words)?;
    let how = PutHow { aside: true, allow: args.allow, ..PutHow::default() };
    shell.act(|season| season.put(&args.giftbox, units, &thing, &how))
}
