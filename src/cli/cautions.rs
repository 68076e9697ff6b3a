//! `cautions` and `allow`: what can hurt, what the drive forbids, and what is allowed all the same.

use super::Answer;
use super::shell::Shell;

/// What to be careful of in the open boxes, in one box, or in a thing. Exit code 1 if something is there that may not be.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful cautions
  brimful cautions 12
  brimful cautions marbles
  brimful cautions --all --json")]
pub struct Args {
    /// A box's number, or a thing
    words: Vec<String>,
    /// Closed boxes and those handed in as well
    #[arg(long)]
    all: bool,
    /// As JSON
    #[arg(long)]
    json: bool,
}

/// Allow a thing that is in a box, or set aside for it, though a caution speaks against it; the reason is kept.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful allow 12 marbles --why \"her aunt packs it and plays along\"
  brimful allow 12 marbles --no-longer")]
pub struct AllowArgs {
    /// The box's number
    #[arg(value_name = "BOX")]
    giftbox: String,
    /// The thing
    #[arg(required = true)]
    words: Vec<String>,
    /// Why
    #[arg(long, value_name = "REASON", required_unless_present = "no_longer")]
    why: Option<String>,
    /// It is allowed no longer
    #[arg(long, conflicts_with = "why")]
    no_longer: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let words = args.words.join(" ");
    let cautions = shell.answer(args.json, |season| match words.as_str() {
        "" => season.cautions_in(None, args.all),
        words if season.has_box(words)? => season.cautions_in(Some(words), args.all),
        words => season.cautions_with(words),
    })?;
    Ok(u8::from(cautions.stops()))
}

pub fn allow(args: &AllowArgs, shell: &Shell) -> Answer {
    let why = args.why.as_deref().unwrap_or_default();
    shell.act(|season| season.allow(&args.giftbox, args.words.join(" ").as_str(), why))
}
