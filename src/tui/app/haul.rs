//! A haul while it is written: its lines so far, and what holds for the lines to come.

use std::sync::Arc;

use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::common::open_card;
use super::desk::Desk;
use super::doubts::{self, Next};
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, RowId, Rows};
use super::pasted::Pasted;
use super::screen::{Face, No, Screen, one_list};
use super::table::Kind;
use crate::model::habit::Lesson;
use crate::model::id::{BoxId, HaulId, LotId};
use crate::season::{About, Entry, Explains, HaulCard, Head, LogHow};
use crate::tui::back::{Ask, Deed, Outcome, Window};

/// A haul being written.
#[derive(Default)]
pub struct Haul {
    going: Option<HaulId>,
    /// Its lines so far.
    pub card: Option<HaulCard>,
    list: List,
    /// What was said of the whole haul before its first line.
    pub heading: String,
    tote: Option<String>,
    opening: bool,
    left: Vec<About>,
    lessons: Vec<Lesson>,
    asked_for: String,
}

/// Asks what explains that a receipt and its lines differ.
pub fn ask_to_settle(desk: &mut Desk, haul: HaulId, receipt: &str, over: &str, ways: &[Explains]) -> Result<(), No> {
    if ways.is_empty() {
        let none = if receipt.is_empty() { "It has no receipt yet: receipt 14.62 says it." } else { "It adds up." };
        return Err(none.to_owned());
    }
    let differs = match over.strip_prefix('-') {
        Some(less) => format!("{less} less"),
        None => format!("{over} more"),
    };
    let way = |way: &Explains| Choice::new(way.words(), Answer::Do(Box::new(Deed::Settle(haul, *way))));
    desk.asked = Some(Asked::new(
        format!("The receipt says {receipt}, {differs} than the lines. What explains it?"),
        ways.iter().map(way).collect(),
        Some(Choice::new("leave it open", Answer::Nothing)),
    ));
    Ok(())
}

/// Goes to the haul of today, or on with the one in sight, and opens the line.
pub fn open(desk: &mut Desk, screens: &[Screen], opening: bool) {
    let waiting = desk.kept.get("pasted").cloned();
    if let (Some(text), false) = (waiting, matches!(screens.last(), Some(Screen::Pasted(_)))) {
        desk.go_to(Screen::Pasted(Pasted::of(&text, desk)));
        return;
    }
    if !matches!(screens.last(), Some(Screen::Haul(_))) {
        let heading = desk.kept.get("heading").cloned().unwrap_or_default();
        let latest = desk.seen.board.as_ref().and_then(|board| board.latest_haul);
        let mut haul = Haul { going: latest.filter(|_| heading.is_empty() && !opening), heading, ..Haul::default() };
        if opening {
            haul.opening = true;
            "opening count".clone_into(&mut haul.heading);
        }
        desk.seen.at_shop("");
        desk.go_to(Screen::Haul(haul));
    }
    desk.open_line(Purpose::Bought);
}

impl Haul {
    /// A haul that was written before.
    pub fn of(haul: HaulId) -> Haul {
        Haul { going: Some(haul), ..Haul::default() }
    }

    /// Whether it is an opening count, which asks no prices.
    pub fn is_opening(&self) -> bool {
        self.opening || self.card.as_ref().is_some_and(|card| card.opening) && self.going.is_some()
    }

    /// Where the lines to come lie, unless they say otherwise.
    pub fn tote(&self) -> Option<&str> {
        self.tote.as_deref()
    }

    /// The lines that were kept, where the haul in hand has any.
    pub fn lines(&self) -> Option<&HaulCard> {
        self.card.as_ref().filter(|card| Some(card.haul) == self.going)
    }

    /// What holds for the next line.
    pub fn how(&self) -> LogHow {
        LogHow {
            tote: self.tote.clone(),
            opening: self.is_opening(),
            open_price: self.left.contains(&About::Paid),
            onto: self.going,
            lessons: self.lessons.clone(),
            ..LogHow::default()
        }
    }

    /// A line about the whole haul: kept with the haul, or until its first line comes.
    fn head(&mut self, head: &Head, words: &str, desk: &mut Desk) {
        let told = desk.seen.reader.as_ref().map(|reader| reader.head_words(head)).unwrap_or_default();
        match head {
            Head::Place(place) => {
                self.tote = Some(place.clone());
                desk.say(told);
            }
            Head::At { .. } | Head::Opening { .. } => {
                self.opening = matches!(head, Head::Opening { .. });
                if let Head::Opening { place, .. } = head {
                    self.tote.clone_from(place);
                }
                self.going = None;
                if let Head::At { shop, .. } = head {
                    desk.seen.at_shop(shop.as_deref().unwrap_or_default());
                }
                words.clone_into(&mut self.heading);
                desk.keep("heading", words);
                desk.say(format!("{told} Its lines come next."));
            }
            _ if self.going.is_some() => {
                desk.act(Deed::Log { text: words.to_owned(), how: self.how() });
                return;
            }
            _ => {
                format!("{}\n{words}", self.heading).trim().clone_into(&mut self.heading);
                let heading = self.heading.clone();
                desk.keep("heading", &heading);
                desk.say(format!("{told} The lines come next."));
            }
        }
        if let Some(line) = &mut desk.line {
            line.set("");
        }
    }

    fn save(&mut self, words: &str, desk: &mut Desk) {
        let text = if self.going.is_some() { words.to_owned() } else { format!("{}\n{words}", self.heading) };
        desk.act(Deed::Log { text, how: self.how() });
    }

    fn mend(&self, desk: &mut Desk) -> Result<(), No> {
        let lot = self.lot().ok_or_else(|| "No line is chosen; ↑ goes up to them.".to_owned())?;
        desk.mending = Some(lot);
        Ok(())
    }

    fn lot(&self) -> Option<LotId> {
        match self.list.id() {
            Some(RowId::Lot(lot)) => Some(*lot),
            _ => None,
        }
    }
}

impl Face for Haul {
    fn kind(&self) -> Kind {
        Kind::Haul
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        let lines = self.lines().map(|card| card.lines.as_slice()).unwrap_or_default();
        Rows::Few(lines.iter().map(|line| RowId::Lot(line.lot)).collect())
    }

    one_list!(list);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        desk.room(2).table_rows.saturating_sub(2).max(1).into()
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        self.going.map(Ask::Haul).into_iter().collect()
    }

    fn take(&mut self, window: &Window, desk: &mut Desk) {
        if let Window::Haul(card) = window
            && Some(card.haul) == self.going
        {
            desk.seen.at_shop(&card.shop);
            self.card = Some(card.clone());
            let last = card.lines.len();
            super::screen::go(self, desk, |list, rows| list.go(rows, last));
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (None, self.lot().into_iter().collect())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open => {
                if let Some(lot) = self.lot() {
                    return open_card(desk, &[lot]);
                }
                desk.open_line(Purpose::Bought);
                Ok(())
            }
            Action::Mend => self.mend(desk),
            Action::Settle => {
                let card = self.lines().ok_or_else(|| "Nothing is written yet.".to_owned())?;
                ask_to_settle(desk, card.haul, &card.receipt, &card.over, &card.ways)
            }
            Action::Away => {
                let lot = self.lot().ok_or_else(|| "No line is chosen; ↑ goes up to them.".to_owned())?;
                let ware = desk.seen.shelf.holding(lot).map(Arc::clone);
                super::common::ask_away(desk, &*ware.ok_or_else(|| "None of it is on hand.".to_owned())?)
            }
            _ => {
                let (bought, mend) = (desk.key(Action::Bought), desk.key(Action::Mend));
                Err(format!("Not here: {bought} goes on with the haul, {mend} mends a line, Esc goes back."))
            }
        }
    }

    fn line_do(&mut self, desk: &mut Desk) -> Result<(), No> {
        let Some(line) = &desk.line else { return Ok(()) };
        let words = line.words().trim().to_owned();
        if words != self.asked_for {
            self.left.clear();
            self.lessons.clear();
            self.asked_for.clone_from(&words);
        }
        let pieces = desk.seen.reader.as_ref().map(|reader| reader.pieces(&words)).unwrap_or_default();
        if pieces.len() > 1 {
            // Several things in one line are looked through like pasted ones.
            desk.end_line();
            super::pasted::open_with(&pieces.join("\n"), desk, self);
            return Ok(());
        }
        let entry =
            line.entry.clone().ok_or_else(|| "It says no thing yet. For example: 12 toothbrushes 1.50".to_owned())?;
        if let Entry::Head(head) = &*entry {
            self.head(head, &words, desk);
            return Ok(());
        }
        match doubts::next(&entry, &self.left, &desk.seen) {
            Next::No(why) => return Err(why),
            Next::Ask(asked) => desk.asked = Some(*asked),
            Next::Keep => self.save(&words, desk),
        }
        Ok(())
    }

    fn answered(&mut self, answer: &Answer, desk: &mut Desk) {
        match answer {
            Answer::Words(words, lesson) => {
                self.lessons.extend(lesson.clone());
                words.trim().clone_into(&mut self.asked_for);
                if let Some(line) = &mut desk.line {
                    line.set(words.clone());
                }
                desk.read_line(!self.is_opening());
            }
            Answer::Leave(about) => self.left.push(*about),
            _ => return,
        }
        // The last answer saves by itself.
        if let Err(why) = self.line_do(desk) {
            desk.refuse(why);
        }
    }

    fn did(&mut self, outcome: &Outcome, desk: &mut Desk) {
        if outcome.said.is_ok() && outcome.haul.is_some() && outcome.haul != self.going {
            self.going = outcome.haul;
            self.heading.clear();
            desk.kept.remove("heading");
        }
        if outcome.said.is_ok() {
            self.left.clear();
            self.lessons.clear();
            self.asked_for.clear();
        }
    }
}
