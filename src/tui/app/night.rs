//! The last night: what stops each box before the drop-off, and its fix.

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, RowId, Rows};
use super::packing::Packing;
use super::screen::{Face, No, Screen, go, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::season::{LastNight, NightRow};
use crate::tui::back::{Ask, Deed, Outcome, Window};

/// The last night.
#[derive(Default)]
pub struct Night {
    /// Box by box.
    pub night: Option<LastNight>,
    list: List,
    row: usize,
}

impl Night {
    /// The boxes that something stops.
    pub fn boxes(&self) -> &[NightRow] {
        self.night.as_ref().map(|night| night.rows.as_slice()).unwrap_or_default()
    }

    fn row(&self) -> Result<&NightRow, No> {
        self.boxes().get(self.list.row()).ok_or_else(|| "Nothing stops any box.".to_owned())
    }
}

impl Face for Night {
    fn kind(&self) -> Kind {
        Kind::DropOff
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::Few(self.boxes().iter().map(|row| RowId::Box(row.box_id)).collect())
    }

    one_list!(list);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        (usize::from(desk.room(2).table_rows) / 2).max(1)
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::LastNight]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::LastNight(night) = window {
            self.night = Some(night.clone());
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (self.row().ok().map(|row| row.box_id), Vec::new())
    }

    fn did(&mut self, outcome: &Outcome, desk: &mut Desk) {
        // A box that is settled goes on to the end of the list; the finger stays for the next one.
        if outcome.said.is_ok() {
            let row = self.row;
            go(self, desk, |list, rows| list.go(rows, row));
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        super::screen::settle_part(self, desk, 0);
        self.row = self.list.row();
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        let giftbox = self.row()?.box_id;
        match press.action {
            Action::Open | Action::Mend => desk.go_to(Screen::Packing(Packing::of(giftbox))),
            Action::PutOne => desk.act(Deed::Best { boxes: vec![giftbox], line: None, aside: false }),
            Action::SetAside => desk.act(Deed::Best { boxes: vec![giftbox], line: None, aside: true }),
            Action::NextWaiting => go(self, desk, |list, rows| list.step(rows, press.n.into())),
            _ => {
                let (one, close) = (desk.key(Action::PutOne), desk.key(Action::CloseBox));
                return Err(format!("Enter goes to this box, {one} puts the best in, {close} closes it."));
            }
        }
        Ok(())
    }
}
