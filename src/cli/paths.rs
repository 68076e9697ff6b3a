//! `paths`: where things are kept.

use serde::Serialize;

use super::shell::Shell;
use super::{Answer, out, settings};
use crate::season::Report;

/// Where the season's file and this computer's own settings are.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// As JSON
    #[arg(long)]
    json: bool,
}

#[derive(Serialize)]
struct Paths {
    season: String,
    there: bool,
    state: String,
    settings: String,
    settings_there: bool,
}

impl Report for Paths {
    fn text(&self) -> String {
        let there = if self.there { "" } else { " (not there yet)" };
        let settings_there = if self.settings_there { "" } else { " (not there, and need not be)" };
        let settings = format!("{}{settings_there}", self.settings);
        format!("season    {}{there}\nstate     {}\nsettings  {settings}\n", self.season, self.state)
    }
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let season = shell.file.display().to_string();
    let state = shell.state.folder().display().to_string();
    let file = settings::path()?;
    let (settings, settings_there) = (file.display().to_string(), file.exists());
    let paths = Paths { season, there: shell.file.exists(), state, settings, settings_there };
    out::print(&if args.json { paths.json() + "\n" } else { paths.text() })?;
    Ok(0)
}
