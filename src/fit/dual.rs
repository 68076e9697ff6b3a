//! Bounds by dual feasible functions: sides are measured in ways that never make a load that fits too large.
//!
//! The functions are those of Fekete & Schepers (A general framework for bounds for higher-dimensional orthogonal
//! packing problems, Mathematical Methods of Operations Research 60, 2004); turned things take the least product over
//! the ways they may stand, as in Boschetti (New lower bounds for the three-dimensional finite bin packing problem,
//! Discrete Applied Mathematics 140, 2004).

use super::cuboid::Size;
use super::proof::Standing;

/// More different things than this are never proved too many this way, so that it isn't tried.
const MOST_THINGS: usize = 20;
/// So many thresholds along each axis.
const THRESHOLDS: usize = 16;
/// Far more than what the rounding of sums of such shares can come to.
const ROUNDING: f64 = 1e-6;

/// A way to measure sides as shares of the box.
#[derive(Debug, Clone, Copy)]
enum Measure {
    /// As they are.
    Plain,
    /// u^(k): in steps of 1/k, counted as if the box were k + 1 steps long.
    Steps(i32),
    /// U^(ε): nothing below a threshold, all of the box when so little is left.
    Threshold(i32),
}

impl Measure {
    fn of(self, side: i32, whole: i32) -> f64 {
        let share = f64::from(side) / f64::from(whole);
        match self {
            Measure::Steps(k) => {
                let scaled = i64::from(side) * i64::from(k + 1);
                let whole = i64::from(whole);
                if scaled % whole == 0 { share } else { (scaled / whole) as f64 / f64::from(k) }
            }
            Measure::Threshold(least) if side < least => 0.0,
            Measure::Threshold(least) if side > whole - least => 1.0,
            Measure::Plain | Measure::Threshold(_) => share,
        }
    }
}

/// How much of the box the things take at the least, in thousandths, if some measure says more than all of it.
pub fn beyond(inside: Size, things: &[Standing]) -> Option<i64> {
    if things.is_empty() || things.len() > MOST_THINGS {
        return None;
    }
    let measured = [0, 1, 2].map(|axis| measured(inside[axis], axis, things));
    for xs in &measured[0] {
        for ys in &measured[1] {
            for zs in &measured[2] {
                let share = total(things, [xs, ys, zs]);
                if share > 1.0 + ROUNDING {
                    return Some((share * 1000.0).floor() as i64);
                }
            }
        }
    }
    None
}

/// For each measure the sides of all things in all their ways along one axis.
fn measured(whole: i32, axis: usize, things: &[Standing]) -> Vec<Vec<f64>> {
    let sides: Vec<i32> = things.iter().flat_map(|thing| &thing.ways).map(|way| way[axis]).collect();
    let mut thresholds: Vec<i32> = sides.iter().copied().filter(|side| *side <= whole / 2).collect();
    thresholds.sort_unstable();
    thresholds.dedup();
    let every = thresholds.len().div_ceil(THRESHOLDS).max(1);
    let thresholds = thresholds.into_iter().step_by(every).map(Measure::Threshold);
    let measures = std::iter::once(Measure::Plain).chain((1..=5).map(Measure::Steps)).chain(thresholds);
    measures.map(|measure| sides.iter().map(|side| measure.of(*side, whole)).collect()).collect()
}

/// What all things take together, each in the way that takes least.
fn total(things: &[Standing], [xs, ys, zs]: [&Vec<f64>; 3]) -> f64 {
    let mut at = 0;
    let mut total = 0.0;
    for thing in things {
        let ways = at..at + thing.ways.len();
        at = ways.end;
        let least = ways.map(|way| xs[way] * ys[way] * zs[way]).fold(f64::INFINITY, f64::min);
        total += least * f64::from(thing.count);
    }
    total
}
