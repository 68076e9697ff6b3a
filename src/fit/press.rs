//! Soft things: those that stay bulky are packed as solids, the others are stuffed into the gaps.

use super::cuboid::{Cuboid, Size};
use super::pack::Spaces;
use super::thing::Thing;

/// Soft things that stay at least this thick, in millimetres, are packed as solids.
const BULKY: i32 = 30;
/// Gaps narrower than this take nothing, in millimetres.
const NARROW: i32 = 4;
/// How far things are pressed, in hundredths of what they may be, the least first.
const PRESSES: [i64; 5] = [0, 25, 50, 75, 100];

/// Whether a thing is stuffed into gaps rather than packed as a solid.
pub fn is_stuffing(thing: &Thing) -> bool {
    !thing.is_stiff() && !thing.on_top && thing.weak.is_none() && thing.thinnest() < BULKY
}

/// The extents of a thing that is packed as a solid: as it is, and, if it is soft, pressed along its thinnest side.
pub fn pressed_ways(thing: &Thing) -> Vec<Size> {
    let mut ways = thing.ways();
    if thing.is_stiff() {
        return ways;
    }
    for part in [2, 1] {
        let left = 100 - i32::from(thing.press.min(100)) / part;
        for mut way in thing.ways() {
            let thin = (0..3).min_by_key(|axis| way[*axis]).unwrap_or(0);
            way[thin] = (way[thin] * left + 99) / 100;
            ways.push(way);
        }
    }
    ways
}

/// Where one soft thing is stuffed: solids that touch. None where no room was left for it.
pub type Stuffed = Option<Vec<Cuboid>>;

/// Stuffs things into the gaps between solids, pressed no more than is needed.
///
/// If not all of them go in even when pressed as far as they may be, as many as possible do.
pub fn stuff(space: Size, solids: &[Cuboid], things: &[&Thing]) -> Vec<Stuffed> {
    let gaps = if things.is_empty() { Vec::new() } else { gaps(space, solids) };
    let mut stuffed = Vec::new();
    for press in PRESSES {
        stuffed = stuff_pressed(gaps.clone(), things, press);
        if stuffed.iter().all(Option::is_some) {
            break;
        }
    }
    stuffed
}

/// The room between solids, cut into gaps that don't overlap, the largest first.
fn gaps(space: Size, solids: &[Cuboid]) -> Vec<Cuboid> {
    let mut spaces = Spaces::new(space);
    for solid in solids {
        spaces.cut(solid, [NARROW; 3]);
    }
    let mut gaps = Vec::new();
    while let Some(largest) = spaces.iter().map(|space| space.solid).max_by_key(Cuboid::volume) {
        spaces.cut(&largest, [NARROW; 3]);
        gaps.push(largest);
    }
    gaps
}

fn stuff_pressed(mut gaps: Vec<Cuboid>, things: &[&Thing], press: i64) -> Vec<Stuffed> {
    let need = |thing: &Thing| thing.volume() - thing.volume() * i64::from(thing.press) * press / 10_000;
    let mut order: Vec<usize> = (0..things.len()).collect();
    order.sort_by_key(|at| std::cmp::Reverse((things[*at].thinnest(), need(things[*at]))));
    let mut stuffed = vec![None; things.len()];
    for at in order {
        let (need, thin) = (need(things[at]), things[at].thinnest());
        stuffed[at] = into_one(&mut gaps, need, thin).or_else(|| over_several(&mut gaps, need, thin));
    }
    stuffed
}

/// A slice of the gap that is the least too large.
fn into_one(gaps: &mut Vec<Cuboid>, need: i64, thin: i32) -> Stuffed {
    let wide = |gap: &Cuboid| gap.size().iter().all(|side| *side >= thin);
    let fitting = (0..gaps.len()).filter(|at| wide(&gaps[*at]) && gaps[*at].volume() >= need);
    let best = fitting.min_by_key(|at| gaps[*at].volume())?;
    Some(vec![slice(gaps, best, need, thin)])
}

/// Cuts off a gap's end as much as is needed, along its longest side.
fn slice(gaps: &mut Vec<Cuboid>, at: usize, need: i64, thin: i32) -> Cuboid {
    let gap = gaps[at];
    let size = gap.size();
    let axis = (0..3).max_by_key(|axis| size[*axis]).unwrap_or(0);
    let face = gap.volume() / i64::from(size[axis]);
    let length = i32::try_from((need + face - 1) / face).unwrap_or(size[axis]).clamp(thin, size[axis]);
    let mut taken = gap;
    taken.hi[axis] = gap.lo[axis] + length;
    if size[axis] - length < NARROW {
        gaps.swap_remove(at);
    } else {
        gaps[at].lo[axis] += length;
    }
    taken
}

/// Whole gaps that touch each other, and a slice of the last.
fn over_several(gaps: &mut Vec<Cuboid>, need: i64, thin: i32) -> Stuffed {
    let before = gaps.clone();
    let mut taken: Vec<Cuboid> = Vec::new();
    let mut missing = need;
    while missing > 0 {
        let wide = |gap: &Cuboid| gap.size().iter().all(|side| *side >= thin);
        let near = |gap: &Cuboid| taken.is_empty() || taken.iter().any(|other| touch(other, gap));
        let next =
            (0..gaps.len()).filter(|at| wide(&gaps[*at]) && near(&gaps[*at])).max_by_key(|at| gaps[*at].volume());
        let Some(next) = next else {
            *gaps = before;
            return None;
        };
        // A slice may end where the next gap does not touch it; only the last gap is sliced.
        let whole = gaps[next].volume() <= missing;
        let part = if whole { gaps.swap_remove(next) } else { slice(gaps, next, missing, thin) };
        if !whole && taken.iter().all(|other| !touch(other, &part)) {
            *gaps = before;
            return None;
        }
        missing -= part.volume();
        taken.push(part);
    }
    Some(taken)
}

/// Whether two solids have a part of a face in common.
fn touch(one: &Cuboid, other: &Cuboid) -> bool {
    let shared = [0, 1, 2].map(|axis| one.hi[axis].min(other.hi[axis]) - one.lo[axis].max(other.lo[axis]));
    shared.iter().all(|side| *side >= 0) && shared.iter().filter(|side| **side == 0).count() == 1
}
