//! What the keys do that mean the same on every screen.

use std::sync::Arc;

use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::card::Card;
use super::careful::Careful;
use super::desk::{Desk, Effect};
use super::drive::Drive;
use super::fit::Fit;
use super::hauls::HaulList;
use super::help::Help;
use super::history::Told;
use super::keymap::{self, Gesture, Press};
use super::line::{Named, Purpose};
use super::list::RowId;
use super::night::Night;
use super::plan::Plan;
use super::pull::Pull;
use super::review::Review;
use super::screen::{self, No, Screen};
use super::table::{self, Kind};
use super::{App, haul};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, LotId};
use crate::season::{BoxChange, BoxLine, Ware};
use crate::tui::back::{Deed, OfWhat};

impl App {
    pub(super) fn press(&mut self, press: Press) {
        let kind = self.top().kind();
        let done = match keymap::not_here(table::row(press.action), kind, &self.desk.keys) {
            Some(why) => Err(why),
            None => self.press_here(press),
        };
        if press.action != Action::CloseBox {
            self.desk.closing = None;
        }
        if let Err(why) = done {
            self.refuse(why);
        }
    }

    fn press_here(&mut self, press: Press) -> Result<(), No> {
        match self.gesture() {
            Gesture::Asked if self.answer(press)? => return Ok(()),
            Gesture::Writing | Gesture::Asked if self.press_line(press)? => return Ok(()),
            _ => {}
        }
        match press.action {
            Action::MoveRow | Action::MoveEnds | Action::MovePage | Action::NextPart => self.move_by(press),
            Action::Back => self.back(),
            Action::Leave => {
                self.desk.out.push(Effect::Leave);
                Ok(())
            }
            Action::LeaveNow => {
                self.desk.shut_line();
                self.keep_drafts();
                self.desk.out.push(Effect::Leave);
                Ok(())
            }
            Action::Suspend | Action::Redraw | Action::Sample => {
                self.desk.out.push(match press.action {
                    Action::Suspend => Effect::Suspend,
                    Action::Redraw => Effect::Redraw,
                    _ => Effect::Sample,
                });
                Ok(())
            }
            Action::Editor => {
                self.edit();
                Ok(())
            }
            Action::Undo | Action::Redo => {
                self.desk.act(if press.action == Action::Undo { Deed::Undo } else { Deed::Redo });
                Ok(())
            }
            Action::Where => {
                let file = self.desk.seen.file.clone();
                self.desk.say(format!("All is kept in {file}"));
                Ok(())
            }
            _ => self.go_or_act(press),
        }
    }

    /// Actions that lead to another screen, open the line, or need something chosen.
    fn go_or_act(&mut self, press: Press) -> Result<(), No> {
        let kind = self.top().kind();
        let App { desk, screens, .. } = self;
        match press.action {
            Action::Bought => haul::open(desk, screens, false),
            Action::Opening => haul::open(desk, screens, true),
            Action::Find => desk.open_line(Purpose::Find),
            Action::Actions => {
                let under = desk.line.clone();
                desk.open_line(Purpose::Actions);
                desk.under = under;
            }
            Action::PlanBox => desk.open_line(Purpose::Plan),
            Action::Help if kind == Kind::Help => return self.back(),
            Action::Help => {
                let help = Help::over(kind, desk);
                desk.go_to(Screen::Help(help));
            }
            Action::Review
            | Action::Pull
            | Action::Plan
            | Action::History
            | Action::Hauls
            | Action::DropOff
            | Action::Drive => {
                return go_once(press.action, kind, desk);
            }
            Action::CloseBox | Action::BoxSame | Action::BoxHandIn | Action::BoxBack | Action::BoxUnpack => {
                return self.box_step(press.action);
            }
            Action::Careful => self.careful(),
            Action::Allow => return self.allow(),
            Action::Fit if kind != Kind::Fit => return self.fit(),
            Action::Count if kind == Kind::Fit => return self.ask_screen(press),
            Action::Count | Action::MoveTote => return self.thing_line(press.action),
            Action::Kit | Action::Split | Action::PartOut | Action::Apart | Action::Combine | Action::Level => {
                return self.make(press.action);
            }
            _ => return self.ask_screen(press),
        }
        Ok(())
    }

    fn ask_screen(&mut self, press: Press) -> Result<(), No> {
        let App { desk, screens, .. } = self;
        match screens.last_mut() {
            Some(screen) => screen.face_mut().press(press, desk),
            None => Ok(()),
        }
    }

    fn move_by(&mut self, press: Press) -> Result<(), No> {
        let App { desk, screens, .. } = self;
        let Some(screen) = screens.last_mut() else { return Ok(()) };
        let face = screen.face_mut();
        let by = isize::from(press.n);
        let page = face.height(desk, face.part()).max(2).cast_signed() - 1;
        match press.action {
            Action::MovePage => screen::go(face, desk, |list, rows| list.step(rows, by * page)),
            Action::MoveEnds => screen::go(face, desk, |list, rows| list.go(rows, if by < 0 { 0 } else { usize::MAX })),
            Action::NextPart if face.parts() < 2 => return Err("This screen has one part.".to_owned()),
            Action::NextPart => {
                let parts = face.parts().cast_signed();
                let next = (face.part().cast_signed() + by).rem_euclid(parts);
                face.take_part(next.cast_unsigned());
            }
            _ => screen::go(face, desk, |list, rows| list.step(rows, by)),
        }
        Ok(())
    }

    /// One step back: from the question to the words, from the words to the screen, from it to the one beneath.
    fn back(&mut self) -> Result<(), No> {
        let App { desk, screens, .. } = self;
        let home = screens.len() == 1;
        let Some(screen) = screens.last_mut() else { return Ok(()) };
        if desk.asked.take().is_some() {
            return Ok(());
        }
        if desk.line.is_some() {
            desk.shut_line();
            screen.face_mut().line_shut(desk);
            return Ok(());
        }
        if screen.face_mut().back(desk) {
            return Ok(());
        }
        if home {
            return Err(format!("You are home; {} leaves.", desk.key(Action::Leave)));
        }
        desk.go_back();
        Ok(())
    }

    /// Takes an answer; tells whether the key was one.
    fn answer(&mut self, press: Press) -> Result<bool, No> {
        if !matches!(press.action, Action::Choose | Action::ChooseAll) {
            return Ok(false);
        }
        let Some(asked) = &self.desk.asked else { return Ok(false) };
        let Some(choice) = asked.answer(press.n).cloned() else {
            return Err(match press.n {
                0 => "This can't wait: answer it, or Esc.".to_owned(),
                _ => "Nothing has that number here.".to_owned(),
            });
        };
        self.desk.asked = None;
        let App { desk, screens, .. } = self;
        match choice.answer {
            Answer::Write | Answer::Nothing => {}
            Answer::Do(deed) => desk.act(*deed),
            Answer::Gone(named, lost) => desk.open_line_with(Purpose::Gone(named, lost), "1"),
            Answer::Allow(deed) => super::careful::ask_reason(desk, deed),
            Answer::Return(title) => super::making::write_return(desk, screens, &title)?,
            answer => {
                if let Some(screen) = screens.last_mut() {
                    screen.face_mut().answered(&answer, desk);
                }
            }
        }
        Ok(true)
    }

    fn box_step(&mut self, action: Action) -> Result<(), No> {
        let (Some(id), _) = self.top().chosen(&self.desk) else {
            return Err("No box is chosen here.".to_owned());
        };
        let desk = &mut self.desk;
        let today = desk.seen.board.as_ref().map(|board| board.today);
        let (Some(line), Some(today)) = (desk.seen.giftbox(id), today) else { return Ok(()) };
        let label = line.label.clone();
        let deed = match action {
            Action::CloseBox => return close_box(desk, id),
            Action::BoxSame => Deed::Copy(label),
            Action::BoxHandIn => Deed::Step(label, BoxChange::HandIn(today)),
            Action::BoxBack => Deed::Step(label, BoxChange::CameBack(today)),
            _ => Deed::Unpack(label),
        };
        desk.act(deed);
        Ok(())
    }

    /// Goes to what is to be careful of: of the box or the thing that is chosen, else of all open boxes.
    fn careful(&mut self) {
        let (giftbox, lots) = self.top().chosen(&self.desk);
        let things_in_hand = match self.top().kind() {
            Kind::Home => self.top().part() == super::home::ITEMS,
            kind => kind == Kind::Card,
        };
        let of = match giftbox {
            _ if things_in_hand && !lots.is_empty() => OfWhat::Thing(lots),
            Some(giftbox) if matches!(self.top().kind(), Kind::Home | Kind::Packing | Kind::Plan) => {
                OfWhat::Box(giftbox)
            }
            _ => OfWhat::All,
        };
        self.desk.shut_line();
        self.desk.go_to(Screen::Careful(Careful::of(of)));
    }

    /// Goes to see whether all of the chosen box goes in.
    fn fit(&mut self) -> Result<(), No> {
        let (Some(id), _) = self.top().chosen(&self.desk) else {
            return Err("No box is chosen here.".to_owned());
        };
        super::fit::may_open(&self.desk, id)?;
        self.desk.shut_line();
        self.desk.go_to(Screen::Fit(Fit::of(id)));
        Ok(())
    }

    /// Opens the line for the reason why the chosen thing is allowed in its box.
    fn allow(&mut self) -> Result<(), No> {
        let (giftbox, lots) = self.top().chosen(&self.desk);
        let line = giftbox.and_then(|id| self.desk.seen.giftbox(id));
        let (Some(line), false) = (line, lots.is_empty()) else {
            return Err("No thing in a box is chosen here.".to_owned());
        };
        let label = line.label.clone();
        super::careful::ask_reason(&mut self.desk, Box::new(Deed::Allow { label, lots, why: String::new() }));
        Ok(())
    }

    /// Opens the line for a count or a tote of the chosen thing.
    fn thing_line(&mut self, action: Action) -> Result<(), No> {
        let (_, lots) = self.top().chosen(&self.desk);
        let Some(ware) = lots.first().and_then(|lot| self.desk.seen.shelf.holding(*lot)).map(Arc::clone) else {
            return Err("No thing is chosen here.".to_owned());
        };
        let named = Named { lots: ware.lots.to_vec(), title: ware.title.to_string() };
        match action {
            Action::Count if ware.on_hand == 0 => {
                Err("All of it is in boxes or gone; nothing is left to count.".to_owned())
            }
            Action::Count => {
                self.desk.open_line_with(Purpose::Count(named), ware.on_hand.to_string());
                Ok(())
            }
            _ if ware.on_hand == 0 => Err("None on hand to move.".to_owned()),
            _ => {
                self.desk.open_line_with(Purpose::Tote(named), ware.tote.to_string());
                Ok(())
            }
        }
    }
}

/// Goes to a screen; a key pressed on its own screen changes nothing.
fn go_once(action: Action, kind: Kind, desk: &mut Desk) -> Result<(), No> {
    let (own, screen) = match action {
        Action::Review => (Kind::Review, Screen::Review(Review::default())),
        Action::Pull => (Kind::Pull, Screen::Pull(Pull::default())),
        Action::Plan => (Kind::Plan, Screen::Plan(Plan::default())),
        Action::History => (Kind::History, Screen::History(Told::default())),
        Action::Hauls => (Kind::Hauls, Screen::Hauls(HaulList::default())),
        Action::DropOff => (Kind::DropOff, Screen::DropOff(Night::default())),
        _ => (Kind::Drive, Screen::Drive(Drive::default())),
    };
    let needs_boxes = matches!(own, Kind::Review | Kind::DropOff | Kind::Plan);
    if needs_boxes && desk.seen.boxes().is_empty() {
        return Err(format!("No boxes yet: {} plans one.", desk.key(Action::PlanBox)));
    }
    if kind != own {
        desk.shut_line();
        desk.go_to(screen);
    }
    Ok(())
}

/// Closes a box, or opens it again; one that is not full is closed at the second press.
fn close_box(desk: &mut Desk, id: BoxId) -> Result<(), No> {
    let Some(line) = desk.seen.giftbox(id) else { return Ok(()) };
    let label = line.label.clone();
    match desk.seen.state_of(id) {
        BoxState::Open if line.things == 0 => return Err("Nothing in it yet.".to_owned()),
        BoxState::Open if !line.full && desk.closing != Some(id) => {
            let why = format!("{} {} again closes it as it is.", lacks(line), desk.key(Action::CloseBox));
            desk.closing = Some(id);
            return Err(why);
        }
        BoxState::Open => desk.act(Deed::Step(label, BoxChange::Close)),
        BoxState::HandedIn => {
            let back = desk.keys.by_name(Action::BoxBack);
            return Err(format!("Box {label} was handed in; {back} takes it back."));
        }
        _ => desk.act(Deed::Step(label, BoxChange::Reopen)),
    }
    desk.closing = None;
    Ok(())
}

/// What a box lacks, in a sentence: `Box 12 still needs 2 school, 1 toy.`
pub fn lacks(line: &BoxLine) -> String {
    let needs: Vec<String> = line
        .checklist
        .iter()
        .filter(|cell| cell.needs > 0)
        .map(|cell| format!("{} {}", cell.needs, cell.line))
        .collect();
    match (needs.is_empty(), line.full) {
        (false, _) => format!("Box {} still needs {}.", line.label, needs.join(", ")),
        (true, true) => format!("Box {} holds all it must: {} things.", line.label, line.things),
        (true, false) => format!("Box {}: {} set aside for it, not in yet.", line.label, line.aside),
    }
}

/// Asks what becomes of a thing that is taken away.
pub fn ask_away(desk: &mut Desk, ware: &Ware) -> Result<(), No> {
    if ware.on_hand == 0 {
        let out = desk.key(Action::TakeOne);
        return Err(format!("None of it is on hand; what is in boxes is taken out there, with {out}."));
    }
    let named = Named { lots: ware.lots.to_vec(), title: ware.title.to_string() };
    let choices = vec![
        Choice::new("given loose", Answer::Gone(named.clone(), false)),
        Choice::new("lost or broken", Answer::Gone(named, true)),
        Choice::new("back to the shop", Answer::Return(ware.title.to_string())),
    ];
    desk.asked = Some(Asked::new(
        format!("{}: what became of it?", ware.title),
        choices,
        Some(Choice::new("nothing", Answer::Nothing)),
    ));
    Ok(())
}

/// Asks whether a box comes off the plan.
pub fn ask_drop(desk: &mut Desk, id: BoxId) -> Result<(), No> {
    let Some(line) = desk.seen.giftbox(id) else { return Ok(()) };
    if line.things + line.aside > 0 {
        let unpack = desk.keys.by_name(Action::BoxUnpack);
        return Err(format!("Things are in box {} or set aside for it; {unpack} takes them out first.", line.label));
    }
    let label = line.label.clone();
    desk.act(Deed::Step(label, BoxChange::Drop));
    Ok(())
}

/// Opens the card of a thing.
pub fn open_card(desk: &mut Desk, lots: &[LotId]) -> Result<(), No> {
    let ware = lots.first().and_then(|lot| desk.seen.shelf.holding(*lot)).map(Arc::clone);
    let ware = ware.ok_or_else(|| "There is no more to say about this.".to_owned())?;
    desk.go_to(Screen::Card(Card::of(ware)));
    Ok(())
}

/// The box that a row stands for.
pub fn box_of(id: Option<&RowId>) -> Option<BoxId> {
    match id {
        Some(RowId::Box(id)) => Some(*id),
        _ => None,
    }
}

/// The thing that a row stands for.
pub fn ware_of(id: Option<&RowId>) -> Option<&Arc<Ware>> {
    match id {
        Some(RowId::Ware(ware)) => Some(ware),
        _ => None,
    }
}
