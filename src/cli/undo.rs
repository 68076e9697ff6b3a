//! `undo` and `redo`.

use super::shell::{Shell, tell_done};
use super::{Answer, out};

pub fn undo(shell: &Shell) -> Answer {
    let done = shell.to_write()?.undo().map_err(|error| shell.placed(error))?;
    out::print(&format!("{} `brimful redo` brings it again.\n", done.said))?;
    Ok(0)
}

pub fn redo(shell: &Shell) -> Answer {
    let done = shell.to_write()?.redo().map_err(|error| shell.placed(error))?;
    tell_done(&done)
}
