//! Keys, pastes, clicks and sizes at random: whatever comes in, the screen stands and the season's laws hold.

use std::collections::BTreeMap;

use brimful::model::commit::Holdings;
use brimful::model::id::LotId;
use brimful::model::measure::Units;
use brimful::model::money::Money;
use brimful::season::{Memory, Season};
use brimful::store::Store;
use brimful::tui::app::action::Action;
use brimful::tui::app::desk::Tone;
use brimful::tui::app::key::{Input, Key};
use brimful::tui::app::table::{self, TABLE};
use brimful::tui::draw::canvas::Drawn;
use brimful::tui::draw::draw;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use crate::dice::Dice;
use crate::table::Table;

/// Inputs of one run.
const INPUTS: usize = 5_000;
/// After how many inputs the screen is drawn.
const EVERY: usize = 3;
/// How many of the last inputs a failure tells.
const TOLD: usize = 150;

const HAULS: &[&str] = &[
    include_str!("../../sample/hauls/01-opening-count.txt"),
    include_str!("../../sample/hauls/02-winter-markdown.txt"),
    include_str!("../../sample/hauls/10-by-post.txt"),
    include_str!("../../sample/hauls/15-corner-bazaar-autumn.txt"),
];

/// Words that mean something somewhere, and words that mean nothing anywhere.
const WORDS: &[&str] = &[
    "12 toothbrushes 1.50 tote 4",
    "2 leggings 7-8 1.00 each navy, tote 3",
    "at Mill Lane Market, yesterday",
    "tax 0.60",
    "coupon 1.00",
    "receipt 14.62",
    "opening count, tote 7",
    "9 combs",
    "a doll free",
    "pencils 8s",
    "3 girl 6-8 ocean, teal and coral",
    "boy 3-5",
    "tote 3",
    "box 1",
    "12",
    "2",
    "0",
    "comb",
    "teal",
    "came back",
    "handed in",
    "unpack",
    "opening",
    "the drive",
    "another",
    "made-up",
    "3 hygiene",
    "2028-01-02",
    "(it matches)",
    "日本の箱 e\u{301} 👩‍👧 \u{200b}",
    "\u{1b}[2J\u{7}",
    "9999999999 x 99999999.99",
];

/// What people do, from wherever they are; `⏎ ⇥ ⎋ ↓` are those keys.
const HABITS: &[&str] = &[
    "a12 toothbrushes 1.50 tote 4⏎",
    "a4 notebooks, teal 2.00⏎6 combs .60⏎",
    "a3 pairs of socks girls 6-8 2.40 tote 2⏎",
    "aa soft ball free, tote 6⏎",
    "b2 girl 6-8 ocean, teal⏎",
    "bboy 3-5 farm⏎",
    "⏎⏎⏎⏎⏎⎋",
    "⏎z⏎⏎⎋",
    "⏎⇥+v-y",
    "r+⏎⏎",
    "r*+",
    "⇥⇥+⏎+",
    "⇥⇥z",
    "⇥⇥=3⏎",
    "⇥⇥ttote 9⏎",
    "⇥⇥x12⏎",
    "⇥⇥⏎e⏎",
    "T *⏎",
    "d+⏎⏎",
    "c c",
    "/comb⏎+",
    ":another⏎",
    ":unpack⏎",
    ":handed⏎:came⏎",
    ":the drive⏎↓↓e⎋",
    "f↓⇥xv↓x",
    "f⇥⏎4⏎1",
    "fs↓⎋y⎋=",
    "f⇥ne20 x 10 x 4 cm⏎",
];

struct Monkey {
    table: Table,
    dice: Dice,
    seed: u64,
    inputs: Vec<String>,
    drawn: Drawn,
}

impl Drop for Monkey {
    fn drop(&mut self) {
        if std::thread::panicking() {
            let from = self.inputs.len().saturating_sub(TOLD);
            println!("seed {}, input {}, the last of them:", self.seed, self.inputs.len());
            println!("{}", self.inputs[from..].join(" "));
        }
    }
}

impl Monkey {
    fn new(seed: u64) -> Monkey {
        let mut dice = Dice::new(seed);
        let table = if seed.is_multiple_of(2) {
            Table::empty()
        } else {
            let (w, h) = [(80, 24), (120, 40), (60, 16), (44, 11)][dice.between(0, 3) as usize];
            Table::sample(w, h)
        };
        Monkey { table, dice, seed, inputs: Vec::new(), drawn: Drawn::default() }
    }

    fn run(&mut self) {
        while self.inputs.len() < INPUTS {
            self.something();
        }
        self.table.answers_come();
        self.look();
    }

    fn something(&mut self) {
        match self.dice.between(0, 99) {
            0..=44 => {
                let key = self.bound_key();
                self.key(key);
            }
            45..=58 => self.write(),
            59..=64 => self.habit(),
            65..=70 => {
                let key = self.any_key();
                self.key(key);
            }
            71..=86 => self.click(),
            87..=90 => {
                let rows = isize::try_from(self.dice.between(0, 6)).unwrap() - 3;
                self.input(Input::Wheel(rows));
            }
            91..=93 => self.resize(),
            94 => self.paste(),
            95..=96 if !self.table.is_holding() => {
                self.inputs.push("<held>".to_owned());
                self.table.hold_answers();
            }
            _ => self.let_go(),
        }
    }

    fn input(&mut self, input: Input) {
        self.inputs.push(format!("{input:?}").chars().take(300).collect());
        self.table.input(input);
        assert!(self.table.troubles.is_empty(), "{:?}", self.table.troubles);
        if !self.table.is_holding() {
            assert!(!self.table.app.is_busy(), "all was answered, yet something is awaited");
        }
        if self.inputs.len().is_multiple_of(EVERY) {
            self.look();
        }
    }

    fn key(&mut self, key: Key) {
        self.input(Input::Key(key));
    }

    /// A key of the table of actions, of whatever gesture.
    fn bound_key(&mut self) -> Key {
        let mut row = self.dice.pick(TABLE).unwrap();
        if row.action == Action::Undo && self.dice.chance(80) {
            // Or hardly anything would be left.
            row = table::row(Action::Open).to_owned();
        }
        let keys: Vec<Key> = row.looking.iter().chain(row.writing).map(|(key, _)| *key).collect();
        self.dice.pick(&keys).unwrap_or(Key::Enter)
    }

    fn any_key(&mut self) -> Key {
        match self.dice.between(0, 5) {
            0 => Key::F(u8::try_from(self.dice.between(0, 13)).unwrap()),
            1 => Key::Ctrl(char::from(u8::try_from(self.dice.between(97, 122)).unwrap())),
            2 => self.dice.pick(&[Key::Backspace, Key::Delete, Key::BackTab, Key::Left, Key::Home]).unwrap(),
            3 => Key::Char(char::from_u32(self.dice.between(0, 0x2_ffff)).unwrap_or('é')),
            _ => Key::Char(char::from(u8::try_from(self.dice.between(32, 126)).unwrap())),
        }
    }

    fn write(&mut self) {
        if self.dice.chance(40) {
            self.key(Key::Ctrl('u'));
        }
        let words = self.dice.pick(WORDS).unwrap();
        for c in words.chars() {
            self.key(Key::Char(c));
        }
        let end = [Key::Enter, Key::Enter, Key::Enter, Key::Tab, Key::Down, Key::Esc, Key::Char(' ')];
        let key = self.dice.pick(&end).unwrap();
        self.key(key);
    }

    fn habit(&mut self) {
        (0..4).for_each(|_| self.key(Key::Esc));
        let keys = self.dice.pick(HABITS).unwrap();
        for c in keys.chars() {
            self.key(match c {
                '⏎' => Key::Enter,
                '⇥' => Key::Tab,
                '⎋' => Key::Esc,
                '↓' => Key::Down,
                c => Key::Char(c),
            });
        }
    }

    fn click(&mut self) {
        let size = self.table.app.desk.size;
        let zone = self.dice.pick(&self.drawn.zones);
        let spot = if self.dice.chance(80) { zone.map(|zone| (zone.area.x, zone.area.y)) } else { None };
        let (x, y) = spot.unwrap_or_else(|| {
            (short(self.dice.between(0, size.w.into())), short(self.dice.between(0, size.h.into())))
        });
        if let Some(hit) = self.drawn.hit(x, y) {
            self.input(Input::Click(hit));
        }
    }

    fn resize(&mut self) {
        let (w, h) = match self.dice.between(0, 4) {
            0 => (self.dice.between(1, 200), self.dice.between(1, 60)),
            1 => (self.dice.between(1, 45), self.dice.between(1, 12)),
            2 => (120, 36),
            _ => (80, 24),
        };
        self.input(Input::Resize(short(w), short(h)));
    }

    fn paste(&mut self) {
        let text = match self.dice.between(0, 9) {
            0 => self.dice.pick(HAULS).unwrap().to_owned(),
            1 if self.dice.chance(20) => {
                self.input(Input::Paste("longer than any line ".repeat(4_000)));
                self.look();
                return self.key(Key::Ctrl('u'));
            }
            2 => {
                let letters = (0..self.dice.between(0, 200)).map(|_| char::from_u32(self.dice.between(0, 0x3000)));
                letters.map(|letter| letter.unwrap_or('\n')).collect()
            }
            _ => {
                let lines: Vec<&str> = HAULS.iter().flat_map(|text| text.lines()).collect();
                let some = (0..self.dice.between(1, 6)).map(|_| self.dice.pick(&lines).unwrap());
                some.collect::<Vec<_>>().join("\n")
            }
        };
        self.input(Input::Paste(text));
    }

    fn let_go(&mut self) {
        self.inputs.push("<an answer>".to_owned());
        self.table.answer_comes();
        if self.dice.chance(50) {
            self.inputs.push("<all answers>".to_owned());
            self.table.answers_come();
        }
    }

    /// Draws, now and then into a window that has changed its size before the program heard of it.
    fn look(&mut self) {
        let size = self.table.app.desk.size;
        let (mut w, mut h) = (size.w, size.h);
        if self.dice.chance(2) {
            (w, h) = (short(self.dice.between(1, 90)), short(self.dice.between(1, 30)));
        }
        let mut buffer = Buffer::empty(Rect::new(0, 0, w, h));
        self.drawn = draw(&self.table.app, self.table.look, &mut buffer);
        if let Some((x, y)) = self.drawn.cursor {
            assert!(x < w && y < h, "the cursor stands at {x}, {y} of {w}×{h}");
        } else {
            assert!((w, h) != (size.w, size.h), "the cursor is nowhere:\n{}", self.table.screen());
        }
        for y in 0..h {
            let last = buffer[(w - 1, y)].symbol();
            assert!(last.width() <= 1, "a wide letter hangs over the edge: {last:?}");
        }
        let written = buffer.content.iter().flat_map(|cell| cell.symbol().chars());
        let odd = written.filter(|c| c.is_control()).collect::<Vec<_>>();
        assert!(odd.is_empty(), "control signs reached the screen: {odd:?}");
    }

    /// Everything is taken back, until nothing is left.
    fn take_all_back(&mut self) {
        for _ in 0..3 {
            (0..12).for_each(|_| self.key(Key::Esc));
        }
        for _ in 0..100_000 {
            self.key(Key::F(5));
            if self.table.app.desk.said.tone == Tone::No {
                return;
            }
        }
        panic!("there is no end to it");
    }
}

/// What must hold of a season whatever was done to it.
fn laws_hold(season: &Season<Memory>) {
    assert_eq!(season.check().unwrap().troubles.iter().map(|trouble| &trouble.what).collect::<Vec<_>>(), [""; 0]);
    let mut boxed: BTreeMap<LotId, (i64, Money)> = BTreeMap::new();
    for placed in season.store().placements().unwrap() {
        let sum = boxed.entry(placed.lot).or_insert((0, Money::ZERO));
        *sum = (sum.0 + count(placed.units), sum.1 + placed.cost);
    }
    for lot in season.store().lots().unwrap() {
        let s = &lot.standing;
        let parts = [s.on_hand_cost, s.boxed_cost, s.loose_cost, s.lost_cost, s.passed_cost];
        assert_eq!(lot.cost_in, parts.into_iter().sum(), "{lot:?}");
        assert!(parts.iter().all(|part| part.minor() >= 0), "{lot:?}");
        assert!(!s.on_hand.is_zero() || s.on_hand_cost.is_zero(), "{lot:?}");
        let out: i64 = [s.boxed, s.loose, s.lost, s.passed].map(count).iter().sum();
        assert_eq!(count(s.units_in), out + count(s.on_hand) - count(s.bare), "{lot:?}");
        assert_eq!((count(s.boxed), s.boxed_cost), boxed.remove(&lot.lot).unwrap_or((0, Money::ZERO)), "{lot:?}");
    }
    assert!(boxed.is_empty(), "things in boxes of batches that are not there");
}

fn count(units: Units) -> i64 {
    i64::from(units.count())
}

fn shelf_is_true(table: &Table) {
    let anew = table.keeper.season().shelf().unwrap();
    assert_eq!(table.app.desk.seen.shelf.wares(), anew.wares());
    assert_eq!(table.app.desk.seen.shelf, anew);
}

/// Five runs; the last of them is taken back to the first day.
fn runs(first: u64) {
    let mut acts = BTreeMap::<bool, usize>::new();
    for seed in first..first + 5 {
        let mut monkey = Monkey::new(seed);
        monkey.run();
        laws_hold(monkey.table.keeper.season());
        shelf_is_true(&monkey.table);
        for act in monkey.table.keeper.season().store().acts(usize::MAX).unwrap() {
            *acts.entry(act.live).or_default() += 1;
        }
        if seed == first + 4 {
            monkey.take_all_back();
            laws_hold(monkey.table.keeper.season());
            shelf_is_true(&monkey.table);
            let store = monkey.table.keeper.season().store();
            assert_eq!((store.lots().unwrap().len(), store.boxes().unwrap().len()), (0, 0));
            assert_eq!((store.placements().unwrap().len(), store.outs().unwrap().len()), (0, 0));
            assert_eq!((store.hauls().unwrap().len(), store.profile().unwrap()), (0, None));
        }
    }
    println!("acts that hold, and acts that were taken back: {acts:?}");
    let (held, undone) = (acts[&true], acts[&false]);
    assert!(held > 600 && undone > 40, "the monkey did next to nothing: {acts:?}");
}

#[test]
fn twenty_five_thousand_inputs() {
    runs(100);
}

#[test]
fn twenty_five_thousand_more() {
    runs(201);
}

#[test]
fn another_twenty_five_thousand() {
    runs(302);
}

#[test]
fn and_the_last_twenty_five_thousand() {
    runs(403);
}

fn short(number: u32) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}
