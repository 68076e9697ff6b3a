//! `kit`: several things put together and given as one.

use super::Answer;
use super::shell::{Failure, Shell};
use super::words::count_and_thing;
use crate::model::category::Category;
use crate::model::measure::Units;
use crate::season::KitHow;

/// Put several things together as a kit; it costs what its parts cost. Exit code 1 if too few are there.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful kit \"filled pencil case\" --make 2 --with \"pencil case\" --with \"3 pencils\" --with eraser")]
pub struct Args {
    /// What it is called
    name: String,
    /// How many
    #[arg(long, default_value_t = 1)]
    make: u32,
    /// What one of them is made of; once for each part
    #[arg(long = "with", value_name = "PART", required = true)]
    parts: Vec<String>,
    /// Its category [default: its first part's]
    #[arg(long)]
    category: Option<String>,
    /// Where it lies [default: where its first part lies]
    #[arg(long)]
    tote: Option<String>,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    let count = Units::new(args.make).filter(|count| !count.is_zero());
    let count = count.ok_or_else(|| Failure::Call(format!("{} is no number of kits", args.make)))?;
    let parts = args.parts.iter().map(|part| count_and_thing(std::slice::from_ref(part)));
    let parts = parts.collect::<Result<Vec<_>, _>>()?;
    let how = KitHow { name: args.name, count, parts, category: args.category.map(Category::from), tote: args.tote };
    shell.act(|season| season.kit(&how))
}
