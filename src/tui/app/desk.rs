//! What all screens share: what was told, the open line, the question that stands, what was said,
//! and what is to be done next. A screen changes itself and this, and nothing else.

use std::collections::{BTreeMap, BTreeSet};

use super::action::Action;
use super::asked::Asked;
use super::hunting;
use super::keymap::Keymap;
use super::line::{Line, Purpose};
use super::room::Size;
use super::screen::Screen;
use super::seen::Seen;
use crate::model::id::{BoxId, LotId};
use crate::season::Ware;
use crate::tui::back::{Deed, Halt, Request, Task, Work};

/// How a sentence is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tone {
    /// It tells something.
    #[default]
    Plain,
    /// Something was done, and can be taken back.
    Done,
    /// Something was taken back, and can be brought again.
    Undone,
    /// Something can't be done, and why.
    No,
}

/// The sentence that stands until the next act.
#[derive(Debug, Clone, Default)]
pub struct Said {
    /// The sentence.
    pub text: String,
    /// What follows from it.
    pub notes: String,
    /// How it is meant.
    pub tone: Tone,
}

/// What the program does outside its own state.
#[derive(Debug)]
pub enum Effect {
    /// Ask the season or the search.
    Ask(Request),
    /// End.
    Leave,
    /// Stop until one is wanted again.
    Suspend,
    /// Draw every cell anew.
    Redraw,
    /// Go over to the sample.
    Sample,
    /// Let these words be changed in an editor; what comes of it comes in as [`super::key::Input::Edited`].
    Edit(String),
}

/// Where to go next.
#[derive(Debug)]
pub enum Go {
    /// To a screen above this one.
    To(Box<Screen>),
    /// Back to the one beneath.
    Back,
}

/// What all screens share.
pub struct Desk {
    /// The terminal's size.
    pub size: Size,
    /// Which keys do what.
    pub keys: Keymap,
    /// What was told.
    pub seen: Seen,
    /// The open line.
    pub line: Option<Line>,
    /// The line that was open when an action was asked for by name.
    pub(super) under: Option<Line>,
    /// The question that stands.
    pub asked: Option<Asked>,
    /// The answer row.
    pub said: Said,
    /// The box that is being packed.
    pub here: Option<BoxId>,
    /// The box chosen at home.
    pub chosen_box: Option<BoxId>,
    /// The batch whose words are awaited, to be mended.
    pub mending: Option<LotId>,
    /// Boxes ticked for the next act.
    pub ticked: BTreeSet<BoxId>,
    /// What was searched for last.
    pub sought: String,
    /// The box that was asked to be closed though it isn't full: asked again, it is closed.
    pub closing: Option<BoxId>,
    /// Half-written words by what they are for.
    pub kept: BTreeMap<&'static str, String>,
    /// What is being reckoned: which, and how to end it.
    working: Option<(u64, Halt)>,
    turns: u64,
    pub(super) deeds: Vec<Deed>,
    pub(super) go: Vec<Go>,
    pub(super) out: Vec<Effect>,
}

impl Desk {
    /// An empty desk.
    pub fn new(size: Size) -> Desk {
        Desk {
            size,
            keys: Keymap::default(),
            seen: Seen::default(),
            line: None,
            under: None,
            asked: None,
            said: Said::default(),
            here: None,
            chosen_box: None,
            mending: None,
            ticked: BTreeSet::new(),
            sought: String::new(),
            closing: None,
            kept: BTreeMap::new(),
            working: None,
            turns: 0,
            deeds: Vec::new(),
            go: Vec::new(),
            out: Vec::new(),
        }
    }

    /// How an action is done, in a sentence: its key, or its name behind a colon.
    pub fn key(&self, action: Action) -> String {
        self.keys.told(action)
    }

    /// Has something done.
    pub fn act(&mut self, deed: Deed) {
        self.deeds.push(deed);
    }

    /// Has something reckoned; what was being reckoned before ends. Gives the number that its answers carry.
    pub fn reckon(&mut self, work: Work) -> u64 {
        self.halt();
        self.turns += 1;
        let (turn, halt) = (self.turns, Halt::default());
        self.working = Some((turn, halt.clone()));
        self.out.push(Effect::Ask(Request::Work(Task { turn, halt, work })));
        turn
    }

    /// Whether this is being reckoned still.
    pub fn is_reckoning(&self, turn: u64) -> bool {
        self.working.as_ref().is_some_and(|(working, _)| *working == turn)
    }

    /// Ends what is being reckoned.
    pub fn halt(&mut self) {
        if let Some((_, halt)) = self.working.take() {
            halt.now();
        }
    }

    /// It came to its end by itself.
    pub(super) fn work_ended(&mut self, turn: u64) {
        self.working.take_if(|(working, _)| *working == turn);
    }

    /// Tells something.
    pub fn say(&mut self, text: impl Into<String>) {
        self.said = Said { text: text.into(), notes: String::new(), tone: Tone::Plain };
    }

    /// Says why something can't be done.
    pub fn refuse(&mut self, why: impl Into<String>) {
        self.said = Said { text: why.into(), notes: String::new(), tone: Tone::No };
    }

    /// Goes to a screen above this one.
    pub fn go_to(&mut self, screen: Screen) {
        self.go.push(Go::To(Box::new(screen)));
    }

    /// Goes back to the screen beneath.
    pub fn go_back(&mut self) {
        self.go.push(Go::Back);
    }

    /// Opens the line; words that were half written for it are there again.
    pub fn open_line(&mut self, purpose: Purpose) {
        let words = purpose.kept_as().and_then(|name| self.kept.get(name).cloned()).unwrap_or_default();
        self.open_line_with(purpose, words);
    }

    /// Opens the line with words in it.
    pub fn open_line_with(&mut self, purpose: Purpose, words: impl Into<String>) {
        self.shut_line();
        self.under = None;
        self.line = Some(Line::new(purpose, words));
    }

    /// Shuts the line and keeps its words for next time, where that makes sense.
    pub fn shut_line(&mut self) {
        self.asked = None;
        if let Some(line) = self.line.take()
            && let Some(name) = line.purpose.kept_as()
        {
            self.keep(name, line.words());
        }
    }

    /// Shuts the line; what it said is done.
    pub fn end_line(&mut self) {
        self.asked = None;
        if let Some(name) = self.line.take().and_then(|line| line.purpose.kept_as()) {
            self.kept.remove(name);
        }
    }

    /// Reads the words of the open line anew.
    pub fn read_line(&mut self, priced: bool) {
        if let Some(line) = &mut self.line {
            hunting::read(line, &self.seen, priced);
        }
    }

    /// Keeps half-written words.
    pub fn keep(&mut self, name: &'static str, words: &str) {
        if words.trim().is_empty() {
            self.kept.remove(name);
        } else {
            self.kept.insert(name, words.to_owned());
        }
    }

    /// The ticked boxes that are still there, in order; where none is ticked, this one.
    pub fn ticked_or(&self, one: Option<BoxId>) -> Vec<BoxId> {
        let boxes = self.seen.boxes().iter().map(|line| line.giftbox);
        let ticked: Vec<BoxId> = boxes.filter(|id| self.ticked.contains(id)).collect();
        if ticked.is_empty() { one.into_iter().collect() } else { ticked }
    }

    /// Ticks a box, or no longer.
    pub fn tick(&mut self, id: BoxId) {
        if !self.ticked.remove(&id) {
            self.ticked.insert(id);
        }
    }

    /// Ticks all of these, or none if all are ticked.
    pub fn tick_all(&mut self, ids: &[BoxId]) {
        if ids.iter().all(|id| self.ticked.contains(id)) {
            self.ticked.clear();
        } else {
            self.ticked.extend(ids);
        }
    }

    /// Puts one of a thing into each ticked box, or into this one.
    pub fn put_each(&mut self, ware: &Ware, one: Option<BoxId>, aside: bool) -> Result<(), String> {
        let boxes = self.ticked_or(one);
        if boxes.is_empty() {
            let tick = self.key(Action::Tick);
            return Err(format!("Into which box? Tick boxes with {tick}, or choose one under Boxes."));
        }
        if ware.free() == 0 {
            return Err(format!("None of {} is left that isn't held for a box.", ware.title));
        }
        self.act(Deed::Each { boxes, lots: ware.lots.to_vec(), aside, sure: false });
        Ok(())
    }
}
