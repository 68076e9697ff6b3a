//! How the search goes: begun, stopped, gone on with, and begun anew when what is tried changes.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::Fit;
use crate::model::text::counted;
use crate::season::{FitReport, FitWish};
use crate::tui::app::action::Action;
use crate::tui::app::desk::Desk;
use crate::tui::app::screen::No;
use crate::tui::back::Work;

/// So many ways are tried at first: less than a blink, and most boxes need only a few.
pub(super) const TRIES: u64 = 3000;
/// More ways are tried by tens of these, but never more than so many.
const MOST: u64 = 100 * TRIES;

/// How far the search is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// To be begun, or on its way.
    Searching,
    /// Ended by Esc.
    Stopped,
    /// All ways that were to be tried are tried.
    Done,
}

impl Fit {
    /// How the search goes.
    pub fn progress(&self, desk: &Desk) -> String {
        let Some(report) = &self.report else { return String::new() };
        let ways = counted(report.tried, "way", "ways");
        let more = desk.key(Action::Fit);
        match self.state {
            State::Searching => format!("Tried {ways}; a better one is shown as soon as it is found. Esc stops."),
            State::Stopped => format!("Tried {ways}, then stopped; {more} goes on."),
            State::Done if report.answer == "not_found" && self.tries < MOST => {
                format!("Tried {ways}; {more} tries ten times as many.")
            }
            State::Done => String::new(),
        }
    }

    /// What is tried changed, or the box itself: the search begins anew.
    pub(super) fn anew(&mut self, desk: &mut Desk) {
        if self.turn.is_some_and(|turn| desk.is_reckoning(turn)) {
            desk.halt();
        }
        let there = self.before();
        let is_there = |placement| there.iter().any(|thing| thing.placement == placement);
        self.wish.out.retain(|placement| is_there(*placement));
        self.wish.top.retain(|placement, _| is_there(*placement));
        self.wish.instead.retain(|placement, _| is_there(*placement));
        let all = FitWish { out: BTreeSet::new(), ..self.wish.clone() };
        self.things = self.fitting().map(|fitting| fitting.with(&all).things()).unwrap_or_default();
        (self.state, self.turn, self.tries) = (State::Searching, None, TRIES);
    }

    pub(super) fn search(&mut self, desk: &mut Desk) {
        let Some(fitting) = self.fitting() else { return };
        let on_its_way = self.turn.is_some_and(|turn| desk.is_reckoning(turn));
        if self.state == State::Searching && !on_its_way {
            let tried = Arc::new(fitting.with(&self.wish));
            self.turn = Some(desk.reckon(Work::Fit(tried, self.tries)));
        }
    }

    /// Tries more ways.
    pub(super) fn further(&mut self) -> Result<(), No> {
        let not_found = self.report.as_ref().is_some_and(|report| report.answer == "not_found");
        match self.state {
            State::Searching => return Err("It is looking already; Esc stops.".to_owned()),
            State::Stopped => {}
            State::Done if !not_found => return Err("There is nothing more to look for here.".to_owned()),
            State::Done if self.tries >= MOST => {
                return Err("So many ways are enough: leave something out, or measure what is only typical.".to_owned());
            }
            State::Done => self.tries *= 10,
        }
        (self.state, self.turn) = (State::Searching, None);
        Ok(())
    }

    /// Whether a new answer is worth showing: a search that is done once more begins with worse ones.
    pub(super) fn is_news(&self, report: &FitReport, last: bool) -> bool {
        let same =
            |shown: &FitReport| self.tries > TRIES && shown.answer == "not_found" && report.answer == "not_found";
        last || self.report.as_ref().is_none_or(|shown| !same(shown) || report.tried >= shown.tried)
    }
}
