//! Box by box through the boxes that can be finished: a look at each, then set aside or pass.

use crate::season::{PlanBox, Planned};
use crate::tui::back::Deed;

/// Where one is.
pub struct Walk {
    boxes: Vec<PlanBox>,
    /// Whether what each would get was set aside.
    done: Vec<bool>,
    at: usize,
}

impl Walk {
    /// At the first of these boxes that would get anything; none if none would.
    pub fn through(boxes: &[PlanBox]) -> Option<Walk> {
        let boxes: Vec<PlanBox> = boxes.iter().filter(|giftbox| !giftbox.things.is_empty()).cloned().collect();
        (!boxes.is_empty()).then(|| Walk { done: vec![false; boxes.len()], boxes, at: 0 })
    }

    /// The box that is looked at.
    pub fn giftbox(&self) -> &PlanBox {
        &self.boxes[self.at]
    }

    /// `box 3 of 11`.
    pub fn place(&self) -> String {
        format!("box {} of {}", self.at + 1, self.boxes.len())
    }

    /// Boxes that things were set aside for.
    pub fn done(&self) -> usize {
        self.done.iter().filter(|done| **done).count()
    }

    /// Sets the things of this box aside for it.
    pub fn deed(&self) -> Deed {
        Deed::AsidePlanned(vec![planned(self.giftbox())])
    }

    /// To the next box that waits, or the one before; false if there is none.
    pub fn step(&mut self, by: i8) -> bool {
        let waits = |at: &usize| !self.done[*at];
        let to = if by > 0 { (self.at + 1..self.boxes.len()).find(waits) } else { (0..self.at).rev().find(waits) };
        self.at = to.unwrap_or(self.at);
        to.is_some()
    }

    /// What this box would get was set aside: on to the next; false if it was the last.
    pub fn set_aside(&mut self) -> bool {
        self.done[self.at] = true;
        self.step(1)
    }
}

/// What all these boxes would get, set aside in one act.
pub fn all_at_once<'a>(boxes: impl Iterator<Item = &'a PlanBox>) -> Deed {
    Deed::AsidePlanned(boxes.map(planned).collect())
}

fn planned(giftbox: &PlanBox) -> Planned {
    let things = giftbox.things.iter().map(|thing| (thing.lots.clone(), thing.units));
    Planned { giftbox: giftbox.giftbox, things: things.collect() }
}
