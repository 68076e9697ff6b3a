//! `stock`: what is on hand.

use super::Answer;
use super::shell::Shell;
use crate::model::category::Category;
use crate::season::StockWish;

/// What is on hand, and what it cost.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful stock
  brimful stock --category hygiene
  brimful stock toothbrush --batches")]
pub struct Args {
    /// Only things that these words mean
    words: Vec<String>,
    /// Only what lies in this tote
    #[arg(long)]
    tote: Option<String>,
    /// Only this category
    #[arg(long)]
    category: Option<String>,
    /// Show each batch with the five letters it goes by
    #[arg(long)]
    batches: bool,
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    let words = args.words.join(" ");
    let category = args.category.map(Category::from);
    let wish = StockWish { words, tote: args.tote, category, batches: args.batches };
    shell.answer(args.json, |season| season.stock(&wish)).map(|_| 0)
}
