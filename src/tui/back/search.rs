//! Searches over the shelf: what is called so, and what suits a box.

use std::sync::Arc;

use super::Reply;
use crate::model::profile::{Profile, Wanted};
use crate::season::{BoxCard, Offer, Shelf, Ware, misfits, offers};

/// A search with all that it needs.
#[derive(Debug, Clone)]
pub struct Job {
    /// Which search: a later one makes an earlier one's answer stale.
    pub turn: u64,
    /// Where to look.
    pub shelf: Shelf,
    /// What for.
    pub hunt: Hunt,
    /// How many answers are enough.
    pub limit: usize,
}

/// What to look for.
#[derive(Debug, Clone)]
pub enum Hunt {
    /// Things called so, on hand or not.
    Called(String),
    /// Things on hand for a box: those called so, or, without words, those that suit a line.
    For {
        /// The box.
        card: Arc<BoxCard>,
        /// The drive's rules.
        profile: Arc<Profile>,
        /// The line of the checklist; none: anything else.
        line: Option<Wanted>,
        /// What was typed.
        words: String,
    },
}

/// Searches.
pub fn hunt(job: &Job) -> Reply {
    let offers = match &job.hunt {
        Hunt::Called(words) => called(&job.shelf, words, job.limit),
        Hunt::For { card, profile, line, words } if words.trim().is_empty() => {
            offers(job.shelf.wares(), card, profile, line.as_ref(), job.limit)
        }
        Hunt::For { card, words, .. } => for_box(&job.shelf, card, words, job.limit),
    };
    Reply::Found { turn: job.turn, offers }
}

fn called(shelf: &Shelf, words: &str, limit: usize) -> Vec<Offer> {
    let plain = |ware: &Arc<Ware>| Offer { ware: Arc::clone(ware), ..Offer::default() };
    shelf.find(words, limit).into_iter().map(|at| plain(&shelf.wares()[at])).collect()
}

/// What is called so and at hand for this box, with a word on what speaks against it.
fn for_box(shelf: &Shelf, card: &BoxCard, words: &str, limit: usize) -> Vec<Offer> {
    let here = |ware: &Ware| -> u32 {
        card.contents.iter().filter(|held| ware.lots.contains(&held.lot)).map(|held| held.aside).sum()
    };
    let found = shelf.find_among(words, |ware| ware.free() > 0 || here(ware) > 0, limit);
    let offer = |at: usize| {
        let ware = Arc::clone(&shelf.wares()[at]);
        let aside_here = here(&ware);
        let remark = misfits(&ware, card).unwrap_or_default();
        let careful = ware.careful(card.line.facts.ages);
        Offer { ware, remark, aside_here, careful, ..Offer::default() }
    };
    found.into_iter().map(offer).collect()
}
