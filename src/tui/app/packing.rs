//! One box being packed: its checklist, and what is in it.

use std::sync::Arc;

use super::action::Action;
use super::desk::Desk;
use super::home::plan_words;
use super::keymap::Press;
use super::line::{Named, Offered, Purpose, count_and_words};
use super::list::{List, RowId, Rows};
use super::needed::{Needed, puts_in};
use super::oneline::ask_fewer;
use super::room::Tier;
use super::screen::{Face, No, go};
use super::seen::Seen;
use super::table::Kind;
use crate::model::category::Category;
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::model::profile::Wanted;
use crate::season::{BoxCard, BoxLine, Cell, Content, PutHow, Ware};
use crate::tui::back::{Ask, Deed, Outcome, Window, Worked};

/// The part with the checklist.
pub const CHECKLIST: usize = 0;
/// The part with what is in the box.
pub const CONTENTS: usize = 1;

/// One box being packed.
pub struct Packing {
    giftbox: BoxId,
    part: usize,
    lists: [List; 2],
    /// The box with all that is in it.
    pub card: Option<Arc<BoxCard>>,
    to_gap: Option<usize>,
    /// Shutting the line leads straight back to where one came from.
    straight: bool,
    put_from: Option<usize>,
    needed: Needed,
}

impl Packing {
    /// This box, its first gap selected.
    pub fn of(giftbox: BoxId) -> Packing {
        Packing {
            giftbox,
            part: CHECKLIST,
            lists: Default::default(),
            card: None,
            to_gap: None,
            straight: false,
            put_from: None,
            needed: Needed::default(),
        }
    }

    /// Selects a line of the checklist.
    pub fn to_gap(&mut self, row: usize) {
        self.to_gap = Some(row);
    }

    /// Esc from the open line leads back to where one came from.
    pub fn straight_back(&mut self) {
        self.straight = true;
    }

    /// The box.
    pub fn giftbox(&self) -> BoxId {
        self.giftbox
    }

    /// The lines of its checklist.
    pub fn cells<'a>(&self, seen: &'a Seen) -> &'a [Cell] {
        seen.giftbox(self.giftbox).map(|line| line.checklist.as_slice()).unwrap_or_default()
    }

    /// The selected line; none: anything else.
    pub fn cell<'a>(&self, seen: &'a Seen) -> Option<&'a Cell> {
        self.cells(seen).get(self.lists[CHECKLIST].row())
    }

    /// The selected thing in the box.
    pub fn content(&self) -> Option<&Content> {
        self.card.as_ref()?.contents.get(self.lists[CONTENTS].row())
    }

    fn first_gap(&self, seen: &Seen) -> usize {
        let cells = self.cells(seen);
        cells.iter().position(|cell| cell.needs > 0).unwrap_or(cells.len())
    }

    fn put(&mut self, desk: &mut Desk) -> Result<(), No> {
        let Some(line) = &desk.line else { return Ok(()) };
        let Purpose::PutIn { aside, inside } = line.purpose.clone() else { return Ok(()) };
        let (count, words) = count_and_words(line.words());
        let Some(Offered::Thing(offer)) = line.offered().cloned() else {
            return Err(self.nothing_offered(words, &desk.seen));
        };
        let Some(giftbox) = desk.seen.giftbox(self.giftbox) else { return Ok(()) };
        let label = giftbox.label.clone();
        let left = if aside { offer.ware.free() } else { offer.ware.free() + offer.aside_here };
        let wow = self.cell(&desk.seen).is_some_and(|cell| is_wow_here(cell, &offer.ware));
        let how = PutHow { aside, wow, inside: inside.map(|(lot, _)| lot.short()), why: None, allow: None };
        let put = |units| Deed::Put { label, lots: offer.ware.lots.to_vec(), units, how, sure: false };
        self.put_from = Some(self.lists[CHECKLIST].row());
        if count > left {
            ask_fewer(desk, left, aside, put(Units::new(left).unwrap_or_default()));
            return Ok(());
        }
        desk.act(put(Units::new(count).unwrap_or(Units::ONE)));
        Ok(())
    }

    fn nothing_offered(&self, words: &str, seen: &Seen) -> No {
        if !words.is_empty() {
            return format!("Nothing on hand is called \"{words}\".");
        }
        let Some(line) = seen.giftbox(self.giftbox) else { return "This box is gone.".to_owned() };
        let what = self.cell(seen).map_or("this box", |cell| cell.line.as_str());
        let child = if line.facts.for_whom.is_some() { line.for_whom.as_str() } else { "child" };
        format!("Nothing on hand suits {what} for a {child} of {}.", line.ages)
    }

    /// After something went in: a filled line moves on to the next gap; after the last one the drawer shuts.
    fn move_on(&mut self, desk: &mut Desk) {
        let Some(from) = self.put_from.take() else { return };
        let cells = self.cells(&desk.seen);
        let Some(cell) = cells.get(from) else { return };
        if cell.needs > 0 {
            return;
        }
        let next = cells.iter().enumerate().skip(from + 1).find(|(_, cell)| cell.needs > 0).map(|(at, _)| at);
        let row = next.unwrap_or(cells.len());
        go_part(self, desk, CHECKLIST, row);
        let straight = std::mem::take(&mut self.straight);
        if next.is_none() || straight {
            desk.end_line();
        }
        if straight {
            desk.go_back();
        }
    }

    fn on_content(&self, desk: &mut Desk, press: Press) -> Result<(), No> {
        let content = self.content().cloned().ok_or_else(|| "Nothing in it yet.".to_owned())?;
        let Some(line) = desk.seen.giftbox(self.giftbox) else { return Ok(()) };
        let label = line.label.clone();
        let looks = matches!(press.action, Action::Open | Action::Why);
        if !looks && !line.standing.is_open() {
            return Err(not_open(line, desk));
        }
        let lots = vec![content.lot];
        let named = Named { lots: lots.clone(), title: content.name.clone() };
        let one = Units::ONE;
        let deed = match press.action {
            Action::TakeOne => Deed::Take { label, lots, units: one },
            Action::PutOne => {
                let lots = desk.seen.shelf.holding(content.lot).map_or(lots, |ware| ware.lots.to_vec());
                Deed::Put { label, lots, units: one, how: PutHow::default(), sure: false }
            }
            Action::Wow => Deed::Wow(content.placement, content.lot, self.giftbox, !content.wow),
            Action::MoveBox => {
                desk.open_line(Purpose::ToBox(named));
                return Ok(());
            }
            Action::Why => {
                desk.open_line_with(Purpose::Why(named), content.why.clone());
                return Ok(());
            }
            Action::Inside => {
                let inside = Some((content.lot, content.name.clone()));
                desk.open_line(Purpose::PutIn { aside: false, inside });
                return Ok(());
            }
            Action::Open => return super::common::open_card(desk, &lots),
            Action::Away => Deed::Take { label, lots, units: Units::new(content.units + content.aside).unwrap_or(one) },
            _ => return Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        };
        desk.act(deed);
        Ok(())
    }

    fn on_gap(&mut self, desk: &mut Desk, press: Press) -> Result<(), No> {
        match press.action {
            Action::Open | Action::SetAside => {
                self.open_for_putting(desk, press.action == Action::SetAside)?;
                Ok(())
            }
            Action::PutOne => {
                let line = self.cell(&desk.seen).map(|cell| cell.of.clone());
                self.put_from = Some(self.lists[CHECKLIST].row());
                desk.act(Deed::Best { boxes: vec![self.giftbox], line, aside: false });
                Ok(())
            }
            Action::Why => {
                desk.say("Tab goes to what is in the box; y there says why it was chosen, or notes it.");
                Ok(())
            }
            _ => Err("First Tab to what is in the box, then this key.".to_owned()),
        }
    }

    fn open_for_putting(&mut self, desk: &mut Desk, aside: bool) -> Result<(), No> {
        let Some(line) = desk.seen.giftbox(self.giftbox) else { return Ok(()) };
        if !line.standing.is_open() {
            return Err(not_open(line, desk));
        }
        desk.open_line(Purpose::PutIn { aside, inside: None });
        Ok(())
    }

    fn next_gap(&mut self, desk: &mut Desk, by: i8) -> Result<(), No> {
        let cells = self.cells(&desk.seen);
        let row = self.lists[CHECKLIST].row();
        let waits = |at: &usize| cells.get(*at).is_some_and(|cell| cell.needs > 0);
        let next = if by > 0 { (row + 1..cells.len()).find(waits) } else { (0..row).rev().find(waits) };
        if let Some(at) = next {
            go_part(self, desk, CHECKLIST, at);
            return Ok(());
        }
        // All of this box is met: on to the next box that waits.
        let boxes = desk.seen.boxes();
        let here = boxes.iter().position(|line| line.giftbox == self.giftbox).unwrap_or(0);
        let ahead = (1..=boxes.len()).map(|step| {
            let at = here.cast_signed() + step.cast_signed() * isize::from(by);
            &boxes[at.rem_euclid(boxes.len().cast_signed()).cast_unsigned()]
        });
        let found =
            ahead.filter(|line| line.giftbox != self.giftbox).find(|line| !line.full && line.standing.is_open());
        let id = found.map(|line| line.giftbox).ok_or_else(|| "Nothing more is waiting here.".to_owned())?;
        *self = Packing::of(id);
        Ok(())
    }
}

/// Why nothing can be done with what is in a box.
fn not_open(line: &BoxLine, desk: &Desk) -> No {
    if line.standing == BoxState::Closed {
        format!("Box {} is closed; {} opens it.", line.label, desk.key(Action::CloseBox))
    } else {
        format!("Box {} is {}.", line.label, line.state)
    }
}

fn go_part(packing: &mut Packing, desk: &Desk, part: usize, row: usize) {
    let before = std::mem::replace(&mut packing.part, part);
    go(packing, desk, |list, rows| list.go(rows, row));
    packing.part = before;
}

/// At the line for the wow item a toy, or what counts for nothing yet, becomes this box's wow item.
fn is_wow_here(cell: &Cell, ware: &Ware) -> bool {
    let may = matches!(ware.category, None | Some(Category::Toy | Category::Extras));
    cell.of == Wanted::Category(Category::Wow) && may
}

impl Face for Packing {
    fn kind(&self) -> Kind {
        Kind::Packing
    }

    fn parts(&self) -> usize {
        2
    }

    fn part(&self) -> usize {
        self.part
    }

    fn take_part(&mut self, part: usize) {
        self.part = part.min(CONTENTS);
    }

    fn rows<'a>(&'a self, desk: &'a Desk, part: usize) -> Rows<'a> {
        if part == CHECKLIST {
            return Rows::numbered(self.cells(&desk.seen).len() + 1);
        }
        let contents = self.card.as_ref().map(|card| card.contents.as_slice()).unwrap_or_default();
        Rows::Few(contents.iter().map(|content| RowId::Placement(content.placement)).collect())
    }

    fn list(&self, part: usize) -> &List {
        &self.lists[part.min(CONTENTS)]
    }

    fn list_mut(&mut self, part: usize) -> &mut List {
        &mut self.lists[part.min(CONTENTS)]
    }

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        let heading = if desk.size.tier() >= Tier::Narrow { 3 } else { 1 };
        desk.room(heading).table_rows.max(1).into()
    }

    fn wants(&self, desk: &Desk) -> Vec<Ask> {
        let needs = desk.line.as_ref().is_some_and(puts_in).then_some(Ask::Needs);
        [Ask::Card(self.giftbox)].into_iter().chain(needs).collect()
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        match window {
            Window::Card(card) if card.line.giftbox == self.giftbox => self.card = Some(Arc::clone(card)),
            Window::Needs(basis) => self.needed.take(basis),
            _ => {}
        }
    }

    fn worked(&mut self, turn: u64, worked: &Worked, _desk: &mut Desk) {
        self.needed.worked(turn, worked);
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        let lots = if self.part == CONTENTS { self.content().map(|content| content.lot) } else { None };
        (Some(self.giftbox), lots.into_iter().collect())
    }

    fn gap(&self, seen: &Seen) -> Option<(Arc<BoxCard>, Option<Wanted>)> {
        let card = self.card.clone()?;
        Some((card, self.cell(seen).map(|cell| cell.of.clone())))
    }

    fn gap_key(&self) -> String {
        format!("{} {} {}", self.giftbox, self.lists[CHECKLIST].row(), self.card.is_some())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::NextWaiting => self.next_gap(desk, press.n),
            Action::MoveCol => {
                self.part = usize::from(press.n > 0);
                Ok(())
            }
            Action::Mend => {
                let Some(line) = desk.seen.giftbox(self.giftbox) else { return Ok(()) };
                let (label, words) = (line.label.clone(), plan_words(line));
                desk.open_line_with(Purpose::MendBox(label), words);
                Ok(())
            }
            _ if self.part == CONTENTS => self.on_content(desk, press),
            _ => self.on_gap(desk, press),
        }
    }

    fn line_do(&mut self, desk: &mut Desk) -> Result<(), No> {
        self.put(desk)
    }

    fn line_shut(&mut self, desk: &mut Desk) {
        if self.straight {
            self.straight = false;
            desk.go_back();
        }
    }

    fn did(&mut self, outcome: &Outcome, desk: &mut Desk) {
        if outcome.said.is_ok() {
            self.move_on(desk);
        } else {
            self.put_from = None;
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        desk.here = Some(self.giftbox);
        if desk.seen.board.is_some() && self.lists[CHECKLIST].id().is_none() {
            let row = self.to_gap.take().unwrap_or_else(|| self.first_gap(&desk.seen));
            go_part(self, desk, CHECKLIST, row);
        }
        for part in 0..2 {
            super::screen::settle_part(self, desk, part);
        }
        self.needed.settle(self.giftbox, desk);
    }
}
