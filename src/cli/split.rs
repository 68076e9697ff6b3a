//! `split`: a pack broken up into bundles.

use super::Answer;
use super::shell::{Failure, Shell};
use crate::model::measure::Units;
use crate::season::SplitHow;

/// Break a pack up into bundles, or bundle single ones; each bundle carries its part of the cost.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful split \"coloured pencils\" --of 8
  brimful split pencils --of 4 --units 12 --name \"pencils, 4s\"")]
pub struct Args {
    /// The thing
    #[arg(required = true)]
    words: Vec<String>,
    /// Pieces in one bundle
    #[arg(long)]
    of: u32,
    /// How many are broken up [default: all that are free of its first batch]
    #[arg(long)]
    units: Option<u32>,
    /// What a bundle is called [default: the same]
    #[arg(long)]
    name: Option<String>,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    let units = args.units.map(|count| {
        Units::new(count).filter(|units| !units.is_zero()).ok_or_else(|| Failure::Call(format!("{count} is too many")))
    });
    let how = SplitHow { of: args.of, units: units.transpose()?, name: args.name };
    shell.act(|season| season.split(args.words.join(" ").as_str(), &how))
}
