//! Room, as a second number: how many of the boxes that can be finished also have room for it all.

use super::Planning;
use crate::model::id::BoxId;
use crate::plan::{self, Most, Problem};
use crate::report::plan::RoomRow;
use crate::season::fitting::{Measured, Sizes};
use crate::season::{ActError, Season, Ware};
use crate::store::Store;

/// Of a box so much can be filled, in hundredths: sets of 30 things that fill more were no longer all packed when that
/// was measured (`cargo bench -- fit`, sets cut from a box at 85).
const FILLED: u64 = 85;

impl<S: Store> Season<S> {
    /// How many boxes of a plan have room, by the sizes of what is in them and of what they get.
    ///
    /// # Errors
    /// The drive's rules don't say how large a box is inside.
    pub(super) fn with_room(&self, planning: &Planning, most: &Most) -> Result<RoomRow, ActError> {
        let inside = self.room_inside()? / 100 * FILLED;
        let sizes = self.kind_sizes()?;
        let mut problem = planning.problem.clone();
        for (thing, ware) in problem.stock.things.iter_mut().zip(&planning.wares) {
            thing.room = self.room_of(ware, &sizes)?;
        }
        for (group, boxes) in problem.demand.groups.iter_mut().zip(&planning.boxes) {
            let taken = boxes.iter().map(|row| self.room_taken(row.giftbox, &sizes));
            let most = taken.collect::<Result<Vec<u64>, ActError>>()?.into_iter().max().unwrap_or(0);
            group.room = Some(inside.saturating_sub(most));
        }
        Ok(planning.roomy(&problem, most))
    }

    /// Cubic millimetres that one unit takes; none where nobody knows.
    fn room_of(&self, ware: &Ware, sizes: &Sizes) -> Result<Option<u64>, ActError> {
        let Some(lot) = ware.lots.first() else { return Ok(None) };
        let facts = self.store.lot(*lot)?.map(|lot| lot.facts).unwrap_or_default();
        Ok(self.measure(&facts, 1, sizes).pressed_volume())
    }

    /// Cubic millimetres that what is in a box or set aside for it takes, as far as sizes are known.
    fn room_taken(&self, giftbox: BoxId, sizes: &Sizes) -> Result<u64, ActError> {
        let held = self.store.placements_in(giftbox)?;
        let things = self.measured(&held, sizes)?;
        let each = |thing: &Measured| thing.pressed_volume().unwrap_or(0).saturating_mul(u64::from(thing.thing.count));
        Ok(things.iter().map(each).fold(0, u64::saturating_add))
    }
}

impl Planning {
    fn roomy(&self, problem: &Problem, most: &Most) -> RoomRow {
        let roomy = plan::with_room(problem, &most.plan).unwrap_or_default();
        let label = |(group, number): &(usize, u32)| {
            let row = self.boxes.get(*group)?.get(usize::try_from(*number).ok()?)?;
            Some((row.facts.number, row.label()))
        };
        let mut too_full: Vec<_> = roomy.over.iter().filter_map(label).collect();
        too_full.sort();
        RoomRow {
            fit: roomy.fit,
            of: roomy.of,
            too_full: too_full.into_iter().map(|(_, label)| label).collect(),
            sizes_unknown: roomy.unmeasured,
        }
    }
}
