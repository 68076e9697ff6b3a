//! Which things another box can't do without.

use super::Planning;
use crate::model::id::{BoxId, LotId};
use crate::model::stop::Stop;
use crate::plan;

impl Planning {
    /// The box that could no longer be finished if one of a thing went into this box instead: what people call it.
    ///
    /// None where no box is lost by it: there is enough, or this box is finished in place of the other.
    pub fn needed_by(&self, giftbox: BoxId, lots: &[LotId], stop: &dyn Stop) -> Option<String> {
        let group = self.boxes.iter().position(|boxes| boxes.iter().any(|row| row.giftbox == giftbox))?;
        let thing = self.wares.iter().position(|ware| lots.iter().any(|lot| ware.lots.contains(lot)))?;
        let loser = plan::value_of(&self.problem, thing, group, stop)?.loser?;
        let other = self.boxes.get(loser)?.iter().rev().find(|row| row.giftbox != giftbox)?;
        Some(other.label())
    }
}
