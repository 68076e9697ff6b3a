//! Small linear programs, solved again and again as rows come and bounds move.
//!
//! The most of `Σ gain · x` with `low ≤ x ≤ high` and rows `Σ term · x ≤ most`. Every variable has two ends, so whatever
//! the basis, each variable outside it can be set to the end that its reduced gain prefers; only rows can then be
//! broken, and the dual simplex method mends them (C. E. Lemke, The dual method of solving the linear programming
//! problem, Naval Research Logistics Quarterly 1 (1954); with bounds, and steps past several of them at once, as in
//! R. Fourer, Notes on the dual simplex method, 1994). Nothing said here is taken on trust: [`Lp::prices`] are
//! handed to [`super::bound`], which adds them up in whole numbers.

use std::collections::BTreeSet;

use crate::model::stop::Stop;

/// A linear program with the basis that it was last left at.
#[derive(Debug, Clone)]
pub(super) struct Lp {
    gain: Vec<f64>,
    /// Ends of the variables, then of each row's rest.
    low: Vec<f64>,
    high: Vec<f64>,
    /// The ends that the variables began with, between which they may be moved.
    widest: Vec<(f64, f64)>,
    rows: Vec<Row>,
    /// The variable in each row of the tableau, and in each column.
    basic: Vec<usize>,
    column: Vec<usize>,
    /// Whether the variable of a column lies at its upper end.
    at_high: Vec<bool>,
    /// `basic value = rest − Σ entry · column value`.
    table: Vec<Vec<f64>>,
    rest: Vec<f64>,
    value: Vec<f64>,
    reduced: Vec<f64>,
    /// Pivots since the tableau was made from the rows.
    worn: u32,
}

/// A row: `Σ term · x ≤ most`, divided by its largest term for the arithmetic here.
#[derive(Debug, Clone)]
struct Row {
    terms: Vec<(usize, f64)>,
    most: f64,
    scale: f64,
}

/// How a program ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// At its best.
    Best,
    /// No values satisfy the rows; the multipliers are the prices of a contradiction.
    Contradiction {
        /// The row of the tableau that can't be mended.
        row: usize,
    },
    /// It was stopped, or rounding got in the way.
    Open,
}

/// How far a row may be broken and count as kept.
const NEAR: f64 = 1e-8;
/// The least entry to pivot on.
const PIVOT: f64 = 1e-7;
/// Pivots after which the tableau is made anew, lest rounding adds up.
const WORN: u32 = 150;

impl Lp {
    /// A program without rows; gains and ends of the variables.
    pub fn new(gain: Vec<f64>, low: Vec<f64>, high: Vec<f64>) -> Lp {
        let count = gain.len();
        let at_high = gain.iter().map(|gain| *gain > 0.0).collect();
        Lp {
            reduced: gain.clone(),
            gain,
            widest: low.iter().copied().zip(high.iter().copied()).collect(),
            low,
            high,
            rows: Vec::new(),
            basic: Vec::new(),
            column: (0..count).collect(),
            at_high,
            table: Vec::new(),
            rest: Vec::new(),
            value: Vec::new(),
            worn: 0,
        }
    }

    /// Adds a row.
    pub fn add(&mut self, terms: &[(usize, f64)], most: f64) {
        let scale = terms.iter().map(|(_, term)| term.abs()).fold(1e-9, f64::max);
        let row =
            Row { terms: terms.iter().map(|(of, term)| (*of, term / scale)).collect(), most: most / scale, scale };
        let variable = self.gain.len() + self.rows.len();
        self.low.push(0.0);
        let ends = |of: usize| self.widest[of];
        let least: f64 = row.terms.iter().map(|(of, term)| (term * ends(*of).0).min(term * ends(*of).1)).sum();
        self.high.push((row.most - least).max(0.0));
        let (entries, rest) = self.in_basis(&row);
        self.basic.push(variable);
        self.value.push(rest - dot(&entries, &self.column_values()));
        self.table.push(entries);
        self.rest.push(rest);
        self.rows.push(row);
    }

    /// Moves the ends of a variable, within those that it began with.
    pub fn set_ends(&mut self, variable: usize, low: f64, high: f64) {
        (self.low[variable], self.high[variable]) = (low, high);
    }

    /// Solves it from where it was left.
    pub fn solve(&mut self, stop: &dyn Stop) -> Ended {
        if self.worn > WORN {
            self.renew();
        }
        self.settle();
        let most = 200 + 20 * (self.rows.len() + self.gain.len());
        for round in 0..most {
            if round % 16 == 0 && stop.stopped() {
                return Ended::Open;
            }
            let Some(row) = self.most_broken() else { return Ended::Best };
            let below = self.value[row] < self.low[self.basic[row]];
            let Some(column) = self.entering(row, below) else {
                return Ended::Contradiction { row };
            };
            self.pivot(row, column, below);
        }
        self.renew();
        Ended::Open
    }

    /// The values of the variables.
    pub fn values(&self) -> Vec<f64> {
        let mut values = vec![0.0; self.gain.len()];
        for (index, &variable) in self.column.iter().enumerate() {
            if variable < values.len() {
                values[variable] = self.column_value(index);
            }
        }
        for (index, &variable) in self.basic.iter().enumerate() {
            if variable < values.len() {
                values[variable] = self.value[index];
            }
        }
        values
    }

    /// What one more of each row's `most` is worth.
    pub fn prices(&self) -> Vec<f64> {
        self.row_entries(|column| -self.reduced[column])
    }

    /// Multipliers of the rows that show a contradiction, by the row of the tableau that can't be mended.
    pub fn contradiction(&self, row: usize) -> Vec<f64> {
        let sign = if self.value[row] < self.low[self.basic[row]] { 1.0 } else { -1.0 };
        let own = self.basic[row].checked_sub(self.gain.len());
        let mut multipliers = self.row_entries(|column| sign * self.table[row][column]);
        if let Some(own) = own {
            multipliers[own] = sign / self.rows[own].scale;
        }
        multipliers
    }

    /// A row of the tableau whose variable is one of the program's: its entries at each row's rest.
    pub fn multipliers(&self, row: usize) -> Vec<f64> {
        self.row_entries(|column| self.table[row][column])
    }

    /// The variables in the basis with the rows of the tableau that they are in.
    pub fn basics(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.basic.iter().enumerate().filter(|(_, variable)| **variable < self.gain.len()).map(|(row, of)| (row, *of))
    }

    fn row_entries(&self, of_column: impl Fn(usize) -> f64) -> Vec<f64> {
        let mut entries = vec![0.0; self.rows.len()];
        for (column, &variable) in self.column.iter().enumerate() {
            if let Some(row) = variable.checked_sub(self.gain.len()) {
                entries[row] = of_column(column) / self.rows[row].scale;
            }
        }
        entries
    }

    fn column_value(&self, column: usize) -> f64 {
        let variable = self.column[column];
        if self.at_high[column] { self.high[variable] } else { self.low[variable] }
    }

    fn column_values(&self) -> Vec<f64> {
        (0..self.column.len()).map(|column| self.column_value(column)).collect()
    }

    /// A row as entries over the columns, with what is left of its `most`.
    fn in_basis(&self, row: &Row) -> (Vec<f64>, f64) {
        let mut place = vec![None; self.gain.len()];
        for (at, &variable) in self.basic.iter().enumerate().filter(|(_, variable)| **variable < self.gain.len()) {
            place[variable] = Some(at);
        }
        let mut by_variable = vec![0.0; self.gain.len()];
        let mut entries = vec![0.0; self.column.len()];
        let mut rest = row.most;
        for &(variable, term) in &row.terms {
            match place[variable] {
                None => by_variable[variable] = term,
                Some(at) => {
                    rest -= term * self.rest[at];
                    for (entry, other) in entries.iter_mut().zip(&self.table[at]) {
                        *entry -= term * other;
                    }
                }
            }
        }
        for (column, &variable) in self.column.iter().enumerate().filter(|(_, variable)| **variable < self.gain.len()) {
            entries[column] += by_variable[variable];
        }
        (entries, rest)
    }

    /// Sets each column to the end that its reduced gain prefers, and works out the basis.
    fn settle(&mut self) {
        for column in 0..self.column.len() {
            if self.reduced[column] > 1e-9 {
                self.at_high[column] = true;
            } else if self.reduced[column] < -1e-9 {
                self.at_high[column] = false;
            }
        }
        let values = self.column_values();
        for (row, value) in self.value.iter_mut().enumerate() {
            *value = self.rest[row] - dot(&self.table[row], &values);
        }
    }

    /// The row of the tableau that is broken most.
    fn most_broken(&self) -> Option<usize> {
        let broken = |row: usize| {
            let (variable, value) = (self.basic[row], self.value[row]);
            (self.low[variable] - value).max(value - self.high[variable])
        };
        let near = |row: usize| NEAR * (1.0 + self.value[row].abs());
        let rows = (0..self.basic.len()).map(|row| (row, broken(row))).filter(|(row, by)| *by > near(*row));
        rows.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0))).map(|(row, _)| row)
    }

    /// The column to enter for a broken row; columns whose other end is passed on the way are moved there.
    fn entering(&mut self, row: usize, below: bool) -> Option<usize> {
        let sign = if below { 1.0 } else { -1.0 };
        let entries = &self.table[row];
        let mut ways: Vec<(f64, usize)> = Vec::new();
        for (column, entry) in entries.iter().enumerate() {
            let toward = if self.at_high[column] { sign * entry } else { -sign * entry };
            let variable = self.column[column];
            if toward > PIVOT && self.high[variable] > self.low[variable] {
                ways.push(((self.reduced[column].abs()) / toward, column));
            }
        }
        ways.sort_by(|a, b| {
            a.0.total_cmp(&b.0).then(entries[b.1].abs().total_cmp(&entries[a.1].abs())).then(a.1.cmp(&b.1))
        });
        let variable = self.basic[row];
        let mut broken = (self.low[variable] - self.value[row]).max(self.value[row] - self.high[variable]);
        for (index, &(_, column)) in ways.iter().enumerate() {
            let span = self.high[self.column[column]] - self.low[self.column[column]];
            broken -= span * self.table[row][column].abs();
            if broken <= NEAR * (1.0 + self.value[row].abs()) {
                self.flip(&ways[..index]);
                return Some(column);
            }
        }
        None
    }

    /// Moves columns to their other ends.
    fn flip(&mut self, ways: &[(f64, usize)]) {
        for &(_, column) in ways {
            let before = self.column_value(column);
            self.at_high[column] = !self.at_high[column];
            let by = self.column_value(column) - before;
            for (value, row) in self.value.iter_mut().zip(&self.table) {
                *value -= row[column] * by;
            }
        }
    }

    /// Exchanges the variables of a row and a column; that of the row goes to the end that it was beyond.
    fn pivot(&mut self, row: usize, column: usize, below: bool) {
        let (leaving, entering) = (self.basic[row], self.column[column]);
        let end = if below { self.low[leaving] } else { self.high[leaving] };
        let by = (self.value[row] - end) / self.table[row][column];
        let entered = self.column_value(column) + by;
        for (value, entries) in self.value.iter_mut().zip(&self.table) {
            *value -= entries[column] * by;
        }
        self.exchange(row, column);
        self.value[row] = entered;
        self.at_high[column] = !below;
        (self.basic[row], self.column[column]) = (entering, leaving);
        self.worn += 1;
    }

    /// The arithmetic of an exchange on the tableau.
    fn exchange(&mut self, row: usize, column: usize) {
        let mut pivot = std::mem::take(&mut self.table[row]);
        let by = 1.0 / pivot[column];
        pivot[column] = 1.0;
        for entry in &mut pivot {
            *entry *= by;
        }
        let rest = self.rest[row] * by;
        for (other, entries) in self.table.iter_mut().enumerate().filter(|(other, _)| *other != row) {
            let factor = entries[column];
            if factor != 0.0 {
                entries[column] = 0.0;
                subtract(entries, factor, &pivot);
                self.rest[other] -= factor * rest;
            }
        }
        let factor = self.reduced[column];
        self.reduced[column] = 0.0;
        subtract(&mut self.reduced, factor, &pivot);
        self.rest[row] = rest;
        self.table[row] = pivot;
    }

    /// Makes the tableau anew from the rows, with the same basis as far as that can be.
    fn renew(&mut self) {
        let count = self.gain.len();
        let stays: BTreeSet<usize> = self.basic.iter().copied().filter(|variable| *variable >= count).collect();
        let wanted: Vec<usize> = self.basic.iter().copied().filter(|variable| *variable < count).collect();
        let high: BTreeSet<usize> =
            self.column.iter().zip(&self.at_high).filter(|(_, high)| **high).map(|(variable, _)| *variable).collect();
        self.basic = (count..count + self.rows.len()).collect();
        self.column = (0..count).collect();
        self.reduced.clone_from(&self.gain);
        for (index, row) in self.rows.iter().enumerate() {
            let mut entries = vec![0.0; count];
            for (variable, term) in &row.terms {
                entries[*variable] += term;
            }
            self.table[index] = entries;
            self.rest[index] = row.most;
        }
        let mut free: Vec<usize> = (0..self.rows.len()).filter(|row| !stays.contains(&(count + row))).collect();
        for column in wanted {
            let Some(place) = (0..free.len())
                .max_by(|a, b| self.table[free[*a]][column].abs().total_cmp(&self.table[free[*b]][column].abs()))
            else {
                break;
            };
            if self.table[free[place]][column].abs() > PIVOT {
                let row = free.swap_remove(place);
                self.exchange(row, column);
                std::mem::swap(&mut self.basic[row], &mut self.column[column]);
            }
        }
        for (column, variable) in self.column.iter().enumerate() {
            self.at_high[column] = high.contains(variable);
        }
        self.worn = 0;
        self.settle();
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn subtract(from: &mut [f64], factor: f64, what: &[f64]) {
    for (entry, other) in from.iter_mut().zip(what) {
        *entry -= factor * other;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Never;

    impl Stop for Never {
        fn stopped(&self) -> bool {
            false
        }
    }

    fn near(found: &[f64], expected: &[f64]) {
        assert_eq!(found.len(), expected.len());
        assert!(found.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-6), "{found:?}, not {expected:?}");
    }

    #[test]
    fn a_corner_by_hand_with_its_prices() {
        // 3x + 2y with x + y ≤ 4, x + 3y ≤ 6, x ≤ 3: the corner is x = 3, y = 1.
        let mut lp = Lp::new(vec![3.0, 2.0], vec![0.0; 2], vec![3.0, 9.0]);
        lp.add(&[(0, 1.0), (1, 1.0)], 4.0);
        lp.add(&[(0, 1.0), (1, 3.0)], 6.0);
        assert_eq!(lp.solve(&Never), Ended::Best);
        near(&lp.values(), &[3.0, 1.0]);
        // Both rows meet there; whatever the prices, they say that 11 is the most.
        let prices = lp.prices();
        let left = [3.0 - prices[0] - prices[1], 2.0 - prices[0] - 3.0 * prices[1]];
        let bound = 4.0 * prices[0] + 6.0 * prices[1] + 3.0 * left[0].max(0.0) + 9.0 * left[1].max(0.0);
        near(&[bound], &[11.0]);
    }

    #[test]
    fn rows_and_ends_may_move_between_solutions() {
        let mut lp = Lp::new(vec![1.0, 1.0], vec![0.0; 2], vec![5.0, 5.0]);
        lp.add(&[(0, 2.0), (1, 1.0)], 6.0);
        assert_eq!(lp.solve(&Never), Ended::Best);
        near(&lp.values(), &[0.5, 5.0]);
        lp.add(&[(1, 1.0), (0, -1.0)], 1.0);
        assert_eq!(lp.solve(&Never), Ended::Best);
        near(&lp.values(), &[5.0 / 3.0, 8.0 / 3.0]);
        lp.set_ends(0, 0.0, 1.0);
        assert_eq!(lp.solve(&Never), Ended::Best);
        near(&lp.values(), &[1.0, 2.0]);
        lp.set_ends(0, 0.0, 5.0);
        assert_eq!(lp.solve(&Never), Ended::Best);
        near(&lp.values(), &[5.0 / 3.0, 8.0 / 3.0]);
    }

    #[test]
    fn a_contradiction_is_found_with_its_multipliers() {
        // x + y ≥ 7 and x + 2y ≤ 4 with x ≤ 5: one row less the other leaves y ≤ −3.
        let mut lp = Lp::new(vec![1.0, 0.0], vec![0.0; 2], vec![5.0, 5.0]);
        lp.add(&[(0, -1.0), (1, -1.0)], -7.0);
        lp.add(&[(0, 1.0), (1, 2.0)], 4.0);
        let Ended::Contradiction { row } = lp.solve(&Never) else { panic!("there is none") };
        let of = lp.contradiction(row);
        assert!(of.iter().all(|multiplier| *multiplier >= -1e-9), "{of:?}");
        let terms = [-of[0] + of[1], -of[0] + 2.0 * of[1]];
        let least: f64 = terms.iter().map(|term| (term * 5.0).min(0.0)).sum();
        assert!(least > -7.0 * of[0] + 4.0 * of[1], "{of:?}");
    }

    #[test]
    fn a_tableau_made_anew_is_the_same() {
        let mut lp = Lp::new(vec![5.0, 4.0, 3.0], vec![0.0; 3], vec![9.0; 3]);
        for (terms, most) in [([2.0, 3.0, 1.0], 5.0), ([4.0, 1.0, 2.0], 11.0), ([3.0, 4.0, 2.0], 8.0)] {
            lp.add(&[(0, terms[0]), (1, terms[1]), (2, terms[2])], most);
        }
        assert_eq!(lp.solve(&Never), Ended::Best);
        // V. Chvátal, Linear Programming (1983), chapter 2: 2, 0, 1 with 13 in all.
        near(&lp.values(), &[2.0, 0.0, 1.0]);
        lp.renew();
        near(&lp.values(), &[2.0, 0.0, 1.0]);
    }
}
