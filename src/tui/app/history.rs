//! What was done, newest first.

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, Rows};
use super::screen::{Face, No, one_list};
use super::table::Kind;
use crate::season::{History, Step};
use crate::tui::back::{Ask, Window};

/// What was done.
#[derive(Default)]
pub struct Told {
    /// Newest first.
    pub history: Option<History>,
    list: List,
}

impl Told {
    /// The acts, newest first.
    pub fn steps(&self) -> &[Step] {
        self.history.as_ref().map(|history| history.steps.as_slice()).unwrap_or_default()
    }
}

impl Face for Told {
    fn kind(&self) -> Kind {
        Kind::History
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.steps().len())
    }

    one_list!(list);

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::History]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::History(history) = window {
            self.history = Some(history.clone());
        }
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        if press.action == Action::Open {
            let step = self.steps().get(self.list.row()).ok_or_else(|| "Nothing was done yet.".to_owned())?;
            let what = if step.undone { format!("Taken back: {}", step.what) } else { step.what.clone() };
            desk.say(what);
            return Ok(());
        }
        let (undo, redo) = (desk.key(Action::Undo), desk.key(Action::Redo));
        Err(format!("{undo} takes the latest back, {redo} brings it again."))
    }
}
