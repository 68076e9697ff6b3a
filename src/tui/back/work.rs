//! Long reckoning, on a thread of its own: it tells what it has so far, and ends when it is told to.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use super::Reply;
use super::fit::fit;
use crate::model::id::{BoxId, LotId};
use crate::model::stop::Stop;
use crate::season::{Basis, FitReport, Fitting, Needs, Planning, ShoppingPage, Tonight, WhatIf};

/// The first answer is told after this long, however much better it could become.
const QUICK: Duration = Duration::from_millis(200);
/// No question is reckoned for longer than this.
const LONG: Duration = Duration::from_secs(20);

/// Ends a piece of work from outside, for good.
#[derive(Debug, Clone, Default)]
pub struct Halt(Arc<AtomicBool>);

impl Halt {
    /// Ends the work as soon as it looks.
    pub fn now(&self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

impl Stop for Halt {
    fn stopped(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

/// Ends with a piece of work, or when its time is over.
struct Within<'a>(&'a Halt, Instant);

impl Within<'_> {
    fn of(halt: &Halt, time: Duration) -> Within<'_> {
        Within(halt, Instant::now() + time)
    }
}

impl Stop for Within<'_> {
    fn stopped(&self) -> bool {
        self.0.stopped() || Instant::now() >= self.1
    }
}

/// A piece of work.
#[derive(Debug)]
pub struct Task {
    /// Which: answers carry it.
    pub turn: u64,
    /// Until this says so.
    pub halt: Halt,
    /// What is to be done.
    pub work: Work,
}

/// What is to be reckoned.
#[derive(Debug, Clone)]
pub enum Work {
    /// Which boxes can be finished, and what to buy.
    Plan(Arc<Basis>),
    /// What buying things would change: offers, each with units.
    WhatIf(Arc<Basis>, Vec<(usize, u32)>),
    /// The shopping page.
    Page(Arc<Basis>),
    /// Whether all of a box goes in, and how: so many ways are tried at most.
    Fit(Arc<Fitting>, u64),
    /// Which of these things another box can't do without, if they went into this one.
    Needed(Arc<Basis>, BoxId, Vec<Vec<LotId>>),
}

/// What work came to.
#[derive(Debug, Clone)]
pub enum Worked {
    /// What is known so far.
    Plan(Box<Tonight>),
    /// What would change.
    WhatIf(WhatIf),
    /// What to buy, or why nothing is found.
    Page(Box<Result<ShoppingPage, String>>),
    /// The best way so far to pack a box, and whether no more ways are tried.
    Fit(Box<FitReport>, bool),
    /// A thing that another box needs, and what people call the box.
    Needed(Vec<LotId>, String),
    /// There is nothing more to come.
    Done,
}

/// Does a piece of work, and tells what comes of it, the last of it being [`Worked::Done`].
pub fn work(task: &Task, tell: &mut dyn FnMut(Reply)) {
    let mut told = |worked| tell(Reply::Worked { turn: task.turn, worked });
    let long = Within::of(&task.halt, LONG);
    match &task.work {
        Work::Plan(basis) => {
            let planning = Planning::of(basis);
            planning.tonight(&Within::of(&task.halt, QUICK), &long, &mut |plan| told(Worked::Plan(Box::new(plan))));
        }
        Work::WhatIf(basis, bought) => told(Worked::WhatIf(Planning::of(basis).what_if(bought, &long))),
        Work::Page(basis) => {
            let page = Planning::of(basis).page(&long).map_err(|error| error.to_string());
            told(Worked::Page(Box::new(page)));
        }
        Work::Fit(fitting, tries) => {
            fit(fitting, *tries, &task.halt, &mut |report, last| told(Worked::Fit(Box::new(report), last)));
        }
        Work::Needed(basis, giftbox, things) => {
            let needs = Needs::of(basis);
            for lots in things.iter().take_while(|_| !long.stopped()) {
                if let Some(label) = needs.needed_by(*giftbox, lots, &long) {
                    told(Worked::Needed(lots.clone(), label));
                }
            }
        }
    }
    told(Worked::Done);
}
