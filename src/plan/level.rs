//! Evenness: of boxes over groups, and of things over boxes.

use super::packer::Packer;
use crate::model::stop::Stop;

/// Exchanges that are tried at most; more would be felt while one waits.
const TRIES: u32 = 200;

/// Finishes a box of a group that lags in place of one of a group that is ahead, as long as that can be.
///
/// Which exchanges can be is found by trying; so this is as even as single exchanges make it, not as even as can be.
pub(super) fn evened(packer: &mut Packer<'_>, counts: Vec<i64>, stop: &dyn Stop) -> Vec<i64> {
    let all = packer.all().to_vec();
    let mut counts = counts;
    let mut stuck = vec![false; counts.len()];
    for _ in 0..TRIES {
        let open = |of: &usize| !stuck[*of] && counts[*of] < all[*of];
        let Some(lagging) = (0..counts.len()).filter(open).min_by(|a, b| share(&counts, &all, *a, *b)) else { break };
        if stop.stopped() || !catch_up(packer, &mut counts, &all, lagging) {
            stuck[lagging] = true;
        }
    }
    counts
}

/// Compares how far two bundles are finished.
fn share(counts: &[i64], all: &[i64], a: usize, b: usize) -> std::cmp::Ordering {
    let part = |of: usize, by: usize| i128::from(counts[of]) * i128::from(all[by]);
    part(a, b).cmp(&part(b, a)).then(a.cmp(&b))
}

/// One more of a bundle for one less of another that stays ahead of it; whether there was one.
fn catch_up(packer: &mut Packer<'_>, counts: &mut [i64], all: &[i64], lagging: usize) -> bool {
    let stays_ahead = |of: &usize| {
        let (after, caught) = (i128::from(counts[*of] - 1), i128::from(counts[lagging] + 1));
        *of != lagging && counts[*of] > 0 && after * i128::from(all[lagging]) >= caught * i128::from(all[*of])
    };
    let mut ahead: Vec<usize> = (0..counts.len()).filter(stays_ahead).collect();
    ahead.sort_by(|a, b| share(counts, all, *b, *a));
    for of in ahead.into_iter().take(6) {
        counts[of] -= 1;
        counts[lagging] += 1;
        if packer.set(counts) {
            return true;
        }
        counts[of] += 1;
        counts[lagging] -= 1;
    }
    false
}
