//! Whether a plan is a plan: looked at piece by piece, by rules written down a second time.
//!
//! Nothing here calls the search, nor the other way round, so that a slip in the one is seen by the other.

use super::cuboid::{Cuboid, Size};
use super::plan::{Placed, Plan};
use super::thing::{Problem, Thing};

/// What is wrong with a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// There are more or fewer of a thing than there should be.
    Count(usize),
    /// A thing is not in any of the forms and positions that it may have.
    Form(usize),
    /// A thing is not wholly where it may be: in the box less the room round its edge, or in its holder.
    Outside(usize),
    /// Two things take the same room.
    Overlap(usize, usize),
    /// A thing is in something that is no holder, or in itself.
    Holder(usize),
    /// A thing hangs in the air.
    Unsupported(usize),
    /// A thing that should be seen first has something on it.
    Hidden(usize),
    /// More rests on a thing than it bears.
    Overloaded(usize),
}

/// The first thing wrong with a plan, if anything is.
pub fn check(problem: &Problem, plan: &Plan) -> Result<(), Fault> {
    counts(problem, plan)?;
    for (index, placed) in plan.placed.iter().enumerate() {
        form(problem, plan, index, placed)?;
        place(problem, plan, placed)?;
        alone(plan, index, placed)?;
        if placed.inside.is_none() {
            supported(problem, plan, index, placed)?;
            seen(problem, plan, index, placed)?;
        }
    }
    borne(problem, plan)
}

fn counts(problem: &Problem, plan: &Plan) -> Result<(), Fault> {
    for (index, thing) in problem.things.iter().enumerate() {
        let placed = plan.placed.iter().filter(|placed| placed.thing == index).count();
        let left = plan.left_out.get(index).copied().map(usize::from);
        if left.map(|left| left + placed) != Some(usize::from(thing.count)) {
            return Err(Fault::Count(index));
        }
    }
    let known = plan.placed.iter().all(|placed| placed.thing < problem.things.len() && !placed.solids.is_empty());
    if known { Ok(()) } else { Err(Fault::Count(problem.things.len())) }
}

/// A stiff thing is one solid in one of its positions; a soft one may be spread, but not pressed too far.
fn form(problem: &Problem, plan: &Plan, index: usize, placed: &Placed) -> Result<(), Fault> {
    let thing = &problem.things[placed.thing];
    let contents: i64 = plan.placed.iter().filter(|other| other.inside == Some(index)).map(total).sum();
    let swells = thing.room.as_ref().is_some_and(|room| room.swells) && contents > 0;
    let right = match &placed.solids[..] {
        [solid] if thing.press <= 10 => {
            let extents = extents(solid);
            if swells { swollen(thing, extents, contents) } else { stands(thing, extents) }
        }
        solids => thing.press > 10 && soft(thing, solids, if swells { contents } else { 0 }),
    };
    if right { Ok(()) } else { Err(Fault::Form(placed.thing)) }
}

/// Whether extents are a form of the thing turned so that an allowed side is upright.
fn stands(thing: &Thing, [x, y, high]: Size) -> bool {
    thing.shapes.iter().any(|shape| {
        (0..3).filter(|side| shape.up[*side]).any(|side| {
            let (long, wide) = (shape.size[(side + 1) % 3], shape.size[(side + 2) % 3]);
            high == shape.size[side] && ((x, y) == (long, wide) || (x, y) == (wide, long))
        })
    })
}

/// Whether a bag is thicker along one axis by as much as its contents need.
fn swollen(thing: &Thing, extents: Size, contents: i64) -> bool {
    (0..3).any(|axis| {
        let face = i64::from(extents[(axis + 1) % 3]) * i64::from(extents[(axis + 2) % 3]);
        let by = contents.div_euclid(face) + i64::from(contents % face > 0);
        let mut empty = extents;
        empty[axis] -= i32::try_from(by).unwrap_or(i32::MAX / 2);
        stands(thing, empty)
    })
}

/// Whether solids that touch make up enough for a soft thing, none of them too thin for it.
fn soft(thing: &Thing, solids: &[Cuboid], contents: i64) -> bool {
    let left = i64::from(100 - thing.press.min(100));
    let smallest = |size: Size| size.iter().map(|side| i64::from(*side)).product::<i64>();
    let least = thing.shapes.iter().map(|shape| smallest(shape.size)).min().unwrap_or(0) * left / 100;
    let thin = thing.shapes.iter().flat_map(|shape| shape.size).min().unwrap_or(0);
    let thin = i64::from(thin) * left / 100;
    let thick_enough = solids.iter().all(|solid| extents(solid).iter().all(|side| i64::from(*side) >= thin));
    let touching = (1..solids.len()).all(|at| solids[..at].iter().any(|other| touch(other, &solids[at])));
    thick_enough && touching && solids.iter().map(content).sum::<i64>() >= least + contents
}

fn place(problem: &Problem, plan: &Plan, placed: &Placed) -> Result<(), Fault> {
    let (low, high) = match placed.inside {
        None => {
            let space = &problem.space;
            let low = [0, 1, 2].map(|axis| space.edge[axis][0]);
            (low, [0, 1, 2].map(|axis| space.inside[axis] - space.edge[axis][1]))
        }
        Some(holder) => {
            let holder = plan.placed.get(holder).filter(|holder| holder.thing != placed.thing);
            let room = holder.and_then(|holder| problem.things[holder.thing].room.as_ref());
            ([0; 3], room.ok_or(Fault::Holder(placed.thing))?.size)
        }
    };
    let fits = |solid: &Cuboid| {
        (0..3)
            .all(|axis| low[axis] <= solid.lo[axis] && solid.lo[axis] < solid.hi[axis] && solid.hi[axis] <= high[axis])
    };
    if placed.solids.iter().all(fits) { Ok(()) } else { Err(Fault::Outside(placed.thing)) }
}

/// Nothing else in the same holder, or in the box, takes the same room.
fn alone(plan: &Plan, index: usize, placed: &Placed) -> Result<(), Fault> {
    let own = placed.solids.iter().enumerate();
    let itself = own.clone().any(|(at, solid)| placed.solids[..at].iter().any(|other| overlap(solid, other)));
    if itself {
        return Err(Fault::Overlap(placed.thing, placed.thing));
    }
    let others = plan.placed[..index].iter().filter(|other| other.inside == placed.inside);
    for other in others {
        if placed.solids.iter().any(|solid| other.solids.iter().any(|taken| overlap(solid, taken))) {
            return Err(Fault::Overlap(other.thing, placed.thing));
        }
    }
    Ok(())
}

/// Something stiff lies on the bottom, on another thing, or on something soft; soft things stay where they are stuffed.
fn supported(problem: &Problem, plan: &Plan, index: usize, placed: &Placed) -> Result<(), Fault> {
    let floor = problem.space.edge[2][0];
    let on = |solid: &Cuboid| {
        solid.lo[2] == floor
            || others(plan, index).any(|(_, below)| solid.lo[2] == below.hi[2] && shade(solid, below) > 0)
    };
    let thing = &problem.things[placed.thing];
    if thing.press > 10 || placed.solids.iter().all(on) { Ok(()) } else { Err(Fault::Unsupported(placed.thing)) }
}

fn seen(problem: &Problem, plan: &Plan, index: usize, placed: &Placed) -> Result<(), Fault> {
    let hidden =
        |solid: &Cuboid| others(plan, index).any(|(_, above)| above.lo[2] >= solid.hi[2] && shade(solid, above) > 0);
    let wanted = problem.things[placed.thing].on_top;
    if wanted && placed.solids.iter().any(hidden) { Err(Fault::Hidden(placed.thing)) } else { Ok(()) }
}

/// Lets each thing, the highest first, rest on what is right below it, by how much it covers of each.
fn borne(problem: &Problem, plan: &Plan) -> Result<(), Fault> {
    let mut load = vec![0.0; plan.placed.len()];
    let mut order: Vec<usize> = (0..plan.placed.len()).filter(|at| plan.placed[*at].inside.is_none()).collect();
    order.sort_by_key(|at| std::cmp::Reverse(plan.placed[*at].bottom()));
    for at in order {
        let placed = &plan.placed[at];
        if problem.things[placed.thing].weak.is_some_and(|most| load[at] > f64::from(most) + 1e-6) {
            return Err(Fault::Overloaded(placed.thing));
        }
        let weight = load[at] + mass(problem, plan, at);
        let below: Vec<(usize, i64)> = placed.solids.iter().flat_map(|solid| rests_on(plan, at, solid)).collect();
        let area: i64 = below.iter().map(|(_, area)| area).sum();
        for (other, part) in below {
            load[other] += weight * part as f64 / area as f64;
        }
    }
    Ok(())
}

/// Its own weight and that of all it holds.
fn mass(problem: &Problem, plan: &Plan, at: usize) -> f64 {
    let own = f64::from(problem.things[plan.placed[at].thing].weight);
    let held = (0..plan.placed.len()).filter(|other| plan.placed[*other].inside == Some(at));
    own + held.map(|other| mass(problem, plan, other)).sum::<f64>()
}

fn rests_on<'a>(plan: &'a Plan, at: usize, solid: &'a Cuboid) -> impl Iterator<Item = (usize, i64)> + 'a {
    let touching = others(plan, at).filter(|(_, below)| below.hi[2] == solid.lo[2]);
    touching.map(|(other, below)| (other, shade(solid, below))).filter(|(_, area)| *area > 0)
}

/// The solids of everything else in the box itself.
fn others(plan: &Plan, index: usize) -> impl Iterator<Item = (usize, &Cuboid)> {
    let outer = plan.placed.iter().enumerate().filter(move |(at, other)| *at != index && other.inside.is_none());
    outer.flat_map(|(at, other)| other.solids.iter().map(move |solid| (at, solid)))
}

fn extents(solid: &Cuboid) -> Size {
    [solid.hi[0] - solid.lo[0], solid.hi[1] - solid.lo[1], solid.hi[2] - solid.lo[2]]
}

fn content(solid: &Cuboid) -> i64 {
    extents(solid).iter().map(|side| i64::from(*side)).product()
}

fn total(placed: &Placed) -> i64 {
    placed.solids.iter().map(content).sum()
}

/// How far two solids overlap along an axis; nothing or less where they don't.
fn shared(one: &Cuboid, other: &Cuboid, axis: usize) -> i32 {
    one.hi[axis].min(other.hi[axis]) - one.lo[axis].max(other.lo[axis])
}

fn overlap(one: &Cuboid, other: &Cuboid) -> bool {
    (0..3).all(|axis| shared(one, other, axis) > 0)
}

/// Whether two solids have a part of a face in common.
fn touch(one: &Cuboid, other: &Cuboid) -> bool {
    let sides = [0, 1, 2].map(|axis| shared(one, other, axis));
    sides.iter().all(|side| *side >= 0) && sides.iter().filter(|side| **side == 0).count() == 1
}

/// The area that two solids share when seen from above.
fn shade(one: &Cuboid, other: &Cuboid) -> i64 {
    i64::from(shared(one, other, 0).max(0)) * i64::from(shared(one, other, 1).max(0))
}
