//! The terminal interface: opened by `brimful` alone, and by `brimful sample`.

use std::io::IsTerminal;

use super::settings::{self, Settings};
use super::shell::{Failure, Shell};
use super::{Answer, sample};
use crate::season::Sqlite;
use crate::tui::back::Keeper;
use crate::tui::draw::look::{Ground, Look};
use crate::tui::{Left, Notes, Seat, Showing};

/// How the terminal interface looks.
#[derive(Debug, Clone, Copy, clap::Args)]
#[command(next_help_heading = "Terminal interface")]
pub struct LookArgs {
    /// Colours: auto asks the terminal's environment, never uses none
    #[arg(long, global = true, value_enum, default_value_t = When::Auto, value_name = "WHEN")]
    color: When,
    /// The terminal's ground, for the colours
    #[arg(long, global = true, value_enum, value_name = "GROUND")]
    theme: Option<Theme>,
    /// Only ASCII signs
    #[arg(long, global = true)]
    ascii: bool,
    /// Leave the mouse to the terminal
    #[arg(long, global = true)]
    no_mouse: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum When {
    /// Where the terminal's ground is known and `NO_COLOR` isn't set.
    Auto,
    /// On a dark ground where nothing tells it.
    Always,
    /// None.
    Never,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Theme {
    /// Light letters on dark.
    Dark,
    /// Dark letters on light.
    Light,
}

/// Whether there is a terminal to show it on.
pub fn can_be_shown() -> bool {
    std::io::stdin().is_terminal() && std::io::stdout().is_terminal() && var("TERM") != "dumb"
}

/// Opens the terminal interface; without a terminal tells how the season stands.
pub fn open_or_tell(shell: &Shell, look: LookArgs) -> Answer {
    if can_be_shown() { show(shell, look) } else { sample::summary(shell) }
}

/// Shows a season, and the sample if one wants to look around in it first.
pub fn show(shell: &Shell, look: LookArgs) -> Answer {
    let failed = |error| Failure::Call(format!("the terminal can't be used: {error}"));
    // Whatever is wrong with the settings is told before anything else is done.
    let showing = look.over(settings::of_this_computer()?);
    let notes = Notes { state: shell.state.clone(), clock: Box::new(shell.clock()) };
    // Before the terminal is taken: a name may have to be asked for.
    let keeper = keeper(shell)?;
    let mut seat = Seat::take(showing, notes).map_err(failed)?;
    let mut left = seat.show(keeper).map_err(failed)?;
    while left == Left::Sample {
        let sample = self::keeper(&sample::made(None, false, shell)?)?;
        left = seat.show(sample).map_err(failed)?;
    }
    Ok(0)
}

fn keeper(shell: &Shell) -> Result<Keeper<Sqlite>, Failure> {
    Ok(Keeper::new(shell.to_write()?, Box::new(shell.clock()), shell.file.display().to_string()))
}

impl LookArgs {
    /// What the call asks for, and where it is silent, the settings.
    fn over(self, settings: Settings) -> Showing {
        let ascii = self.ascii || settings.ascii.unwrap_or_else(|| !speaks_utf8());
        let look = Look { ground: self.ground(settings.ground), ascii };
        Showing { look, mouse: !self.no_mouse && settings.mouse.unwrap_or(true), keys: settings.keys, editor: editor() }
    }

    fn ground(self, settled: Option<Ground>) -> Ground {
        let wanted = match self.color {
            When::Never => false,
            When::Always => true,
            When::Auto => var("NO_COLOR").is_empty(),
        };
        let told = match self.theme {
            Some(Theme::Dark) => Some(Ground::Dark),
            Some(Theme::Light) => Some(Ground::Light),
            // Colours that this call asks for are shown on some ground.
            None => settled
                .filter(|ground| *ground != Ground::Plain || self.color != When::Always)
                .or_else(|| ground_of(&var("COLORFGBG"))),
        };
        let unknown = if self.color == When::Always { Ground::Dark } else { Ground::Plain };
        if wanted { told.unwrap_or(unknown) } else { Ground::Plain }
    }
}

/// The editor that somebody is used to; the first of these that is set.
fn editor() -> Option<String> {
    ["VISUAL", "EDITOR"].map(var).into_iter().find(|name| !name.trim().is_empty())
}

fn var(name: &str) -> String {
    std::env::var(name).unwrap_or_default()
}

/// Some terminals tell their colours as `15;0`, the ground last: 7 and 15 are light.
fn ground_of(colors: &str) -> Option<Ground> {
    match colors.rsplit(';').next()?.parse().ok()? {
        7_u8 | 15 => Some(Ground::Light),
        0..=6 | 8 => Some(Ground::Dark),
        _ => None,
    }
}

/// The first of these that is set decides, as for any program.
fn speaks_utf8() -> bool {
    let locale = ["LC_ALL", "LC_CTYPE", "LANG"].map(var).into_iter().find(|value| !value.is_empty());
    let locale = locale.unwrap_or_default().to_lowercase();
    let east_asian = ["zh", "ja", "ko"].iter().any(|language| locale.starts_with(language));
    // There these signs may be two cells wide.
    !east_asian && (locale.contains("utf-8") || locale.contains("utf8"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ground_is_what_the_terminal_tells() {
        assert_eq!(ground_of("15;0"), Some(Ground::Dark));
        assert_eq!(ground_of("0;15"), Some(Ground::Light));
        assert_eq!(ground_of("0;default;7"), Some(Ground::Light));
        assert_eq!(ground_of(""), None);
        assert_eq!(ground_of("0;default"), None);
    }
}
