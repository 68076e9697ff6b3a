//! A disk that takes its time: nothing typed waits for it, nothing is lost, and all comes in order.
//!
//! The season is on its own thread behind a gate, so that no clock decides what comes first.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use brimful::model::id::{CountedIds, Ids, SeasonId};
use brimful::season::{Desk, Season, Sqlite, State};
use brimful::store::Store;
use brimful::tui::app::App;
use brimful::tui::app::desk::{Effect, Tone};
use brimful::tui::app::key::{Input, Key};
use brimful::tui::app::room::Size;
use brimful::tui::back::{Back, Keeper, Reply, Threads};
use brimful::tui::draw::draw;
use brimful::tui::draw::look::Look;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use tempfile::TempDir;

use crate::slow::{Gate, LOST, Slow};
use crate::table::moment;

/// The program over a file behind a gate, its threads as on a terminal.
struct Evening {
    app: App,
    back: Option<Threads>,
    replies: Receiver<Reply>,
    gate: Gate,
    folder: TempDir,
    left: bool,
    /// Acts that were answered.
    answered: usize,
}

fn season<S: Store>(folder: &TempDir, store: S) -> Season<S> {
    let desk = Desk::Computer { state: State::new(folder.path().join("state")), by: "mira".to_owned() };
    Season::new(store, Box::new(CountedIds::new(5)), desk, moment())
}

fn file(folder: &TempDir) -> Sqlite {
    let path: PathBuf = folder.path().join("season.brimful");
    Sqlite::open_or_create(&path, SeasonId::new(CountedIds::new(6).fresh())).unwrap()
}

impl Evening {
    fn new() -> Evening {
        let folder = tempfile::tempdir().unwrap();
        let gate = Gate::default();
        let store = Slow { store: file(&folder), gate: gate.clone() };
        let keeper = Keeper::new(season(&folder, store), Box::new(moment), "season.brimful".to_owned());
        let (send, replies) = channel();
        let back = Threads::start(keeper, move |reply| _ = send.send(reply));
        let app = App::new(Size { w: 80, h: 24 });
        let mut evening = Evening { app, back: Some(back), replies, gate, folder, left: false, answered: 0 };
        let effects = evening.app.start();
        evening.carry_out(effects);
        evening.until_quiet();
        evening
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                Effect::Ask(request) => self.back.as_mut().unwrap().ask(request),
                Effect::Leave => self.left = true,
                _ => {}
            }
        }
    }

    fn take(&mut self, input: Input) {
        let effects = self.app.take(input);
        self.carry_out(effects);
    }

    /// Types, and hears of no answer.
    fn keys(&mut self, text: &str) -> &mut Evening {
        for c in text.chars() {
            self.take(Input::Key(match c {
                '⏎' => Key::Enter,
                '⎋' => Key::Esc,
                '⌧' => Key::Ctrl('c'),
                '↶' => Key::F(5),
                c => Key::Char(c),
            }));
        }
        self
    }

    /// Takes answers until none is awaited.
    fn until_quiet(&mut self) {
        while self.app.is_busy() {
            let reply = self.replies.recv_timeout(LOST).unwrap();
            self.answered += usize::from(matches!(reply, Reply::Did(..)));
            self.take(Input::Told(Box::new(reply)));
        }
    }

    /// Enter waits for the search that its words began: takes answers until so many acts are at the gate.
    fn until_at_gate(&mut self, acts: usize) {
        let began = Instant::now();
        while self.gate.came() < acts {
            assert!(began.elapsed() < LOST, "only {} acts came", self.gate.came());
            if let Ok(reply) = self.replies.recv_timeout(Duration::from_millis(5)) {
                self.take(Input::Told(Box::new(reply)));
            }
        }
    }

    fn screen(&self) -> String {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 80, 24));
        draw(&self.app, Look::default(), &mut buffer);
        buffer.content.iter().map(ratatui::buffer::Cell::symbol).collect()
    }

    fn words(&self) -> &str {
        self.app.desk.line.as_ref().map_or("", |line| line.words())
    }

    /// Leaves, and looks at what the file and the state folder hold then.
    fn kept(mut self) -> Kept {
        self.back.take().unwrap().finish();
        let season = season(&self.folder, file(&self.folder));
        let mut names: Vec<String> = Vec::new();
        season.store().each_lot(&mut |lot| names.push(lot.facts.name)).unwrap();
        names.sort();
        let hauls = season.store().hauls().unwrap().len();
        let mut said: Vec<String> = season.history(99).unwrap().steps.into_iter().map(|step| step.what).collect();
        said.reverse();
        Kept { names, hauls, said, draft: season.kept_draft().unwrap().unwrap_or_default() }
    }
}

/// What is there afterwards.
struct Kept {
    names: Vec<String>,
    hauls: usize,
    said: Vec<String>,
    draft: String,
}

#[test]
fn letters_are_drawn_while_an_act_is_on_its_way() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    let mut drawn = 0;
    let text = "7 soaps .70";
    for (end, c) in text.char_indices() {
        evening.keys(&c.to_string());
        drawn += usize::from(evening.screen().contains(&format!("bought › {}", &text[..=end])));
    }
    assert_eq!((drawn, evening.answered), (11, 0), "each letter was drawn, and the act was not answered yet");
    evening.take(Input::Key(Key::Backspace));
    assert_eq!(evening.words(), "7 soaps .7", "rubbing out waits for nothing either");
    evening.gate.let_through(1);
    evening.until_quiet();
    assert_eq!((evening.answered, evening.words()), (1, "7 soaps .7"), "the answer leaves the words alone");
    assert!(evening.screen().contains("Logged 1 line, 1.50 paid"), "{}", evening.screen());
    assert_eq!(evening.kept().names, ["combs"]);
}

#[test]
fn keys_that_act_wait_and_come_in_order() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    evening.keys("7 soaps .70⏎3 cups .90⏎↶2 rulers .40⏎");
    assert_eq!(evening.gate.came(), 1, "the others wait for it");
    assert_eq!(evening.words(), "7 soaps .70", "what waits to be done stands in the line");
    evening.gate.let_through(5);
    evening.until_quiet();
    assert_eq!((evening.answered, evening.words()), (5, ""));
    let kept = evening.kept();
    assert_eq!(kept.names, ["combs", "rulers", "soaps"], "the cups were taken back");
    assert_eq!(kept.hauls, 1, "each line goes on with the haul that the one before it began");
    assert_eq!(kept.said.len(), 4, "{:?}", kept.said);
}

#[test]
fn leaving_keeps_the_act_on_its_way_and_the_words_behind_it() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    evening.keys("7 soaps .70⏎⌧");
    assert!(evening.left, "one can leave at once");
    assert_eq!(evening.answered, 0, "though the act is not answered");
    evening.gate.let_through(1);
    let kept = evening.kept();
    assert_eq!(kept.names, ["combs"], "it is kept all the same");
    assert_eq!(kept.draft, "bought\t7 soaps .70\n", "and what was not sent yet waits for next time");
}

#[test]
fn what_fails_comes_back_into_the_line() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    assert_eq!(evening.words(), "");
    evening.gate.let_fail();
    evening.until_quiet();
    assert_eq!((evening.words(), evening.app.desk.said.tone), ("12 combs 1.50", Tone::No));
    assert!(evening.screen().contains("the disk is full; nothing of this was saved"), "{}", evening.screen());
    evening.gate.let_through(1);
    evening.keys("⏎").until_quiet();
    assert_eq!(evening.words(), "");
    assert_eq!(evening.kept().names, ["combs"], "saved once");
}

#[test]
fn what_fails_does_not_cost_what_was_begun_since() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    evening.keys("7 so");
    evening.gate.let_fail();
    evening.until_quiet();
    assert_eq!(evening.words(), "12 combs 1.50", "first what failed");
    evening.gate.let_through(1);
    evening.keys("⏎").until_quiet();
    assert_eq!(evening.words(), "7 so", "then what was begun");
    evening.gate.let_through(1);
    evening.keys("aps .70⏎").until_quiet();
    assert_eq!(evening.kept().names, ["combs", "soaps"]);
}

#[test]
fn a_key_that_waits_for_a_refused_act_still_does_its_own() {
    let mut evening = Evening::new();
    evening.keys("a12 combs 1.50⏎");
    evening.until_at_gate(1);
    evening.keys("⎋b2 girl 6-8⏎");
    evening.gate.let_fail();
    evening.gate.let_through(2);
    evening.until_quiet();
    let kept = evening.kept();
    assert!(kept.names.is_empty(), "the combs were refused");
    assert_eq!(kept.draft, "bought\t12 combs 1.50\n", "and their words wait");
    assert_eq!(kept.said.len(), 1, "the boxes were planned: {:?}", kept.said);
}
