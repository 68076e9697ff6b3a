//! Evenness of boxes over groups.

use super::packer::Packer;
use crate::model::stop::Stop;

/// Exchanges that are tried at most; more would be felt while one waits.
const TRIES: u32 = 80;

/// Finishes boxes of a group that lags in place of some of a group that is ahead, as long as that can be.
///
/// Which exchanges can be is found by trying; so this is as even as a few exchanges make it, not as even as can be.
pub(super) fn evened(packer: &mut Packer<'_>, mut counts: Vec<i64>, stop: &dyn Stop) -> Vec<i64> {
    let all = packer.all().to_vec();
    let mut stuck = vec![false; counts.len()];
    let mut tries = TRIES;
    while tries > 0 && !stop.stopped() {
        let open = |of: &usize| !stuck[*of] && counts[*of] < all[*of];
        let Some(lagging) = (0..counts.len()).filter(open).min_by(|a, b| share(&counts, &all, *a, *b)) else { break };
        stuck[lagging] = !catch_up(packer, &mut counts, &all, lagging, &mut tries);
    }
    counts
}

/// Compares how far two bundles are finished.
fn share(counts: &[i64], all: &[i64], a: usize, b: usize) -> std::cmp::Ordering {
    let part = |of: usize, by: usize| i128::from(counts[of]) * i128::from(all[by]);
    part(a, b).cmp(&part(b, a)).then(a.cmp(&b))
}

/// Some more of a bundle for as many less of one that is ahead; whether there were any.
fn catch_up(packer: &mut Packer<'_>, counts: &mut [i64], all: &[i64], lagging: usize, tries: &mut u32) -> bool {
    let mut ahead: Vec<(i64, usize)> = (0..counts.len()).map(|of| (step(counts, all, lagging, of), of)).collect();
    ahead.retain(|(step, _)| *step > 0);
    ahead.sort_by(|a, b| share(counts, all, b.1, a.1));
    for (most, of) in ahead.into_iter().take(4) {
        let mut step = most;
        while step > 0 && *tries > 0 {
            *tries -= 1;
            counts[of] -= step;
            counts[lagging] += step;
            if packer.set(counts) {
                return true;
            }
            counts[of] += step;
            counts[lagging] -= step;
            step /= 2;
        }
    }
    false
}

/// How many boxes can go from one bundle to another that lags, so that it stays ahead or level.
fn step(counts: &[i64], all: &[i64], lagging: usize, of: usize) -> i64 {
    // (counts[of] − step) / all[of] ≥ (counts[lagging] + step) / all[lagging]
    let ahead = i128::from(counts[of]) * i128::from(all[lagging]) - i128::from(counts[lagging]) * i128::from(all[of]);
    let step = ahead / i128::from(all[of] + all[lagging]).max(1);
    i64::try_from(step).unwrap_or(0).min(counts[of]).min(all[lagging] - counts[lagging])
}
