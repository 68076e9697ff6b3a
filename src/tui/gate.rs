//! A gate for the thread that reads the keyboard: while another program has the terminal, it must not read.

use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// How long the reader may take to come to the gate; one that is gone never comes.
const PATIENCE: Duration = Duration::from_secs(1);

#[derive(Debug, Default)]
struct State {
    shut: bool,
    waits: bool,
    settled: bool,
}

/// The gate.
#[derive(Debug, Default)]
pub struct Gate {
    state: Mutex<State>,
    changed: Condvar,
}

impl Gate {
    /// The reader passes here before each read; while the gate is shut, it waits.
    pub fn pass(&self) {
        let mut state = self.state();
        state.waits = true;
        self.changed.notify_all();
        state = self.changed.wait_while(state, |state| state.shut).unwrap_or_else(PoisonError::into_inner);
        state.waits = false;
    }

    /// Shuts the gate and waits until the reader stands before it; `wake` makes it come.
    pub fn shut(&self, wake: impl FnOnce()) {
        self.state().shut = true;
        wake();
        let here = self.changed.wait_timeout_while(self.state(), PATIENCE, |state| !state.waits);
        drop(here);
    }

    /// Opens it again, once all that came while it was shut is dealt with; `last` makes something come behind all
    /// of that, whose taker says so by [`Gate::settle`].
    pub fn open(&self, last: impl FnOnce()) {
        self.state().settled = false;
        last();
        let settled = self.changed.wait_timeout_while(self.state(), PATIENCE, |state| !state.settled);
        drop(settled);
        self.state().shut = false;
        self.changed.notify_all();
    }

    /// What `last` made come is here.
    pub fn settle(&self) {
        self.state().settled = true;
        self.changed.notify_all();
    }

    /// Whether another program has the terminal.
    pub fn is_shut(&self) -> bool {
        self.state().shut
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;
    use std::sync::mpsc::channel;

    use super::*;

    #[test]
    fn nothing_is_read_while_the_gate_is_shut() {
        let gate = Arc::new(Gate::default());
        let (keys, typed) = channel();
        let (send, read) = channel();
        let reader = Arc::clone(&gate);
        let thread = std::thread::spawn(move || {
            loop {
                reader.pass();
                let Ok(key) = typed.recv() else { return };
                send.send(key).unwrap();
            }
        });
        keys.send('a').unwrap();
        assert_eq!(read.recv(), Ok('a'));
        gate.shut(|| keys.send('w').unwrap());
        // What wakes the reader is the last it reads, if it was on its way at all.
        let mut all: String = read.try_iter().collect();
        assert!(["", "w"].contains(&all.as_str()), "{all}");
        keys.send('b').unwrap();
        assert!(read.recv_timeout(Duration::from_millis(50)).is_err(), "it read what is another program's");
        gate.open(|| gate.settle());
        while !all.ends_with('b') {
            all.push(read.recv_timeout(PATIENCE).unwrap());
        }
        assert_eq!(all, "wb");
        drop(keys);
        thread.join().unwrap();
    }
}
