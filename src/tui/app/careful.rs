//! What to be careful of: in a box, in all open boxes, or in a thing for each age group.

use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::desk::Desk;
use super::keymap::Press;
use super::line::Purpose;
use super::list::{List, Rows};
use super::packing::Packing;
use super::screen::{Face, No, Screen, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::season::{CautionRow, Cautions, Way};
use crate::tui::back::{Ask, Deed, OfWhat, Window};

/// Cautions, the strictest first, and one of them in full.
pub struct Careful {
    of: OfWhat,
    /// What was found.
    pub found: Option<Cautions>,
    list: List,
}

impl Careful {
    /// Cautions of this.
    pub fn of(of: OfWhat) -> Careful {
        Careful { of, found: None, list: List::default() }
    }

    /// The cautions, one a row.
    pub fn cautions(&self) -> &[CautionRow] {
        self.found.as_ref().map(|found| found.cautions.as_slice()).unwrap_or_default()
    }

    /// The selected one.
    pub fn caution(&self) -> Option<&CautionRow> {
        self.cautions().get(self.list.row())
    }

    /// What the screen is about.
    pub fn title(&self) -> String {
        let about = self.found.as_ref().map(|found| found.about.as_str()).unwrap_or_default();
        format!("What to be careful of: {about}")
    }

    fn row(&self) -> Result<&CautionRow, No> {
        self.caution().ok_or_else(|| "Nothing known to be careful of here.".to_owned())
    }

    /// Asks what is done about the selected caution.
    fn ask(&self, desk: &mut Desk) -> Result<(), No> {
        let row = self.row()?;
        let mut choices = Vec::new();
        if row.way != Way::None {
            let deed = Deed::Remedy { giftbox: row.giftbox, lots: row.lots.clone(), way: row.way.clone() };
            choices.push(Choice::new(remedy_words(row), Answer::Do(Box::new(deed))));
        }
        if let (true, Some(_)) = (row.stops(), row.giftbox) {
            let allow = Deed::Allow { label: row.label.clone(), lots: row.lots.clone(), why: String::new() };
            choices.push(Choice::new("allow it here, with a reason", Answer::Allow(Box::new(allow))));
        }
        if !row.allowed.is_empty() {
            let no_longer = Deed::Allow { label: row.label.clone(), lots: row.lots.clone(), why: String::new() };
            choices.push(Choice::new("allow it no longer", Answer::Do(Box::new(no_longer))));
        }
        if choices.is_empty() {
            return Err(format!("To do: {}. That is yours to look at.", row.remedy));
        }
        let question = format!("{}, {}: what is done about it?", row.thing, row.level.words());
        desk.asked = Some(Asked::new(question, choices, Some(Choice::new("leave it as it is", Answer::Nothing))));
        Ok(())
    }
}

/// What the one act would do; what is in a box goes back to its tote by it.
fn remedy_words(row: &CautionRow) -> String {
    if row.giftbox.is_some() { format!("take it out, {}", row.remedy) } else { row.remedy.clone() }
}

impl Face for Careful {
    fn kind(&self) -> Kind {
        Kind::Careful
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.cautions().len())
    }

    one_list!(list);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        usize::from(desk.room(2).table_rows).saturating_sub(IN_FULL).max(1)
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Cautions(self.of.clone())]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Cautions(of, found) = window
            && *of == self.of
        {
            self.found = Some(found.clone());
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        self.caution().map(|row| (row.giftbox, row.lots.clone())).unwrap_or_default()
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open => self.ask(desk),
            Action::Why => {
                let giftbox = self.row()?.giftbox.ok_or_else(|| "There is no more to say about this.".to_owned())?;
                desk.go_to(Screen::Packing(Packing::of(giftbox)));
                Ok(())
            }
            _ => Err("Enter does something about it, Esc goes back.".to_owned()),
        }
    }
}

/// The rows that the selected caution takes in full.
pub const IN_FULL: usize = 8;

/// Opens the line for the reason why something is allowed.
pub fn ask_reason(desk: &mut Desk, deed: Box<Deed>) {
    desk.open_line(Purpose::Allow(deed));
}

/// The deed with its reason.
pub fn with_reason(deed: &Deed, words: &str) -> Result<Deed, No> {
    let why = words.trim();
    if why.is_empty() {
        return Err("A reason is needed; it is kept, and shown on the box.".to_owned());
    }
    Ok(match deed.clone() {
        Deed::Put { label, lots, units, mut how, sure } => {
            how.allow = Some(why.to_owned());
            Deed::Put { label, lots, units, how, sure }
        }
        Deed::Allow { label, lots, .. } => Deed::Allow { label, lots, why: why.to_owned() },
        other => other,
    })
}
