//! Which boxes are shown: all, open ones, for girls or boys, one age group.

use super::desk::Desk;
use crate::model::age::Ages;
use crate::model::id::BoxId;
use crate::model::whom::ForWhom;
use crate::season::BoxLine;

/// Which boxes are shown.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Filter {
    /// All of them.
    #[default]
    All,
    /// Those into which things may go.
    Open,
    /// For a girl, a boy, or either.
    Whom(Option<ForWhom>),
    /// Of this age group.
    Band(Ages),
}

/// The boxes into which things may go: a closed one would only stop an act for many boxes.
pub fn open_ones(boxes: &[&BoxLine]) -> Vec<BoxId> {
    boxes.iter().filter(|line| line.standing.is_open()).map(|line| line.giftbox).collect()
}

impl Filter {
    /// The boxes it shows.
    pub fn boxes<'a>(&self, desk: &'a Desk) -> Vec<&'a BoxLine> {
        desk.seen.boxes().iter().filter(|line| self.shows(line)).collect()
    }

    fn shows(self, line: &BoxLine) -> bool {
        match self {
            Filter::All => true,
            Filter::Open => line.standing.is_open(),
            Filter::Whom(whom) => line.facts.for_whom == whom,
            Filter::Band(ages) => line.facts.ages == ages,
        }
    }

    /// In words.
    pub fn words(self) -> String {
        match self {
            Filter::All => "all".to_owned(),
            Filter::Open => "open ones".to_owned(),
            Filter::Whom(Some(whom)) => format!("for {whom}s"),
            Filter::Whom(None) => "for either".to_owned(),
            Filter::Band(ages) => format!("ages {ages}"),
        }
    }

    /// The next one that shows any box.
    pub fn next(&mut self, desk: &Desk) {
        let bands = desk.seen.profile().map(|profile| profile.bands.as_slice()).unwrap_or_default();
        let mut all = vec![Filter::All, Filter::Open];
        all.extend([Some(ForWhom::Girl), Some(ForWhom::Boy), None].map(Filter::Whom));
        all.extend(bands.iter().map(|band| Filter::Band(band.ages)));
        all.retain(|filter| *filter == Filter::All || *filter == *self || !filter.boxes(desk).is_empty());
        let at = all.iter().position(|filter| filter == self).unwrap_or(0);
        *self = all[(at + 1) % all.len()];
    }
}
