//! The drive's rules, row by row.

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, Rows};
use super::screen::{Face, No, one_list};
use super::table::Kind;
use crate::season::RuleRow;
use crate::tui::back::{Ask, Deed, Window};

/// The drive's rules.
#[derive(Default)]
pub struct Drive {
    /// Row by row.
    pub rules: Vec<RuleRow>,
    list: List,
}

impl Face for Drive {
    fn kind(&self) -> Kind {
        Kind::Drive
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.rules.len())
    }

    one_list!(list);

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Rules]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Rules(rules) = window {
            self.rules.clone_from(rules);
        }
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Mend | Action::Open => {
                let row = self.rules.get(self.list.row()).ok_or_else(|| "No rule is chosen.".to_owned())?;
                desk.open_line_with(Purpose::MendRule(row.what.clone()), row.words.clone());
                Ok(())
            }
            _ => Err(format!("{} puts the words of this row into the line, to change them.", desk.key(Action::Mend))),
        }
    }

    fn line_do(&mut self, desk: &mut Desk) -> Result<(), No> {
        let Some(line) = &desk.line else { return Ok(()) };
        let Purpose::MendRule(what) = line.purpose.clone() else { return Ok(()) };
        let words = line.words().trim().to_owned();
        desk.act(Deed::Rule { what, words });
        Ok(())
    }
}
