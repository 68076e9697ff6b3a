//! One thing with all that is known of it.

use std::sync::Arc;

use super::action::Action;
use super::common::ask_away;
use super::desk::Desk;
use super::keymap::Press;
use super::list::{List, RowId, Rows};
use super::packing::Packing;
use super::screen::{Face, No, Screen, one_list};
use super::table::Kind;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::season::{Place, Prices, Ware};
use crate::tui::back::{Ask, Deed, Window};

/// One thing.
pub struct Card {
    /// The thing.
    pub ware: Arc<Ware>,
    /// Where it is.
    pub place: Option<Place>,
    /// What it cost each time.
    pub prices: Option<Prices>,
    list: List,
}

impl Card {
    /// The card of a thing.
    pub fn of(ware: Arc<Ware>) -> Card {
        Card { ware, place: None, prices: None, list: List::default() }
    }

    /// The boxes that have it or wait for it.
    fn boxes(&self, desk: &Desk) -> Vec<BoxId> {
        let labels = self.place.iter().flat_map(|place| &place.boxes).map(|there| there.label.as_str());
        let of = |label: &str| desk.seen.boxes().iter().find(|line| line.label == label).map(|line| line.giftbox);
        labels.filter_map(of).collect()
    }

    fn giftbox(&self) -> Option<BoxId> {
        super::common::box_of(self.list.id())
    }
}

impl Face for Card {
    fn kind(&self) -> Kind {
        Kind::Card
    }

    fn rows<'a>(&'a self, desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::Few(self.boxes(desk).into_iter().map(RowId::Box).collect())
    }

    one_list!(list);

    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        vec![Ask::Thing(self.ware.lots.to_vec())]
    }

    fn take(&mut self, window: &Window, _desk: &mut Desk) {
        if let Window::Thing { lots, place, prices } = window
            && **lots == *self.ware.lots
        {
            self.place = Some(place.clone());
            self.prices = Some(prices.clone());
        }
    }

    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (self.giftbox(), self.ware.lots.to_vec())
    }

    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No> {
        match press.action {
            Action::Open => {
                let id = self
                    .giftbox()
                    .ok_or_else(|| "It is in no box. + puts one into the box chosen at home.".to_owned())?;
                desk.go_to(Screen::Packing(Packing::of(id)));
                Ok(())
            }
            Action::PutOne | Action::SetAside => {
                let here = desk.here.or(desk.chosen_box);
                desk.put_each(&self.ware, here, press.action == Action::SetAside)
            }
            Action::TakeOne => {
                let line = self.giftbox().and_then(|id| desk.seen.giftbox(id));
                let label = line.map(|line| line.label.clone()).ok_or_else(|| "It is in no box.".to_owned())?;
                desk.act(Deed::Take { label, lots: self.ware.lots.to_vec(), units: Units::ONE });
                Ok(())
            }
            Action::Mend => {
                // The newest batch is the one that one has in mind.
                desk.mending = self.ware.lots.iter().max().copied();
                Ok(())
            }
            Action::Away => ask_away(desk, &self.ware),
            _ => Err("This row has nothing for that key. ? shows what there is.".to_owned()),
        }
    }

    fn settle(&mut self, desk: &mut Desk) {
        // A thing whose words were mended goes on under its new name.
        let shelf = &desk.seen.shelf;
        match self.ware.lots.iter().find_map(|lot| shelf.holding(*lot)) {
            Some(ware) if !Arc::ptr_eq(ware, &self.ware) => self.ware = Arc::clone(ware),
            // It is there no more: its buying was taken back.
            None if desk.seen.whole => desk.go_back(),
            _ => {}
        }
        super::screen::settle_part(self, desk, 0);
    }
}
