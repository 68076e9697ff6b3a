//! The open line: its words, the caret, and what is offered beneath it.

use std::sync::Arc;

use unicode_segmentation::UnicodeSegmentation;

use super::action::Action;
use crate::model::id::{BoxId, LotId};
use crate::season::{Entry, Offer, Remake};
use crate::tui::back::Deed;

/// The most letters that a line may have.
pub const LONGEST: usize = 500;

/// What an open line is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Purpose {
    /// What was bought.
    Bought,
    /// What goes into the box.
    PutIn {
        /// Only set aside.
        aside: bool,
        /// Into this holder: its batch and name.
        inside: Option<(LotId, String)>,
    },
    /// Find anything.
    Find,
    /// An action by its name.
    Actions,
    /// A box to be planned.
    Plan,
    /// A line of a haul anew.
    MendLine(LotId),
    /// A pasted line anew.
    MendPasted(usize),
    /// A box anew.
    MendBox(String),
    /// A rule of the drive anew.
    MendRule(String),
    /// Where a thing lies now.
    Tote(Named),
    /// To which box it goes.
    ToBox(Named),
    /// How many there are.
    Count(Named),
    /// Given loose, or lost.
    Gone(Named, bool),
    /// Why it was chosen.
    Why(Named),
    /// How large one of it is, by what it is called.
    Size(String),
    /// What is made of it.
    Remake(Remake, Named),
    /// Why it is allowed though a caution speaks against it.
    Allow(Box<Deed>),
}

/// A thing by its batches and name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// The batches.
    pub lots: Vec<LotId>,
    /// What it is called.
    pub title: String,
}

impl Purpose {
    /// What stands before the words.
    pub fn prompt(&self) -> String {
        match self {
            Purpose::Bought => "bought".to_owned(),
            Purpose::PutIn { inside: Some((_, holder)), .. } => format!("inside {holder}"),
            Purpose::PutIn { aside: true, .. } => "set aside".to_owned(),
            Purpose::PutIn { .. } => "put in".to_owned(),
            Purpose::Find => "find".to_owned(),
            Purpose::Actions => "do".to_owned(),
            Purpose::Plan => "box".to_owned(),
            Purpose::MendLine(_) | Purpose::MendPasted(_) | Purpose::MendRule(_) => "mend".to_owned(),
            Purpose::MendBox(label) => format!("box {label}"),
            Purpose::Tote(_) => "tote".to_owned(),
            Purpose::ToBox(_) => "to box".to_owned(),
            Purpose::Count(_) => "how many".to_owned(),
            Purpose::Gone(_, true) => "lost".to_owned(),
            Purpose::Gone(_, false) => "given loose".to_owned(),
            Purpose::Why(_) => "why".to_owned(),
            Purpose::Size(_) => "size".to_owned(),
            Purpose::Allow(_) => "allowed, because".to_owned(),
            Purpose::Remake(Remake::Kit, _) => "make a kit".to_owned(),
            Purpose::Remake(Remake::Split, named) => format!("{} into bundles of", named.title),
            Purpose::Remake(Remake::PartOut, named) => format!("out of each {}", named.title),
            Purpose::Remake(Remake::Apart, named) => format!("{} taken apart", named.title),
        }
    }

    /// The name under which its words are kept when it is shut half written; none: they are let go.
    pub fn kept_as(&self) -> Option<&'static str> {
        match self {
            Purpose::Bought => Some("bought"),
            Purpose::Plan => Some("box"),
            _ => None,
        }
    }
}

/// A row beneath the line.
#[derive(Debug, Clone)]
pub enum Offered {
    /// A thing.
    Thing(Offer),
    /// A box: its id, and how it is told.
    Box(BoxId, String),
    /// A tote, and how much is in it.
    Tote(String, u64),
    /// An action.
    Action(Action),
}

/// The open line.
#[derive(Debug, Clone)]
pub struct Line {
    /// What for.
    pub purpose: Purpose,
    words: String,
    caret: usize,
    /// What is offered, best first.
    pub offers: Vec<Offered>,
    /// Which of them is marked.
    pub marked: usize,
    /// What was understood of words about a haul.
    pub entry: Option<Arc<Entry>>,
    /// For what it was read and searched last: the same is not read or searched twice.
    pub sought: String,
}

impl Line {
    /// An open line with words in it, the caret behind them.
    pub fn new(purpose: Purpose, words: impl Into<String>) -> Line {
        let words = words.into();
        Line { purpose, caret: words.len(), words, offers: Vec::new(), marked: 0, entry: None, sought: String::new() }
    }

    /// Its words.
    pub fn words(&self) -> &str {
        &self.words
    }

    /// Where the caret is: bytes before it.
    pub fn caret(&self) -> usize {
        self.caret
    }

    /// Whether it has more letters than a line may have.
    pub fn too_long(&self) -> bool {
        self.words.chars().count() > LONGEST
    }

    /// Puts other words in, the caret behind them.
    pub fn set(&mut self, words: impl Into<String>) {
        self.words = words.into();
        self.caret = self.words.len();
        self.marked = 0;
    }

    /// Writes at the caret; what can't be shown is left out.
    pub fn write(&mut self, text: &str) {
        let text: String = text.chars().filter(|c| !c.is_control()).collect();
        self.words.insert_str(self.caret, &text);
        self.caret += text.len();
        self.marked = 0;
    }

    /// Moves the caret: a letter back or on, −2 to the start, 2 to the end.
    pub fn move_caret(&mut self, by: i8) {
        self.caret = match by {
            -2 => 0,
            2 => self.words.len(),
            -1 => self.before(),
            _ => self.behind(),
        };
    }

    /// Rubs out: −1 the letter before, 1 the one behind, −2 a word, −3 all.
    pub fn erase(&mut self, by: i8) {
        let range = match by {
            -3 => 0..self.words.len(),
            -2 => self.word_start()..self.caret,
            -1 => self.before()..self.caret,
            _ => self.caret..self.behind(),
        };
        self.caret = range.start;
        self.words.replace_range(range, "");
        self.marked = 0;
    }

    /// To another offered row.
    pub fn mark(&mut self, by: isize) {
        let last = self.offers.len().saturating_sub(1);
        self.marked = self.marked.saturating_add_signed(by).min(last);
    }

    /// The marked row.
    pub fn offered(&self) -> Option<&Offered> {
        self.offers.get(self.marked)
    }

    fn before(&self) -> usize {
        self.words[..self.caret].grapheme_indices(true).next_back().map_or(0, |(at, _)| at)
    }

    fn behind(&self) -> usize {
        let next = self.words[self.caret..].graphemes(true).next();
        self.caret + next.map_or(0, str::len)
    }

    fn word_start(&self) -> usize {
        let before = self.words[..self.caret].trim_end();
        before.rfind(' ').map_or(0, |at| at + 1)
    }
}

/// A number before words: `3 pens` is three pens, `3` alone three of what is marked.
pub fn count_and_words(text: &str) -> (u32, &str) {
    let text = text.trim();
    let digits = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (number, rest) = text.split_at(digits);
    match number.parse() {
        Ok(count) if count > 0 && (rest.is_empty() || rest.starts_with(' ')) => (count, rest.trim()),
        _ => (1, text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_caret_goes_by_what_people_see_as_letters() {
        let mut line = Line::new(Purpose::Find, "e\u{301}日x");
        line.move_caret(-1);
        line.erase(-1);
        assert_eq!(line.words(), "e\u{301}x");
        line.move_caret(-1);
        assert_eq!(line.caret(), 0, "a letter with its accent is one letter");
        line.erase(1);
        assert_eq!(line.words(), "x");
        line.erase(-1);
        assert_eq!(line.words(), "x", "nothing stands before the caret");
    }

    #[test]
    fn a_word_and_all_of_it_can_be_rubbed_out() {
        let mut line = Line::new(Purpose::Bought, "12 combs .60 ");
        line.erase(-2);
        assert_eq!(line.words(), "12 combs ");
        line.erase(-3);
        assert_eq!((line.words(), line.caret()), ("", 0));
    }

    #[test]
    fn a_number_before_words_is_how_many() {
        assert_eq!(count_and_words("3 pens"), (3, "pens"));
        assert_eq!(count_and_words(" 4 "), (4, ""));
        assert_eq!(count_and_words("pens"), (1, "pens"));
        assert_eq!(count_and_words("3d puzzle"), (1, "3d puzzle"), "no count: a name that begins with a digit");
        assert_eq!(count_and_words("0 pens"), (1, "0 pens"));
        assert_eq!(count_and_words(""), (1, ""));
    }
}
