//! A kitchen table to test at: the program with a season in memory, keys in, screen out, and the
//! season and the search done inline. The day, the ids and the clock are always the same.

use std::collections::VecDeque;

use brimful::model::id::{CountedIds, DeviceId, Ids, SeasonId};
use brimful::season::{Desk, Memory, Moment, Season, fill_sample};
use brimful::tui::app::App;
use brimful::tui::app::desk::Effect;
use brimful::tui::app::key::{Hit, Input, Key};
use brimful::tui::app::room::Size;
use brimful::tui::back::{Keeper, Reply};
use brimful::tui::draw::canvas::Drawn;
use brimful::tui::draw::draw;
use brimful::tui::draw::look::Look;
use jiff::civil::{Date, date};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// The day on which all tests play.
pub const TODAY: Date = date(2027, 10, 14);

/// The program at work.
pub struct Table {
    /// What is on the screens.
    pub app: App,
    /// The season behind it.
    pub keeper: Keeper<Memory>,
    /// Colours and signs.
    pub look: Look,
    /// Effects that go outside, in order: leaving, suspending.
    pub outside: Vec<String>,
    /// Keys pressed so far, each letter counted.
    pub keys: usize,
    /// What the season complained of without having been asked wrongly: nothing, if all is well.
    pub troubles: Vec<String>,
    later: Option<VecDeque<Reply>>,
}

/// The same moment always.
pub fn moment() -> Moment {
    Moment { now_millis: 1_823_515_200_000, today: TODAY }
}

/// A season kept nowhere, with the built-in rules.
pub fn empty_season() -> Season<Memory> {
    let mut ids = CountedIds::new(7);
    let store = Memory::new(SeasonId::new(ids.fresh()));
    let device = DeviceId::new(ids.fresh());
    Season::new(store, Box::new(ids), Desk::Fixed { device, by: "mira".to_owned() }, moment())
}

impl Table {
    /// A table over a season, in a terminal of this size.
    pub fn over(season: Season<Memory>, w: u16, h: u16) -> Table {
        let keeper = Keeper::new(season, Box::new(moment), "season.brimful".to_owned());
        let mut table = Table {
            app: App::new(Size { w, h }),
            keeper,
            look: Look::default(),
            outside: Vec::new(),
            keys: 0,
            troubles: Vec::new(),
            later: None,
        };
        let effects = table.app.start();
        table.carry_out(effects);
        table
    }

    /// An empty season at 80×24.
    pub fn empty() -> Table {
        Table::over(empty_season(), 80, 24)
    }

    /// The sample at this size.
    pub fn sample(w: u16, h: u16) -> Table {
        let store = Memory::new(SeasonId::new(CountedIds::new(8).fresh()));
        Table::over(fill_sample(store).expect("the sample can be made"), w, h)
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                Effect::Ask(request) => {
                    let mut replies = VecDeque::new();
                    self.keeper.answer(request, &mut |reply| replies.push_back(reply));
                    self.troubles.extend(replies.iter().filter_map(trouble));
                    if let Some(later) = &mut self.later {
                        later.extend(replies);
                    } else {
                        for reply in replies {
                            self.input(Input::Told(Box::new(reply)));
                        }
                    }
                }
                other => self.outside.push(format!("{other:?}")),
            }
        }
    }

    /// From now on answers wait until [`Table::answers_come`].
    pub fn hold_answers(&mut self) {
        self.later = Some(VecDeque::new());
    }

    /// Whether answers wait.
    pub fn is_holding(&self) -> bool {
        self.later.is_some()
    }

    /// The first of the answers that wait comes.
    pub fn answer_comes(&mut self) {
        if let Some(reply) = self.later.as_mut().and_then(VecDeque::pop_front) {
            self.input(Input::Told(Box::new(reply)));
        }
    }

    /// The answers that waited come, one after another.
    pub fn answers_come(&mut self) {
        while let Some(reply) = self.later.as_mut().and_then(VecDeque::pop_front) {
            self.input(Input::Told(Box::new(reply)));
        }
        self.later = None;
    }

    /// Something comes in.
    pub fn input(&mut self, input: Input) {
        let effects = self.app.take(input);
        self.carry_out(effects);
    }

    /// Presses a key.
    pub fn key(&mut self, key: Key) -> &mut Table {
        self.keys += 1;
        self.input(Input::Key(key));
        self
    }

    /// Types words, letter by letter; `⏎ ⇥ ⎋ ↓ ↑ ← →` in it are those keys.
    pub fn keys(&mut self, text: &str) -> &mut Table {
        for c in text.chars() {
            self.key(match c {
                '⏎' => Key::Enter,
                '⇥' => Key::Tab,
                '⎋' => Key::Esc,
                '↓' => Key::Down,
                '↑' => Key::Up,
                '←' => Key::Left,
                '→' => Key::Right,
                c => Key::Char(c),
            });
        }
        self
    }

    /// Pastes a text.
    pub fn paste(&mut self, text: &str) -> &mut Table {
        self.keys += 1;
        self.input(Input::Paste(text.to_owned()));
        self
    }

    /// Clicks on what stands at a spot.
    pub fn click(&mut self, x: u16, y: u16) -> Option<Hit> {
        let (_, drawn) = self.drawn();
        let hit = drawn.hit(x, y)?;
        self.input(Input::Click(hit));
        Some(hit)
    }

    /// The terminal has another size.
    pub fn resize(&mut self, w: u16, h: u16) -> &mut Table {
        self.input(Input::Resize(w, h));
        self
    }

    /// The cells, and what drawing came to.
    pub fn drawn(&self) -> (Buffer, Drawn) {
        let size = self.app.desk.size;
        let mut buffer = Buffer::empty(Rect::new(0, 0, size.w, size.h));
        let drawn = draw(&self.app, self.look, &mut buffer);
        (buffer, drawn)
    }

    /// The rows of the screen as text, without blanks at their ends.
    pub fn rows(&self) -> Vec<String> {
        let (buffer, _) = self.drawn();
        (0..buffer.area.height).map(|y| row_of(&buffer, y)).collect()
    }

    /// The whole screen as text.
    pub fn screen(&self) -> String {
        self.rows().join("\n")
    }

    /// The row in which a text stands first.
    #[track_caller]
    pub fn row_with(&self, text: &str) -> String {
        let found = self.rows().into_iter().find(|row| row.contains(text));
        found.unwrap_or_else(|| panic!("no row has \"{text}\":\n{}", self.screen()))
    }

    /// Holds that the screen shows a text.
    #[track_caller]
    pub fn shows(&self, text: &str) -> &Table {
        assert!(self.screen().contains(text), "the screen lacks \"{text}\":\n{}", self.screen());
        self
    }

    /// Holds that the screen does not show a text.
    #[track_caller]
    pub fn lacks(&self, text: &str) -> &Table {
        assert!(!self.screen().contains(text), "the screen shows \"{text}\":\n{}", self.screen());
        self
    }

    /// The sentence that stands above the keys.
    pub fn said(&self) -> String {
        let said = &self.app.desk.said;
        if said.notes.is_empty() { said.text.clone() } else { format!("{} {}", said.text, said.notes) }
    }

    /// The selected row, by its marker.
    #[track_caller]
    pub fn selected(&self) -> String {
        self.row_with("▸")
    }

    /// Holds that the row that was selected before a question or the line came has a text.
    #[track_caller]
    pub fn selected_or_was(&self, text: &str) -> &Table {
        let row = self.row_with("▹");
        assert!(row.contains(text), "\"{row}\" lacks \"{text}\"");
        self
    }

    /// Holds that the selected row has a text.
    #[track_caller]
    pub fn selected_has(&self, text: &str) -> &Table {
        let row = self.selected();
        assert!(row.contains(text), "\"{row}\" lacks \"{text}\"");
        self
    }
}

fn trouble(reply: &Reply) -> Option<String> {
    match reply {
        Reply::Trouble(why) | Reply::Aside(why) => Some(why.clone()),
        _ => None,
    }
}

fn row_of(buffer: &Buffer, y: u16) -> String {
    let mut row = String::new();
    let mut skip = 0;
    for x in 0..buffer.area.width {
        let symbol = buffer[(x, y)].symbol();
        if skip > 0 {
            skip -= 1;
            continue;
        }
        row.push_str(symbol);
        skip = unicode_width::UnicodeWidthStr::width(symbol).saturating_sub(1);
    }
    row.trim_end().to_owned()
}

/// The units in a box.
#[track_caller]
pub fn in_all(table: &Table, label: &str) -> u32 {
    table.keeper.season().box_card(label).expect("the box is there").line.things
}

/// The units of a thing in a box, by what it is called just so.
#[track_caller]
pub fn held(table: &Table, label: &str, name: &str) -> u32 {
    let card = table.keeper.season().box_card(label).expect("the box is there");
    card.contents.iter().filter(|held| held.name == name).map(|held| held.units).sum()
}

/// The units of a thing set aside for a box.
#[track_caller]
pub fn aside(table: &Table, label: &str, name: &str) -> u32 {
    let card = table.keeper.season().box_card(label).expect("the box is there");
    card.contents.iter().filter(|held| held.name == name).map(|held| held.aside).sum()
}
