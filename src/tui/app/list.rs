//! Where one is in a list: by what is selected, not by its row, so that a change elsewhere never
//! puts the finger on another thing.

use std::sync::Arc;

use crate::model::id::{ActId, BoxId, LotId, PlacementId};
use crate::season::{Shelf, Ware};

/// What a row stands for.
#[derive(Debug, Clone)]
pub enum RowId {
    /// A thing.
    Ware(Arc<Ware>),
    /// A box.
    Box(BoxId),
    /// A batch.
    Lot(LotId),
    /// Units in or for a box.
    Placement(PlacementId),
    /// An act.
    Act(ActId),
    /// Just the row of this number.
    Nth(usize),
}

impl PartialEq for RowId {
    fn eq(&self, other: &RowId) -> bool {
        match (self, other) {
            (RowId::Ware(a), RowId::Ware(b)) => a.same(b),
            (RowId::Box(a), RowId::Box(b)) => a == b,
            (RowId::Lot(a), RowId::Lot(b)) => a == b,
            (RowId::Placement(a), RowId::Placement(b)) => a == b,
            (RowId::Act(a), RowId::Act(b)) => a == b,
            (RowId::Nth(a), RowId::Nth(b)) => a == b,
            _ => false,
        }
    }
}

/// The rows of a list.
#[derive(Debug)]
pub enum Rows<'a> {
    /// A few, one by one.
    Few(Vec<RowId>),
    /// Things picked from the shelf, by their place on it, rising.
    Wares {
        /// The shelf.
        shelf: &'a Shelf,
        /// Which of its things.
        picked: &'a [usize],
    },
}

impl Rows<'_> {
    /// As many rows that are only numbered.
    pub fn numbered(count: usize) -> Rows<'static> {
        Rows::Few((0..count).map(RowId::Nth).collect())
    }

    /// How many.
    pub fn len(&self) -> usize {
        match self {
            Rows::Few(rows) => rows.len(),
            Rows::Wares { picked, .. } => picked.len(),
        }
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// What a row stands for.
    pub fn id(&self, row: usize) -> Option<RowId> {
        match self {
            Rows::Few(rows) => rows.get(row).cloned(),
            Rows::Wares { shelf, picked } => {
                let ware = shelf.wares().get(*picked.get(row)?)?;
                Some(RowId::Ware(Arc::clone(ware)))
            }
        }
    }

    /// The row of something.
    pub fn find(&self, id: &RowId) -> Option<usize> {
        match (self, id) {
            (Rows::Few(rows), _) => rows.iter().position(|row| row == id),
            (Rows::Wares { shelf, picked }, RowId::Ware(ware)) => picked.binary_search(&shelf.place_of(ware)?).ok(),
            (Rows::Wares { .. }, _) => None,
        }
    }
}

/// Where one is.
#[derive(Debug, Clone, Default)]
pub struct List {
    row: usize,
    id: Option<RowId>,
    /// The first row shown.
    pub top: usize,
}

impl List {
    /// The selected row.
    pub fn row(&self) -> usize {
        self.row
    }

    /// What is selected.
    pub fn id(&self) -> Option<&RowId> {
        self.id.as_ref()
    }

    /// Selects a row, or the nearest there is.
    pub fn go(&mut self, rows: &Rows<'_>, row: usize) {
        self.row = row.min(rows.len().saturating_sub(1));
        self.id = rows.id(self.row);
    }

    /// Selects something, if it is there.
    pub fn select(&mut self, rows: &Rows<'_>, id: &RowId) -> bool {
        let found = rows.find(id);
        if let Some(row) = found {
            self.go(rows, row);
        }
        found.is_some()
    }

    /// Some rows on or back, as far as there are any.
    pub fn step(&mut self, rows: &Rows<'_>, by: isize) {
        self.go(rows, self.row.saturating_add_signed(by));
    }

    /// After the rows changed: stays with what was selected; if that is gone, with its place.
    pub fn settle(&mut self, rows: &Rows<'_>, height: usize) {
        let row = self.id.as_ref().and_then(|id| rows.find(id)).unwrap_or(self.row);
        self.go(rows, row);
        let height = height.max(1);
        if self.row < self.top {
            self.top = self.row;
        } else if self.row >= self.top + height {
            self.top = self.row + 1 - height;
        }
        self.top = self.top.min(rows.len().saturating_sub(height));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lots(of: &[u128]) -> Rows<'static> {
        Rows::Few(of.iter().map(|n| RowId::Lot(LotId::new(uuid::Uuid::from_u128(*n)))).collect())
    }

    #[test]
    fn the_selection_stays_with_its_thing() {
        let mut list = List::default();
        list.go(&lots(&[1, 2, 3]), 1);
        list.settle(&lots(&[9, 8, 1, 2, 3]), 10);
        assert_eq!(list.row(), 3, "what is selected moved down by two");
        list.settle(&lots(&[9, 8, 1]), 10);
        assert_eq!(list.row(), 2, "it is gone: the nearest row");
        list.settle(&lots(&[]), 10);
        assert_eq!((list.row(), list.id().is_none()), (0, true));
    }

    #[test]
    fn the_window_follows_the_selection() {
        let rows = Rows::numbered(100);
        let mut list = List::default();
        list.go(&rows, 50);
        list.settle(&rows, 10);
        assert_eq!(list.top, 41);
        list.step(&rows, -5);
        list.settle(&rows, 10);
        assert_eq!(list.top, 41, "it is still in sight");
        list.step(&rows, 1000);
        list.settle(&rows, 10);
        assert_eq!((list.row(), list.top), (99, 90));
    }
}
