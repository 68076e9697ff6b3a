//! Which things another box can't do without.

use std::collections::HashMap;

use super::Basis;
use super::supply::thing;
use crate::model::category::Category;
use crate::model::id::{BoxId, LotId};
use crate::model::rows::BoxRow;
use crate::model::stop::Stop;
use crate::model::whom::ForWhom;
use crate::plan::{self, Demand, Problem, Stock, Thing};
use crate::season::ware::Mark;
use crate::season::{Shelf, Ware};

/// The open boxes and what is on hand, with things that go to the same boxes for the same lines put together: of a
/// hundred thousand things a few hundred sorts are left.
#[derive(Debug)]
pub struct Needs {
    problem: Problem,
    /// The boxes of each group.
    boxes: Vec<Vec<BoxRow>>,
    shelf: Shelf,
}

/// All that decides which boxes a thing may go to and what it counts for there.
#[derive(PartialEq, Eq, Hash)]
struct Sort<'w> {
    kind: Option<&'w str>,
    category: Option<&'w Category>,
    for_whom: Option<ForWhom>,
    ages: Option<(u8, Option<u8>)>,
    size: Option<&'w str>,
    marks: &'w [Mark],
}

impl<'w> Sort<'w> {
    fn of(ware: &'w Ware) -> Sort<'w> {
        Sort {
            kind: ware.kind.as_deref(),
            category: ware.category.as_ref(),
            for_whom: ware.for_whom,
            ages: ware.ages.map(|ages| (ages.from(), ages.to())),
            size: ware.size.as_deref(),
            marks: &ware.marks,
        }
    }
}

impl Needs {
    /// What the boxes of a basis need, and what there is for it.
    pub fn of(basis: &Basis) -> Needs {
        let groups = &basis.sorted.groups;
        let mut places: HashMap<Sort<'_>, usize> = HashMap::new();
        let mut things: Vec<Thing> = Vec::new();
        for ware in basis.shelf.wares().iter().filter(|ware| ware.free() > 0) {
            let at = *places.entry(Sort::of(ware)).or_insert(things.len());
            match things.get_mut(at) {
                Some(thing) => thing.units = thing.units.saturating_add(ware.free()),
                None => things.push(thing(ware, groups)),
            }
        }
        let demand = Demand { groups: groups.clone() };
        let problem = Problem { demand, stock: Stock { things }, ..Problem::default() };
        Needs { problem, boxes: basis.sorted.boxes.clone(), shelf: basis.shelf.clone() }
    }

    /// The box that could no longer be finished if one of a thing went into this box instead: what people call it.
    ///
    /// None where no box is lost by it: there is enough, or this box is finished in place of the other.
    pub fn needed_by(&self, giftbox: BoxId, lots: &[LotId], stop: &dyn Stop) -> Option<String> {
        let group = self.boxes.iter().position(|boxes| boxes.iter().any(|row| row.giftbox == giftbox))?;
        let ware = self.shelf.holding(*lots.first()?)?;
        let like = thing(ware, &self.problem.demand.groups).ware;
        let thing = self.problem.stock.things.iter().position(|thing| thing.ware == like)?;
        let loser = plan::value_of(&self.problem, thing, group, stop)?.loser?;
        let other = self.boxes.get(loser)?.iter().rev().find(|row| row.giftbox != giftbox)?;
        Some(other.label())
    }
}
