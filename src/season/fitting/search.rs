//! The search in slices: first as one would wish it, then any way that things can be turned.

use super::{Fitting, Measured, told};
use crate::fit::{Answer, Engine, Plan, Problem};
use crate::model::stop::Stop;
use crate::report::fit::FitReport;

/// So many ways at most are tried with flat things lying flat and the wow item on top, before that is let go.
const WISHED: u64 = 300;

/// What the search came to.
pub(super) struct Found {
    pub problem: Problem,
    pub answer: Answer,
    /// Flat things lie flat, and the wow item is on top.
    pub as_wished: bool,
}

/// What a slice of the search came to.
#[derive(Debug, Clone, Copy)]
pub struct Slice {
    /// The answer is better than before.
    pub better: bool,
    /// There is more to try.
    pub more: bool,
}

/// A search that goes on in slices; at any time it has an answer.
#[derive(Debug)]
pub struct FitSearch {
    fitting: Fitting,
    engine: Engine,
    /// The best way as one would wish it, where that was let go.
    let_go: Option<Engine>,
    /// The search is still for a way as one would wish it.
    wishing: bool,
    /// There is nothing to wish for.
    plain: bool,
    /// Ways to try as one would wish it, and in all.
    tries: [u64; 2],
    best: (bool, i64),
}

impl Fitting {
    /// A search over at most so many ways.
    pub fn search(&self, tries: u64) -> FitSearch {
        let (wished, free) = (self.problem(|known| known.thing.clone()), self.problem(Measured::unwished));
        let plain = wished == free;
        let wished_tries = if plain { 0 } else { WISHED.min(tries / 2) };
        let wishing = wished_tries > 0;
        let engine = Engine::new(if wishing { wished } else { free }, 0);
        let best = (false, -1);
        FitSearch { fitting: self.clone(), engine, let_go: None, wishing, plain, tries: [wished_tries, tries], best }
    }
}

impl FitSearch {
    /// Tries at most so many ways more.
    pub fn go_on(&mut self, ways: u64, stop: &dyn Stop) -> Slice {
        let most = if self.wishing { self.tries[0] } else { self.tries[1] - self.tries[0] };
        let before = self.engine.rollouts();
        self.engine.run(stop, ways.min(most.saturating_sub(before)));
        let now = self.engine.rollouts();
        let rating = rating(&self.engine.best());
        let better = rating > self.best;
        self.best = self.best.max(rating);
        // A way that there is none as one would wish it says nothing of other ways.
        let over = now >= most || now == before || matches!(self.engine.best(), Answer::Impossible { .. });
        if rating.0 || stop.stopped() {
            return Slice { better, more: false };
        }
        if over && self.wishing {
            let free = Engine::new(self.fitting.problem(Measured::unwished), 0);
            self.let_go = Some(std::mem::replace(&mut self.engine, free));
            self.wishing = false;
            return Slice { better, more: true };
        }
        Slice { better, more: now < most && now > before }
    }

    /// How many ways were tried.
    pub fn tried(&self) -> u64 {
        self.engine.rollouts() + self.let_go.as_ref().map_or(0, Engine::rollouts)
    }

    /// The best answer so far, with all that follows from it.
    pub fn report(&self) -> FitReport {
        told::report(&self.fitting, &self.found(), self.tried())
    }

    /// The same, and what would go in once all of it is packed anew.
    pub fn report_in_full(&self, stop: &dyn Stop) -> FitReport {
        let found = self.found();
        let repacked = told::repacked(&self.fitting, &found, stop);
        FitReport { repacked, ..told::report(&self.fitting, &found, self.tried()) }
    }

    fn found(&self) -> Found {
        let tried = self.tried();
        let told = |engine: &Engine| match engine.best() {
            Answer::NotFound { best, .. } => Answer::NotFound { tried, best },
            Answer::Impossible { best, .. } if self.wishing => Answer::NotFound { tried, best },
            answer => answer,
        };
        let answer = told(&self.engine);
        let as_wished = self.wishing || self.plain;
        // What went in as one would wish it is not forgotten while other ways are worse.
        match &self.let_go {
            Some(before) if matches!(answer, Answer::NotFound { .. }) && packed(&before.best()) > packed(&answer) => {
                let answer = match before.best() {
                    Answer::NotFound { best, .. } | Answer::Impossible { best, .. } => Answer::NotFound { tried, best },
                    answer => answer,
                };
                Found { problem: before.problem().clone(), answer, as_wished: true }
            }
            _ => Found { problem: self.engine.problem().clone(), answer, as_wished },
        }
    }
}

/// Whether all of it is in, and how much of the box is filled.
fn rating(answer: &Answer) -> (bool, i64) {
    (answer.plan().is_some_and(Plan::is_whole), packed(answer))
}

fn packed(answer: &Answer) -> i64 {
    answer.plan().map_or(0, Plan::volume)
}
