//! Suggestions tried by hand, and what holds for all of them.

use super::{Candidate, In, Wish, misfit, suggest};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::checklist::Gap;
use crate::model::giftbox::BoxFacts;
use crate::model::profile::{Line, Wanted};
use crate::model::whom::ForWhom;

pub(super) fn ages(from: u8, to: u8) -> Ages {
    Ages::new(from, Some(to)).unwrap()
}

pub(super) fn box_for(for_whom: Option<ForWhom>, ages: Ages) -> BoxFacts {
    BoxFacts { number: 12, for_whom, ages, theme: String::new(), palette: Vec::new() }
}

/// A thing of which nothing is known but its name, three of it free.
pub(super) fn plain(title: &str) -> Candidate<'_> {
    Candidate {
        title,
        kind: None,
        category: None,
        for_whom: None,
        ages: None,
        colours: &[],
        theme: None,
        free: 3,
        aside_here: 0,
        flags: &[],
    }
}
