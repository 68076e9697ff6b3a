//! What lies in one tote.

use super::action::Action;
use super::common::{ask_away, open_card, ware_of};
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, Rows};
use super::screen::{Face, No, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};

/// One tote.
pub struct Tote {
    /// Its label.
    pub tote: String,
    /// The places on the shelf of what lies in it.
    picked: Vec<usize>,
    age: u64,
    list: List,
}

impl Tote {
    /// The tote of this label.
    pub fn of(tote: String) -> Tote {
        Tote { tote, picked: Vec::new(), age: 0, list: List::default() }
    }
}

impl Face for Tote {
    fn kind(&self) -> Kind {
        Kind::Tote
    }

    fn rows<'a>(&'a self, desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::Wares { shelf: &desk.seen.shelf, picked: &self.picked }
    }

    one_list!(list);

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (None, ware_of(self.list.id()).map(|ware| ware.lots.to_vec()).unwrap_or_default())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        let nothing = || format!("Nothing lies in {}.", self.tote);
        let ware = ware_of(self.list.id()).cloned().ok_or_else(nothing)?;
        match press.action {
            Action::Open => open_card(desk, &ware.lots),
            Action::Mend => {
                desk.mending = ware.lots.iter().max().copied();
                Ok(())
            }
            Action::Away => ask_away(desk, &ware),
            _ => Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        if self.age != desk.seen.age {
            self.age = desk.seen.age;
            self.picked = desk.seen.in_tote(&self.tote);
        }
        super::screen::settle_part(self, desk, 0);
    }
}
