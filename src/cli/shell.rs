//! Where things are for one call, and what to say when it fails.

use std::io::{IsTerminal, Read};
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::out;
use crate::model::id::{Ids, SeasonId, TimedIds};
use crate::model::text::clean;
use crate::season::{ActError, Desk, Done, Moment, Report, Season, Sqlite, State, StoreError};

/// How a thing that is stopped gets into its box all the same.
const CAREFUL: &str = " `--allow \"reason\"` with put or aside puts it in all the same.";

/// One call's surroundings.
#[derive(Debug)]
pub struct Shell {
    /// The season's file.
    pub file: PathBuf,
    /// Whether the file was named, and so must be there to be read.
    named: bool,
    /// What this computer keeps for itself.
    pub state: State,
    by: Option<String>,
    today: Date,
    today_is_fixed: bool,
}

/// Why a call failed.
#[derive(Debug)]
pub enum Failure {
    /// An act was not done.
    Act(ActError),
    /// A file can't be used.
    File(PathBuf, StoreError),
    /// The call or what it names is bad.
    Call(String),
    /// The answer is no, in these lines.
    No(String),
    /// Nobody reads on: whoever does not want more is not disturbed.
    ClosedPipe,
}

impl From<ActError> for Failure {
    fn from(error: ActError) -> Failure {
        Failure::Act(error)
    }
}

impl Failure {
    /// Tells what failed on the error stream and gives the exit code.
    pub fn tell(self) -> u8 {
        match self {
            Failure::Act(error) => {
                let allow = if matches!(error, ActError::Careful(_)) { CAREFUL } else { "" };
                out::complain(&format!("{error}{allow}"));
                error.exit_code()
            }
            Failure::File(path, error) => {
                out::complain(&format!("{}: {error}", path.display()));
                2
            }
            Failure::Call(why) => {
                out::complain(&why);
                2
            }
            Failure::No(why) => {
                out::complain(&why);
                1
            }
            Failure::ClosedPipe => 0,
        }
    }
}

impl Shell {
    /// The surroundings that the call, the environment and the system's folders give.
    pub fn new(file: Option<PathBuf>, by: Option<String>) -> Result<Shell, Failure> {
        let named = file.or_else(|| env_path("BRIMFUL_FILE"));
        let state = State::new(env_path("BRIMFUL_STATE").map_or_else(state_folder, Ok)?);
        let failed = |error| Failure::File(state.folder().to_owned(), error);
        let by = match by {
            Some(name) => {
                let name = clean(name.trim());
                state.set_by(&name).map_err(failed)?;
                Some(name)
            }
            None => state.by().map_err(failed)?,
        };
        let is_named = named.is_some();
        let file = named.map_or_else(|| folders().map(|dirs| dirs.data_dir().join("season.brimful")), Ok)?;
        Ok(Shell {
            file,
            named: is_named,
            state,
            by,
            today: today()?,
            today_is_fixed: env_path("BRIMFUL_TODAY").is_some(),
        })
    }

    /// The same surroundings over another season's file.
    pub fn over(file: PathBuf, shell: &Shell) -> Shell {
        Shell {
            file,
            named: true,
            state: shell.state.clone(),
            by: shell.by.clone(),
            today: shell.today,
            today_is_fixed: shell.today_is_fixed,
        }
    }

    /// The season, to be written to; it is begun if it isn't there.
    pub fn to_write(&self) -> Result<Season<Sqlite>, Failure> {
        let by = self.by.clone().map_or_else(|| self.known_or_asked(), Ok)?;
        let store = Sqlite::open_or_create(&self.file, SeasonId::new(TimedIds.fresh()));
        Ok(self.season(store.map_err(|error| self.failed(error))?, by))
    }

    /// The name that was given since this call began; without one it is asked for.
    fn known_or_asked(&self) -> Result<String, Failure> {
        let known = self.state.by().map_err(|error| Failure::File(self.state.folder().to_owned(), error))?;
        known.map_or_else(|| self.ask_who(), Ok)
    }

    /// Asks once for a short name, if somebody sits at the terminal who can answer.
    fn ask_who(&self) -> Result<String, Failure> {
        if !(std::io::stdin().is_terminal() && std::io::stderr().is_terminal()) {
            return Ok(String::new());
        }
        out::ask("Who writes? A short name for the history, or just Enter: ");
        let mut name = String::new();
        let read = std::io::stdin().read_line(&mut name);
        read.map_err(|error| Failure::Call(format!("standard input can't be read: {error}")))?;
        let name = clean(name.trim());
        self.state.set_by(&name).map_err(|error| Failure::File(self.state.folder().to_owned(), error))?;
        Ok(name)
    }

    /// The season, to be looked at. No file is made: without one there is simply nothing yet,
    /// unless the file was named, and so is missed.
    pub fn to_read(&self) -> Result<Season<Sqlite>, Failure> {
        if self.named { self.opened_to_read() } else { self.to_read_rules() }
    }

    /// The season, for its rules alone: without a file the built-in ones hold.
    pub fn to_read_rules(&self) -> Result<Season<Sqlite>, Failure> {
        if self.file.exists() {
            return self.opened_to_read();
        }
        let store = Sqlite::nowhere(SeasonId::new(TimedIds.fresh()));
        Ok(self.season(store.map_err(|error| self.failed(error))?, String::new()))
    }

    fn opened_to_read(&self) -> Result<Season<Sqlite>, Failure> {
        let store = Sqlite::open_to_read(&self.file);
        Ok(self.season(store.map_err(|error| self.failed(error))?, String::new()))
    }

    /// The clock, as a season at work is told it again and again.
    pub fn clock(&self) -> impl Fn() -> Moment + Send + 'static {
        let fixed = self.today_is_fixed.then_some(self.today);
        move || Moment { now_millis: now_millis(), today: fixed.unwrap_or_else(|| jiff::ZonedDateTime::now().date()) }
    }

    fn season(&self, store: Sqlite, by: String) -> Season<Sqlite> {
        let desk = Desk::Computer { state: self.state.clone(), by };
        Season::new(store, Box::new(TimedIds), desk, Moment { now_millis: now_millis(), today: self.today })
    }

    /// A failure of the season's file.
    pub fn failed(&self, error: StoreError) -> Failure {
        Failure::File(self.file.clone(), error)
    }

    /// Does an act, and tells what was done and how to take it back.
    pub fn act(&self, act: impl FnOnce(&mut Season<Sqlite>) -> Result<Done, ActError>) -> Result<u8, Failure> {
        let mut season = self.to_write()?;
        let done = act(&mut season).map_err(|error| self.placed(error))?;
        tell_done(&done)
    }

    /// Answers a question as text or as JSON.
    pub fn answer<R: Report>(
        &self,
        json: bool,
        ask: impl FnOnce(&Season<Sqlite>) -> Result<R, ActError>,
    ) -> Result<R, Failure> {
        let season = self.to_read()?;
        let report = ask(&season).map_err(|error| self.placed(error))?;
        out::print(&if json { report.json() + "\n" } else { report.text() })?;
        Ok(report)
    }

    /// A store's error says which file it is about.
    pub fn placed(&self, error: ActError) -> Failure {
        match error {
            ActError::Store(error) => self.failed(error),
            error => Failure::Act(error),
        }
    }

    /// The day it is here.
    pub fn today(&self) -> Date {
        self.today
    }
}

/// Tells what was done, what follows from it, and how to take it back.
pub fn tell_done(done: &Done) -> Result<u8, Failure> {
    let notes: String = done.notes.iter().map(|note| format!("{note}\n")).collect();
    out::print(&format!("{} `brimful undo` takes it back.\n{notes}", done.said))?;
    Ok(0)
}

/// The lines given as arguments; without any, or for `-`, those on standard input.
pub fn lines_or_stdin(lines: &[String]) -> Result<String, Failure> {
    if !lines.is_empty() && lines != ["-"] {
        return Ok(lines.join("\n"));
    }
    if std::io::stdin().is_terminal() {
        out::hint("One thing a line; Ctrl-D ends.");
    }
    let mut bytes = Vec::new();
    let read = std::io::stdin().lock().read_to_end(&mut bytes);
    read.map_err(|error| Failure::Call(format!("standard input can't be read: {error}")))?;
    // What is no UTF-8 is shown as what can't be read, not lost with the rest of its line.
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// A text file whole.
pub fn read_file(path: &Path) -> Result<String, Failure> {
    let bytes = std::fs::read(path).map_err(|error| Failure::Call(format!("{}: {error}", path.display())))?;
    String::from_utf8(bytes).map_err(|_| Failure::Call(format!("{}: this is no text file", path.display())))
}

/// A date as ISO writes it.
pub fn day(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| format!("\"{text}\" is no day; write it as 2027-02-14"))
}

/// A path in the environment.
pub fn env_path(name: &str) -> Option<PathBuf> {
    std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from)
}

/// Where this system keeps what belongs to the program.
pub fn folders() -> Result<directories::ProjectDirs, Failure> {
    directories::ProjectDirs::from("", "", "brimful")
        .ok_or_else(|| Failure::Call("this computer names no home folder; name a file with --file".to_owned()))
}

fn state_folder() -> Result<PathBuf, Failure> {
    let folders = folders()?;
    // Only some systems keep state apart from data.
    Ok(folders.state_dir().unwrap_or_else(|| folders.data_local_dir()).to_owned())
}

fn today() -> Result<Date, Failure> {
    match std::env::var("BRIMFUL_TODAY") {
        Ok(text) if !text.is_empty() => day(&text).map_err(|why| Failure::Call(format!("BRIMFUL_TODAY: {why}"))),
        _ => Ok(jiff::ZonedDateTime::now().date()),
    }
}

fn now_millis() -> u64 {
    u64::try_from(jiff::Timestamp::now().as_millisecond()).unwrap_or(0)
}
