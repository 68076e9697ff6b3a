//! The terminal: entering and leaving it, what it sends, and what it is sent. The only file that
//! knows the terminal's library.

use std::io::{self, BufWriter, Stdout, Write};
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
use signal_hook::consts::{SIGCONT, SIGHUP, SIGTERM, SIGTSTP};
use signal_hook::iterator::Signals;
use signal_hook::low_level::emulate_default_handler;

use super::app::App;
use super::app::desk::Effect;
use super::app::key::{Input, Key};
use super::app::keymap::Keymap;
use super::app::room::Size;
use super::back::{Back, Keeper, Reply, Threads};
use super::draw::canvas::Drawn;
use super::draw::draw;
use super::draw::look::Look;
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
    Told(Box<Reply>),
    Signal(i32),
    Lost(io::Error),
}

/// Shows a season on the terminal until it is left.
pub fn open<S: Store + Send + 'static>(keeper: Keeper<S>, showing: Showing) -> io::Result<Left> {
    let guard = Guard::enter(showing.mouse)?;
    let (send, messages) = channel();
    listen(send.clone())?;
    let back = Threads::start(keeper, move |reply| {
        // Nobody listens any more once the program is being left.
        _ = send.send(Message::Told(Box::new(reply)));
    });
    let mut shown = Shown::new(showing, back, guard)?;
    let left = shown.run(&messages);
    let Shown { back, guard, .. } = shown;
    back.finish();
    drop(guard);
    match left? {
        Ended::Left(left) => Ok(left),
        Ended::Signal(signal) => {
            // The terminal is as it was; now the signal may do what it does.
            emulate_default_handler(signal)?;
            Ok(Left::Closed)
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
    pub fn enter(mouse: bool) -> io::Result<Guard> {
        let before = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            leave();
            before(panic);
        }));
        enter(mouse)?;
        Ok(Guard { mouse })
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
fn listen(send: Sender<Message>) -> io::Result<()> {
    let mut signals = Signals::new([SIGTERM, SIGHUP, SIGTSTP, SIGCONT])?;
    let for_signals = send.clone();
    std::thread::spawn(move || {
        for signal in &mut signals {
            if for_signals.send(Message::Signal(signal)).is_err() {
                return;
            }
        }
    });
    std::thread::spawn(move || {
        loop {
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

struct Shown {
    app: App,
    back: Threads,
    guard: Guard,
    look: Look,
    drawn: Drawn,
    terminal: Terminal<CrosstermBackend<BufWriter<Stdout>>>,
}

impl Shown {
    fn new(showing: Showing, back: Threads, guard: Guard) -> io::Result<Shown> {
        let (w, h) = size()?;
        let terminal = Terminal::new(CrosstermBackend::new(BufWriter::new(io::stdout())))?;
        let mut app = App::new(Size { w, h });
        app.desk.keys = showing.keys;
        Ok(Shown { app, back, guard, look: showing.look, drawn: Drawn::default(), terminal })
    }

    fn run(&mut self, messages: &Receiver<Message>) -> io::Result<Ended> {
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
        let Shown { app, look, drawn, terminal, .. } = self;
        terminal.draw(|frame| {
            *drawn = draw(app, *look, frame.buffer_mut());
            if let Some(at) = drawn.cursor {
                frame.set_cursor_position(at);
            }
        })?;
        Ok(())
    }

    fn take(&mut self, message: Message) -> io::Result<Option<Ended>> {
        match message {
            Message::Told(reply) => self.input(Input::Told(reply)),
            Message::Event(event) => {
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
                Effect::Redraw => self.terminal.clear()?,
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

    fn come_back(&mut self) -> io::Result<()> {
        enter(self.guard.mouse)?;
        self.terminal.clear()
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
