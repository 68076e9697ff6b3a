//! Boxes by what they lack.

use super::action::Action;
use super::common::box_of;
use super::desk::Desk;
use super::filter::{Filter, open_ones};
use super::home::plan_words;
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, RowId, Rows};
use super::packing::Packing;
use super::room::Tier;
use super::screen::{Face, No, Screen, go, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::model::rules::Level;
use crate::season::{BoxLine, CautionRow, Cell};
use crate::tui::back::{Ask, Deed, OfWhat, Window};

/// Boxes by what they lack.
#[derive(Default)]
pub struct Review {
    list: List,
    /// The column in hand.
    pub col: usize,
    /// Only boxes that lack this column.
    pub lacks: Option<usize>,
    /// Which boxes are looked at.
    pub filter: Filter,
    cautions: Vec<CautionRow>,
}

impl Review {
    /// The checklist lines of the drive, each once: the columns.
    pub fn columns(desk: &Desk) -> Vec<&str> {
        let mut columns: Vec<&str> = Vec::new();
        for cell in desk.seen.boxes().iter().flat_map(|line| &line.checklist) {
            if !columns.contains(&cell.line.as_str()) {
                columns.push(&cell.line);
            }
        }
        columns
    }

    /// The boxes shown.
    pub fn boxes<'a>(&self, desk: &'a Desk) -> Vec<&'a BoxLine> {
        let columns = Review::columns(desk);
        let mut boxes = self.filter.boxes(desk);
        if let Some(column) = self.lacks.and_then(|col| columns.get(col)) {
            boxes.retain(|line| cell(line, column).is_some_and(|cell| cell.needs > 0));
        }
        boxes
    }

    /// The strictest caution on a thing in a box that nobody has allowed and that asks for more than a word.
    pub fn careful(&self, giftbox: BoxId) -> Option<&CautionRow> {
        let asks = |row: &&CautionRow| row.level > Level::TellParent && row.allowed.is_empty();
        self.cautions.iter().filter(asks).find(|row| row.giftbox == Some(giftbox))
    }

    /// The box in hand.
    pub fn giftbox<'a>(&self, desk: &'a Desk) -> Option<&'a BoxLine> {
        box_of(self.list.id()).and_then(|id| desk.seen.giftbox(id))
    }

    /// The gap in hand: the column of the box.
    pub fn cell<'a>(&self, desk: &'a Desk) -> Option<&'a Cell> {
        let column = Review::columns(desk).get(self.col).copied()?.to_owned();
        cell(self.giftbox(desk)?, &column)
    }

    fn fill(&self, desk: &mut Desk) -> Result<(), No> {
        let line = self.giftbox(desk).ok_or_else(|| "No box lacks that.".to_owned())?;
        if !line.standing.is_open() {
            let close = desk.key(Action::CloseBox);
            return Err(format!("Box {} is {}; {close} opens it.", line.label, line.state));
        }
        let mut packing = Packing::of(line.giftbox);
        let gap = self.cell(desk).and_then(|cell| line.checklist.iter().position(|other| other.line == cell.line));
        packing.to_gap(gap.unwrap_or(0));
        packing.straight_back();
        desk.go_to(Screen::Packing(packing));
        desk.open_line(Purpose::PutIn { aside: false, inside: None });
        Ok(())
    }

    fn best(&self, desk: &mut Desk, aside: bool) -> Result<(), No> {
        let id = self.giftbox(desk).map(|line| line.giftbox);
        let boxes = desk.ticked_or(id);
        let line = self.cell(desk).map(|cell| cell.of.clone());
        if boxes.is_empty() {
            return Err("No box is chosen.".to_owned());
        }
        desk.act(Deed::Best { boxes, line, aside });
        Ok(())
    }

    /// Shows who lacks a column; again: all boxes.
    fn who_lacks(&mut self, number: usize, desk: &mut Desk) -> Result<(), No> {
        let columns = Review::columns(desk);
        let column = columns.get(number - 1).ok_or_else(|| "Nothing has that number here.".to_owned())?.to_string();
        let col = number - 1;
        self.lacks = if self.lacks == Some(col) { None } else { Some(col) };
        self.col = col;
        let count = self.boxes(desk).len();
        desk.say(match (self.lacks, count) {
            (None, _) => "All boxes are shown.".to_owned(),
            (_, 0) => format!("No box lacks a {} item.", column.trim_end_matches(" item")),
            (_, 1) => format!("1 box lacks a {} item.", column.trim_end_matches(" item")),
            (_, _) => format!("{count} boxes lack a {} item.", column.trim_end_matches(" item")),
        });
        Ok(())
    }
}

/// The rows under the boxes that tell the sums, where there is room for them.
pub fn foot_rows(desk: &Desk) -> u16 {
    if desk.size.tier() >= Tier::Full { 5 } else { 0 }
}

/// A box's cell of a column.
pub fn cell<'a>(line: &'a BoxLine, column: &str) -> Option<&'a Cell> {
    line.checklist.iter().find(|cell| cell.line == column)
}

impl Face for Review {
    fn kind(&self) -> Kind {
        Kind::Review
    }

    fn rows<'a>(&'a self, desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::Few(self.boxes(desk).iter().map(|line| RowId::Box(line.giftbox)).collect())
    }

    one_list!(list);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        desk.room(4).table_rows.saturating_sub(foot_rows(desk)).max(1).into()
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Cautions(OfWhat::All)]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Cautions(OfWhat::All, found) = window {
            self.cautions.clone_from(&found.cautions);
        }
    }

    fn chosen(&self, desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (self.giftbox(desk).map(|line| line.giftbox), Vec::new())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open => self.fill(desk),
            Action::PutOne => self.best(desk, false),
            Action::SetAside => self.best(desk, true),
            Action::Choose => self.who_lacks(usize::from(press.n.unsigned_abs()).max(1), desk),
            Action::ChooseAll => {
                self.lacks = None;
                desk.say("All boxes are shown.");
                Ok(())
            }
            Action::MoveCol => {
                let last = Review::columns(desk).len().saturating_sub(1);
                self.col = self.col.saturating_add_signed(press.n.into()).min(last);
                Ok(())
            }
            Action::Whom => {
                self.filter.next(desk);
                desk.say(format!("Boxes shown: {}.", self.filter.words()));
                Ok(())
            }
            Action::Tick => {
                let id = self.giftbox(desk).map(|line| line.giftbox);
                desk.tick(id.ok_or_else(|| "This row has nothing to tick.".to_owned())?);
                go(self, desk, |list, rows| list.step(rows, 1));
                Ok(())
            }
            Action::TickAll => {
                desk.tick_all(&open_ones(&self.boxes(desk)));
                Ok(())
            }
            Action::NextWaiting => {
                let boxes = self.boxes(desk);
                let row = self.list.row();
                let waits = |at: &usize| boxes.get(*at).is_some_and(|line| !line.full);
                let next = if press.n > 0 { (row + 1..boxes.len()).find(waits) } else { (0..row).rev().find(waits) };
                let next = next.ok_or_else(|| "Nothing more is waiting here.".to_owned())?;
                go(self, desk, |list, rows| list.go(rows, next));
                Ok(())
            }
            Action::Mend => {
                let line = self.giftbox(desk).ok_or_else(|| "No box is chosen.".to_owned())?;
                let (label, words) = (line.label.clone(), plan_words(line));
                desk.open_line_with(Purpose::MendBox(label), words);
                Ok(())
            }
            Action::Away => {
                let id = self.giftbox(desk).map(|line| line.giftbox);
                super::common::ask_drop(desk, id.ok_or_else(|| "No box is chosen.".to_owned())?)
            }
            _ => Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
    }
}
