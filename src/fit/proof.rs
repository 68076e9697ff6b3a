//! Why a set can't fit. Without one of these proofs nothing is ever called impossible.
//!
//! What could be tucked into a holder, or is soft, is left out of all proofs but the one by volume.

use super::cuboid::{Size, volume, within};
use super::dual;
use super::thing::{Problem, Thing};

/// A reason why there is no way, in straight positions along the walls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proof {
    /// All of it together, pressed as far as may be, takes more room than there is.
    Volume {
        /// Cubic millimetres that it takes at the least.
        needs: i64,
        /// Cubic millimetres that there are.
        has: i64,
    },
    /// A thing is longer than the box in every form and position.
    TooLong {
        /// Which.
        thing: usize,
        /// It goes in slanting, with whatever finds room beside it.
        slanting: bool,
    },
    /// Two things fit each by itself, but never both.
    Exclude {
        /// Which two; twice the same where two of one thing exclude each other.
        things: [usize; 2],
    },
    /// Measured by dual feasible functions, the sides of the things add up to more than the box.
    Sides {
        /// What share of the box they would take at the least, in thousandths; more than 1000.
        thousandths: i64,
    },
}

/// The first proof that there is, if there is one.
pub fn proof(problem: &Problem) -> Option<Proof> {
    let must = must_stand(problem);
    too_long(problem, &must)
        .or_else(|| too_much(problem))
        .or_else(|| exclusive(problem, &must))
        .or_else(|| dual::beyond(problem.space.inside, &must).map(|thousandths| Proof::Sides { thousandths }))
}

/// A stiff thing that must stand in the box itself, with the ways it may stand.
#[derive(Debug)]
pub struct Standing {
    /// Which of the things.
    pub thing: usize,
    /// How many of it.
    pub count: u16,
    /// The extents it may have; only those that fit the box, unless none does.
    pub ways: Vec<Size>,
}

/// Everything stiff that no holder could take.
fn must_stand(problem: &Problem) -> Vec<Standing> {
    let inside = problem.space.inside;
    let mut standing = Vec::new();
    for (thing, of) in problem.things.iter().enumerate() {
        let held = || problem.things.iter().enumerate().any(|(holder, other)| holder != thing && may_hold(other, of));
        if of.press > 0 || of.count == 0 || held() {
            continue;
        }
        let mut ways = of.ways();
        if ways.iter().any(|way| within(*way, inside)) {
            ways.retain(|way| within(*way, inside));
        }
        standing.push(Standing { thing, count: of.count, ways });
    }
    standing
}

/// Whether a thing could be tucked into a holder, whatever way; a bag takes what is not too large for it.
fn may_hold(holder: &Thing, thing: &Thing) -> bool {
    let Some(room) = holder.room.as_ref().filter(|_| holder.count > 0) else { return false };
    let sorted = |mut size: Size| {
        size.sort_unstable();
        size
    };
    room.swells || thing.shapes.iter().any(|shape| within(sorted(shape.size), sorted(room.size)))
}

fn too_long(problem: &Problem, must: &[Standing]) -> Option<Proof> {
    let inside = problem.space.inside;
    let long = must.iter().find(|standing| standing.ways.iter().all(|way| !within(*way, inside)))?;
    let slanting = problem.things[long.thing].shapes.iter().any(|shape| slants(shape.size, inside));
    Some(Proof::TooLong { thing: long.thing, slanting })
}

fn too_much(problem: &Problem) -> Option<Proof> {
    let each = |thing: &Thing| {
        // A bag swells by what it holds, so that nothing is gained; a tin hides as much as its room.
        let hidden = thing.room.as_ref().filter(|room| !room.swells).map_or(0, |room| volume(room.size));
        i64::from(thing.count) * (thing.least_volume() - hidden)
    };
    let needs = problem.things.iter().map(each).fold(0, i64::saturating_add);
    let has = volume(problem.space.inside);
    (needs > has).then_some(Proof::Volume { needs, has })
}

/// Two that stand apart are apart along some axis, which must hold both.
fn exclusive(problem: &Problem, must: &[Standing]) -> Option<Proof> {
    let inside = problem.space.inside;
    let both = |one: &Standing, other: &Standing| {
        one.ways.iter().any(|a| other.ways.iter().any(|b| (0..3).any(|axis| a[axis] + b[axis] <= inside[axis])))
    };
    for (index, one) in must.iter().enumerate() {
        let rest = must[index..].iter().filter(|other| other.thing != one.thing || one.count > 1);
        if let Some(other) = rest.into_iter().find(|other| !both(one, other)) {
            return Some(Proof::Exclude { things: [one.thing, other.thing] });
        }
    }
    None
}

/// Whether a long thin thing goes in slanting: across the floor, or from there up to the lid.
fn slants(size: Size, inside: Size) -> bool {
    let mut sides = size.map(f64::from);
    sides.sort_by(|one, other| other.total_cmp(one));
    let [long, wide, thin] = sides;
    let [x, y, z] = inside.map(f64::from);
    let across = |[wide, thin]: [f64; 2]| thin <= z && leans(long, wide, x, y);
    let upwards = |[wide, thin]: [f64; 2]| {
        // The floor's diagonal, less what the thing's own width takes of it at both ends.
        let floor = x.hypot(y) - wide * (x / y + y / x);
        floor > 0.0 && leans(long, thin, floor, z)
    };
    [[wide, thin], [thin, wide]].into_iter().any(|section| across(section) || upwards(section))
}

/// Whether a rectangle fits into another one at some angle, tried by quarter degrees.
fn leans(long: f64, wide: f64, x: f64, y: f64) -> bool {
    (0..=360).map(|quarter| f64::from(quarter).to_radians() / 4.0).any(|angle| {
        let (sin, cos) = angle.sin_cos();
        long * cos + wide * sin <= x && long * sin + wide * cos <= y
    })
}
