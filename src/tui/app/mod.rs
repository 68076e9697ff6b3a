//! What is on the screens, and what each thing that comes in changes.
//!
//! [`App::take`] takes one input and gives the effects it has outside. While an act is on its way,
//! keys that would act wait in line: each acts on what the one before it left, however slow the disk.

pub mod action;
pub mod asked;
pub mod card;
pub mod careful;
pub mod desk;
pub mod doubts;
pub mod drawer;
pub mod drive;
pub mod filter;
pub mod fit;
pub mod haul;
pub mod hauls;
pub mod help;
pub mod history;
pub mod home;
pub mod hunting;
pub mod key;
pub mod keymap;
pub mod line;
pub mod list;
mod making;
mod needed;
pub mod night;
pub mod packing;
pub mod pasted;
pub mod plan;
pub mod pull;
pub mod review;
pub mod room;
pub mod screen;
pub mod seen;
pub mod table;
pub mod tote;
pub mod wrap;

pub mod common;
mod editor;
mod flight;
mod oneline;
mod told;

use std::collections::VecDeque;

use action::Action;
use desk::{Desk, Effect, Go};
use flight::Flight;
use home::Home;
use key::{Hit, Input, Key};
use keymap::{Gesture, Press};
use room::Size;
use screen::{Face, Screen};
use table::{Kind, Row};

use super::back::{Ask, Request};

/// All that is on the screens.
pub struct App {
    /// What all screens share.
    pub desk: Desk,
    /// The screens, home first; the last one is in sight.
    pub screens: Vec<Screen>,
    flight: Flight,
    waiting: VecDeque<Input>,
    shown: Vec<Ask>,
    drafted: String,
}

impl App {
    /// A program just started in a terminal of this size.
    pub fn new(size: Size) -> App {
        App {
            desk: Desk::new(size),
            screens: vec![Screen::Home(Home::default())],
            flight: Flight::default(),
            waiting: VecDeque::new(),
            shown: Vec::new(),
            drafted: String::new(),
        }
    }

    /// What is to be asked first.
    pub fn start(&mut self) -> Vec<Effect> {
        self.flight.answers += 1;
        vec![Effect::Ask(Request::Start)]
    }

    /// The screen in sight.
    pub fn top(&self) -> &dyn Face {
        self.screens[self.screens.len() - 1].face()
    }

    /// The program is being ended from outside: half-written words are kept already.
    pub fn shut(&mut self) {
        self.desk.shut_line();
    }

    /// The keys that stand at the foot while one looks, with their words.
    pub fn foot(&self) -> impl Iterator<Item = (&'static Row, &'static str)> {
        let (kind, part) = (self.top().kind(), self.top().part());
        let greets = kind == Kind::Home && self.desk.seen.is_new();
        table::foot(kind, if greets { table::GREETING } else { part })
    }

    /// How keys are taken at the moment.
    pub fn gesture(&self) -> Gesture {
        match (&self.desk.asked, &self.desk.line) {
            (Some(_), _) => Gesture::Asked,
            (None, Some(_)) => Gesture::Writing,
            (None, None) => Gesture::Looking,
        }
    }

    /// Whether something is still on its way.
    pub fn is_busy(&self) -> bool {
        self.flight.is_busy() || !self.waiting.is_empty()
    }

    /// Takes what comes in, and tells what is to be done outside.
    pub fn take(&mut self, input: Input) -> Vec<Effect> {
        match input {
            Input::Told(reply) => self.told(*reply),
            input if self.must_wait(&input) => self.waiting.push_back(input),
            input => self.handle(input),
        }
        self.settle();
        while let Some(input) = self.next_waiting() {
            self.handle(input);
            self.settle();
        }
        std::mem::take(&mut self.desk.out)
    }

    fn next_waiting(&mut self) -> Option<Input> {
        let waits = self.waiting.front().is_some_and(|input| self.needs_news(input));
        if waits { None } else { self.waiting.pop_front() }
    }

    fn must_wait(&self, input: &Input) -> bool {
        let at_once = match input {
            Input::Resize(..) => true,
            Input::Key(key) => matches!(
                self.press_of(*key).map(|press| press.action),
                Some(Action::LeaveNow | Action::Suspend | Action::Redraw)
            ),
            _ => false,
        };
        !at_once && (!self.waiting.is_empty() || self.needs_news(input))
    }

    /// Whether an input acts on what is still on its way.
    fn needs_news(&self, input: &Input) -> bool {
        if !self.flight.is_busy() {
            return false;
        }
        match input {
            Input::Key(key) => match self.press_of(*key).map(|press| press.action) {
                None | Some(Action::LineCaret | Action::LineErase) => false,
                // A screen whose act is on its way is left only when that is answered: it may keep words.
                Some(Action::Back) => self.gesture() == Gesture::Looking,
                Some(_) => true,
            },
            Input::Resize(..) | Input::Wheel(_) | Input::Told(_) => false,
            Input::Paste(_) | Input::Edited(_) | Input::Click(_) => true,
        }
    }

    fn press_of(&self, key: Key) -> Option<Press> {
        self.desk.keys.press(key, self.gesture())
    }

    fn handle(&mut self, input: Input) {
        match input {
            Input::Key(key) => self.key(key),
            Input::Paste(text) => self.paste(&text),
            Input::Edited(text) => self.edited(text),
            Input::Click(hit) => self.click(hit),
            Input::Wheel(rows) => self.wheel(rows),
            Input::Resize(w, h) => self.desk.size = Size { w, h },
            Input::Told(reply) => self.told(*reply),
        }
    }

    fn key(&mut self, key: Key) {
        match (self.press_of(key), self.gesture(), key) {
            (Some(press), ..) => self.press(press),
            (None, Gesture::Writing, Key::Char(c)) => self.write(&c.to_string()),
            // Whatever isn't an answer goes back to the words and does no more.
            (None, Gesture::Asked, _) => self.desk.asked = None,
            _ => {}
        }
    }

    fn write(&mut self, text: &str) {
        if let Some(line) = &mut self.desk.line {
            line.write(text);
        }
    }

    fn paste(&mut self, text: &str) {
        let lines = text.lines().filter(|line| !line.trim().is_empty()).count();
        if lines > 1 {
            self.desk.asked = None;
            pasted::open(text, &mut self.desk, &self.screens);
        } else {
            self.desk.asked = None;
            if self.desk.line.is_none() {
                self.press(Press::named(Action::Bought));
                self.settle();
            }
            self.write(text.trim_end_matches(['\n', '\r']));
        }
    }

    fn click(&mut self, hit: Hit) {
        match hit {
            Hit::Press(key) => self.key(key),
            Hit::Line => self.press(Press::named(Action::Bought)),
            Hit::Offer(row) => {
                let Some(line) = &mut self.desk.line else { return };
                if line.marked == row {
                    self.press(Press::named(Action::LineDo));
                } else {
                    line.mark(row.cast_signed() - line.marked.cast_signed());
                }
            }
            Hit::Row { part, row } => self.click_row(part, row),
        }
    }

    /// A click selects; a second click on the same row opens.
    fn click_row(&mut self, part: usize, row: usize) {
        if self.gesture() != Gesture::Looking {
            return;
        }
        let App { desk, screens, .. } = self;
        let Some(screen) = screens.last_mut() else { return };
        let face = screen.face_mut();
        let again = face.part() == part && face.list(part).row() == row;
        face.take_part(part);
        screen::go(face, desk, |list, rows| list.go(rows, row));
        if again {
            self.press(Press::named(Action::Open));
        }
    }

    fn wheel(&mut self, rows: isize) {
        if let Some(line) = &mut self.desk.line {
            return line.mark(rows.signum());
        }
        let App { desk, screens, .. } = self;
        if let Some(screen) = screens.last_mut() {
            screen::go(screen.face_mut(), desk, |list, of| list.step(of, rows));
        }
    }

    /// After each step: goes where a screen wanted to go, and makes good what no longer fits.
    fn settle(&mut self) {
        loop {
            self.follow();
            let App { desk, screens, .. } = self;
            if let Some(screen) = screens.last_mut() {
                screen.face_mut().settle(desk);
            }
            if self.desk.go.is_empty() {
                break;
            }
        }
        self.send_deeds();
        self.begun_comes_back();
        self.ask_for_windows();
        self.look_for_offers();
        self.keep_drafts();
    }

    fn follow(&mut self) {
        for go in std::mem::take(&mut self.desk.go) {
            match go {
                Go::To(screen) => {
                    // What a screen has reckoned is for whoever looks at it; it goes on when it is in sight again.
                    self.desk.halt();
                    // What it shows was perhaps shown elsewhere before; it has not seen it.
                    let wants = screen.face().wants(&self.desk);
                    self.shown.retain(|ask| !wants.contains(ask));
                    self.screens.push(*screen);
                }
                Go::Back if self.screens.len() > 1 => {
                    self.desk.halt();
                    self.screens.pop();
                }
                Go::Back => {}
            }
        }
    }

    fn refuse(&mut self, why: String) {
        // Moving on at the end of a list is no mistake: an empty reason is silent.
        if !why.is_empty() {
            self.desk.refuse(why);
        }
    }
}
