//! What is asked of a plan: the boxes, what is on hand, what can be bought. Plain values.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::age::Ages;
use crate::model::whom::ForWhom;

/// All that a plan follows from.
///
/// The order of groups, things and offers decides only between plans that are equally good.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Problem {
    /// When a thing's ages fit the ages of a box.
    pub age_rule: AgeRule,
    /// The boxes.
    pub demand: Demand,
    /// What is on hand and free to give.
    pub stock: Stock,
    /// What can be bought.
    pub shop: Shop,
    /// The plan shown last, boxes by group; it is kept while no other finishes more.
    pub shown: Option<Plan>,
}

/// How many boxes of each group are finished, by the index of the group.
pub type Plan = Vec<u32>;

/// When a thing's ages fit the ages of a box.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum AgeRule {
    /// The thing is for every age of the box.
    #[default]
    Covers,
    /// The thing is for some age of the box.
    Overlaps,
}

/// The boxes that are to be finished.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Demand {
    /// Boxes that are alike stand together; a box that is partly packed may be a group of its own.
    pub groups: Vec<Group>,
}

/// Boxes for the same children, of which each still needs the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// What it is called on screen: `girls 6–8`.
    pub name: String,
    /// How many there are.
    pub boxes: u32,
    /// For a girl or a boy; none: things that are for either.
    pub for_whom: Option<ForWhom>,
    /// The ages of its children.
    pub ages: Ages,
    /// What one box still needs. What is packed already is taken off; nothing left: the box is complete.
    pub needs: Vec<Need>,
    /// How many more of a kind one box may take; a kind that isn't here may be taken as often as is needed.
    pub caps: BTreeMap<String, u32>,
    /// The room that one box has left, in cubic millimetres; none: it isn't asked for.
    pub room: Option<u64>,
}

/// What one box needs of a category.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Need {
    /// The category.
    pub category: String,
    /// How many things. Fewer than the kinds asked for by name count as just those.
    pub count: u32,
    /// Kinds that must be among them, with how many of each.
    pub must: BTreeMap<String, u32>,
}

impl Need {
    /// How many things may be of any kind of the category.
    pub fn of_any_kind(&self) -> u32 {
        let named = self.must.values().fold(0_u32, |sum, count| sum.saturating_add(*count));
        self.count.saturating_sub(named)
    }
}

/// What is on hand and free to give: what is in a box, or kept for one by hand, is not here.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stock {
    /// Things, in the order in which they should be given: oldest first.
    pub things: Vec<Thing>,
}

/// Units of one thing on hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thing {
    /// What it is called.
    pub name: String,
    /// Whom it fits.
    pub ware: Ware,
    /// Units.
    pub units: u32,
    /// The room that one unit takes, in cubic millimetres; none where nobody knows.
    pub room: Option<u64>,
}

/// What decides whom a thing fits and what it counts for, on hand or in a shop.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ware {
    /// What it is: toothbrush.
    pub kind: String,
    /// The categories that it may count for, its own first: a toy may be the wow item of a box.
    pub serves: Vec<String>,
    /// For a girl or a boy; none: for either.
    pub for_whom: Option<ForWhom>,
    /// The first and the last age that it is for.
    pub ages: (u8, u8),
    /// Groups that it may not go to whatever their ages: forbidden, or the wrong size.
    pub not_for: BTreeSet<usize>,
}

impl Ware {
    /// Whether it may go into a box of this group at all, whatever it needs.
    pub fn fits(&self, rule: AgeRule, index: usize, group: &Group) -> bool {
        let (from, to) = (group.ages.from(), group.ages.to().unwrap_or(u8::MAX));
        let ages = match rule {
            AgeRule::Covers => self.ages.0 <= from && to <= self.ages.1,
            AgeRule::Overlaps => self.ages.0 <= to && from <= self.ages.1,
        };
        ages && (self.for_whom.is_none() || self.for_whom == group.for_whom) && !self.not_for.contains(&index)
    }
}

/// What can be bought, as much as one likes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shop {
    /// The offers.
    pub offers: Vec<Offer>,
}

/// A thing at a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// What it is called.
    pub name: String,
    /// Whom it fits.
    pub ware: Ware,
    /// What a pack costs, in whole minor units; below nothing counts as nothing.
    pub price: i64,
    /// Units in a pack; 0 counts as 1.
    pub pack: u32,
}
