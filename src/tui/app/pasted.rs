//! Many lines at once: looked through, doubts settled one after another, then kept as one act.

use super::action::Action;
use super::asked::Answer;
use super::desk::Desk;
use super::doubts::{self, Next};
use super::haul::Haul;
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, Rows};
use super::screen::{Face, No, Screen, go, one_list};
use super::table::Kind;
use crate::model::money::Money;
use crate::model::text::counted;
use crate::season::{About, Entry, LogHow, Outcome as Read, Reading};
use crate::tui::back::{Deed, Outcome};

/// A pasted line.
#[derive(Debug, Clone)]
pub struct PastedLine {
    /// Its words.
    pub words: String,
    /// What was understood.
    pub entry: Option<Entry>,
    /// Doubts to which nobody knows the answer.
    pub left: Vec<About>,
    /// It is left out.
    pub out: bool,
}

/// Lines to look through. Behind the last one stands the row that keeps them.
#[derive(Default)]
pub struct Pasted {
    /// The lines.
    pub lines: Vec<PastedLine>,
    list: List,
    how: LogHow,
    heading: String,
    asked_once: bool,
    settled: bool,
}

/// Opens a list of pasted lines, above the haul that they go on with.
pub fn open(text: &str, desk: &mut Desk, screens: &[Screen]) {
    if desk.line.as_ref().is_some_and(|line| line.purpose == Purpose::Bought) {
        // What stood in the line before belongs to it as well.
        let before = desk.line.as_ref().map(|line| line.words().trim().to_owned()).unwrap_or_default();
        desk.end_line();
        let text = if before.is_empty() { text.to_owned() } else { format!("{before}\n{text}") };
        return open_over(&text, desk, screens);
    }
    desk.shut_line();
    open_over(text, desk, screens);
}

fn open_over(text: &str, desk: &mut Desk, screens: &[Screen]) {
    if let Some(Screen::Pasted(_)) = screens.last() {
        desk.refuse("These lines first: Enter keeps them, Esc leaves them for later.");
        return;
    }
    match screens.last() {
        Some(Screen::Haul(haul)) => open_with(text, desk, haul),
        _ => go_to(Pasted::of(text, desk), desk),
    }
}

/// Opens a list of lines that go on with this haul.
pub fn open_with(text: &str, desk: &mut Desk, haul: &Haul) {
    let mut pasted = Pasted::of(text, desk);
    pasted.how = haul.how();
    pasted.heading = if pasted.how.onto.is_none() { haul.heading.clone() } else { String::new() };
    pasted.read(desk);
    go_to(pasted, desk);
}

fn go_to(pasted: Pasted, desk: &mut Desk) {
    if pasted.lines.iter().all(|line| matches!(line.entry, Some(Entry::Line(Read::Refused(_))))) {
        desk.refuse("Nothing in it can be read: every line is over 500 letters.");
        return;
    }
    desk.go_to(Screen::Pasted(pasted));
}

impl Pasted {
    /// The lines of a text.
    pub fn of(text: &str, desk: &Desk) -> Pasted {
        let lines = text.lines().map(|line| line.chars().filter(|c| !c.is_control()).collect::<String>());
        let lines = lines.map(|line| line.trim().to_owned()).filter(|line| !line.is_empty());
        let mut pasted = Pasted { lines: lines.map(line_of).collect(), ..Pasted::default() };
        pasted.read(desk);
        pasted
    }

    /// Reads all lines anew; behind an opening count no price is asked.
    fn read(&mut self, desk: &Desk) {
        let Some(reader) = &desk.seen.reader else { return };
        let mut priced = !self.how.opening && !self.heading.starts_with("opening");
        for (at, line) in self.lines.iter_mut().enumerate() {
            line.entry = reader.entry(&line.words, priced).map(|entry| numbered(entry, at + 1));
            if let Some(Entry::Head(crate::season::Head::Opening { .. })) = &line.entry {
                priced = false;
            }
        }
    }

    /// Whether a line may be kept as it stands.
    pub fn is_clear(&self, at: usize, desk: &Desk) -> bool {
        self.lines.get(at).is_none_or(|line| {
            line.out || line.entry.as_ref().is_some_and(|entry| doubts::is_clear(entry, &line.left, &desk.seen))
        })
    }

    /// How many lines are kept, and what they come to.
    pub fn sum(&self) -> (usize, Money) {
        let kept = self.lines.iter().filter(|line| !line.out).filter_map(reading);
        kept.fold((0, Money::ZERO), |(count, sum), reading| (count + 1, sum + reading.paid.unwrap_or(Money::ZERO)))
    }

    /// The row that keeps them: `Save 40 lines, 61.35`.
    pub fn save_words(&self, desk: &Desk) -> String {
        let (count, sum) = self.sum();
        let doubts = (0..self.lines.len()).filter(|at| !self.is_clear(*at, desk)).count() as u64;
        let first = if doubts > 0 { format!(", after {}", counted(doubts, "doubt", "doubts")) } else { String::new() };
        format!("Save {}, {}{first}", counted(count as u64, "line", "lines"), sum.plain(desk.seen.currency()))
    }

    /// Goes to the next doubt and asks it; without one, to the row that keeps all.
    fn next_doubt(&mut self, desk: &mut Desk, from: usize) {
        let count = self.lines.len();
        let next = (0..count).map(|step| (from + step) % count.max(1)).find(|at| !self.is_clear(*at, desk));
        let row = next.unwrap_or(count);
        go(self, desk, |list, rows| list.go(rows, row));
        if next.is_some() {
            self.ask(desk);
        }
    }

    fn ask(&self, desk: &mut Desk) {
        let Some(line) = self.lines.get(self.list.row()).filter(|line| !line.out) else { return };
        let Some(entry) = &line.entry else { return };
        match doubts::next(entry, &line.left, &desk.seen) {
            Next::Ask(asked) => desk.asked = Some(*asked),
            Next::No(why) => {
                let (mend, away) = (desk.key(Action::Mend), desk.key(Action::Away));
                desk.refuse(format!("{why} {mend} mends it, {away} leaves it out."));
            }
            Next::Keep => {}
        }
    }

    fn save(&mut self, desk: &mut Desk) -> Result<(), No> {
        if let Some(at) = (0..self.lines.len()).find(|at| !self.is_clear(*at, desk)) {
            self.next_doubt(desk, at);
            return Ok(());
        }
        let kept: Vec<&str> = self.lines.iter().filter(|line| !line.out).map(|line| line.words.as_str()).collect();
        if kept.is_empty() {
            return Err("Every line is left out; Esc goes back.".to_owned());
        }
        let text = format!("{}\n{}", self.heading, kept.join("\n"));
        let open_price = self.lines.iter().any(|line| line.left.contains(&About::Paid));
        desk.act(Deed::Log { text, how: LogHow { open_price, ..self.how.clone() } });
        Ok(())
    }

    fn keep(&self, desk: &mut Desk) {
        let kept: Vec<&str> = self.lines.iter().filter(|line| !line.out).map(|line| line.words.as_str()).collect();
        desk.keep("pasted", &kept.join("\n"));
    }

    fn rewrite(&mut self, at: usize, words: &str, desk: &mut Desk) {
        if let Some(line) = self.lines.get_mut(at) {
            words.trim().clone_into(&mut line.words);
            self.read(desk);
            self.keep(desk);
        }
    }
}

fn line_of(words: String) -> PastedLine {
    PastedLine { words, entry: None, left: Vec::new(), out: false }
}

/// A line that can't be read says which of all it is.
fn numbered(entry: Entry, number: usize) -> Entry {
    match entry {
        Entry::Line(Read::Refused(mut refused)) => {
            refused.n = number;
            if let Some(rest) = refused.error.strip_prefix("Line 1 ") {
                refused.error = format!("Line {number} {rest}");
            }
            Entry::Line(Read::Refused(refused))
        }
        entry => entry,
    }
}

fn reading(line: &PastedLine) -> Option<&Reading> {
    match line.entry.as_ref()? {
        Entry::Line(Read::Read(reading)) => Some(reading),
        _ => None,
    }
}

impl Face for Pasted {
    fn kind(&self) -> Kind {
        Kind::Pasted
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.lines.len() + 1)
    }

    one_list!(list);

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        let row = self.list.row();
        match press.action {
            Action::Open if row >= self.lines.len() => self.save(desk),
            Action::Open if self.is_clear(row, desk) => {
                self.next_doubt(desk, row);
                Ok(())
            }
            Action::Open => {
                self.ask(desk);
                Ok(())
            }
            Action::NextWaiting => {
                self.next_doubt(desk, row + 1);
                Ok(())
            }
            Action::Mend => {
                let words = self.lines.get(row).map(|line| line.words.clone());
                let words = words.ok_or_else(|| "This row keeps the lines; Enter does it.".to_owned())?;
                desk.open_line_with(Purpose::MendPasted(row), words);
                Ok(())
            }
            Action::Away => {
                let line = self.lines.get_mut(row).ok_or_else(|| "This row keeps the lines.".to_owned())?;
                line.out = !line.out;
                self.keep(desk);
                Ok(())
            }
            _ => {
                let (mend, away) = (desk.key(Action::Mend), desk.key(Action::Away));
                Err(format!("First these lines: Enter goes on, {mend} mends one, {away} leaves one out."))
            }
        }
    }

    fn line_do(&mut self, desk: &mut Desk) -> Result<(), No> {
        let Some(line) = &desk.line else { return Ok(()) };
        let Purpose::MendPasted(at) = line.purpose else { return Ok(()) };
        let words = line.words().to_owned();
        desk.end_line();
        if let Some(line) = self.lines.get_mut(at) {
            line.left.clear();
        }
        self.rewrite(at, &words, desk);
        self.next_doubt(desk, at);
        Ok(())
    }

    fn answered(&mut self, answer: &Answer, desk: &mut Desk) {
        let at = self.list.row();
        match answer {
            Answer::Words(words, lesson) => {
                // The lines below it are read as it says from now on.
                if let (Some(lesson), Some(reader)) = (lesson, &mut desk.seen.reader) {
                    *reader = reader.learning(lesson);
                    self.how.lessons.push(lesson.clone());
                }
                self.rewrite(at, words, desk);
            }
            Answer::Leave(about) => {
                if let Some(line) = self.lines.get_mut(at) {
                    line.left.push(*about);
                }
            }
            _ => return,
        }
        self.next_doubt(desk, at);
    }

    fn back(&mut self, desk: &mut Desk) -> bool {
        self.keep(desk);
        desk.say(format!("The pasted lines wait: {} opens them again.", desk.key(Action::Bought)));
        false
    }

    fn did(&mut self, outcome: &Outcome, desk: &mut Desk) {
        if outcome.said.is_ok() && outcome.haul.is_some() && !self.settled {
            self.settled = true;
            desk.kept.remove("pasted");
            desk.go_back();
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        if !self.asked_once && desk.seen.reader.is_some() {
            self.asked_once = true;
            self.keep(desk);
            self.next_doubt(desk, 0);
        }
        super::screen::settle_part(self, desk, 0);
    }
}
