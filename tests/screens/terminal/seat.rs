//! A seat at a real terminal: the program as it is shipped, in a terminal of its own, with its own
//! files and on a fixed day. Nothing here waits for a fixed time: whatever is to come is awaited,
//! and what doesn't come in good time is told with the whole screen.

use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::{Arc, Condvar, Mutex, MutexGuard};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, ExitStatus, MasterPty, PtySize, native_pty_system};
use vt100::{Parser, Screen};

/// How long anything may take before the test gives up.
const PATIENCE: Duration = Duration::from_secs(20);
/// Between two looks at what tells nobody when it changes: a file, or how a process stands.
const LOOK_AGAIN: Duration = Duration::from_millis(5);

/// The program under test.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_brimful");

/// Somebody's computer: a folder with a season's file and the computer's own state.
pub struct Home {
    folder: tempfile::TempDir,
}

impl Home {
    /// A computer on which nothing was done yet.
    pub fn new() -> Home {
        Home { folder: tempfile::tempdir().unwrap() }
    }

    /// A path in its folder.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The season's file.
    pub fn file(&self) -> PathBuf {
        self.path("season.brimful")
    }

    /// What the program finds around it, and nothing else.
    fn surroundings(&self) -> [(&'static str, PathBuf); 8] {
        [
            ("HOME", self.path("")),
            ("TZ", "UTC".into()),
            ("LANG", "C.UTF-8".into()),
            ("TERM", "xterm-256color".into()),
            ("BRIMFUL_FILE", self.file()),
            ("BRIMFUL_STATE", self.path("state")),
            ("BRIMFUL_CONFIG", self.path("config")),
            ("BRIMFUL_TODAY", "2027-10-14".into()),
        ]
    }

    /// A call without a terminal, as a script makes it.
    pub fn call(&self, args: &[&str]) -> Output {
        let mut command = Command::new(PROGRAM);
        command.args(args).current_dir(self.folder.path()).env_clear().envs(self.surroundings());
        command.output().unwrap()
    }

    /// A call that must do what it is told; what it said.
    #[track_caller]
    pub fn told(&self, args: &[&str]) -> String {
        let output = self.call(args);
        assert!(output.status.success(), "{args:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).unwrap()
    }

    /// A program to be run in a terminal, in this computer's surroundings.
    pub fn command(&self, program: &str, args: &[&str]) -> CommandBuilder {
        let mut command = CommandBuilder::new(program);
        command.args(args);
        command.cwd(self.folder.path());
        command.env_clear();
        for (name, value) in self.surroundings() {
            command.env(name, value);
        }
        command
    }

    /// Brimful, written to by mira.
    pub fn brimful(&self, args: &[&str]) -> CommandBuilder {
        let mut command = self.command(PROGRAM, &["--by", "mira"]);
        command.args(args);
        command
    }

    /// Opens Brimful at 80×24 and waits for its first screen.
    #[track_caller]
    pub fn open(&self, args: &[&str]) -> Seat {
        let seat = Seat::run(self.brimful(args), 80, 24);
        seat.waits_for("? help");
        seat
    }

    /// Waits until the half-written words kept on this computer hold a text.
    #[track_caller]
    pub fn waits_for_draft(&self, text: &str) {
        let is_kept = || {
            let files = std::fs::read_dir(self.path("state")).into_iter().flatten().flatten();
            // One that is being written has another name still.
            let mut drafts = files.filter(|file| file.file_name().to_string_lossy().starts_with("draft-"));
            drafts.any(|file| std::fs::read_to_string(file.path()).is_ok_and(|kept| kept.contains(text)))
        };
        until(&format!("the draft \"{text}\" is kept"), is_kept);
    }
}

/// Waits for what tells nobody when it changes.
#[track_caller]
pub fn until(what: &str, mut is_so: impl FnMut() -> bool) {
    let began = Instant::now();
    while !is_so() {
        assert!(began.elapsed() < PATIENCE, "in {PATIENCE:?} it did not come to this: {what}");
        std::thread::park_timeout(LOOK_AGAIN);
    }
}

/// What came out of the program so far.
struct Seen {
    parser: Parser,
    bytes: Vec<u8>,
    ended: bool,
}

/// A terminal with a program in it.
pub struct Seat {
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    seen: Arc<(Mutex<Seen>, Condvar)>,
    reader: Option<JoinHandle<()>>,
    modes_before: String,
    /// Keys pressed so far: each letter is one, and so is a paste.
    pub keys: usize,
}

fn size(w: u16, h: u16) -> PtySize {
    PtySize { rows: h, cols: w, pixel_width: 0, pixel_height: 0 }
}

fn cells(n: u16) -> NonZeroU16 {
    NonZeroU16::new(n).unwrap()
}

impl Seat {
    /// Runs a program in a terminal of this size.
    pub fn run(command: CommandBuilder, w: u16, h: u16) -> Seat {
        let pair = native_pty_system().openpty(size(w, h)).unwrap();
        let modes_before = modes(&*pair.master);
        let child = pair.slave.spawn_command(command).unwrap();
        // Ours is shut, so that reading ends when the program does.
        drop(pair.slave);
        let parser = Parser::new(cells(h), cells(w), 0);
        let seen = Arc::new((Mutex::new(Seen { parser, bytes: Vec::new(), ended: false }), Condvar::new()));
        let from = pair.master.try_clone_reader().unwrap();
        let to = Arc::clone(&seen);
        let reader = std::thread::spawn(move || read(from, &to));
        let writer = pair.master.take_writer().unwrap();
        Seat { master: pair.master, writer, child, seen, reader: Some(reader), modes_before, keys: 0 }
    }

    fn seen(&self) -> MutexGuard<'_, Seen> {
        self.seen.0.lock().unwrap()
    }

    /// Waits until the screen is so.
    #[track_caller]
    pub fn waits(&self, what: &str, is_so: impl Fn(&Screen) -> bool) {
        let (seen, changed) = &*self.seen;
        let began = Instant::now();
        let mut now = seen.lock().unwrap();
        while !is_so(now.parser.screen()) {
            let left = PATIENCE.checked_sub(began.elapsed()).filter(|_| !now.ended);
            let Some(left) = left else {
                let screen = now.parser.screen().contents();
                let ended = if now.ended { "; the program has ended" } else { "" };
                drop(now);
                panic!("the screen did not come to this: {what}{ended}\n{screen}");
            };
            now = changed.wait_timeout(now, left).unwrap().0;
        }
    }

    /// Waits until the screen shows a text.
    #[track_caller]
    pub fn waits_for(&self, text: &str) -> &Seat {
        self.waits(&format!("it shows \"{text}\""), |screen| screen.contents().contains(text));
        self
    }

    /// Waits until the screen shows a text no longer.
    #[track_caller]
    pub fn waits_without(&self, text: &str) -> &Seat {
        self.waits(&format!("it does not show \"{text}\""), |screen| !screen.contents().contains(text));
        self
    }

    /// The screen as text.
    pub fn screen(&self) -> String {
        self.seen().parser.screen().contents()
    }

    /// Asks something of the screen.
    pub fn ask<T>(&self, question: impl FnOnce(&Screen) -> T) -> T {
        question(self.seen().parser.screen())
    }

    /// All bytes that the program wrote.
    pub fn bytes(&self) -> Vec<u8> {
        self.seen().bytes.clone()
    }

    /// The same as text; the last letter may be on its way still.
    pub fn wrote(&self) -> String {
        String::from_utf8_lossy(&self.seen().bytes).into_owned()
    }

    /// The column and row, from 0, where a text stands first.
    #[track_caller]
    pub fn spot(&self, text: &str) -> (u16, u16) {
        let (rows, width) = self.ask(|screen| {
            let (_, width) = screen.size();
            (screen.rows(0, width.get()).collect::<Vec<_>>(), width)
        });
        let found = rows.iter().enumerate().find_map(|(y, row)| {
            let at = row.find(text)?;
            Some((u16::try_from(row[..at].chars().count()).unwrap(), u16::try_from(y).unwrap()))
        });
        let found = found.unwrap_or_else(|| panic!("nowhere \"{text}\":\n{}", rows.join("\n")));
        assert!(found.0 < width.get());
        found
    }

    /// Sends bytes as a terminal does.
    pub fn sends(&mut self, bytes: &[u8]) {
        self.writer.write_all(bytes).unwrap();
        self.writer.flush().unwrap();
    }

    /// Types words; `⏎ ⇥ ↓ ↑ ⌫` in them are those keys.
    pub fn types(&mut self, text: &str) -> &mut Seat {
        let mut bytes = String::new();
        for c in text.chars() {
            self.keys += 1;
            match c {
                '⏎' => bytes.push('\r'),
                '⇥' => bytes.push('\t'),
                '⌫' => bytes.push('\u{7f}'),
                '↓' => bytes.push_str("\x1b[B"),
                '↑' => bytes.push_str("\x1b[A"),
                c => bytes.push(c),
            }
        }
        self.sends(bytes.as_bytes());
        self
    }

    /// Presses Esc and waits for what it leads to: whatever followed it at once would be taken for
    /// the rest of one key.
    #[track_caller]
    pub fn back_to(&mut self, text: &str) -> &mut Seat {
        self.keys += 1;
        self.sends(b"\x1b");
        self.waits_for(text);
        self
    }

    /// Pastes as a terminal does that was asked to mark what is pasted.
    pub fn pastes(&mut self, text: &str) -> &mut Seat {
        assert!(self.ask(Screen::bracketed_paste), "pastes are not marked");
        self.keys += 1;
        self.sends(format!("\x1b[200~{}\x1b[201~", text.replace('\n', "\r")).as_bytes());
        self
    }

    /// Presses and lets go of the first mouse button on a cell.
    pub fn clicks(&mut self, (x, y): (u16, u16)) {
        let (x, y) = (x + 1, y + 1);
        self.sends(format!("\x1b[<0;{x};{y}M\x1b[<0;{x};{y}m").as_bytes());
    }

    /// Gives the terminal another size, and waits until the screen is drawn anew: what is typed at
    /// the very moment of a new size may be read only with the next key.
    #[track_caller]
    pub fn resizes(&mut self, w: u16, h: u16) {
        let before = self.seen().bytes.len();
        self.resizes_at_once(w, h);
        let (seen, changed) = &*self.seen;
        let is_old = |now: &mut Seen| !now.bytes[before..].windows(4).any(|bytes| bytes == b"\x1b[2J");
        let (now, waited) = changed.wait_timeout_while(seen.lock().unwrap(), PATIENCE, is_old).unwrap();
        drop(now);
        assert!(!waited.timed_out(), "a new size of {w}×{h} draws nothing anew:\n{}", self.screen());
    }

    /// Gives the terminal another size.
    pub fn resizes_at_once(&mut self, w: u16, h: u16) {
        self.seen().parser.screen_mut().set_size(cells(h), cells(w));
        self.master.resize(size(w, h)).unwrap();
    }

    /// Something else writes on the screen, of which the program knows nothing.
    pub fn is_written_over(&self, text: &str) {
        self.seen().parser.process(text.as_bytes());
    }

    /// The program's number.
    pub fn pid(&self) -> u32 {
        self.child.process_id().unwrap()
    }

    /// Sends the program a signal by its name.
    pub fn signals(&self, name: &str) {
        let call = format!("kill -{name} {}", self.pid());
        assert!(Command::new("sh").args(["-c", &call]).status().unwrap().success(), "{call}");
    }

    /// Whether the terminal takes lines and echoes, as it did before the program came.
    pub fn takes_lines_as_before(&self) -> bool {
        modes(&*self.master) == self.modes_before
    }

    /// Waits for the end; how it ended.
    #[track_caller]
    pub fn ends(&mut self) -> ExitStatus {
        let (seen, changed) = &*self.seen;
        let now = seen.lock().unwrap();
        let (now, _) = changed.wait_timeout_while(now, PATIENCE, |now| !now.ended).unwrap();
        let (ended, screen) = (now.ended, now.parser.screen().contents());
        drop(now);
        assert!(ended, "the program does not end:\n{screen}");
        self.child.wait().unwrap()
    }

    /// Holds that the terminal is as one would want to find it: the usual screen, the cursor in
    /// sight, lines taken and echoed, neither the mouse nor pastes marked.
    #[track_caller]
    pub fn is_left_tidy(&self) {
        let bare = self.ask(|screen| {
            let quiet = screen.mouse_protocol_mode() == vt100::MouseProtocolMode::None;
            [!screen.alternate_screen(), !screen.hide_cursor(), !screen.bracketed_paste(), quiet]
        });
        assert_eq!(bare, [true; 4], "usual screen, cursor, pastes, mouse:\n{}", self.screen());
        assert!(self.takes_lines_as_before(), "the terminal does not take lines as before");
    }

    /// Presses q and holds that the program ends well and leaves the terminal tidy.
    #[track_caller]
    pub fn quits(&mut self) {
        self.types("q");
        let ended = self.ends();
        assert!(ended.success(), "{ended}");
        self.is_left_tidy();
    }
}

impl Drop for Seat {
    fn drop(&mut self) {
        // A program that a failed test leaves behind.
        _ = self.child.kill();
        _ = self.child.wait();
        if let Some(reader) = self.reader.take() {
            _ = reader.join();
        }
    }
}

/// How the terminal takes what is typed, in words.
fn modes(master: &dyn MasterPty) -> String {
    format!("{:?}", master.get_termios().expect("a terminal has modes"))
}

fn read(mut from: Box<dyn Read + Send>, to: &(Mutex<Seen>, Condvar)) {
    let (seen, changed) = to;
    let mut buffer = [0; 8192];
    loop {
        // A terminal whose program has gone answers with an error.
        let count = from.read(&mut buffer).unwrap_or(0);
        let mut now = seen.lock().unwrap();
        now.parser.process(&buffer[..count]);
        now.bytes.extend_from_slice(&buffer[..count]);
        now.ended = count == 0;
        changed.notify_all();
        if count == 0 {
            return;
        }
    }
}
