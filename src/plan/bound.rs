//! What no plan can exceed, added up in whole numbers.
//!
//! Whatever prices not below nothing one puts on rows `Σ term · x ≤ most`, no `x` between its ends gains more than what
//! the rows are worth at these prices and what each variable then still gains at its better end (weak duality; e.g.
//! A. Neumaier, O. Shcherbina, Safe bounds in linear and mixed-integer linear programming, 2004). Good prices come
//! from arithmetic with fractions; that they are a little off makes a bound a little weaker, never wrong.

/// A row in whole numbers: `Σ term · x ≤ most`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Row {
    pub terms: Vec<(usize, i64)>,
    pub most: i64,
}

/// The ends of each variable, both included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Ends {
    pub low: Vec<i64>,
    pub high: Vec<i64>,
}

/// A bound, and what it is made of.
#[derive(Debug, Clone)]
pub(super) struct Bound {
    /// In parts of [`PARTS`].
    total: i128,
    /// What one more of each variable gains at the prices, in the same parts.
    left: Vec<i128>,
}

/// Prices are kept in parts of one over this.
const PARTS: f64 = 1_073_741_824.0;
const SHIFT: u32 = 30;

impl Bound {
    /// Of the gains, at these prices of the rows; prices below nothing count as nothing.
    pub fn of(gain: &[i64], ends: &Ends, rows: &[Row], prices: &[f64]) -> Bound {
        let mut left: Vec<i128> = gain.iter().map(|gain| i128::from(*gain) << SHIFT).collect();
        let mut total = 0_i128;
        for (row, price) in rows.iter().zip(prices) {
            let price = whole(*price);
            if price > 0 {
                total += price * i128::from(row.most);
                for &(variable, term) in &row.terms {
                    left[variable] -= price * i128::from(term);
                }
            }
        }
        for (variable, left) in left.iter().enumerate() {
            let end = if *left > 0 { ends.high[variable] } else { ends.low[variable] };
            total += left * i128::from(end);
        }
        Bound { total, left }
    }

    /// No plan gains more.
    pub fn most(&self) -> i128 {
        self.total >> SHIFT
    }

    /// Whether the prices show that nothing at all keeps all rows; only for gains of nothing.
    pub fn is_contradiction(&self) -> bool {
        self.total < 0
    }

    /// Moves ends together where going further would gain less than `least`; whether any was moved.
    pub fn tighten(&self, ends: &mut Ends, least: i128) -> bool {
        let spare = self.total - (least << SHIFT);
        if spare < 0 {
            return false;
        }
        let mut moved = false;
        for (variable, left) in self.left.iter().enumerate().filter(|(_, left)| **left != 0) {
            let (low, high) = (ends.low[variable], ends.high[variable]);
            let Ok(far) = i64::try_from(spare / left.abs()) else { continue };
            if far < high - low {
                if *left > 0 {
                    ends.low[variable] = high - far;
                } else {
                    ends.high[variable] = low + far;
                }
                moved = true;
            }
        }
        moved
    }
}

/// A price in whole parts.
#[allow(clippy::cast_possible_truncation, reason = "a price that is out of reach ends at the largest number")]
fn whole(price: f64) -> i128 {
    if price > 0.0 { i128::from((price * PARTS).round() as i64) } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn by_hand() {
        // The most of x + y with 2x + 3y ≤ 12, both from 0 to 5: at 1/2 a unit of the row it is 6 + 0 - 0.
        let rows = [Row { terms: vec![(0, 2), (1, 3)], most: 12 }];
        let ends = Ends { low: vec![0, 0], high: vec![5, 5] };
        assert_eq!(Bound::of(&[1, 1], &ends, &rows, &[0.5]).most(), 6);
        // At 1/3 it is 4 and 5 thirds for x: 5.67. Without prices 10.
        let bound = Bound::of(&[1, 1], &ends, &rows, &[1.0 / 3.0]);
        assert_eq!(bound.most(), 5);
        assert_eq!(Bound::of(&[1, 1], &ends, &rows, &[-4.0]).most(), 10);
        // Whoever wants 5 must have x at 3 or more: 5.67 − 5 is 2 thirds, and each x less costs a third.
        let mut tight = ends.clone();
        assert!(bound.tighten(&mut tight, 5));
        assert_eq!((tight.low, tight.high), (vec![3, 0], vec![5, 5]));
    }

    #[test]
    fn a_contradiction_by_hand() {
        // x + y ≥ 11 can't be with both at most 5.
        let rows = [Row { terms: vec![(0, -1), (1, -1)], most: -11 }];
        let ends = Ends { low: vec![0, 0], high: vec![5, 5] };
        assert!(Bound::of(&[0, 0], &ends, &rows, &[1.0]).is_contradiction());
        assert!(!Bound::of(&[0, 0], &ends, &rows, &[0.0]).is_contradiction());
    }
}
