//! `size`: how large things of a kind are.

use super::shell::Shell;
use super::{Answer, out};
use crate::model::fact::KindMeasured;

/// Say once how large one of a kind is; without a name: what was said so far.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful size \"soap dish\" 110x75x35mm
  brimful size storybook 24 x 17 x 1.2 cm
  brimful size")]
pub struct Args {
    /// The thing's name
    #[arg(requires = "sides")]
    name: Option<String>,
    /// Its three sides
    sides: Vec<String>,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    if let Some(name) = &args.name {
        return shell.act(|season| season.measure_kind(name, &args.sides.join(" ")));
    }
    let sizes = shell.to_read()?.measured_kinds().map_err(|error| shell.placed(error))?;
    if sizes.is_empty() {
        return out::print("Nothing was measured yet: sizes are those of a batch, or typical of its kind.\n")
            .map(|()| 0);
    }
    let line = |kind: &KindMeasured| format!("{:<24}  {}\n", kind.name, kind.dims);
    out::print(&sizes.iter().map(line).collect::<String>()).map(|()| 0)
}
