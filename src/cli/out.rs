//! Writing to the terminal or a pipe; a pipe that nobody reads any more is a quiet end.

use std::io::{ErrorKind, Write};

use super::shell::Failure;

/// Writes to standard output.
pub fn print(text: &str) -> Result<(), Failure> {
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    written.map_err(|error| match error.kind() {
        ErrorKind::BrokenPipe => Failure::ClosedPipe,
        _ => Failure::Call(format!("standard output can't be written: {error}")),
    })
}

/// Writes a complaint to standard error, where nothing more can be done about its failing.
pub fn complain(text: &str) {
    _ = writeln!(std::io::stderr().lock(), "brimful: {text}");
}

/// Asks somebody at a terminal; the answer is awaited on the same line.
pub fn ask(text: &str) {
    let mut err = std::io::stderr().lock();
    _ = write!(err, "{text}").and_then(|()| err.flush());
}

/// Tells somebody at a terminal what is awaited.
pub fn hint(text: &str) {
    _ = writeln!(std::io::stderr().lock(), "{text}");
}
