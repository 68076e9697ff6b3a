//! Evenness of things over boxes: what is left over goes to boxes that have fewer.

use std::collections::BTreeMap;

use super::assign::Assignment;
use super::flow::{ENDLESS, Flow};
use super::problem::{Problem, Ware};

/// How many things a box has: of a category, or in all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Has {
    /// The group of the box.
    pub group: usize,
    /// Which box of the group.
    pub giftbox: u32,
    /// Things.
    pub units: u32,
}

/// A thing beyond what a box needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Extra {
    /// The group of the box.
    pub group: usize,
    /// Which box of the group.
    pub giftbox: u32,
    /// The thing.
    pub thing: usize,
    /// Units.
    pub units: u32,
}

/// Extras that make boxes more alike.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Spread {
    /// What goes where.
    pub extras: Vec<Extra>,
    /// Things in the box that has fewest then.
    pub fewest: u32,
    /// Things in the box that has most.
    pub most: u32,
}

/// Boxes that are the same in what they may get and have.
struct Alike {
    group: usize,
    units: u32,
    boxes: Vec<u32>,
}

/// Things that may go to the same groups.
struct Spare {
    groups: Vec<usize>,
    things: Vec<(usize, u32)>,
}

/// Gives what an assignment leaves over to the boxes that have fewest, so that no way of giving it leaves them more even;
/// no box gets more than the fullest has. Only things of the category, if one is named; and of kinds of which a box
/// may have only so many, none.
pub fn even_out(problem: &Problem, assignment: &Assignment, has: &[Has], category: Option<&str>) -> Spread {
    let alike = alike(has);
    let spare = spare(problem, assignment, category);
    let (Some(fewest), Some(most)) = (has.iter().map(|has| has.units).min(), has.iter().map(|has| has.units).max())
    else {
        return Spread::default();
    };
    // Points: source, sink, what is spare, boxes that are alike.
    let mut flow = Flow::new(2 + spare.len() + alike.len());
    let mut ways: Vec<Vec<(usize, usize)>> = Vec::new();
    for (index, of) in spare.iter().enumerate() {
        let units = of.things.iter().map(|(_, units)| i64::from(*units)).sum();
        flow.arc(0, 2 + index, units);
        let fits = alike.iter().enumerate().filter(|(_, alike)| of.groups.contains(&alike.group));
        ways.push(fits.map(|(at, _)| (at, flow.arc(2 + index, 2 + spare.len() + at, ENDLESS))).collect());
    }
    let into: Vec<usize> = (0..alike.len()).map(|at| flow.arc(2 + spare.len() + at, 1, 0)).collect();
    // Level by level: a box that is raised at one level is never lowered at a later one.
    for level in fewest..most {
        for (at, of) in alike.iter().enumerate().filter(|(_, of)| of.units <= level) {
            flow.widen(into[at], i64::try_from(of.boxes.len()).unwrap_or(i64::MAX >> 32));
        }
        flow.push(0, 1);
    }
    let mut spread = Spread { extras: Vec::new(), fewest: most, most };
    let mut dealt = vec![0_usize; alike.len()];
    let mut got: BTreeMap<(usize, u32, usize), u32> = BTreeMap::new();
    for (of, ways) in spare.iter().zip(&ways) {
        let mut units = of.things.iter().flat_map(|(thing, units)| (0..*units).map(|_| *thing));
        for &(at, way) in ways {
            for thing in units.by_ref().take(usize::try_from(flow.carried(way)).unwrap_or(0)) {
                let to = &alike[at];
                *got.entry((to.group, to.boxes[dealt[at] % to.boxes.len()], thing)).or_insert(0) += 1;
                dealt[at] += 1;
            }
        }
    }
    for (of, dealt) in alike.iter().zip(dealt) {
        let raised = u32::try_from(dealt / of.boxes.len().max(1)).unwrap_or(0);
        spread.fewest = spread.fewest.min(of.units + raised);
    }
    let extra = |((group, giftbox, thing), units)| Extra { group, giftbox, thing, units };
    spread.extras = got.into_iter().map(extra).collect();
    spread
}

fn alike(has: &[Has]) -> Vec<Alike> {
    let mut alike: BTreeMap<(usize, u32), Vec<u32>> = BTreeMap::new();
    for of in has {
        alike.entry((of.group, of.units)).or_default().push(of.giftbox);
    }
    alike.into_iter().map(|((group, units), boxes)| Alike { group, units, boxes }).collect()
}

/// What an assignment leaves over, by the groups that it may go to.
fn spare(problem: &Problem, assignment: &Assignment, category: Option<&str>) -> Vec<Spare> {
    let mut left: Vec<u32> = problem.stock.things.iter().map(|thing| thing.units).collect();
    for given in &assignment.given {
        if let Some(left) = left.get_mut(given.thing) {
            *left = left.saturating_sub(given.units);
        }
    }
    let mut spare: BTreeMap<Vec<usize>, Vec<(usize, u32)>> = BTreeMap::new();
    let counts = |ware: &Ware| category.is_none_or(|category| ware.serves.iter().any(|serves| serves == category));
    for (index, thing) in problem.stock.things.iter().enumerate().filter(|(_, thing)| counts(&thing.ware)) {
        let groups = problem.demand.groups.iter().enumerate();
        let fits = groups.filter(|(at, group)| {
            thing.ware.fits(problem.age_rule, *at, group) && !group.caps.contains_key(&thing.ware.kind)
        });
        let groups: Vec<usize> = fits.map(|(at, _)| at).collect();
        if left[index] > 0 && !groups.is_empty() {
            spare.entry(groups).or_default().push((index, left[index]));
        }
    }
    spare.into_iter().map(|(groups, things)| Spare { groups, things }).collect()
}
