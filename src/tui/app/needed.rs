//! Which of the things offered for a box another box can't do without.

use std::sync::Arc;

use super::desk::Desk;
use super::line::{Line, Offered, Purpose};
use crate::model::id::{BoxId, LotId};
use crate::season::{Basis, Offer};
use crate::tui::back::{Work, Worked};

/// A thing by its batches.
type Lots = Vec<LotId>;

/// What is known of the offered things.
#[derive(Default)]
pub struct Needed {
    basis: Option<Arc<Basis>>,
    turn: u64,
    /// Being looked at.
    pending: Vec<Lots>,
    /// Looked at.
    asked: Vec<Lots>,
    /// Those that another box needs, and what people call it.
    known: Vec<(Lots, String)>,
}

impl Needed {
    /// Something changed: it is looked at anew.
    pub fn take(&mut self, basis: &Arc<Basis>) {
        *self = Needed { basis: Some(Arc::clone(basis)), ..Needed::default() };
    }

    /// What came of it.
    pub fn worked(&mut self, turn: u64, worked: &Worked) {
        if turn != self.turn {
            return;
        }
        match worked {
            Worked::Needed(lots, label) => self.known.push((lots.clone(), label.clone())),
            Worked::Done => self.asked.append(&mut self.pending),
            _ => {}
        }
    }

    /// Looks at what is offered and was not looked at before, and marks what another box needs.
    pub fn settle(&mut self, giftbox: BoxId, desk: &mut Desk) {
        let (Some(line), Some(basis)) = (desk.line.as_mut().filter(|line| puts_in(line)), &self.basis) else { return };
        for offer in line.offers.iter_mut().filter_map(thing) {
            let known = self.known.iter().find(|(lots, _)| lots[..] == offer.ware.lots[..]);
            offer.needed_by = known.map(|(_, label)| label.clone()).unwrap_or_default();
        }
        let offered = line.offers.iter_mut().filter_map(thing).map(|offer| offer.ware.lots.to_vec());
        let new: Vec<Lots> = offered.filter(|lots| !self.asked.contains(lots)).collect();
        if new.is_empty() || (new == self.pending && desk.is_reckoning(self.turn)) {
            return;
        }
        self.pending.clone_from(&new);
        self.turn = desk.reckon(Work::Needed(Arc::clone(basis), giftbox, new));
    }
}

/// Whether a line is for putting things into a box.
pub fn puts_in(line: &Line) -> bool {
    matches!(line.purpose, Purpose::PutIn { .. })
}

fn thing(offered: &mut Offered) -> Option<&mut Offer> {
    match offered {
        Offered::Thing(offer) => Some(offer),
        _ => None,
    }
}
