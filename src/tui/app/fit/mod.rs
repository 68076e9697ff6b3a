//! Does it fit: a box packed on trial, seen layer by layer, with all that one may try without changing anything.

mod looking;
mod trial;
pub mod words;

use std::sync::Arc;

use looking::{State, TRIES};
pub use trial::Trial;

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, RowId, Rows};
use super::room::{Room, Tier};
use super::screen::{Face, No, go, settle_part};
use super::table::Kind;
use super::wrap::lines_of;
use crate::model::id::{BoxId, LotId};
use crate::season::{FitPlace, FitReport, FitStage, FitThing, FitWish, Fitting};
use crate::tui::back::{Ask, Deed, Window, Worked};

/// The part with the layers.
pub const PICTURE: usize = 0;
/// The part with the things.
pub const THINGS: usize = 1;
/// A page of words, which has no other parts.
pub const PAGE: usize = 2;
/// Rows in which the chosen thing is told in full.
pub const IN_FULL: u16 = 3;

/// What is in sight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// The box.
    Box,
    /// The order of packing in words.
    Order,
    /// The reasons in full.
    Why,
}

/// The rows of the screen: the answer, the box, and what is told below it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plot {
    /// Rows of the answer, from row 1 on.
    pub answer: u16,
    /// The first row of the box.
    pub top: u16,
    /// Rows of the box.
    pub middle: u16,
    /// Rows below it.
    pub below: u16,
}

/// A box packed on trial.
pub struct Fit {
    giftbox: BoxId,
    part: usize,
    lists: [List; 2],
    page: List,
    /// What is in sight.
    pub view: View,
    /// In little room: the picture instead of the layers in words.
    pub picture: bool,
    fitting: Option<Result<Arc<Fitting>, String>>,
    wish: FitWish,
    /// The things as they are tried, those that are left out among them.
    things: Vec<FitThing>,
    /// The best way so far.
    pub report: Option<Box<FitReport>>,
    state: State,
    tries: u64,
    turn: Option<u64>,
}

/// Why it can't be looked at whether a box fits.
pub fn may_open(desk: &Desk, giftbox: BoxId) -> Result<(), No> {
    let held = desk.seen.giftbox(giftbox).map_or(0, |line| line.things + line.aside);
    if desk.seen.profile().is_some_and(|profile| profile.inside.is_none()) {
        return Err(no_box_size(desk));
    }
    if held == 0 { Err("Nothing in it yet.".to_owned()) } else { Ok(()) }
}

/// That nobody said how large the drive's box is, and where to say it.
fn no_box_size(desk: &Desk) -> No {
    let (drive, mend) = (desk.key(Action::Drive), desk.key(Action::Mend));
    format!("No box size known. In {drive} {mend} on \"box, inside\" says it: 33 x 20 x 12 cm.")
}

impl Fit {
    /// This box.
    pub fn of(giftbox: BoxId) -> Fit {
        Fit {
            giftbox,
            part: PICTURE,
            lists: Default::default(),
            page: List::default(),
            view: View::Box,
            picture: false,
            fitting: None,
            wish: FitWish::default(),
            things: Vec::new(),
            report: None,
            state: State::Searching,
            tries: TRIES,
            turn: None,
        }
    }

    /// The box.
    pub fn giftbox(&self) -> BoxId {
        self.giftbox
    }

    /// The inside of the box in millimetres.
    pub fn inside(&self) -> Option<[i32; 3]> {
        self.fitting().map(|fitting| fitting.inside())
    }

    /// The layers, from the bottom up.
    pub fn layers(&self) -> &[FitStage] {
        self.report.as_ref().map(|report| report.stages.as_slice()).unwrap_or_default()
    }

    /// The things as they are tried.
    pub fn things(&self) -> &[FitThing] {
        &self.things
    }

    /// The chosen thing.
    pub fn thing(&self) -> Option<&FitThing> {
        self.things.get(self.lists[THINGS].row()).filter(|_| self.part == THINGS)
    }

    /// Where a thing went.
    pub fn place(&self, thing: &FitThing) -> Option<&FitPlace> {
        self.report.as_ref()?.places.iter().find(|place| place.placement == thing.placement)
    }

    /// Whether a thing is left out here.
    pub fn is_out(&self, thing: &FitThing) -> bool {
        self.wish.out.contains(&thing.placement)
    }

    /// The layer in sight: the chosen thing's, where there is one.
    pub fn layer(&self) -> usize {
        let of_thing = self.thing().and_then(|thing| self.place(thing)?.stages.first().copied());
        of_thing.unwrap_or(self.lists[PICTURE].row()).min(self.layers().len().saturating_sub(1))
    }

    /// Whether there are ways left to try.
    pub fn is_searching(&self) -> bool {
        self.state == State::Searching
    }

    /// The answer with its sign; before there is one, why not.
    pub fn answer(&self) -> (char, String) {
        match (&self.report, &self.fitting) {
            (_, Some(Err(why))) => ('?', why.clone()),
            (Some(report), _) => {
                let (sign, told) = words::answer(report, self.is_searching());
                match words::tried(&self.wish, &self.things, &self.before()).as_str() {
                    "" => (sign, told),
                    tried => (sign, format!("Tried {tried}: {told}")),
                }
            }
            (None, _) => ('·', "Looking how it goes in.".to_owned()),
        }
    }

    /// The rows of a page of words.
    pub fn lines(&self, desk: &Desk) -> Vec<String> {
        let Some(report) = &self.report else { return Vec::new() };
        let width = desk.size.w.saturating_sub(5).max(8);
        let parts = match self.view {
            View::Order => words::order(report),
            _ => words::reasons(report, self.is_searching()),
        };
        let rows = parts.iter().flat_map(|part| lines_of(part, width, usize::MAX));
        rows.map(str::to_owned).collect()
    }

    /// The rows of the screen while the line is closed; an open one lies over them.
    pub fn plot(&self, desk: &Desk) -> Plot {
        let room = Room::of(desk.size, 1, 1);
        let (below, most) = match room.tier {
            Tier::Wide => (5, 2),
            Tier::Full => (4, 3),
            Tier::Narrow => (1, 2),
            Tier::Small | Tier::Row => (0, 3),
        };
        let width = desk.size.w.saturating_sub(4).max(8);
        let answer = lines_of(&self.answer().1, width, usize::MAX).len();
        let answer = u16::try_from(answer).unwrap_or(most).clamp(1, most).min(room.table_rows.saturating_sub(1));
        let middle = room.table_rows.saturating_sub(answer + below);
        Plot { answer, top: room.table + answer, middle, below }
    }

    /// Rows for the list of the part in hand.
    fn list_rows(&self, desk: &Desk) -> u16 {
        let plot = self.plot(desk);
        let tier = desk.size.tier();
        let full = match tier {
            Tier::Full | Tier::Wide => plot.middle.saturating_sub(1 + IN_FULL),
            Tier::Narrow => plot.middle.saturating_sub(IN_FULL),
            _ => plot.middle,
        };
        let top = plot.top + u16::from(tier >= Tier::Full);
        full.min(desk.room(1).line.saturating_sub(top))
    }

    fn fitting(&self) -> Option<&Arc<Fitting>> {
        self.fitting.as_ref()?.as_ref().ok()
    }

    /// The things as they are in the season.
    fn before(&self) -> Vec<FitThing> {
        self.fitting().map(|fitting| fitting.things()).unwrap_or_default()
    }

    fn enter_things(&mut self, desk: &Desk) {
        let layer = self.layer();
        let here = |thing: &&FitThing| self.place(thing).is_some_and(|place| place.stages.contains(&layer));
        let first = self.things.iter().find(here).map(|thing| RowId::Placement(thing.placement));
        self.part = THINGS;
        if let Some(first) = first {
            go(self, desk, |list, rows| _ = list.select(rows, &first));
        }
    }

    fn column(&mut self, by: i8, desk: &Desk) {
        let little = desk.size.tier() < Tier::Full;
        match (self.part, by > 0) {
            (PICTURE, true) if little && !self.picture => self.picture = true,
            (PICTURE, true) => self.enter_things(desk),
            (PICTURE, false) => self.picture = false,
            _ if by < 0 => self.part = PICTURE,
            _ => {}
        }
    }

    /// To the next thing that found no room, or whose size nobody knows.
    fn next(&mut self, by: i8, desk: &Desk) -> Result<(), No> {
        let waits = |thing: &FitThing| {
            !self.is_out(thing) && (thing.size.is_none() || self.place(thing).is_some_and(|place| place.left_out > 0))
        };
        let rows = self.things.len().cast_signed();
        let row = self.lists[THINGS].row().cast_signed();
        let first = isize::from(self.part == THINGS);
        let ahead = (first..rows.max(1)).map(|step| row + step * isize::from(by)).filter(|_| rows > 0);
        let found = ahead.map(|at| at.rem_euclid(rows).cast_unsigned()).find(|at| waits(&self.things[*at]));
        let found = found.ok_or_else(|| "Nothing more is waiting here.".to_owned())?;
        self.part = THINGS;
        go(self, desk, |list, rows| list.go(rows, found));
        Ok(())
    }

    fn lid_closes(&self, desk: &mut Desk) -> Result<(), No> {
        let Some(line) = desk.seen.giftbox(self.giftbox) else { return Ok(()) };
        if line.things == 0 {
            return Err("Nothing is in it yet: what is only set aside says nothing of the lid.".to_owned());
        }
        let label = line.label.clone();
        desk.act(Deed::LidCloses(label));
        Ok(())
    }

    fn open_page(&mut self, view: View) -> Result<(), No> {
        let report = self.report.as_ref().ok_or_else(|| "Nothing is known of it yet.".to_owned())?;
        if view == View::Order && report.order.is_empty() {
            return Err("There is nothing to pack yet.".to_owned());
        }
        (self.view, self.page) = (view, List::default());
        Ok(())
    }
}

impl Face for Fit {
    fn kind(&self) -> Kind {
        Kind::Fit
    }

    fn parts(&self) -> usize {
        if self.view == View::Box { 2 } else { 1 }
    }

    fn part(&self) -> usize {
        if self.view == View::Box { self.part } else { PAGE }
    }

    fn take_part(&mut self, part: usize) {
        if self.view == View::Box {
            self.part = part.min(THINGS);
        }
    }

    fn rows<'a>(&'a self, desk: &'a Desk, part: usize) -> Rows<'a> {
        match part {
            PICTURE => Rows::numbered(self.layers().len()),
            THINGS => Rows::Few(self.things.iter().map(|thing| RowId::Placement(thing.placement)).collect()),
            _ => Rows::numbered(self.lines(desk).len()),
        }
    }

    fn list(&self, part: usize) -> &List {
        self.lists.get(part).unwrap_or(&self.page)
    }

    fn list_mut(&mut self, part: usize) -> &mut List {
        self.lists.get_mut(part).unwrap_or(&mut self.page)
    }

    fn height(&self, desk: &Desk, part: usize) -> usize {
        let rows = if part == PAGE { desk.room(2).table_rows } else { self.list_rows(desk) };
        rows.max(1).into()
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Fitting(self.giftbox)]
    }

    fn take(&mut self, window: &Window, desk: &mut Desk) {
        let Window::Fitting(giftbox, fitting) = window else { return };
        if *giftbox != self.giftbox || self.fitting.as_ref() == Some(fitting) {
            return;
        }
        let unsaid = desk.seen.profile().is_some_and(|profile| profile.inside.is_none());
        let told = fitting.as_ref().map(Arc::clone);
        self.fitting = Some(told.map_err(|why| if unsaid { no_box_size(desk) } else { why.clone() }));
        if self.fitting().is_none() {
            self.report = None;
        }
        self.anew(desk);
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (Some(self.giftbox), self.thing().map(|thing| thing.lot).into_iter().collect())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Fit => return self.further(),
            Action::Paper => return self.open_page(View::Order),
            Action::Why => return self.open_page(View::Why),
            Action::Count => return self.lid_closes(desk),
            Action::NextWaiting if self.view == View::Box => return self.next(press.n, desk),
            _ if self.view != View::Box => return Err("This page is only to be read; Esc goes back.".to_owned()),
            Action::MoveCol => self.column(press.n, desk),
            Action::Open if self.part == PICTURE && !self.things.is_empty() => self.enter_things(desk),
            Action::Open => return self.ask(desk),
            Action::Away | Action::Wow | Action::Mend => return self.on_thing(press.action, desk),
            Action::Choose | Action::ChooseAll => return Err("Nothing has that number here.".to_owned()),
            _ => return Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
        Ok(())
    }

    fn back(&mut self, desk: &mut Desk) -> bool {
        if self.view != View::Box {
            self.view = View::Box;
            return true;
        }
        if self.turn.is_some_and(|turn| desk.is_reckoning(turn)) {
            desk.halt();
            self.state = State::Stopped;
            return true;
        }
        false
    }

    fn answered(&mut self, answer: &super::asked::Answer, desk: &mut Desk) {
        if let super::asked::Answer::Try(trial) = answer {
            self.carry_out(trial, desk);
        }
    }

    fn worked(&mut self, turn: u64, worked: &Worked, _desk: &mut Desk) {
        let Worked::Fit(report, last) = worked else { return };
        if self.turn != Some(turn) {
            return;
        }
        if self.is_news(report, *last) {
            self.report = Some(report.clone());
        }
        if *last && self.state == State::Searching {
            self.state = State::Done;
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        desk.here = Some(self.giftbox);
        for part in [PICTURE, THINGS, PAGE] {
            settle_part(self, desk, part);
        }
        self.search(desk);
    }
}
