//! What suits a box: of all that is on hand, the things to put in next, best first, each with its reasons.
//!
//! Pure, over plain values. [`fits`] holds what may not be bent (whom, ages, the line of the checklist), [`rank`] what
//! is better, [`uses`] what kinds are for, [`say`] the words.

mod fits;
#[cfg(test)]
mod laws;
mod rank;
mod say;
mod size;
mod uses;

pub use fits::misfit;
pub use size::{is_their_size, is_wrong_size};
#[cfg(test)]
pub(crate) use uses::kinds as kinds_with_a_use;

use std::collections::BinaryHeap;
use std::sync::Arc;

use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::checklist::Gap;
use crate::model::giftbox::BoxFacts;
use crate::model::profile::Wanted;
use crate::model::whom::ForWhom;
use rank::{Rank, Table};

/// A thing on hand, as one looks at it with a box before one.
#[derive(Debug, Clone, Copy)]
pub struct Candidate<'a> {
    /// What it is called.
    pub title: &'a str,
    /// What it is; none where nobody knows.
    pub kind: Option<&'a str>,
    /// What part of a checklist it serves.
    pub category: Option<&'a Category>,
    /// Who it is for; either, if none.
    pub for_whom: Option<ForWhom>,
    /// The ages it is for; all, if none.
    pub ages: Option<Ages>,
    /// Its colours.
    pub colours: &'a [Arc<str>],
    /// Its theme.
    pub theme: Option<&'a str>,
    /// Its size, if it has one.
    pub size: Option<&'a str>,
    /// Units on hand that no box holds.
    pub free: u32,
    /// Units set aside for the very box looked at.
    pub aside_here: u32,
    /// What to look at before it is given: breakable, used.
    pub flags: &'a [Arc<str>],
}

/// Something that is in the box already, or set aside for it.
#[derive(Debug, Clone, Copy)]
pub struct In<'a> {
    /// What it is called.
    pub title: &'a str,
    /// What it is.
    pub kind: Option<&'a str>,
    /// What it counts for in this box.
    pub category: Option<&'a Category>,
}

/// What is looked for.
#[derive(Debug, Clone, Copy)]
pub struct Wish<'a> {
    /// The box.
    pub facts: &'a BoxFacts,
    /// The line of its checklist to be met; none: anything else.
    pub line: Option<&'a Wanted>,
    /// What is in it or set aside for it.
    pub inside: &'a [In<'a>],
    /// Its checklist with what is there for each line.
    pub gaps: &'a [Gap],
}

/// A thing that suits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggestion {
    /// Which of the candidates.
    pub index: usize,
    /// It meets the line only if it is said to be this box's wow item.
    pub as_wow: bool,
    /// The one remark beside it in a list; may be empty.
    pub remark: String,
    /// Why it suits, one reason each.
    pub reasons: Vec<String>,
}

/// The things that suit, best first, at most `limit` of them.
///
/// Whatever order the candidates come in, the answer is the same; what doesn't suit leaves no trace in it.
pub fn suggest<'a>(
    wish: &Wish<'a>,
    candidates: impl Iterator<Item = (usize, Candidate<'a>)>,
    limit: usize,
) -> Vec<Suggestion> {
    let table = Table::of(wish);
    // The worst of those kept lies on top, so that a better one can take its place.
    let mut kept: BinaryHeap<Kept<'a>> = BinaryHeap::with_capacity(limit.min(64) + 1);
    for (index, candidate) in candidates.filter(|(_, candidate)| fits::fits(wish, candidate)) {
        if kept.len() < limit {
            kept.push(Kept { rank: table.rank(index, &candidate), candidate });
        } else if let Some(mut worst) = kept.peek_mut()
            && table.may_precede(&candidate, &worst.rank)
        {
            let rank = table.rank(index, &candidate);
            if rank < worst.rank {
                *worst = Kept { rank, candidate };
            }
        }
    }
    let told = |kept: &Kept<'a>| Suggestion {
        index: kept.rank.index,
        as_wow: fits::as_wow(wish.line, kept.candidate.category),
        remark: say::remark(&table, &kept.rank, &kept.candidate),
        reasons: say::reasons(&table, &kept.rank, &kept.candidate),
    };
    kept.into_sorted_vec().iter().map(told).collect()
}

/// A candidate with its place; only the place is compared.
struct Kept<'a> {
    rank: Rank<'a>,
    candidate: Candidate<'a>,
}

impl PartialEq for Kept<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.rank == other.rank
    }
}

impl Eq for Kept<'_> {}

impl PartialOrd for Kept<'_> {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Kept<'_> {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.rank.cmp(&other.rank)
    }
}
