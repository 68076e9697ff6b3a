//! A limit to the processor's time, for searches that would go on for ever.

use std::cell::Cell;
use std::time::{Duration, Instant};

use crate::model::stop::Stop;

/// The kernel counts the time of a process in hundredths of a second.
const TICK: Duration = Duration::from_millis(10);

/// Stops a search once this process has had so much of the processor since the limit was set.
///
/// Where the system doesn't tell, the wall's clock stands in for it: that is never the less of the two.
#[derive(Debug)]
pub struct CpuLimit {
    limit: Duration,
    began: Instant,
    /// What the process had used before.
    used: Option<Duration>,
    /// Before this much time has passed on the wall, the limit can't be reached: no need to ask the kernel.
    ask: Cell<Duration>,
}

impl CpuLimit {
    /// A limit that counts from now.
    pub fn new(limit: Duration) -> CpuLimit {
        CpuLimit { limit, began: Instant::now(), used: used(), ask: Cell::new(limit) }
    }

    /// The time used since the limit was set; up to a tick too much, never too little.
    pub fn spent(&self) -> Duration {
        let wall = self.began.elapsed();
        let ticks = self.used.zip(used()).map(|(before, now)| now.saturating_sub(before) + TICK);
        ticks.map_or(wall, |ticks| ticks.min(wall))
    }
}

impl Stop for CpuLimit {
    fn stopped(&self) -> bool {
        if self.began.elapsed() < self.ask.get() {
            return false;
        }
        let left = self.limit.saturating_sub(self.spent());
        self.ask.set(self.began.elapsed() + left);
        left.is_zero()
    }
}

/// User and system time of this process, where the system tells it in a file.
fn used() -> Option<Duration> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    // The name in brackets may hold anything, spaces too; utime and stime are the 12th and 13th words after it (proc(5)).
    let mut words = stat.rsplit_once(')')?.1.split_whitespace().skip(11);
    let mut ticks = || words.next()?.parse::<u32>().ok();
    let (user, system) = (ticks()?, ticks()?);
    Some(TICK * user.saturating_add(system))
}
