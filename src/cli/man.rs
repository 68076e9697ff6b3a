//! `man`: the manual as man reads it.

use clap::CommandFactory;
use clap_mangen::Man;

use super::shell::Failure;
use super::{Answer, Brimful, out};

/// This program's page for man, or the page of one command.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful man > brimful.1
  brimful man box plan | man -l -")]
pub struct Args {
    /// A command, word by word [default: the page of the whole program]
    command: Vec<String>,
}

pub fn run(args: &Args) -> Answer {
    let mut page = Vec::new();
    let written = Man::new(command(&args.command)?).render(&mut page);
    written.map_err(|error| Failure::Call(format!("the page can't be made: {error}")))?;
    out::print(&String::from_utf8_lossy(&page))?;
    Ok(0)
}

/// A command by its words.
fn command(words: &[String]) -> Result<clap::Command, Failure> {
    let mut whole = Brimful::command();
    // So that a command's page also has the options that every command takes.
    whole.build();
    let mut found = &whole;
    for word in words {
        found = found.find_subcommand(word).ok_or_else(|| {
            let names = names(found);
            Failure::Call(format!("there is no command \"{}\"; there are {names}", words.join(" ")))
        })?;
    }
    Ok(found.clone())
}

fn names(of: &clap::Command) -> String {
    let names: Vec<&str> = of.get_subcommands().map(clap::Command::get_name).collect();
    if names.is_empty() { "none beneath it".to_owned() } else { names.join(", ") }
}
