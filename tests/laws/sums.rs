//! The two ways of sharing, as plain searches over whole numbers.

/// A length as a number that may be subtracted from.
pub fn size(of: usize) -> i64 {
    i64::try_from(of).unwrap()
}

/// The whole number nearest to `cents * part / whole`; of two equally near the even one.
pub fn share(cents: i64, part: i64, whole: i64) -> i64 {
    let (exact, whole) = (i128::from(cents) * i128::from(part), i128::from(whole));
    let below = exact / whole;
    let nearest = [below, below + 1].into_iter().min_by_key(|n| ((n * whole - exact).abs(), n % 2));
    i64::try_from(nearest.unwrap()).unwrap()
}

/// Cents over lines by weight: each gets the whole cents of its quota, then cent after cent goes to
/// the line that is furthest short of it, the earlier of two. Nothing to weigh by: all weigh the same.
pub fn largest_remainder(cents: i64, weights: &[i64]) -> Vec<i64> {
    let nothing_to_weigh_by = weights.iter().all(|weight| *weight == 0);
    let weigh = |&weight: &i64| if nothing_to_weigh_by { 1 } else { i128::from(weight) };
    let weights: Vec<i128> = weights.iter().map(weigh).collect();
    let (whole, all) = (i128::from(cents.abs()), weights.iter().sum::<i128>());
    let mut given: Vec<i128> = weights.iter().map(|weight| whole * weight / all).collect();
    for _ in given.iter().sum::<i128>()..whole {
        let short = |i: &usize| whole * weights[*i] - given[*i] * all;
        let neediest = (0..weights.len()).rev().max_by_key(short).unwrap();
        given[neediest] += 1;
    }
    let sign = i128::from(cents.signum());
    given.into_iter().map(|share| i64::try_from(share * sign).unwrap()).collect()
}

#[test]
fn shares_by_hand() {
    // 100 over 3: 33.33, so 33. 67 over 2: 33.5 lies between 33 and 34; 34 is even. 65 over 2: 32.5, so 32.
    assert_eq!([share(100, 1, 3), share(67, 1, 2), share(65, 1, 2), share(5, 7, 7)], [33, 34, 32, 5]);
    assert_eq!([share(2, 3, 4), share(0, 1, 9)], [2, 0]);
    // 10 by 1:2:4 are 1.43, 2.86 and 5.71: the whole cents are 1, 2, 5, and two more for the last two.
    assert_eq!(largest_remainder(10, &[1, 2, 4]), [1, 3, 6]);
    assert_eq!(largest_remainder(-10, &[1, 2, 4]), [-1, -3, -6]);
    assert_eq!(largest_remainder(1000, &[1, 1, 1]), [334, 333, 333]);
    assert_eq!(largest_remainder(5, &[0, 0]), [3, 2]);
}
