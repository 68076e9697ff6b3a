//! The plan as one looks at it at the table: the answer, what is still needed, what to buy, box by box.

use super::buy::in_sizes;
use super::plan::PlanBox;
use crate::model::id::BoxId;

/// What can be finished, what is needed for the rest, and what each box would get.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tonight {
    /// Open boxes.
    pub open: u32,
    /// How many of them can be finished with what is on hand.
    pub can_finish: u32,
    /// No plan finishes more.
    pub at_most: u32,
    /// The answer in sentences, the shortest way to say it first.
    pub answer: Vec<String>,
    /// What holds back, what doesn't, what is left over: all there is to say.
    pub reasons: Vec<String>,
    /// What the boxes still need, what has to be bought first.
    pub lines: Vec<NeedLine>,
    /// What all that has to be bought comes to: `5 things, about 9.00`; empty: nothing has to be.
    pub to_buy: String,
    /// Things on hand that no box needs.
    pub over: u32,
    /// The boxes that can be finished, with what each would get.
    pub boxes: Vec<PlanBox>,
}

/// Something that boxes still need.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NeedLine {
    /// `clothing`, `toothbrush`.
    pub what: String,
    /// For whom: `girls 6–8`; several for a kind asked for by name.
    pub whom: Vec<String>,
    /// Units that the open boxes need.
    pub needed: u32,
    /// Free units that suit them; they may suit others as well.
    pub on_hand: u32,
    /// Units to buy; 0: there is enough.
    pub short: u32,
    /// What one may cost, or a pack; empty: nobody knows.
    pub each: String,
    /// Units in a pack; 1 where it is bought one by one.
    pub pack: u32,
    /// What all of it comes to; empty: nobody knows.
    pub cost: String,
    /// Boxes more that this finishes once all above it is bought; none while it isn't reckoned.
    pub gains: Option<u32>,
    /// Sizes of clothes that were for these children before.
    pub sizes: Vec<String>,
    /// The open boxes that need some.
    pub boxes: Vec<BoxId>,
    /// What is on hand for it, with units.
    pub things: Vec<(String, u32)>,
    /// Which of the things to buy it is, for a [`Planning`](crate::season::Planning).
    pub offer: usize,
}

/// What buying something would change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhatIf {
    /// What would be bought: `1 wow item for boys 9–12`.
    pub bought: String,
    /// Boxes that could be finished then.
    pub boxes: u32,
    /// No plan finishes more then.
    pub at_most: u32,
    /// What it would cost; empty: nobody knows.
    pub cost: String,
}

impl NeedLine {
    /// `clothing, girls 6–8`.
    pub fn name(&self) -> String {
        match self.whom.as_slice() {
            [] => self.what.clone(),
            [one] => format!("{}, {one}", self.what),
            [one, rest @ ..] => format!("{}, {one} and {} more", self.what, rest.len()),
        }
    }

    /// `clothing, girls 6–8, size 6 or 7-8`.
    pub fn sized_name(&self) -> String {
        self.name() + &in_sizes(&self.sizes)
    }
}

impl WhatIf {
    /// The answer: `12 boxes instead of 11: 1.00.`
    pub fn words(&self, now: u32) -> String {
        let boxes = if self.boxes == 1 { "box" } else { "boxes" };
        let more = match self.at_most.saturating_sub(self.boxes) {
            0 => String::new(),
            more => format!(", perhaps up to {more} more"),
        };
        let cost = if self.cost.is_empty() { "no price known".to_owned() } else { self.cost.clone() };
        if self.boxes > now {
            format!("{} {boxes} instead of {now}{more}: {cost}.", self.boxes)
        } else {
            format!("{} {boxes} still{more}; something else is lacking too: {cost}.", self.boxes)
        }
    }
}
