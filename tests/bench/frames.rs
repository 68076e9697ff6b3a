//! The terminal interface over many things: the first frame, a key drawn, memory.
//!
//! What the thread that draws does is measured apart from what the season and the search do on
//! theirs; here one thread does both in turn.

use std::path::Path;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use brimful::model::id::{CountedIds, Ids, SeasonId};
use brimful::season::{Moment, Sqlite};
use brimful::tui::app::App;
use brimful::tui::app::desk::Effect;
use brimful::tui::app::key::{Input, Key};
use brimful::tui::app::room::Size;
use brimful::tui::back::{Keeper, Reply, Request};
use brimful::tui::draw::draw;
use brimful::tui::draw::look::Look;
use jiff::civil::date;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use crate::shelf::{file, resident, told};

const SIZE: Size = Size { w: 80, h: 24 };

/// Time on the clock: on a quiet machine that is what the one thread here uses, and finer than what
/// Linux tells of processor time.
fn used() -> Duration {
    static BEGAN: OnceLock<Instant> = OnceLock::new();
    BEGAN.get_or_init(Instant::now).elapsed()
}

struct Seat {
    app: App,
    keeper: Keeper<Sqlite>,
    buffer: Buffer,
    /// What the thread that draws used since it was last asked.
    drawing: Duration,
    /// What the season and the search used meanwhile.
    behind: Duration,
    first: Option<Duration>,
    began: Instant,
}

impl Seat {
    fn open(folder: &Path, things: usize) -> Seat {
        let began = Instant::now();
        let moment = || Moment { now_millis: 1_800_000_000_000, today: date(2027, 1, 15) };
        let id = SeasonId::new(CountedIds::new(1).fresh());
        let season = crate::season(Sqlite::open_or_create(&file(folder, things), id).unwrap());
        let mut seat = Seat {
            app: App::new(SIZE),
            keeper: Keeper::new(season, Box::new(moment), String::new()),
            buffer: Buffer::empty(Rect::new(0, 0, SIZE.w, SIZE.h)),
            drawing: Duration::ZERO,
            behind: Duration::ZERO,
            first: None,
            began,
        };
        let effects = seat.app.start();
        seat.carry_out(effects);
        seat
    }

    fn take(&mut self, input: Input) {
        let began = used();
        let effects = self.app.take(input);
        self.drawing += used().saturating_sub(began);
        self.carry_out(effects);
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            if let Effect::Ask(request) = effect {
                for reply in self.answers(request) {
                    self.take(Input::Told(Box::new(reply)));
                }
            }
        }
    }

    /// The first answer of all is drawn before the next one is waited for, as on a real screen.
    fn answers(&mut self, request: Request) -> Vec<Reply> {
        let (began, mut replies, mut effects) = (used(), Vec::new(), Vec::new());
        let Seat { app, keeper, buffer, first, began: start, .. } = self;
        keeper.answer(request, &mut |reply| {
            if first.is_none() {
                effects = app.take(Input::Told(Box::new(reply)));
                draw(app, Look::default(), buffer);
                *first = Some(start.elapsed());
            } else {
                replies.push(reply);
            }
        });
        self.behind += used().saturating_sub(began);
        self.carry_out(effects);
        replies
    }

    /// Presses a key and draws: what that used in front, and behind.
    fn key(&mut self, key: Key) -> (Duration, Duration) {
        (self.drawing, self.behind) = (Duration::ZERO, Duration::ZERO);
        self.take(Input::Key(key));
        let began = used();
        self.buffer.reset();
        draw(&self.app, Look::default(), &mut self.buffer);
        (self.drawing + used().saturating_sub(began), self.behind)
    }

    fn keys(&mut self, what: &str, keys: impl Iterator<Item = Key>) {
        let (mut front, mut behind): (Vec<_>, Vec<_>) = keys.map(|key| self.key(key)).unzip();
        told(&format!("{what}: drawn"), &mut front);
        told(&format!("{what}: season and search"), &mut behind);
    }
}

fn letters(words: &'static str, times: usize) -> impl Iterator<Item = Key> {
    let typed = move |_| words.chars().map(Key::Char).chain(words.chars().map(|_| Key::Backspace));
    (0..times).flat_map(typed)
}

/// Opens the interface over the file and uses it for a while.
pub fn look(folder: &Path, things: usize) {
    let mut seat = Seat::open(folder, things);
    println!("the terminal interface, {things} things");
    told("start to first frame with rows", &mut [seat.first.unwrap_or_default()]);
    println!("  memory with the interface open {:.1} MB", resident());
    seat.key(Key::BackTab);
    seat.keys("a row down", (0..200).map(|_| Key::Down));
    seat.key(Key::Char('/'));
    seat.keys("a letter in find", letters("teal notebook", 5));
    seat.key(Key::Esc);
    seat.key(Key::Char('a'));
    seat.keys("a letter in a line", letters("12 wooden combs 1.50 teal tote 4", 3));
    seat.key(Key::Esc);
    seat.key(Key::Esc);
    for key in [Key::Tab, Key::End, Key::Enter, Key::Enter] {
        seat.key(key);
    }
    seat.keys("Enter: one put in", (0..6).map(|_| Key::Enter));
    assert!(!seat.app.is_busy(), "every key was answered");
    println!("  memory at the end {:.1} MB", resident());
}
