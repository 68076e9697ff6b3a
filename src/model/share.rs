//! Sharing an amount out: the two rules by which every cent keeps a place.
//!
//! Half a unit goes to the even side here (roundTiesToEven, IEEE 754-2008 section 4.3.1,
//! number from memory), so that many small shares do not all lean the same way.

use super::money::Money;

/// `part` of `whole` units of an amount, rounded half to even; all of it when `part` is `whole`.
///
/// `part` must not exceed `whole`; a larger one is treated as all of it.
pub fn part_of(amount: Money, part: u32, whole: u32) -> Money {
    if part >= whole {
        return amount;
    }
    let product = i128::from(amount.minor()) * i128::from(part);
    Money::total(half_even(product, i128::from(whole)))
}

/// Shares an amount out by weight so that the shares add up to it exactly (largest remainder;
/// equal remainders: the earlier share first). Without any weight each gets the same.
///
/// The amount may be negative; then each share is the negative of the positive amount's share.
pub fn allot(amount: Money, weights: &[u64]) -> Vec<Money> {
    if weights.is_empty() {
        return Vec::new();
    }
    let sum: u128 = weights.iter().map(|&weight| u128::from(weight)).sum();
    if sum == 0 {
        return allot(amount, &vec![1; weights.len()]);
    }
    let size = u128::from(amount.minor().unsigned_abs());
    let mut shares: Vec<u128> = weights.iter().map(|&weight| size * u128::from(weight) / sum).collect();
    let left = size - shares.iter().sum::<u128>();
    let mut by_remainder: Vec<usize> = (0..weights.len()).collect();
    by_remainder.sort_by_key(|&i| std::cmp::Reverse(size * u128::from(weights[i]) % sum));
    for &i in by_remainder.iter().take(usize::try_from(left).unwrap_or(usize::MAX)) {
        shares[i] += 1;
    }
    shares.into_iter().map(|share| signed(share, amount.is_negative())).collect()
}

fn signed(size: u128, negative: bool) -> Money {
    // A share is never larger than the amount, which fits.
    let size = i64::try_from(size).unwrap_or(i64::MAX);
    Money::total(if negative { -size } else { size })
}

/// `numerator / denominator` to the nearest whole number, ties to the even one; the denominator is positive.
fn half_even(numerator: i128, denominator: i128) -> i64 {
    let floor = numerator.div_euclid(denominator);
    let twice = 2 * numerator.rem_euclid(denominator);
    let up = twice > denominator || (twice == denominator && floor.rem_euclid(2) == 1);
    i64::try_from(floor + i128::from(up)).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ties_go_to_even() {
        // IEEE 754-2008 section 4.3.1, roundTiesToEven: 0.5, 1.5, 2.5 and -2.5.
        assert_eq!(half_even(1, 2), 0);
        assert_eq!(half_even(3, 2), 2);
        assert_eq!(half_even(5, 2), 2);
        assert_eq!(half_even(-5, 2), -2);
    }

    #[test]
    fn the_last_part_takes_all() {
        let whole = Money::total(100);
        assert_eq!(part_of(whole, 1, 3).minor(), 33);
        assert_eq!(part_of(Money::total(67), 1, 2).minor(), 34);
        assert_eq!(part_of(Money::total(33), 1, 1).minor(), 33);
    }

    #[test]
    fn shares_add_up_and_none_outgrows_its_weight() {
        let minor = |shares: Vec<Money>| shares.iter().map(|share| share.minor()).collect::<Vec<_>>();
        assert_eq!(minor(allot(Money::total(1000), &[1, 1, 1])), [334, 333, 333]);
        assert_eq!(minor(allot(Money::total(-100), &[50, 25, 25])), [-50, -25, -25]);
        assert_eq!(minor(allot(Money::total(5), &[0, 0])), [3, 2]);
        assert_eq!(minor(allot(Money::total(5), &[])), Vec::<i64>::new());
    }
}
