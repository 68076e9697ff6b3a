//! Which boxes can be finished, what is still needed, what to buy; and setting it aside box by box.

mod walk;

use std::sync::Arc;

pub use walk::Walk;

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, RowId, Rows};
use super::packing::Packing;
use super::screen::{Face, No, Screen};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::season::{Basis, NeedLine, PlanBox, Report, ShoppingPage, Tonight, WhatIf};
use crate::tui::back::{Ask, Outcome, Window, Work, Worked};

/// What is reckoned at the moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Job {
    Plan,
    WhatIf,
    Page,
}

/// What one looks at.
pub enum View {
    /// The answer, what is needed and what to buy.
    Table,
    /// One box after the other.
    Walk(Walk),
    /// All that would be set aside, a box a row.
    Whole,
    /// The boxes that need something, and what is on hand for it.
    Behind(Box<NeedLine>),
    /// The shopping page.
    Page,
    /// Everything there is to say about the answer.
    Why,
}

/// A row of the table that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Row {
    /// The answer.
    Answer,
    /// Something that is needed, by its place.
    Need(usize),
    /// All that there is enough of.
    Enough,
    /// Something to buy, by its place.
    Buy(usize),
}

/// The plan.
pub struct Plan {
    basis: Option<Arc<Basis>>,
    /// What is known of it.
    pub tonight: Option<Tonight>,
    /// What is looked at.
    pub view: View,
    /// What buying the wished things would change.
    pub what_if: Option<WhatIf>,
    /// The shopping page, once it was asked for.
    pub page: Option<Result<ShoppingPage, String>>,
    /// Whether what there is enough of is shown row by row.
    pub unfolded: bool,
    /// Units that one thinks of buying, by what they are.
    wishes: Vec<(String, u32)>,
    /// What still has to be reckoned.
    due: Vec<Job>,
    job: (u64, Job),
    /// Whether what is on its way was sent from here: setting aside.
    sent: bool,
    list: List,
    inner: List,
}

impl Default for Plan {
    fn default() -> Plan {
        Plan {
            basis: None,
            tonight: None,
            view: View::Table,
            what_if: None,
            page: None,
            unfolded: false,
            wishes: Vec::new(),
            due: Vec::new(),
            job: (0, Job::Plan),
            sent: false,
            list: List::default(),
            inner: List::default(),
        }
    }
}

impl Plan {
    /// What the boxes need, what has to be bought first.
    pub fn lines(&self) -> &[NeedLine] {
        self.tonight.as_ref().map(|tonight| tonight.lines.as_slice()).unwrap_or_default()
    }

    /// The rows of the table that can be chosen, from the top.
    pub fn table(&self) -> Vec<Row> {
        let lines = self.lines();
        let short = lines.iter().filter(|line| line.short > 0).count();
        let shown = if self.unfolded { lines.len() } else { short };
        let enough = (short < lines.len()).then_some(Row::Enough);
        let needs = (0..shown).map(Row::Need);
        let buys = (0..short).map(Row::Buy);
        [Row::Answer].into_iter().chain(needs).chain(enough).chain(buys).collect()
    }

    /// The chosen row.
    pub fn row(&self) -> Row {
        self.table().get(self.list.row()).copied().unwrap_or(Row::Answer)
    }

    /// The need that the chosen row is about; on the answer, the first that is short.
    pub fn line(&self) -> Option<&NeedLine> {
        match self.row() {
            Row::Need(at) | Row::Buy(at) => self.lines().get(at),
            Row::Answer | Row::Enough => self.lines().first().filter(|line| line.short > 0),
        }
    }

    /// Units of a need that one thinks of buying.
    fn wished(&self, line: &NeedLine) -> u32 {
        let name = line.name();
        self.wishes.iter().find(|(known, _)| *known == name).map_or(0, |(_, units)| *units)
    }

    /// Whether a better answer is still looked for.
    pub fn still_looks(&self, desk: &Desk) -> bool {
        let open = self.tonight.as_ref().is_some_and(|tonight| tonight.can_finish < tonight.at_most);
        open && self.job.1 == Job::Plan && desk.is_reckoning(self.job.0)
    }

    /// Whether one thinks of buying anything.
    pub fn is_wishing(&self) -> bool {
        !self.wishes.is_empty()
    }

    /// The shopping page line by line.
    pub fn page_lines(&self) -> Vec<String> {
        match &self.page {
            None => vec!["Looking for the cheapest way…".to_owned()],
            Some(Err(why)) => vec![why.clone()],
            Some(Ok(page)) => page.text().lines().map(str::to_owned).collect(),
        }
    }

    /// The boxes that would get something, in the order in which they are looked at.
    pub fn fillable(&self) -> impl Iterator<Item = &PlanBox> {
        let boxes = self.tonight.iter().flat_map(|tonight| &tonight.boxes);
        boxes.filter(|giftbox| !giftbox.things.is_empty())
    }

    fn look(&mut self, view: View) {
        self.view = view;
        self.inner = List::default();
    }

    fn open(&mut self, desk: &mut Desk) -> Result<(), No> {
        match &self.view {
            View::Table => self.open_row(desk),
            View::Walk(walk) => {
                desk.act(walk.deed());
                self.sent = true;
                Ok(())
            }
            View::Whole => {
                desk.act(walk::all_at_once(self.fillable()));
                self.sent = true;
                Ok(())
            }
            View::Behind(line) => {
                let giftbox = line.boxes.get(self.inner.row()).copied().ok_or_else(|| "No box needs it.".to_owned())?;
                desk.go_to(Screen::Packing(Packing::of(giftbox)));
                Ok(())
            }
            View::Page | View::Why => Err("Esc goes back.".to_owned()),
        }
    }

    fn open_row(&mut self, desk: &Desk) -> Result<(), No> {
        match self.row() {
            Row::Answer => {
                let tonight = self.tonight.as_ref().ok_or_else(|| "Still looking.".to_owned())?;
                let walk = Walk::through(&tonight.boxes).ok_or_else(|| nothing_to_do(tonight, desk))?;
                self.look(View::Walk(walk));
            }
            Row::Enough => self.unfolded = !self.unfolded,
            Row::Need(at) | Row::Buy(at) => {
                if let Some(line) = self.lines().get(at).cloned() {
                    self.look(View::Behind(Box::new(line)));
                }
            }
        }
        Ok(())
    }

    /// One more or one fewer of what the row is about, in thought only.
    fn wish(&mut self, by: i64, desk: &mut Desk) -> Result<(), No> {
        let line = self.line().ok_or_else(|| "Nothing is short: there is nothing to buy.".to_owned())?;
        let (name, pack) = (line.name(), line.pack.max(1));
        let now = self.wished(line);
        if by < 0 && now == 0 {
            return Err(format!("Already at none. {} thinks of one more.", desk.key(Action::PutOne)));
        }
        let then = if by > 0 { now.saturating_add(pack) } else { now.saturating_sub(pack) };
        self.wishes.retain(|(known, _)| *known != name);
        if then > 0 {
            self.wishes.push((name, then));
        }
        self.what_if = None;
        self.again(Job::WhatIf, desk);
        Ok(())
    }

    /// What one thinks of buying, in terms of the plan as it is now.
    fn bought(&self) -> Vec<(usize, u32)> {
        let line = |name: &String| self.lines().iter().find(|line| line.name() == *name);
        self.wishes.iter().filter_map(|(name, units)| Some((line(name)?.offer, *units))).collect()
    }

    /// Has something reckoned anew.
    fn again(&mut self, job: Job, desk: &mut Desk) {
        if self.job.1 == job && desk.is_reckoning(self.job.0) {
            desk.halt();
        }
        if !self.due.contains(&job) {
            self.due.push(job);
        }
    }

    /// Begins with what is due, if nothing is being reckoned.
    fn go_on(&mut self, desk: &mut Desk) {
        let Some(basis) = self.basis.as_ref().filter(|_| !desk.is_reckoning(self.job.0)) else { return };
        let Some(job) = [Job::Plan, Job::WhatIf, Job::Page].into_iter().find(|job| self.due.contains(job)) else {
            return;
        };
        let work = match job {
            Job::Plan => Work::Plan(Arc::clone(basis)),
            Job::WhatIf if self.bought().is_empty() => return self.due.retain(|due| *due != job),
            Job::WhatIf => Work::WhatIf(Arc::clone(basis), self.bought()),
            Job::Page => Work::Page(Arc::clone(basis)),
        };
        self.job = (desk.reckon(work), job);
    }
}

fn nothing_to_do(tonight: &Tonight, desk: &Desk) -> No {
    if tonight.can_finish == 0 {
        return "No box can be finished with what is on hand.".to_owned();
    }
    format!("All that can be finished has what it needs, in it or set aside; {} fetches it.", desk.key(Action::Pull))
}

impl Face for Plan {
    fn kind(&self) -> Kind {
        Kind::Plan
    }

    /// The table, and what one looks at from there: each has its own keys at the foot.
    fn part(&self) -> usize {
        match self.view {
            View::Table => 0,
            View::Walk(_) => 1,
            View::Whole => 2,
            View::Behind(_) => 3,
            View::Page | View::Why => 4,
        }
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        match &self.view {
            View::Table => Rows::numbered(self.table().len()),
            View::Walk(walk) => Rows::numbered(walk.giftbox().things.len()),
            View::Whole => Rows::Few(self.fillable().map(|giftbox| RowId::Box(giftbox.giftbox)).collect()),
            View::Behind(line) => Rows::Few(line.boxes.iter().map(|id| RowId::Box(*id)).collect()),
            View::Page => Rows::numbered(self.page_lines().len()),
            View::Why => Rows::numbered(self.tonight.as_ref().map_or(0, |tonight| tonight.reasons.len())),
        }
    }

    fn list(&self, _part: usize) -> &List {
        if matches!(self.view, View::Table) { &self.list } else { &self.inner }
    }

    fn list_mut(&mut self, _part: usize) -> &mut List {
        if matches!(self.view, View::Table) { &mut self.list } else { &mut self.inner }
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Planning]
    }

    fn take(&mut self, window: &Window, desk: &mut Desk) {
        if let Window::Planning(basis) = window {
            self.basis = Some(Arc::clone(basis));
            self.what_if = None;
            self.again(Job::Plan, desk);
            self.again(Job::WhatIf, desk);
            if self.page.take().is_some() {
                self.again(Job::Page, desk);
            }
        }
    }

    fn worked(&mut self, turn: u64, worked: &Worked, _desk: &mut Desk) {
        if turn != self.job.0 {
            return;
        }
        match worked {
            Worked::Plan(tonight) => self.tonight = Some(tonight.as_ref().clone()),
            Worked::WhatIf(what_if) => self.what_if = Some(what_if.clone()),
            Worked::Page(page) => self.page = Some(page.as_ref().clone()),
            Worked::Done => self.due.retain(|due| *due != self.job.1),
            Worked::Needed(..) | Worked::Fit(..) => {}
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        let row = self.inner.row();
        match &self.view {
            View::Walk(walk) => {
                let lots = walk.giftbox().things.get(row).map(|thing| thing.lots.clone()).unwrap_or_default();
                (Some(walk.giftbox().giftbox), lots)
            }
            View::Whole => (self.fillable().nth(row).map(|giftbox| giftbox.giftbox), Vec::new()),
            View::Behind(line) => (line.boxes.get(row).copied(), Vec::new()),
            View::Table | View::Page | View::Why => (None, Vec::new()),
        }
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match (press.action, &mut self.view) {
            (Action::Open, _) => self.open(desk),
            (Action::NextWaiting, View::Walk(walk)) => {
                let last = "No other box waits that way. Esc goes back to the plan.";
                if walk.step(press.n) { Ok(()) } else { Err(last.to_owned()) }
            }
            (Action::PutOne, View::Table) => self.wish(1, desk),
            (Action::TakeOne, View::Table) => self.wish(-1, desk),
            (Action::Paper, _) => {
                self.look(View::Page);
                if self.page.is_none() {
                    self.again(Job::Page, desk);
                }
                Ok(())
            }
            (Action::Why, _) => {
                self.look(View::Why);
                Ok(())
            }
            (Action::PlanAll, _) => {
                let tonight = self.tonight.as_ref().ok_or_else(|| "Still looking.".to_owned())?;
                if self.fillable().next().is_none() {
                    return Err(nothing_to_do(tonight, desk));
                }
                self.look(View::Whole);
                Ok(())
            }
            _ => Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
    }

    fn back(&mut self, desk: &mut Desk) -> bool {
        if !matches!(self.view, View::Table) {
            self.look(View::Table);
            return true;
        }
        let stops = self.still_looks(desk);
        if stops {
            desk.halt();
            self.due.retain(|due| *due != Job::Plan);
        }
        stops
    }

    fn did(&mut self, outcome: &Outcome, _desk: &mut Desk) {
        if !std::mem::take(&mut self.sent) || outcome.said.is_err() {
            return;
        }
        let goes_on = match &mut self.view {
            View::Walk(walk) => walk.set_aside(),
            View::Whole => false,
            _ => return,
        };
        if !goes_on {
            self.look(View::Table);
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        self.go_on(desk);
        let part = self.part();
        super::screen::settle_part(self, desk, part);
    }
}
