//! All hauls, and which of them add up to their receipt.

use super::action::Action;
use super::desk::Desk;
use super::haul::{Haul, ask_to_settle};
use super::keymap::Press;
use super::list::{List, Rows};
use super::screen::{Face, No, Screen, go, one_list};
use super::table::Kind;
use crate::season::{Explains, HaulLine};
use crate::tui::back::{Ask, Window};

/// The hauls, newest first.
#[derive(Default)]
pub struct HaulList {
    /// Each with the ways in which its receipt can be settled.
    pub hauls: Option<Vec<(HaulLine, Vec<Explains>)>>,
    list: List,
}

impl HaulList {
    /// The hauls, newest first.
    pub fn lines(&self) -> &[(HaulLine, Vec<Explains>)] {
        self.hauls.as_deref().unwrap_or_default()
    }

    fn chosen(&self) -> Result<&(HaulLine, Vec<Explains>), No> {
        self.lines().get(self.list.row()).ok_or_else(|| "No haul is written yet.".to_owned())
    }
}

impl Face for HaulList {
    fn kind(&self) -> Kind {
        Kind::Hauls
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.lines().len())
    }

    one_list!(list);

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Hauls]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Hauls(hauls) = window {
            self.hauls = Some(hauls.clone());
        }
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open => {
                let haul = self.chosen()?.0.haul;
                desk.go_to(Screen::Haul(Haul::of(haul)));
                Ok(())
            }
            Action::Settle => {
                let (haul, ways) = self.chosen()?;
                ask_to_settle(desk, haul.haul, &haul.receipt, &haul.over, ways)
            }
            Action::NextWaiting => {
                let open = |at: &usize| self.lines().get(*at).is_some_and(|(haul, _)| !haul.over.is_empty());
                let (row, count) = (self.list.row(), self.lines().len());
                let steps = (1..=count).map(|step| if press.n < 0 { count - step } else { step });
                let next = steps.map(|step| (row + step) % count).find(open);
                let next = next.ok_or_else(|| "Each receipt adds up, or there is none.".to_owned())?;
                go(self, desk, |list, rows| list.go(rows, next));
                Ok(())
            }
            _ => {
                let settle = desk.key(Action::Settle);
                Err(format!("Not here: Enter opens the haul, {settle} settles its receipt, Esc goes back."))
            }
        }
    }
}
