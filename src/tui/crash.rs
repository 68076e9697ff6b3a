//! What is left behind when the program breaks: a note with what is needed to mend it, and nothing
//! that anybody typed.

use std::fmt::Write as _;
use std::io::{self, Write as _};
use std::panic::PanicHookInfo;
use std::sync::{Mutex, PoisonError};

use super::back::Clock;
use crate::season::State;

/// Where notes of crashes go, and when it is.
pub struct Notes {
    /// What this computer keeps for itself.
    pub state: State,
    /// The day, for the note's name.
    pub clock: Clock,
}

/// The exit code of a program that broke.
const BROKE: i32 = 101;

/// Sees to it that a crash leaves the terminal and a note, and tells where the note is. One on another
/// thread ends the program too: nothing would come of what that thread was asked.
pub fn watch(notes: Notes, leave: fn()) {
    let before = std::panic::take_hook();
    let here = std::thread::current().id();
    // Any thread may break, and the clock is one thread's at a time.
    let notes = Mutex::new(notes);
    std::panic::set_hook(Box::new(move |panic| {
        leave();
        let Notes { state, clock } = &*notes.lock().unwrap_or_else(PoisonError::into_inner);
        let name = format!("crash-{}.txt", clock().today);
        match state.note_crash(&name, &told(panic)) {
            Ok(path) => {
                let path = path.display();
                let kind = "Brimful stopped where it should not have. All that was saved is there;";
                _ = writeln!(io::stderr().lock(), "{kind} what went wrong is noted in {path}");
            }
            Err(_) => before(panic),
        }
        if std::thread::current().id() != here {
            std::process::exit(BROKE);
        }
    }));
}

fn told(panic: &PanicHookInfo<'_>) -> String {
    let mut text = format!("brimful {}\n", env!("CARGO_PKG_VERSION"));
    if let Some(place) = panic.location() {
        _ = writeln!(text, "at {}:{}:{}", place.file(), place.line(), place.column());
    }
    let payload = panic.payload();
    let formatted = || payload.downcast_ref::<String>().map(String::as_str);
    let message = payload.downcast_ref::<&str>().copied().or_else(formatted).unwrap_or_default();
    let name = std::thread::current().name().unwrap_or("unnamed").to_owned();
    _ = writeln!(text, "thread {name}\n{}\n", without_words(message));
    text
}

/// A message up to its first quotation: what stands in quotes may be what somebody typed.
fn without_words(message: &str) -> &str {
    message.split(['\'', '"', '`', '\n']).next().unwrap_or_default().trim_end()
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;
    use std::process::Command;

    use super::*;
    use crate::season::Moment;

    const FOLDER: &str = "BRIMFUL_TEST_CRASH";

    #[test]
    fn what_was_typed_is_left_out() {
        let cut = "end byte index 3 is not a char boundary; it is inside 'é' (bytes 2..4) of `heé for Mira`";
        assert_eq!(without_words(cut), "end byte index 3 is not a char boundary; it is inside");
        assert_eq!(without_words("index out of bounds: the len is 3 but the index is 5").len(), 52);
    }

    /// Breaks, in a process of its own.
    fn breaks(folder: PathBuf) {
        let clock = Box::new(|| Moment { now_millis: 0, today: jiff::civil::date(2027, 10, 14) });
        watch(Notes { state: State::new(folder), clock }, || _ = writeln!(io::stderr(), "left the terminal"));
        let typed = std::hint::black_box("comb für Mira");
        _ = &typed[..7];
    }

    #[test]
    fn a_crash_leaves_a_note_for_its_owner_alone() {
        if let Some(folder) = std::env::var_os(FOLDER) {
            // This is the process that is to break.
            return breaks(folder.into());
        }
        let folder = tempfile::tempdir().unwrap();
        let state = folder.path().join("state");
        let crash = || {
            let mut again = Command::new(std::env::current_exe().unwrap());
            let this = "tui::crash::tests::a_crash_leaves_a_note_for_its_owner_alone";
            again.args(["--exact", this, "--nocapture"]).env(FOLDER, &state);
            again.output().unwrap()
        };
        let output = crash();
        let err = String::from_utf8(output.stderr).unwrap();
        let path = state.join("crash-2027-10-14.txt");
        let left = err.find("left the terminal").unwrap();
        let told = err.find(&format!("what went wrong is noted in {}", path.display())).unwrap();
        assert!(!output.status.success() && left < told, "{err}");
        let note = std::fs::read_to_string(&path).unwrap();
        assert!(note.starts_with(&format!("brimful {}\nat src/tui/crash.rs:", env!("CARGO_PKG_VERSION"))), "{note}");
        assert!(note.contains("is not a char boundary") && !note.contains("Mira") && !note.contains("comb"), "{note}");
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
        }
        crash();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), note.repeat(2), "the day's second stands behind the first");
    }
}
