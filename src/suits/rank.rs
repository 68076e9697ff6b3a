//! What is better, one wish after the other.

use std::cmp::Reverse;

use super::uses::served_beside;
use super::{Candidate, Wish, fits};
use crate::model::category::Category;
use crate::model::profile::Wanted;

/// A candidate's place: the smaller, the better. Wishes stand in their order; the first that differs decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rank<'a> {
    /// Whether some of it is set aside for this box.
    pub aside: Has,
    /// How far it is from what the line is about.
    pub stray: Stray,
    /// What of its sort is in the box already.
    pub there: There,
    /// Whether an unmet line of the checklist names its kind.
    pub kind_line: Has,
    /// Whether it is of the theme of the box.
    pub theme: Has,
    /// Whether one of its colours is one of the box.
    pub colour: Has,
    /// Made for everybody: 2; for this whom or these ages alone: less.
    pub for_all: u8,
    /// More left first.
    pub free: Reverse<u32>,
    /// By name, where all else is the same.
    pub title: &'a str,
    /// Which candidate.
    pub index: usize,
}

/// Whether a wish is met; one that is comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Has {
    /// It is.
    It,
    /// It is not.
    Not,
}

impl From<bool> for Has {
    fn from(met: bool) -> Has {
        if met { Has::It } else { Has::Not }
    }
}

/// How far a thing is from what is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Stray {
    /// Just that.
    Of,
    /// A toy where a wow item is looked for.
    ToyAsWow,
    /// Another line of this box still needs it.
    Needed,
    /// A wow item for a box that has one.
    SecondWow,
}

/// What of a thing's sort is in the box already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum There {
    /// Nothing for that use.
    NewUse,
    /// Something for that use, not this kind.
    NewKind,
    /// The same kind.
    SameKind,
    /// The very same thing.
    SameThing,
}

/// What is looked for, with what every candidate is held against worked out once.
pub(super) struct Table<'a> {
    pub wish: Wish<'a>,
    titles: Vec<&'a str>,
    kinds: Vec<&'a str>,
    /// Every kind that serves a use which something in the box serves.
    served: Vec<&'static str>,
    kinds_needed: Vec<&'a str>,
    has_wow: bool,
}

impl<'a> Table<'a> {
    pub fn of(wish: &Wish<'a>) -> Table<'a> {
        let (inside, gaps) = (wish.inside, wish.gaps);
        let kinds: Vec<&str> = inside.iter().filter_map(|it| it.kind).collect();
        let needed = gaps.iter().filter(|gap| gap.needs() > 0).filter_map(|gap| match &gap.line.of {
            Wanted::Kind(kind) => Some(kind.as_str()),
            Wanted::Category(_) => None,
        });
        Table {
            wish: *wish,
            titles: inside.iter().map(|it| it.title).collect(),
            served: served_beside(&kinds),
            kinds,
            kinds_needed: needed.collect(),
            has_wow: inside.iter().any(|it| it.category == Some(&Category::Wow)),
        }
    }

    pub fn rank(&self, index: usize, candidate: &Candidate<'a>) -> Rank<'a> {
        Rank {
            aside: Has::from(candidate.aside_here > 0),
            stray: self.stray(candidate),
            there: self.there(candidate),
            kind_line: Has::from(self.kind_is_needed(candidate)),
            theme: Has::from(self.of_its_theme(candidate)),
            colour: Has::from(self.shared_colour(candidate).is_some()),
            for_all: 2
                - u8::from(candidate.for_whom.is_some())
                - u8::from(candidate.ages == Some(self.wish.facts.ages)),
            free: Reverse(candidate.free),
            title: candidate.title,
            index,
        }
    }

    /// Whether its first wishes leave it a chance against this place, so that most need not be looked at whole.
    pub fn may_precede(&self, candidate: &Candidate<'_>, rank: &Rank<'_>) -> bool {
        let aside = Has::from(candidate.aside_here > 0);
        let first = (aside, self.stray(candidate));
        first < (rank.aside, rank.stray) || (first == (rank.aside, rank.stray) && self.there(candidate) <= rank.there)
    }

    fn stray(&self, candidate: &Candidate<'_>) -> Stray {
        if self.wish.line.is_some() {
            return if fits::as_wow(self.wish.line, candidate.category) { Stray::ToyAsWow } else { Stray::Of };
        }
        if self.line_in_need(candidate).is_some() {
            Stray::Needed
        } else if self.has_wow && candidate.category == Some(&Category::Wow) {
            Stray::SecondWow
        } else {
            Stray::Of
        }
    }

    /// The line of this box that the thing would meet and that is not met yet.
    pub fn line_in_need(&self, candidate: &Candidate<'_>) -> Option<&'a Wanted> {
        let meets = |wanted: &Wanted| match wanted {
            Wanted::Category(category) => candidate.category == Some(category),
            Wanted::Kind(kind) => candidate.kind == Some(kind.as_str()),
        };
        let open = self.wish.gaps.iter().filter(|gap| gap.needs() > 0);
        open.map(|gap| &gap.line.of).find(|of| meets(of))
    }

    fn there(&self, candidate: &Candidate<'_>) -> There {
        // A second toothbrush is no lack of variety where the checklist asks for two.
        if self.kind_is_needed(candidate) {
            return There::NewUse;
        }
        if self.titles.contains(&candidate.title) {
            return There::SameThing;
        }
        let Some(kind) = candidate.kind else { return There::NewUse };
        if self.kinds.contains(&kind) {
            There::SameKind
        } else if self.served.contains(&kind) {
            There::NewKind
        } else {
            There::NewUse
        }
    }

    pub fn kind_is_needed(&self, candidate: &Candidate<'_>) -> bool {
        candidate.kind.is_some_and(|kind| self.kinds_needed.contains(&kind))
    }

    fn of_its_theme(&self, candidate: &Candidate<'_>) -> bool {
        let theme = self.wish.facts.theme.as_str();
        candidate.theme.is_some_and(|of| !theme.is_empty() && (is_word_of(of, theme) || is_word_of(theme, of)))
    }

    /// The first of its colours that the box is built around.
    pub fn shared_colour<'c>(&self, candidate: &Candidate<'c>) -> Option<&'c str> {
        let palette = &self.wish.facts.palette;
        candidate.colours.iter().map(AsRef::as_ref).find(|colour| palette.iter().any(|of| of == colour))
    }
}

/// `space` is a word of `outer space`, and a theme is one of its own.
fn is_word_of(word: &str, theme: &str) -> bool {
    word == theme || theme.split(' ').any(|part| part == word)
}
