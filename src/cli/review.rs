//! `review`: which boxes lack what.

use super::Answer;
use super::mend::{ages, whom};
use super::shell::Shell;
use crate::season::ReviewWish;

/// Which boxes lack what, and what wants a look. With --lacks: exit code 1 if there are any.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful review
  brimful review --lacks hygiene
  brimful review --ages 6-8 --for girl")]
pub struct Args {
    /// Only boxes that lack this category or kind
    #[arg(long, value_name = "CATEGORY")]
    lacks: Option<String>,
    /// Only this age group
    #[arg(long)]
    ages: Option<String>,
    /// Only boxes for a girl, a boy, or either
    #[arg(long = "for", value_name = "WHOM")]
    for_whom: Option<String>,
    /// Closed boxes and those handed in as well
    #[arg(long)]
    all: bool,
    /// As JSON
    #[arg(long)]
    json: bool,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    let wish = ReviewWish {
        ages: args.ages.as_deref().map(ages).transpose()?,
        for_whom: args.for_whom.as_deref().map(whom).transpose()?,
        lacks: args.lacks,
        all: args.all,
    };
    let review = shell.answer(args.json, |season| season.review(&wish))?;
    Ok(u8::from(wish.lacks.is_some() && !review.boxes.is_empty()))
}
