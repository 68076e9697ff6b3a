//! `kind`: what things count for that the catalogue doesn't know.

use super::shell::Shell;
use super::{Answer, out};
use crate::model::category::Category;
use crate::model::fact::KindLearned;

/// Say once what an unknown thing counts for; without a name: what was said so far.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful kind sundial toy
  brimful kind")]
pub struct Args {
    /// The thing's name
    #[arg(requires = "category")]
    name: Option<String>,
    /// What it counts for: hygiene, school, clothing, toy, wow, extras, or one of the drive's own
    category: Option<String>,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    if let (Some(name), Some(category)) = (args.name, args.category) {
        return shell.act(|season| season.learn_kind(&name, &Category::from(category)));
    }
    let learned = shell.to_read()?.learned_kinds().map_err(|error| shell.placed(error))?;
    if learned.is_empty() {
        return out::print("Nothing was learned yet: the catalogue knew every thing.\n").map(|()| 0);
    }
    let line = |kind: &KindLearned| format!("{:<24}  {}\n", kind.name, kind.category.words());
    out::print(&learned.iter().map(line).collect::<String>()).map(|()| 0)
}
