//! `read`: what was understood of some lines.

use super::shell::{Shell, lines_or_stdin};
use super::{Answer, out};
use crate::season::{Entry, Outcome, Reader, Said};

/// Say what was understood of some lines; keep nothing.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful read \"10 pack of pencils for 45 cents\"
  brimful read --json < haul.txt")]
pub struct Args {
    /// The lines; without any, standard input
    lines: Vec<String>,
    /// One JSON object a line
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let text = lines_or_stdin(&args.lines)?;
    let season = shell.to_read_rules()?;
    let said = season.read(&text).map_err(|error| shell.placed(error))?;
    let reader = season.reader().map_err(|error| shell.placed(error))?;
    let lines: String = said.iter().map(|said| told(said, &reader, args.json) + "\n").collect();
    out::print(&lines)?;
    let refused = said.iter().any(|said| matches!(said.entry, Entry::Line(Outcome::Refused(_))));
    Ok(if refused { 2 } else { 0 })
}

fn told(said: &Said, reader: &Reader, json: bool) -> String {
    if json {
        // A reading is strings, numbers and lists: it can always be written.
        return serde_json::to_string(said).unwrap_or_default();
    }
    match &said.entry {
        Entry::Head(head) => reader.head_words(head),
        Entry::Line(outcome) => outcome.to_string(),
    }
}
