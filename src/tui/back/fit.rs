//! The search for a way to pack a box: told as soon as there is an answer, and each time there is a better one.

use std::time::{Duration, Instant};

use crate::model::stop::Stop;
use crate::season::{FitReport, Fitting};

/// So many ways are tried between two looks at what came of it.
const SLICE: u64 = 100;
/// How many ways were tried is told this often where nothing better is found.
const OFTEN: Duration = Duration::from_secs(1);

/// Searches, and tells; with each answer whether it is the last one that the search came to.
pub fn fit(fitting: &Fitting, tries: u64, stop: &dyn Stop, told: &mut dyn FnMut(FitReport, bool)) {
    let mut search = fitting.search(tries);
    // The first way is an answer already.
    let mut slice = search.go_on(1, stop);
    let mut last = Instant::now();
    while slice.more {
        if slice.better || last.elapsed() >= OFTEN {
            told(search.report(), false);
            last = Instant::now();
        }
        slice = search.go_on(SLICE, stop);
    }
    let whole = !stop.stopped();
    told(search.report(), whole);
    if whole {
        let in_full = search.report_in_full(stop);
        if !in_full.repacked.is_empty() {
            told(in_full, true);
        }
    }
}
