//! What the screens have been told of the season so far.

use std::sync::Arc;

use crate::model::currency::Currency;
use crate::model::giftbox::BoxState;
use crate::model::id::BoxId;
use crate::model::profile::Profile;
use crate::season::{Board, BoxLine, Reader, Shelf, Ware};
use crate::tui::back::Stocked;

/// What was told.
#[derive(Default)]
pub struct Seen {
    /// The boxes and the sums; none until the season answers for the first time.
    pub board: Option<Arc<Board>>,
    /// All things.
    pub shelf: Shelf,
    /// Whether all things are on the shelf already, not only the first by name.
    pub whole: bool,
    /// The places on the shelf of what is on hand.
    pub on_hand: Arc<Vec<usize>>,
    /// The totes with how much lies in each.
    totes: Arc<Vec<(String, u64)>>,
    /// Reads lines by the drive's rules.
    pub reader: Option<Reader>,
    /// Where the file is.
    pub file: String,
    /// Goes up with each change, so that a search knows when it is stale.
    pub age: u64,
}

impl Seen {
    /// The boxes and sums are so now.
    pub fn board(&mut self, board: Arc<Board>) {
        self.reader = Some(board.reader.clone());
        self.board = Some(board);
        self.age += 1;
    }

    /// The lines to come are of a haul from this shop.
    pub fn at_shop(&mut self, shop: &str) {
        self.reader = self.reader.as_ref().map(|reader| reader.at(shop));
    }

    /// The things are so now.
    pub fn stocked(&mut self, stocked: Stocked) {
        let Stocked { shelf, on_hand, totes } = stocked;
        (self.shelf, self.on_hand, self.totes) = (shelf, on_hand, totes);
        self.whole = true;
        self.age += 1;
    }

    /// The totes, with how much lies in each.
    pub fn totes(&self) -> &[(String, u64)] {
        &self.totes
    }

    /// The places on the shelf of what lies in a tote.
    pub fn in_tote(&self, tote: &str) -> Vec<usize> {
        let lies = |ware: &Ware| ware.tote.split(", ").any(|place| place == tote);
        let wares = self.shelf.wares();
        self.on_hand.iter().copied().filter(|at| wares.get(*at).is_some_and(|ware| lies(ware))).collect()
    }

    /// The boxes.
    pub fn boxes(&self) -> &[BoxLine] {
        self.board.as_ref().map(|board| board.boxes.as_slice()).unwrap_or_default()
    }

    /// One box.
    pub fn giftbox(&self, id: BoxId) -> Option<&BoxLine> {
        self.boxes().iter().find(|line| line.giftbox == id)
    }

    /// Where a box stands in its life.
    pub fn state_of(&self, id: BoxId) -> BoxState {
        self.giftbox(id).map_or(BoxState::Dropped, |line| line.standing)
    }

    /// The drive's rules.
    pub fn profile(&self) -> Option<&Profile> {
        self.board.as_ref().map(|board| &board.profile)
    }

    /// The drive's currency.
    pub fn currency(&self) -> Currency {
        self.profile().map_or_else(|| Profile::default().currency, |profile| profile.currency)
    }

    /// Whether nothing was ever done here.
    pub fn is_new(&self) -> bool {
        self.board.as_ref().is_some_and(|board| !board.acts)
    }
}
