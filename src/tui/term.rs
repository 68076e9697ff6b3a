//! The terminal: entering and leaving it, what it sends, and what it is sent. The only file that
//! knows the terminal's library.

use std::io::{self, BufWriter, Stdout, Write};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::crossterm::event::{
    self, DisableBracketedPaste, DisableMouseCapture, EnableBracketedPaste, EnableMouseCapture, Event, KeyCode,
    KeyEvent, KeyEventKind, KeyModifiers, MouseButton, MouseEventKind,
};
use ratatui::crossterm::terminal::{
    EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode, size,
};
use ratatui::crossterm::{cursor, execute};
use ratatui::layout::{Position, Rect};
use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP, SIGWINCH};
use signal_hook::iterator::Signals;
use signal_hook::low_level::{emulate_default_handler, raise};

use super::app::App;
use super::app::desk::Effect;
use super::app::key::{Input, Key};
use super::app::keymap::Keymap;
use super::app::room::Size;
use super::back::{Back, Keeper, Reply, Threads};
use super::crash::{self, Notes};
use super::draw::canvas::Drawn;
use super::draw::draw;
use super::draw::look::Look;
use super::editor::write_in;
use super::gate::Gate;
use crate::season::Store;

/// How long the first frame waits for the season's first answer, so that it isn't drawn twice.
const FIRST_ANSWER: Duration = Duration::from_millis(15);
/// Rows that one notch of the wheel moves.
const NOTCH: isize = 3;

/// How the program is shown.
#[derive(Debug, Clone)]
pub struct Showing {
    /// Colours and signs.
    pub look: Look,
    /// Whether the mouse is listened to.
    pub mouse: bool,
    /// Which keys do what.
    pub keys: Keymap,
    /// The editor for long notes; none where the environment names none.
    pub editor: Option<String>,
}

/// Why the program was left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Left {
    /// It was closed.
    Closed,
    /// The sample is wanted.
    Sample,
}

/// What comes to the thread that draws.
enum Message {
    Event(Event),
    /// An answer, and which of the seasons shown it comes from.
    Told(u32, Box<Reply>),
    Signal(i32),
    Lost(io::Error),
}

/// The terminal while seasons are shown on it, one after another. What it sends is listened to by
/// one thread all the time: a second one would take every other key.
pub struct Seat {
    showing: Showing,
    messages: Receiver<Message>,
    send: Sender<Message>,
    shown: u32,
    gate: Arc<Gate>,
    // Last, so that the terminal is put right when nothing writes to it any more.
    guard: Guard,
}

impl Seat {
    /// Enters the terminal, and listens to it and to signals.
    pub fn take(showing: Showing, notes: Notes) -> io::Result<Seat> {
        let guard = Guard::enter(showing.mouse, notes)?;
        let gate = Arc::new(Gate::default());
        let (send, messages) = channel();
        listen(&send, &gate)?;
        Ok(Seat { showing, messages, send, shown: 0, gate, guard })
    }

    /// Shows a season until it is left.
    pub fn show<S: Store + Send + 'static>(&mut self, keeper: Keeper<S>) -> io::Result<Left> {
        self.shown += 1;
        let (send, which) = (self.send.clone(), self.shown);
        let back = Threads::start(keeper, move |reply| {
            // Nobody listens any more once the program is being left.
            _ = send.send(Message::Told(which, Box::new(reply)));
        });
        let mut shown = Shown::new(self, back)?;
        let ended = shown.run();
        shown.back.finish();
        match ended? {
            Ended::Left(left) => Ok(left),
            Ended::Signal(signal) => {
                leave();
                // The terminal is as it was; now the signal may do what it does.
                emulate_default_handler(signal)?;
                Ok(Left::Closed)
            }
        }
    }
}

enum Ended {
    Left(Left),
    Signal(i32),
}

/// The terminal in the state this program needs; it is put right again when this goes.
pub struct Guard {
    mouse: bool,
}

impl Guard {
    /// Enters the terminal, and sees to it that a panic leaves it before it is told.
    pub fn enter(mouse: bool, notes: Notes) -> io::Result<Guard> {
        crash::watch(notes, leave);
        enter(mouse)?;
        Ok(Guard { mouse })
    }

    /// Enters the terminal anew after it was put aside.
    fn enter_again(&self) -> io::Result<()> {
        enter(self.mouse)
    }
}

impl Drop for Guard {
    fn drop(&mut self) {
        leave();
    }
}

fn enter(mouse: bool) -> io::Result<()> {
    enable_raw_mode()?;
    let mut out = io::stdout();
    let entered = execute!(out, EnterAlternateScreen, EnableBracketedPaste)
        .and_then(|()| if mouse { execute!(out, EnableMouseCapture) } else { Ok(()) });
    if entered.is_err() {
        leave();
    }
    entered
}

/// Puts the terminal right again; a terminal that is gone needs no more.
fn leave() {
    let mut out = io::stdout();
    _ = execute!(out, DisableMouseCapture, DisableBracketedPaste, cursor::Show, LeaveAlternateScreen);
    _ = disable_raw_mode();
    _ = out.flush();
}

/// Threads that listen to the keyboard and to signals.
fn listen(send: &Sender<Message>, gate: &Arc<Gate>) -> io::Result<()> {
    let mut signals = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGQUIT, SIGTSTP, SIGCONT])?;
    let (for_signals, away) = (send.clone(), Arc::clone(gate));
    std::thread::spawn(move || {
        for signal in &mut signals {
            if away.is_shut() && meant_for_the_editor(signal) {
                if signal == SIGCONT {
                    away.settle();
                }
                continue;
            }
            if for_signals.send(Message::Signal(signal)).is_err() {
                return;
            }
        }
    });
    // The first look also begins to listen for new sizes. A thread of its own could come to it only
    // after the first frame, and a size given in between would never be told.
    event::poll(Duration::ZERO)?;
    let (send, gate) = (send.clone(), Arc::clone(gate));
    std::thread::spawn(move || {
        loop {
            gate.pass();
            let message = match event::read() {
                Ok(event) => Message::Event(event),
                Err(error) => {
                    // A keyboard that is gone is told once.
                    _ = send.send(Message::Lost(error));
                    return;
                }
            };
            if send.send(message).is_err() {
                return;
            }
        }
    });
    Ok(())
}

/// While an editor has the terminal, its keys send us signals too: Ctrl-C is its own affair, at Ctrl-Z
/// both stop, and both go on together.
fn meant_for_the_editor(signal: i32) -> bool {
    if signal == SIGTSTP {
        // Where the system can't stop us, the editor alone stops.
        _ = emulate_default_handler(SIGTSTP);
    }
    matches!(signal, SIGINT | SIGQUIT | SIGTSTP | SIGCONT)
}

struct Shown<'a> {
    app: App,
    back: Threads,
    seat: &'a Seat,
    drawn: Drawn,
    terminal: Screen,
}

type Screen = Terminal<CrosstermBackend<BufWriter<Stdout>>>;

/// Clears the screen, so that every cell is drawn anew. The library's own way asks the terminal
/// where the cursor is, and the answer would go to the thread that reads the keys.
fn clear(terminal: &mut Screen) -> io::Result<()> {
    let size = terminal.size()?;
    terminal.resize(Rect::from((Position::ORIGIN, size)))
}

impl Shown<'_> {
    fn new(seat: &Seat, back: Threads) -> io::Result<Shown<'_>> {
        let (w, h) = size()?;
        let mut terminal = Terminal::new(CrosstermBackend::new(BufWriter::new(io::stdout())))?;
        // Another season may have stood here before.
        clear(&mut terminal)?;
        let mut app = App::new(Size { w, h });
        app.desk.keys = seat.showing.keys.clone();
        Ok(Shown { app, back, seat, drawn: Drawn::default(), terminal })
    }

    fn run(&mut self) -> io::Result<Ended> {
        let messages = &self.seat.messages;
        let effects = self.app.start();
        self.carry_out(effects)?;
        if let Ok(message) = messages.recv_timeout(FIRST_ANSWER)
            && let Some(ended) = self.take(message)?
        {
            return Ok(ended);
        }
        loop {
            self.draw()?;
            // Nobody sends any more only if all threads are gone.
            let Ok(message) = messages.recv() else { return Ok(Ended::Left(Left::Closed)) };
            let mut next = Some(message);
            // A burst of keys gives one frame.
            while let Some(message) = next {
                if let Some(ended) = self.take(message)? {
                    return Ok(ended);
                }
                next = messages.try_recv().ok();
            }
        }
    }

    fn draw(&mut self) -> io::Result<()> {
        self.fit()?;
        let Shown { app, seat, drawn, terminal, .. } = self;
        terminal.draw(|frame| {
            *drawn = draw(app, seat.showing.look, frame.buffer_mut());
            if let Some(at) = drawn.cursor {
                frame.set_cursor_position(at);
            }
        })?;
        Ok(())
    }

    /// Takes on the size that the terminal has. Its own word of a new size can get lost behind a key
    /// that comes at the same moment.
    fn fit(&mut self) -> io::Result<()> {
        let (w, h) = size()?;
        if self.app.desk.size != (Size { w, h }) {
            let effects = self.app.take(Input::Resize(w, h));
            self.carry_out(effects)?;
        }
        Ok(())
    }

    fn take(&mut self, message: Message) -> io::Result<Option<Ended>> {
        match message {
            Message::Told(which, reply) if which == self.seat.shown => self.input(Input::Told(reply)),
            // A late answer of a season that was left.
            Message::Told(..) => Ok(None),
            Message::Event(event) => {
                if matches!(event, Event::Resize(..)) {
                    // A terminal that shrank and grew again has lost cells.
                    clear(&mut self.terminal)?;
                }
                for input in inputs(&event, &self.drawn) {
                    if let Some(ended) = self.input(input)? {
                        return Ok(Some(ended));
                    }
                }
                Ok(None)
            }
            Message::Signal(SIGTSTP) => self.suspend().map(|()| None),
            Message::Signal(SIGCONT) => self.come_back().map(|()| None),
            Message::Signal(signal) => {
                self.app.shut();
                Ok(Some(Ended::Signal(signal)))
            }
            Message::Lost(error) => Err(error),
        }
    }

    fn input(&mut self, input: Input) -> io::Result<Option<Ended>> {
        let effects = self.app.take(input);
        self.carry_out(effects).map(|left| left.map(Ended::Left))
    }

    fn carry_out(&mut self, effects: Vec<Effect>) -> io::Result<Option<Left>> {
        for effect in effects {
            match effect {
                Effect::Ask(request) => self.back.ask(request),
                Effect::Leave => return Ok(Some(Left::Closed)),
                Effect::Sample => return Ok(Some(Left::Sample)),
                Effect::Suspend => self.suspend()?,
                Effect::Redraw => clear(&mut self.terminal)?,
                Effect::Edit(words) => {
                    let edited = self.edit(&words)?;
                    let effects = self.app.take(Input::Edited(edited));
                    if let Some(left) = self.carry_out(effects)? {
                        return Ok(Some(left));
                    }
                }
            }
        }
        Ok(None)
    }

    /// Stops like any program that is put aside, the terminal as it was before.
    fn suspend(&mut self) -> io::Result<()> {
        leave();
        emulate_default_handler(SIGTSTP)?;
        self.come_back()
    }

    /// Leaves the terminal to an editor until it has ended.
    ///
    /// The reader mostly sits in a read, and would take the editor's first key. A changed window
    /// ends that read without a key, so that is what it is told; then it waits at the gate. Looking
    /// for keys now and then instead would wake the computer all day for what is done once a week.
    fn edit(&mut self, words: &str) -> io::Result<Result<String, String>> {
        let Seat { showing, gate, .. } = self.seat;
        let Some(editor) = &showing.editor else { return Ok(Err("$EDITOR is not set.".to_owned())) };
        gate.shut(|| _ = raise(SIGWINCH));
        leave();
        let edited = write_in(editor, words);
        let back = self.come_back();
        // A Ctrl-C meant for the editor may be on its way still; this comes behind it.
        gate.open(|| _ = raise(SIGCONT));
        back.map(|()| edited)
    }

    fn come_back(&mut self) -> io::Result<()> {
        self.seat.guard.enter_again()?;
        clear(&mut self.terminal)
    }
}

/// What an event of the terminal comes to.
fn inputs(event: &Event, drawn: &Drawn) -> Vec<Input> {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => keys(*key).into_iter().map(Input::Key).collect(),
        Event::Paste(text) => vec![Input::Paste(text.replace("\r\n", "\n").replace('\r', "\n"))],
        Event::Resize(w, h) => vec![Input::Resize(*w, *h)],
        Event::Mouse(mouse) => match mouse.kind {
            MouseEventKind::Down(MouseButton::Left) => {
                drawn.hit(mouse.column, mouse.row).map(Input::Click).into_iter().collect()
            }
            MouseEventKind::ScrollDown => vec![Input::Wheel(NOTCH)],
            MouseEventKind::ScrollUp => vec![Input::Wheel(-NOTCH)],
            _ => Vec::new(),
        },
        _ => Vec::new(),
    }
}

/// A key of the terminal as this program tells keys apart; Alt with a letter is Esc, then the letter.
fn keys(key: KeyEvent) -> Vec<Key> {
    let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
    let alt = key.modifiers.contains(KeyModifiers::ALT);
    let plain = match key.code {
        // What some terminals send for Backspace.
        KeyCode::Char('h') if ctrl => Key::Backspace,
        KeyCode::Char(c) if ctrl => Key::Ctrl(c.to_ascii_lowercase()),
        KeyCode::Char(c) => Key::Char(c),
        KeyCode::F(n) => Key::F(n),
        KeyCode::Enter => Key::Enter,
        KeyCode::Esc => Key::Esc,
        KeyCode::Tab => Key::Tab,
        KeyCode::BackTab => Key::BackTab,
        KeyCode::Up => Key::Up,
        KeyCode::Down => Key::Down,
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        KeyCode::Backspace => Key::Backspace,
        KeyCode::Delete => Key::Delete,
        _ => return Vec::new(),
    };
    if alt && !ctrl { vec![Key::Esc, plain] } else { vec![plain] }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(code: KeyCode, modifiers: KeyModifiers) -> Vec<Key> {
        keys(KeyEvent::new(code, modifiers))
    }

    #[test]
    fn keys_of_the_terminal() {
        assert_eq!(typed(KeyCode::Char('R'), KeyModifiers::CONTROL), [Key::Ctrl('r')]);
        assert_eq!(typed(KeyCode::Char('h'), KeyModifiers::CONTROL), [Key::Backspace]);
        assert_eq!(typed(KeyCode::Char('U'), KeyModifiers::SHIFT), [Key::Char('U')]);
        assert_eq!(typed(KeyCode::Char('a'), KeyModifiers::ALT), [Key::Esc, Key::Char('a')]);
        assert_eq!(typed(KeyCode::BackTab, KeyModifiers::SHIFT), [Key::BackTab]);
        assert!(typed(KeyCode::CapsLock, KeyModifiers::NONE).is_empty());
    }

    #[test]
    fn a_paste_keeps_its_lines() {
        let pasted = inputs(&Event::Paste("a\r\nb\rc".into()), &Drawn::default());
        assert!(matches!(pasted.as_slice(), [Input::Paste(text)] if text == "a\nb\nc"));
    }
}
