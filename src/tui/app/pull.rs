//! The pull list: what to fetch from which tote; a tick puts it in its box.

use super::action::Action;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, RowId, Rows};
use super::screen::{Face, No, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::season::{PullList, PullRow};
use crate::tui::back::{Ask, Deed, Window};

/// What to fetch.
#[derive(Default)]
pub struct Pull {
    /// By tote.
    pub list: Option<PullList>,
    at: List,
}

impl Pull {
    /// The rows of all totes, one after another.
    pub fn all(&self) -> impl Iterator<Item = &PullRow> {
        self.list.iter().flat_map(|list| &list.totes).flat_map(|tote| &tote.rows)
    }

    fn row(&self) -> Option<&PullRow> {
        self.all().nth(self.at.row())
    }

    fn fetch(desk: &mut Desk, placements: Vec<PlacementId>) -> Result<(), No> {
        if placements.is_empty() {
            return Err("Nothing is set aside.".to_owned());
        }
        desk.act(Deed::Fetch(placements));
        Ok(())
    }
}

impl Face for Pull {
    fn kind(&self) -> Kind {
        Kind::Pull
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        let first = |row: &PullRow| row.placements.first().map_or(RowId::Nth(0), |id| RowId::Placement(*id));
        Rows::Few(self.all().map(first).collect())
    }

    one_list!(at);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        // Headings of totes stand between the rows.
        (usize::from(desk.room(2).table_rows) / 2).max(1)
    }

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Pull]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Pull(list) = window {
            self.list = Some(list.clone());
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (self.row().and_then(|row| row.boxes.first()).map(|(id, ..)| *id), Vec::new())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Tick | Action::Open => {
                let placements = self.row().map(|row| row.placements.clone()).unwrap_or_default();
                Pull::fetch(desk, placements)
            }
            Action::TickAll => {
                let placements = self.all().flat_map(|row| row.placements.clone()).collect();
                Pull::fetch(desk, placements)
            }
            _ => {
                let (tick, all) = (desk.key(Action::Tick), desk.key(Action::TickAll));
                Err(format!("{tick} puts what you fetched into its box; {all} puts all of it in."))
            }
        }
    }
}
