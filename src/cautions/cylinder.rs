//! The small-parts cylinder, by the sizes of a thing.
//!
//! A hollow 1.25 inches wide, whose slanting floor lies 1.00 inch deep on one side and 2.25 inches on the other
//! (16 CFR 1501.4, figure 1; 25.4 to 57.1 mm in EN 71-1 clause 8.2). Whatever lies in it whole, turned in any way and not
//! pressed, is a small part. The inches govern (16 CFR 1501.4(a)), so the bore is 31.75 mm wide.
//!
//! Sizes tell less than the gauge does: they are whole millimetres, so half of one may lack on either side, and the
//! thing may be round. What is neither sure to fit nor sure not to fit is for the gauge to say.

use crate::model::measure::Dims;

/// The bore's width, in hundredths of a millimetre like all lengths here: 1.25 in.
const BORE: u64 = 31_75;
/// How deep it is where it is least deep: 1.00 in.
const SHALLOW: u64 = 25_40;
/// The longest straight line in it, from the deepest point to the rim across: √(1.25² + 2.25²) = 2.574 in.
const LONGEST: u64 = 65_38;
/// Half a millimetre, by which a size in whole ones may be off.
const HALF: u64 = 50;
/// No thing that is looked at is larger; keeps squares far from overflow.
const LARGEST: u64 = 1_000_000;

/// Whether a thing goes into the cylinder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goes {
    /// It fits for sure: a small part.
    In,
    /// The gauge must say.
    Perhaps,
    /// It is too large for sure.
    Not,
}

/// Whether something of this size goes in; its sides may stand in any order, and one or two may be unknown.
pub(super) fn goes(size: &Dims) -> Goes {
    let mut sides: Vec<u64> = size.0.iter().map(|side| (u64::from(side.0) * 100).min(LARGEST)).collect();
    sides.sort_unstable_by(|a, b| b.cmp(a));
    let least: Vec<u64> = sides.iter().map(|side| side.saturating_sub(HALF)).collect();
    if is_too_large(&least) {
        return Goes::Not;
    }
    match sides[..] {
        [a, b, c] if is_surely_in([a + HALF, b + HALF, c + HALF]) => Goes::In,
        _ => Goes::Perhaps,
    }
}

/// Too long for any line in it, or too wide for the bore on two sides, whatever the third is. Largest first.
fn is_too_large(sides: &[u64]) -> bool {
    sides.first().is_some_and(|&longest| longest > LONGEST) || sides.get(1).is_some_and(|&middle| middle > BORE)
}

/// Whether a block with these sides fits, stood on any of its faces.
fn is_surely_in([a, b, c]: [u64; 3]) -> bool {
    let stands = |high: u64, across: u64, deep: u64| high <= SHALLOW && across * across + deep * deep <= BORE * BORE;
    stands(a, b, c) || stands(b, a, c) || stands(c, a, b)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cautions::testing::size;

    /// Figures of 16 CFR 1501.4, figure 1, and 1501.4(a): 1.25 in, 1.00 in and 2.25 in; by hand in hundredths.
    #[test]
    fn each_measure_counts_on_both_sides_of_its_edge() {
        // A needle as long as the shallow side stands in it; a hair more, and the gauge must say.
        assert!(is_surely_in([25_40, 0, 0]) && is_surely_in([0, 25_40, 31_75]));
        assert!(!is_surely_in([25_41, 25_41, 25_41]));
        assert!(!is_surely_in([31_76, 10, 0]));
        // 3-4-5: 19.05 and 25.40 have a diagonal of 31.75.
        assert!(is_surely_in([25_40, 19_05, 25_40]) && !is_surely_in([25_41, 19_06, 25_41]));
        assert!(!is_too_large(&[65_38, 31_75, 0]));
        assert!(is_too_large(&[65_39, 0, 0]) && is_too_large(&[40_00, 31_76, 0]));
        // The longest line is rounded up: by hand, 31.75² + 57.15² lies between 65.37² and 65.38².
        let line = 31_75_u64.pow(2) + 57_15_u64.pow(2);
        assert!((LONGEST - 1).pow(2) < line && line <= LONGEST.pow(2));
    }

    #[test]
    fn things_of_known_size() {
        for (thing, sides, goes_in) in [
            ("a coin 24 mm across", &[24, 24, 2][..], Goes::In),
            ("a pencil", &[190, 8, 8], Goes::Not),
            ("a ball of 1.5 in, 38.1 mm", &[38, 38, 38], Goes::Not),
            ("a ball of 1.80 in, 45.72 mm", &[46, 46, 46], Goes::Not),
            ("a sphere of 31.7 mm: as wide as the bore, and then its depth decides", &[32, 32, 32], Goes::Perhaps),
            ("a dice", &[16, 16, 16], Goes::In),
            ("a rod that can lie slantwise", &[65, 3, 3], Goes::Perhaps),
            ("a rod that can't", &[66, 3, 3], Goes::Not),
            ("a short length of which no more is known", &[20], Goes::Perhaps),
            ("a long one", &[66], Goes::Not),
            ("two sides too wide", &[34, 34], Goes::Not),
            ("two sides that may do", &[40, 20], Goes::Perhaps),
            ("nothing known", &[], Goes::Perhaps),
            ("a thing without end", &[u32::MAX, u32::MAX, u32::MAX], Goes::Not),
        ] {
            assert_eq!(goes(&size(sides)), goes_in, "{thing}");
        }
    }
}
