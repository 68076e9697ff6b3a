//! `part`, `apart` and `combine`.

use rust_decimal::Decimal;

use super::Answer;
use super::mend::amount;
use super::shell::{Failure, Shell};
use super::words::count_and_thing;
use crate::model::measure::Units;
use crate::season::PartHow;

/// Take a part out of sets: a batch of its own with its share of the cost; the sets say what they lack.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful part \"art set\" --out \"2 sharpeners\" --share 15")]
pub struct PartArgs {
    /// The sets
    #[arg(required = true)]
    words: Vec<String>,
    /// What is taken out of each
    #[arg(long)]
    out: String,
    /// Hundredths of a set's cost that go with it
    #[arg(long, value_name = "PERCENT")]
    share: String,
    /// Out of how many sets [default: all that are free of the first batch]
    #[arg(long)]
    units: Option<u32>,
}

/// Take kits apart: their parts come back, each with the cost that it brought.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful apart \"filled pencil case\" --units 1")]
pub struct ApartArgs {
    /// The kits
    #[arg(required = true)]
    words: Vec<String>,
    /// How many [default: all that are free]
    #[arg(long)]
    units: Option<u32>,
}

/// Make the batches of one thing one batch; what is in boxes stays as it is.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful combine combs")]
pub struct CombineArgs {
    /// The thing
    #[arg(required = true)]
    words: Vec<String>,
    /// Note that each piece differs
    #[arg(long)]
    assorted: bool,
}

pub fn part(args: &PartArgs, shell: &Shell) -> Answer {
    let (each, name) = count_and_thing(std::slice::from_ref(&args.out))?;
    let percent: Decimal = amount(args.share.trim_end_matches('%'))?;
    let how = PartHow { each, name, percent, sets: some_units(args.units)? };
    shell.act(|season| season.part_out(&args.words.join(" "), &how))
}

pub fn apart(args: &ApartArgs, shell: &Shell) -> Answer {
    let units = some_units(args.units)?;
    shell.act(|season| season.take_apart(&args.words.join(" "), units))
}

pub fn combine(args: &CombineArgs, shell: &Shell) -> Answer {
    shell.act(|season| season.combine(&args.words.join(" "), args.assorted))
}

fn some_units(count: Option<u32>) -> Result<Option<Units>, Failure> {
    let units = |count| Units::new(count).filter(|units| !units.is_zero());
    let units = count.map(|count| units(count).ok_or_else(|| Failure::Call(format!("{count} is no number of things"))));
    units.transpose()
}
