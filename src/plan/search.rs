//! The best box counts: rows as they are needed, rounding down, filling up, and where that leaves a gap, branching.

use std::collections::BinaryHeap;

use super::bound::Ends;
use super::compile::Compiled;
use super::lp::Ended;
use super::master::{Aim, Master};
use super::packer::Packer;
use crate::model::stop::Stop;

/// What a search came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Outcome {
    /// The best plan found, over bundles, with what it gains; none if none was found.
    pub best: Option<(Vec<i64>, i128)>,
    /// What no plan can exceed; none: there is no plan.
    pub bound: Option<i128>,
}

/// Box counts between some ends that are still to be looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Node {
    bound: i128,
    depth: u32,
    /// When it was made; the newest first, so that the same problem is always searched in the same order.
    number: u64,
    ends: Ends,
}

impl Ord for Node {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let key = |node: &Node| (node.bound, node.depth, node.number);
        key(self).cmp(&key(other))
    }
}

impl PartialOrd for Node {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// A search under way.
pub(super) struct Search<'a> {
    aim: Aim,
    master: Master<'a>,
    packer: Packer<'a>,
    best: Option<(Vec<i64>, i128)>,
    open: BinaryHeap<Node>,
    numbered: u64,
    stop: &'a dyn Stop,
}

/// Counts that are compared by cost, when a plan is filled up.
const CUT_OFF: usize = 12;
/// How often rows are looked for that only whole counts keep, before anything is divided.
const SHARPENED: u32 = 20;

/// What is left of a node after it was looked at.
enum Looked {
    /// Nothing better is in it.
    Done,
    /// It must be divided here.
    Divide { bound: i128, variable: usize, at: i64, up_first: bool },
    /// It couldn't be finished.
    Open { bound: i128 },
}

impl<'a> Search<'a> {
    pub fn new(compiled: &'a Compiled, aim: Aim, stop: &'a dyn Stop) -> Search<'a> {
        let (master, packer) = (Master::new(compiled, aim), Packer::new(compiled, aim.buying()));
        Search { aim, master, packer, best: None, open: BinaryHeap::new(), numbered: 0, stop }
    }

    /// Looks until nothing better can be found, or until it is stopped.
    pub fn run(mut self) -> Outcome {
        let ends = self.master.ends.clone();
        let bound = self.master.ceiling();
        self.open.push(Node { bound, depth: 0, number: 0, ends });
        let mut left = None;
        while let Some(Node { bound, depth, mut ends, .. }) = self.open.pop() {
            if self.least().is_some_and(|least| bound < least) {
                break;
            }
            if depth > 0 && self.stop.stopped() {
                left = left.max(Some(bound));
                break;
            }
            match self.look(&mut ends, bound, depth == 0) {
                Looked::Done => {}
                Looked::Open { bound } => left = left.max(Some(bound)),
                Looked::Divide { bound, variable, at, up_first } => {
                    self.divide(&ends, (bound, depth), (variable, at, up_first));
                }
            }
        }
        let bound = left.max(self.best.as_ref().map(|(_, value)| *value));
        Outcome { best: self.best, bound }
    }

    /// What a plan must gain to be better than the best one.
    fn least(&self) -> Option<i128> {
        self.best.as_ref().map(|(_, value)| value + 1)
    }

    /// Looks at what lies between some ends, which are moved together where nothing better lies beyond.
    fn look(&mut self, ends: &mut Ends, above: i128, first: bool) -> Looked {
        let (mut bound, mut sharpened) = (above, if first { 0 } else { SHARPENED });
        loop {
            match self.master.solve(ends, self.stop) {
                Ended::Contradiction { row } if self.master.is_contradiction(ends, row) => return Looked::Done,
                Ended::Contradiction { .. } | Ended::Open => return Looked::Open { bound },
                Ended::Best => {}
            }
            let priced = self.master.bound(ends);
            bound = bound.min(priced.most());
            if let Some(least) = self.least() {
                if bound < least {
                    return Looked::Done;
                }
                priced.tighten(ends, least);
            }
            let values = self.master.values();
            if self.master.separate(&values) {
                continue;
            }
            self.round(&values, bound);
            if self.least().is_some_and(|least| bound < least) {
                return Looked::Done;
            }
            sharpened += 1;
            if sharpened > SHARPENED || !self.master.sharpen(ends, &values) {
                return self.division(&values, ends, bound);
            }
        }
    }

    /// Where a node is to be divided: at the count that is furthest from whole.
    fn division(&self, values: &[f64], ends: &Ends, bound: i128) -> Looked {
        let off = |value: f64| (value - value.round()).abs();
        let counts = self.packer.counts().len();
        let open = (0..counts).filter(|of| ends.low[*of] < ends.high[*of]);
        let widest = open.max_by(|a, b| off(values[*a]).total_cmp(&off(values[*b])).then(b.cmp(a)));
        let Some(variable) = widest else { return Looked::Open { bound } };
        let at = whole(values[variable]).clamp(ends.low[variable], ends.high[variable] - 1);
        Looked::Divide { bound, variable, at, up_first: values[variable] - values[variable].floor() > 0.5 }
    }

    fn divide(&mut self, ends: &Ends, (bound, depth): (i128, u32), (variable, at, up_first): (usize, i64, bool)) {
        let (mut below, mut above) = (ends.clone(), ends.clone());
        below.high[variable] = at;
        above.low[variable] = at + 1;
        let halves = if up_first { [below, above] } else { [above, below] };
        for ends in halves {
            self.numbered += 1;
            self.open.push(Node { bound, depth: depth + 1, number: self.numbered, ends });
        }
    }

    /// Rounds counts down and fills up, those first that were cut off most; keeps the plan if it is the best.
    fn round(&mut self, values: &[f64], bound: i128) {
        let counts: Vec<i64> = values[..self.packer.counts().len()].iter().map(|value| whole(*value + 1e-6)).collect();
        if !self.packer.set(&counts) {
            return;
        }
        let mut order: Vec<usize> = (0..counts.len()).collect();
        let part = |of: usize| values[of] - values[of].floor();
        order.sort_by(|a, b| part(*b).total_cmp(&part(*a)).then(a.cmp(b)));
        match self.aim {
            Aim::Most => self.fill_up(&order, None, bound),
            Aim::Within(parts) => {
                if self.packer.cost() <= parts {
                    self.fill_up(&order, Some(parts), bound);
                }
            }
            Aim::Cheapest(boxes) => self.fill_to(&order, boxes),
        }
    }

    fn fill_up(&mut self, order: &[usize], most_cost: Option<i128>, bound: i128) {
        let mut grown = true;
        while grown {
            grown = false;
            for &of in order {
                if i128::from(self.packer.boxes()) >= bound || self.stop.stopped() {
                    break;
                }
                grown |= self.packer.add(of, most_cost);
            }
        }
        self.keep(i128::from(self.packer.boxes()));
    }

    fn fill_to(&mut self, order: &[usize], boxes: i64) {
        while self.packer.boxes() < boxes {
            // Of those that were cut off most the one that costs least; of the others whichever can be filled.
            let costs = order.iter().take(CUT_OFF).filter_map(|of| Some((self.packer.cost_with(*of)?, *of)));
            let added = match costs.min() {
                Some((_, of)) => self.packer.add(of, None),
                None => order.iter().skip(CUT_OFF).any(|of| self.packer.add(*of, None)),
            };
            if !added || self.stop.stopped() {
                break;
            }
        }
        if self.packer.boxes() >= boxes {
            self.keep(-self.packer.cost());
        }
    }

    fn keep(&mut self, value: i128) {
        if self.best.as_ref().is_none_or(|(_, best)| value > *best) {
            self.best = Some((self.packer.counts().to_vec(), value));
        }
    }
}

#[allow(clippy::cast_possible_truncation, reason = "counts of boxes are small")]
fn whole(value: f64) -> i64 {
    value.floor() as i64
}
