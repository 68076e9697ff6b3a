//! Home: items, boxes, and the checklist of the chosen box.

use std::sync::Arc;

use super::action::Action;
use super::common::{ask_away, ask_drop, box_of, ware_of};
use super::desk::{Desk, Effect};
use super::drive::Drive;
use super::filter::{Filter, open_ones};
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, RowId, Rows};
use super::packing::Packing;
use super::room::{Room, Tier};
use super::screen::{Face, No, Screen, go, settle_part};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::model::profile::Wanted;
use crate::season::{BoxCard, BoxLine, Ware};
use crate::tui::back::{Ask, Deed, Window};

/// The part with the things on hand.
pub const ITEMS: usize = 0;
/// The part with the boxes.
pub const BOXES: usize = 1;
/// The part with the checklist.
pub const CHECKLIST: usize = 2;

/// Home.
pub struct Home {
    part: usize,
    lists: [List; 3],
    /// The chosen box with all that is in it.
    pub card: Option<Arc<BoxCard>>,
    /// Which boxes are shown.
    pub filter: Filter,
}

impl Default for Home {
    fn default() -> Home {
        Home { part: BOXES, lists: Default::default(), card: None, filter: Filter::default() }
    }
}

impl Home {
    /// The chosen box.
    pub fn giftbox<'a>(&self, desk: &'a Desk) -> Option<&'a BoxLine> {
        box_of(self.lists[BOXES].id()).and_then(|id| desk.seen.giftbox(id))
    }

    /// The chosen thing.
    pub fn ware(&self) -> Option<&Arc<Ware>> {
        ware_of(self.lists[ITEMS].id())
    }

    /// The chosen line of the checklist.
    fn wanted(&self, desk: &Desk) -> Option<Wanted> {
        let cell = self.giftbox(desk)?.checklist.get(self.lists[CHECKLIST].row())?;
        Some(cell.of.clone())
    }

    fn open(&mut self, desk: &mut Desk) -> Result<(), No> {
        match self.part {
            ITEMS => {
                let nothing = || format!("Nothing on hand. {} writes what you bought.", desk.key(Action::Bought));
                let lots = self.ware().ok_or_else(nothing)?.lots.to_vec();
                super::common::open_card(desk, &lots)
            }
            part => {
                let id = self.giftbox(desk).map(|line| line.giftbox);
                let id = id.ok_or_else(|| no_box(desk))?;
                let mut packing = Packing::of(id);
                if part == CHECKLIST {
                    packing.to_gap(self.lists[CHECKLIST].row());
                    desk.go_to(Screen::Packing(packing));
                    desk.open_line(Purpose::PutIn { aside: false, inside: None });
                } else {
                    desk.go_to(Screen::Packing(packing));
                }
                Ok(())
            }
        }
    }

    fn put(&self, desk: &mut Desk, aside: bool) -> Result<(), No> {
        let id = self.giftbox(desk).map(|line| line.giftbox);
        if self.part == ITEMS {
            let ware = self.ware().cloned().ok_or_else(|| "None left on hand.".to_owned())?;
            return desk.put_each(&ware, id, aside);
        }
        let boxes = desk.ticked_or(id);
        if boxes.is_empty() {
            return Err(no_box(desk));
        }
        let line = if self.part == CHECKLIST { self.wanted(desk) } else { None };
        desk.act(Deed::Best { boxes, line, aside });
        Ok(())
    }

    fn take_one(&self, desk: &mut Desk) -> Result<(), No> {
        let line = self.giftbox(desk).ok_or_else(|| "No box is chosen.".to_owned())?;
        let ware = self.ware().ok_or_else(|| "No thing is chosen under Items.".to_owned())?;
        let held =
            self.card.as_ref().is_some_and(|card| card.contents.iter().any(|held| ware.lots.contains(&held.lot)));
        if !held {
            return Err(format!("Box {} holds no {}.", line.label, ware.title));
        }
        let (label, lots) = (line.label.clone(), ware.lots.to_vec());
        desk.act(Deed::Take { label, lots, units: crate::model::measure::Units::ONE });
        Ok(())
    }

    fn mend(&self, desk: &mut Desk) -> Result<(), No> {
        match (self.part, self.ware(), self.giftbox(desk)) {
            (ITEMS, Some(ware), _) => {
                let lots = ware.lots.to_vec();
                super::common::open_card(desk, &lots)?;
                let mend = desk.key(Action::Mend);
                desk.say(format!("{mend} mends the newest batch of it; its words come into the line."));
                Ok(())
            }
            (_, _, Some(line)) => {
                let (label, words) = (line.label.clone(), plan_words(line));
                desk.open_line_with(Purpose::MendBox(label), words);
                Ok(())
            }
            _ => {
                desk.go_to(Screen::Drive(Drive::default()));
                Ok(())
            }
        }
    }

    fn next(&mut self, desk: &Desk, by: i8) -> Result<(), No> {
        let part = self.part;
        let count = self.rows(desk, part).len();
        let start = self.lists[part].row();
        let matches: Box<dyn Fn(usize) -> bool> = match part {
            ITEMS if desk.sought.is_empty() => return Err("Nothing more is waiting here.".to_owned()),
            ITEMS => {
                let found = desk.seen.shelf.find(&desk.sought, usize::MAX);
                let picked: Vec<usize> =
                    found.iter().filter_map(|at| desk.seen.on_hand.binary_search(at).ok()).collect();
                Box::new(move |row| picked.contains(&row))
            }
            BOXES => {
                let boxes = self.filter.boxes(desk);
                let waiting: Vec<bool> = boxes.iter().map(|line| !line.full).collect();
                Box::new(move |row| waiting.get(row).copied().unwrap_or(false))
            }
            _ => {
                let cells = self.giftbox(desk).map(|line| line.checklist.iter().map(|cell| cell.needs > 0).collect());
                let waiting: Vec<bool> = cells.unwrap_or_default();
                Box::new(move |row| waiting.get(row).copied().unwrap_or(false))
            }
        };
        let ahead = (1..count)
            .map(|step| (start.cast_signed() + step.cast_signed() * isize::from(by)).rem_euclid(count.cast_signed()));
        let row = ahead.map(isize::cast_unsigned).find(|row| matches(*row));
        let row = row.ok_or_else(|| "Nothing more is waiting here.".to_owned())?;
        go(self, desk, |list, rows| list.go(rows, row));
        Ok(())
    }
}

/// The words that would plan a box like this.
pub fn plan_words(line: &BoxLine) -> String {
    let ages = line.ages.replace('–', "-");
    let theme = if line.theme.is_empty() { String::new() } else { format!(" {}", line.theme) };
    let colours = if line.palette.is_empty() { String::new() } else { format!(", {}", line.palette.join(" and ")) };
    format!("{} {ages}{theme}{colours}", line.for_whom)
}

fn no_box(desk: &Desk) -> No {
    format!("No box planned. {} plans one: 3 girl 6-8 ocean.", desk.key(Action::PlanBox))
}

impl Face for Home {
    fn kind(&self) -> Kind {
        Kind::Home
    }

    fn parts(&self) -> usize {
        3
    }

    fn part(&self) -> usize {
        self.part
    }

    fn take_part(&mut self, part: usize) {
        self.part = part.min(2);
    }

    fn rows<'a>(&'a self, desk: &'a Desk, part: usize) -> Rows<'a> {
        match part {
            ITEMS => Rows::Wares { shelf: &desk.seen.shelf, picked: &desk.seen.on_hand },
            BOXES => Rows::Few(self.filter.boxes(desk).iter().map(|line| RowId::Box(line.giftbox)).collect()),
            _ => Rows::numbered(self.giftbox(desk).map_or(0, |line| line.checklist.len())),
        }
    }

    fn list(&self, part: usize) -> &List {
        &self.lists[part.min(2)]
    }

    fn list_mut(&mut self, part: usize) -> &mut List {
        &mut self.lists[part.min(2)]
    }

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        let room = desk.room(heading_rows(desk));
        // The parts' titles and rules, and on a small screen a sentence below.
        let taken = if room.tier == Tier::Small { 3 } else { 2 };
        room.table_rows.saturating_sub(taken).max(1).into()
    }

    fn wants(&self, desk: &Desk) -> Vec<Ask> {
        self.giftbox(desk).map(|line| Ask::Card(line.giftbox)).into_iter().collect()
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Card(card) = window
            && Some(card.line.giftbox) == box_of(self.lists[BOXES].id())
        {
            self.card = Some(Arc::clone(card));
        }
    }

    fn chosen(&self, desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        let lots = self.ware().map(|ware| ware.lots.to_vec()).unwrap_or_default();
        (self.giftbox(desk).map(|line| line.giftbox), lots)
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open if desk.seen.is_new() => {
                let (bought, plan) = (desk.key(Action::Bought), desk.key(Action::PlanBox));
                Err(format!("The table is empty: {bought} writes what you bought, {plan} plans a box."))
            }
            Action::Open => self.open(desk),
            Action::Choose if desk.seen.is_new() && press.n == 1 => {
                desk.out.push(Effect::Sample);
                Ok(())
            }
            Action::Mend => self.mend(desk),
            Action::PutOne => self.put(desk, false),
            Action::SetAside => self.put(desk, true),
            Action::TakeOne => self.take_one(desk),
            Action::NextWaiting => self.next(desk, press.n),
            Action::Whom => {
                self.filter.next(desk);
                desk.say(format!("Boxes shown: {}.", self.filter.words()));
                Ok(())
            }
            Action::Tick if self.part != ITEMS => {
                let id = self.giftbox(desk).map(|line| line.giftbox);
                let id = id.ok_or_else(|| "This row has nothing to tick.".to_owned())?;
                desk.tick(id);
                go(self, desk, |list, rows| list.step(rows, 1));
                Ok(())
            }
            Action::TickAll => {
                desk.tick_all(&open_ones(&self.filter.boxes(desk)));
                Ok(())
            }
            Action::Away if self.part == ITEMS => {
                let ware = self.ware().cloned().ok_or_else(|| "Nothing is chosen.".to_owned())?;
                ask_away(desk, &ware)
            }
            Action::Away => {
                let id = self.giftbox(desk).map(|line| line.giftbox);
                ask_drop(desk, id.ok_or_else(|| "No box is chosen.".to_owned())?)
            }
            Action::MoveCol => {
                let part = self.part.saturating_add_signed(press.n.into());
                self.part = part.min(2);
                Ok(())
            }
            Action::Choose | Action::ChooseAll => Err("Nothing has that number here.".to_owned()),
            _ => Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        // At first the finger lies on the first box that waits.
        if self.lists[BOXES].id().is_none() {
            let waits = |line: &&BoxLine| !line.full && line.standing.is_open();
            let first = self.filter.boxes(desk).into_iter().find(waits).map(|line| RowId::Box(line.giftbox));
            if let Some(first) = first {
                let mut list = std::mem::take(&mut self.lists[BOXES]);
                list.select(&self.rows(desk, BOXES), &first);
                self.lists[BOXES] = list;
            }
        }
        for part in [BOXES, ITEMS, CHECKLIST] {
            settle_part(self, desk, part);
        }
        desk.here = None;
        desk.chosen_box = self.giftbox(desk).map(|line| line.giftbox);
    }

    fn did(&mut self, outcome: &crate::tui::back::Outcome, desk: &mut Desk) {
        // A box just planned is the one that one wants to see.
        if outcome.planned
            && let Some(last) = desk.seen.boxes().last().map(|line| RowId::Box(line.giftbox))
        {
            self.part = BOXES;
            go(self, desk, |list, rows| _ = list.select(rows, &last));
        }
    }
}

/// The rows above the three parts.
pub fn heading_rows(desk: &Desk) -> u16 {
    match desk.size.tier() {
        Tier::Wide | Tier::Full => 3,
        Tier::Narrow => 2,
        Tier::Small | Tier::Row => 0,
    }
}

impl Desk {
    /// The screen's rows, with the line as high as it wants to be.
    pub fn room(&self, heading: u16) -> Room {
        Room::of(self.size, heading, super::drawer::rows(self))
    }
}
