//! Box counts as a program: the counts, what is short of each net at each price, and the rows that tie them.
//!
//! Rows come as they are needed. For given counts a net is filled level by level, from what is on hand up to the
//! dearest offer; what is short at a level is what holds the flow back there: `Σ terms · boxes − most`. So the least
//! that must be bought above a price is the greatest of these over all such sets, and its sum over the steps between
//! prices is what the shopping costs. A flow finds the set that is broken worst; that is the row to add.

use super::bound::{Bound, Ends, Row};
use super::compile::Compiled;
use super::filler::{Cut, Filler};
use super::gomory;
use super::lp::{Ended, Lp};
use crate::model::stop::Stop;

/// What is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aim {
    /// The most boxes from what is on hand.
    Most,
    /// The most boxes if so much may be spent, in parts of a minor unit.
    Within(i128),
    /// The least money for so many boxes.
    Cheapest(i64),
}

impl Aim {
    pub fn buying(self) -> bool {
        self != Aim::Most
    }
}

/// The program.
#[derive(Debug)]
pub(super) struct Master<'a> {
    fillers: Vec<Filler<'a>>,
    /// For each net and level: what is short there, if that may be.
    layers: Vec<Vec<Layer>>,
    bundles: usize,
    gain: Vec<i64>,
    /// How far the variables may go at all.
    pub ends: Ends,
    rows: Vec<Row>,
    lp: Lp,
}

/// A net filled with what costs up to a price.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Layer {
    /// What is short here can be bought at a higher price: the variable for it.
    Short(usize),
    /// Nothing may be short here.
    Hard,
    /// Never short, or short for nothing.
    Ample,
}

/// Boxes are cut so fine while fractions of them are filled.
const PARTS: i64 = 1 << 20;
/// A row that is broken by less is as good as kept.
const BROKEN: f64 = 1e-5;
/// A row that only whole counts keep must lie this far from the values, and of many only the deepest are kept.
const SHALLOW: f64 = 1e-3;
const DEEPEST: usize = 20;

impl<'a> Master<'a> {
    pub fn new(compiled: &'a Compiled, aim: Aim) -> Master<'a> {
        let bundles = compiled.bundles.len();
        let fillers = compiled.nets.iter().map(|net| Filler::new(net, bundles, aim.buying())).collect();
        let box_gain = i64::from(!matches!(aim, Aim::Cheapest(_)));
        let mut master = Master {
            fillers,
            layers: Vec::new(),
            bundles,
            gain: vec![box_gain; bundles],
            ends: Ends { low: vec![0; bundles], high: compiled.all() },
            rows: Vec::new(),
            lp: Lp::new(Vec::new(), Vec::new(), Vec::new()),
        };
        let steps = master.lay(&compiled.all(), aim);
        master.lp = Lp::new(floats(&master.gain), floats(&master.ends.low), floats(&master.ends.high));
        master.tie(&steps, aim);
        master
    }

    /// Finds which levels can be short, if all boxes are filled, and makes their variables; what a unit short at each
    /// costs.
    fn lay(&mut self, all: &[i64], aim: Aim) -> Vec<(usize, i64)> {
        let mut costs = Vec::new();
        for net in 0..self.fillers.len() {
            let filler = &mut self.fillers[net];
            let steps = filler.steps();
            let mut layers = vec![Layer::Ample; steps.len()];
            let mut shorts = Vec::new();
            filler.clear(all, 1);
            filler.fill_by_level(|level, filler| shorts.push((level, filler.short())));
            for (level, short) in shorts {
                layers[level] = match steps[level] {
                    None => Layer::Hard,
                    Some(0) => Layer::Ample,
                    Some(step) => {
                        costs.push((self.gain.len(), step));
                        self.gain.push(if matches!(aim, Aim::Cheapest(_)) { -step } else { 0 });
                        self.ends.low.push(0);
                        self.ends.high.push(short);
                        Layer::Short(self.gain.len() - 1)
                    }
                };
            }
            self.layers.push(layers);
        }
        costs
    }

    /// The row of the budget, or of how many boxes there must be.
    fn tie(&mut self, steps: &[(usize, i64)], aim: Aim) {
        match aim {
            Aim::Most => {}
            Aim::Within(parts) => {
                let most = i64::try_from(parts).unwrap_or(i64::MAX / 2);
                self.add(Row { terms: steps.to_vec(), most });
            }
            Aim::Cheapest(boxes) => {
                self.add(Row { terms: (0..self.bundles).map(|of| (of, -1)).collect(), most: -boxes });
            }
        }
    }

    fn add(&mut self, row: Row) {
        if row.terms.is_empty() {
            return;
        }
        let terms: Vec<(usize, f64)> = row.terms.iter().map(|(of, term)| (*of, float(*term))).collect();
        self.lp.add(&terms, float(row.most));
        self.rows.push(row);
    }

    /// Solves it between these ends, without looking for more rows.
    pub fn solve(&mut self, ends: &Ends, stop: &dyn Stop) -> Ended {
        for (variable, (low, high)) in ends.low.iter().zip(&ends.high).enumerate() {
            self.lp.set_ends(variable, float(*low), float(*high));
        }
        self.lp.solve(stop)
    }

    /// The counts that it was solved to, and what is short.
    pub fn values(&self) -> Vec<f64> {
        self.lp.values()
    }

    /// What no plan between these ends can exceed, by the prices that it was solved to.
    pub fn bound(&self, ends: &Ends) -> Bound {
        Bound::of(&self.gain, ends, &self.rows, &self.lp.prices())
    }

    /// What no plan can exceed, before anything is looked at.
    pub fn ceiling(&self) -> i128 {
        Bound::of(&self.gain, &self.ends, &[], &[]).most()
    }

    /// Whether it is beyond doubt that nothing between these ends keeps the rows.
    pub fn is_contradiction(&self, ends: &Ends, row: usize) -> bool {
        let nothing = vec![0; self.gain.len()];
        Bound::of(&nothing, ends, &self.rows, &self.lp.contradiction(row)).is_contradiction()
    }

    /// Adds rows that only whole counts keep, from fractions in these values; whether there were any.
    pub fn sharpen(&mut self, ends: &Ends, values: &[f64]) -> bool {
        let ranges = ends.low.iter().zip(&ends.high);
        let nearer = |(value, (low, high)): (&f64, (&i64, &i64))| value - float(*low) > float(*high) - value;
        let at_high: Vec<bool> = values.iter().zip(ranges).map(nearer).collect();
        let off = |value: f64| (value - value.round()).abs();
        let fractions = self.lp.basics().filter(|(_, of)| off(values[*of]) > 0.01);
        let made = fractions.filter_map(|(row, _)| gomory::row(&self.rows, ends, &at_high, &self.lp.multipliers(row)));
        let mut found: Vec<(f64, Row)> = made.map(|row| (depth(&row, values), row)).collect();
        found.retain(|(depth, _)| *depth > SHALLOW);
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found.truncate(DEEPEST);
        let any = !found.is_empty();
        for (_, row) in found {
            self.add(row);
        }
        any
    }

    /// Adds the rows that these values break; whether there were any.
    pub fn separate(&mut self, values: &[f64]) -> bool {
        let boxes: Vec<i64> = values[..self.bundles].iter().map(|value| parts(*value)).collect();
        let mut found = Vec::new();
        for (filler, layers) in self.fillers.iter_mut().zip(&self.layers) {
            if layers.iter().all(|layer| *layer == Layer::Ample) {
                continue;
            }
            filler.clear(&boxes, PARTS);
            filler.fill_by_level(|level, filler| match layers[level] {
                Layer::Ample => {}
                Layer::Hard => found.extend(filler.cuts().into_iter().map(|cut| (cut, None))),
                Layer::Short(variable) => found.push((together(filler.cuts()), Some(variable))),
            });
        }
        let before = self.rows.len();
        for (cut, short) in found {
            let over: f64 =
                cut.terms.iter().map(|(of, term)| values[*of] * float(*term)).sum::<f64>() - float(cut.most);
            if over - short.map_or(0.0, |variable| values[variable]) > BROKEN {
                let Cut { mut terms, most, .. } = cut;
                terms.extend(short.map(|variable| (variable, -1)));
                self.add(Row { terms, most });
            }
        }
        self.rows.len() > before
    }
}

/// How far values lie beyond a row.
fn depth(row: &Row, values: &[f64]) -> f64 {
    let over = row.terms.iter().map(|(of, term)| values[*of] * float(*term)).sum::<f64>() - float(row.most);
    let length = row.terms.iter().map(|(_, term)| float(*term) * float(*term)).sum::<f64>().sqrt();
    over / length.max(1.0)
}

/// Cuts that have nothing to do with each other, as one.
fn together(cuts: Vec<Cut>) -> Cut {
    let mut whole = Cut { terms: Vec::new(), most: 0, spots: Vec::new() };
    let mut terms = std::collections::BTreeMap::new();
    for cut in cuts {
        whole.most += cut.most;
        whole.spots.extend(cut.spots);
        for (of, term) in cut.terms {
            *terms.entry(of).or_insert(0) += term;
        }
    }
    whole.terms = terms.into_iter().collect();
    whole
}

#[allow(clippy::cast_precision_loss, reason = "counts of things stay far below what a float tells apart")]
fn float(number: i64) -> f64 {
    number as f64
}

fn floats(numbers: &[i64]) -> Vec<f64> {
    numbers.iter().map(|number| float(*number)).collect()
}

#[allow(clippy::cast_possible_truncation, reason = "counts of boxes are small, and the ends are kept")]
fn parts(value: f64) -> i64 {
    (value * float(PARTS)).round().max(0.0) as i64
}
