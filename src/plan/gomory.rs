//! Rows that whole counts keep and fractions break.
//!
//! R. E. Gomory, An algorithm for the mixed integer problem (RAND, 1960): rows added with multipliers `k / d` give an
//! equation over variables that are whole and not below nothing; what is left of it modulo 1 can't be made up by less
//! than a whole step. The multipliers come from a tableau, with fractions; rounded to parts of `d` they are exact, and so
//! is each row made here, in whole numbers throughout.

use super::bound::{Ends, Row};

/// Parts of one that multipliers are rounded to, where no smaller number makes all of them whole.
const PARTS: i128 = 1 << 12;
/// No smaller number of parts than this is tried in vain.
const TRIED: u32 = 240;
/// Rows with larger numbers are left aside: fractions could no longer tell them apart.
const LARGEST: i128 = 1 << 40;

/// The row that follows from rows and multipliers, each variable counted from the end that it is at.
pub(super) fn row(rows: &[Row], ends: &Ends, at_high: &[bool], multipliers: &[f64]) -> Option<Row> {
    let parts = parts(multipliers);
    let count = ends.low.len();
    let whole: Vec<i128> = multipliers.iter().map(|of| nearest(*of, parts)).collect();
    let mut terms = vec![0_i128; count];
    let mut most = 0_i128;
    for (row, k) in rows.iter().zip(&whole).filter(|(_, k)| **k != 0) {
        for (of, term) in &row.terms {
            terms[*of] += k * i128::from(*term);
        }
        most += k * i128::from(row.most);
    }
    // Each variable as its distance from one of its ends.
    let end = |of: usize| i128::from(if at_high[of] { ends.high[of] } else { ends.low[of] });
    let sign = |of: usize| if at_high[of] { -1 } else { 1 };
    most -= terms.iter().enumerate().map(|(of, term)| term * end(of)).sum::<i128>();
    let left = most.rem_euclid(parts);
    if left == 0 {
        return None;
    }
    let step = |term: i128| {
        let part = term.rem_euclid(parts);
        if part <= left { part * (parts - left) } else { (parts - part) * left }
    };
    // Σ step · distance ≥ left · (parts − left), written in the variables again: at most, with all signs turned.
    let mut found = vec![0_i128; count];
    let mut limit = -left * (parts - left);
    for (of, term) in terms.iter().enumerate() {
        let by = step(sign(of) * term) * sign(of);
        found[of] -= by;
        limit -= by * end(of);
    }
    for (row, k) in rows.iter().zip(&whole).filter(|(_, k)| **k != 0) {
        let by = step(*k);
        for (of, term) in &row.terms {
            found[*of] += by * i128::from(*term);
        }
        limit += by * i128::from(row.most);
    }
    reduced(&found, limit)
}

/// How many parts of one make all multipliers whole, or nearly so.
fn parts(multipliers: &[f64]) -> i128 {
    let near = |parts: u32| {
        let off = |of: &f64| (of * f64::from(parts) - (of * f64::from(parts)).round()).abs();
        multipliers.iter().all(|of| off(of) < 1e-5)
    };
    (2..=TRIED).find(|parts| near(*parts)).map_or(PARTS, i128::from)
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "what is rounded here need not be exact"
)]
fn nearest(of: f64, parts: i128) -> i128 {
    i128::from((of * parts as f64).round() as i64)
}

/// A row in its smallest numbers.
fn reduced(terms: &[i128], limit: i128) -> Option<Row> {
    let divisor = terms.iter().fold(0, |divisor, term| gcd(divisor, term.abs()));
    if divisor == 0 {
        return None;
    }
    // Whole terms can only come to whole sums.
    let limit = limit.div_euclid(divisor);
    if terms.iter().any(|term| term.abs() / divisor > LARGEST) || limit.abs() > LARGEST << 20 {
        return None;
    }
    let terms = terms.iter().enumerate().filter(|(_, term)| **term != 0);
    let terms = terms.map(|(of, term)| Some((of, i64::try_from(term / divisor).ok()?))).collect::<Option<Vec<_>>>()?;
    Some(Row { terms, most: i64::try_from(limit).ok()? })
}

fn gcd(a: i128, b: i128) -> i128 {
    if b == 0 { a } else { gcd(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_of_an_odd_number_is_cut_off() {
        // 2x + 2y ≤ 5: half of it is x + y ≤ 2.5, and so x + y ≤ 2.
        let rows = [Row { terms: vec![(0, 2), (1, 2)], most: 5 }];
        let ends = Ends { low: vec![0, 0], high: vec![9, 9] };
        let found = row(&rows, &ends, &[false, false], &[0.5]).unwrap();
        assert_eq!(found, Row { terms: vec![(0, 1), (1, 1)], most: 2 });
        assert_eq!(row(&rows, &ends, &[false, false], &[1.0]), None, "nothing is left of whole multiples");
    }

    #[test]
    fn whatever_the_multipliers_no_whole_point_is_cut_off() {
        let rows = [
            Row { terms: vec![(0, 3), (1, 2), (2, -1)], most: 7 },
            Row { terms: vec![(0, -1), (1, 4), (2, 2)], most: 9 },
        ];
        let ends = Ends { low: vec![0, 1, 0], high: vec![3, 4, 5] };
        let keeps = |row: &Row, x: [i64; 3]| row.terms.iter().map(|(of, term)| term * x[*of]).sum::<i64>() <= row.most;
        let mut cut = 0;
        for (a, b, sides) in (0..20).flat_map(|a| (0..20).flat_map(move |b| (0..8).map(move |sides| (a, b, sides)))) {
            let at_high = [sides & 1 > 0, sides & 2 > 0, sides & 4 > 0];
            let multipliers = [f64::from(a) / 7.0 - 1.0, f64::from(b) / 11.0 - 0.7];
            let Some(found) = row(&rows, &ends, &at_high, &multipliers) else { continue };
            cut += 1;
            for (x, y, z) in (0..=3).flat_map(|x| (1..=4).flat_map(move |y| (0..=5).map(move |z| (x, y, z)))) {
                let point = [x, y, z];
                assert!(!rows.iter().all(|row| keeps(row, point)) || keeps(&found, point), "{found:?} at {point:?}");
            }
        }
        assert!(cut > 2000, "only {cut} rows were made");
    }
}
