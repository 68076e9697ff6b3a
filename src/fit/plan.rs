//! Where each thing goes, and the answers that there are to the question whether all of it fits.

use super::cuboid::Cuboid;
use super::proof::Proof;
use super::thing::{Space, Thing};

/// One thing in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Which of the things.
    pub thing: usize,
    /// Where it is: one solid, or, where something soft is spread over several gaps, several that touch.
    ///
    /// Counted from the lowest corner of the box or of the room of its holder.
    pub solids: Vec<Cuboid>,
    /// The holder that it is tucked into, by its place in the plan.
    pub inside: Option<usize>,
}

/// Where everything goes that goes in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The box.
    pub space: Space,
    /// What is in it.
    pub placed: Vec<Placed>,
    /// How many of each thing are not in.
    pub left_out: Vec<u16>,
}

/// Whether a set fits. There are five answers, never two.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// It fits, like this.
    Fits(Plan),
    /// It fits, but only just.
    FitsTight {
        /// Like this.
        plan: Plan,
        /// What makes it tight.
        why: Tight,
    },
    /// No way was found; there may be one.
    NotFound {
        /// How many ways were tried.
        tried: u64,
        /// The fullest of them, with what it leaves out.
        best: Plan,
    },
    /// There is no way.
    Impossible {
        /// Why not.
        proof: Proof,
        /// The fullest load that was found, with what it leaves out.
        best: Plan,
    },
    /// Nobody can tell: the sizes of these things aren't known.
    SizesUnknown {
        /// By their place in the list.
        which: Vec<usize>,
    },
}

/// What makes a fit tight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tight {
    /// Less than a millimetre is left along an axis.
    NoSpare {
        /// 0 along its length, 1 along its width, 2 in height.
        axis: usize,
    },
    /// Soft things are pressed to 70 % of their volume or less.
    Pressed {
        /// To what share, in hundredths.
        to: u8,
    },
}

impl Plan {
    /// A plan in which nothing is in the box.
    pub fn empty(space: Space, things: &[Thing]) -> Plan {
        Plan { space, placed: Vec::new(), left_out: things.iter().map(|thing| thing.count).collect() }
    }

    /// Whether everything is in.
    pub fn is_whole(&self) -> bool {
        self.left_out.iter().all(|count| *count == 0)
    }

    /// What stands in the box itself, not in a holder.
    pub fn outer(&self) -> impl Iterator<Item = &Placed> {
        self.placed.iter().filter(|placed| placed.inside.is_none())
    }

    /// Every solid in the box itself.
    pub fn solids(&self) -> impl Iterator<Item = &Cuboid> {
        self.outer().flat_map(|placed| &placed.solids)
    }

    /// Cubic millimetres of the box that are taken.
    pub fn volume(&self) -> i64 {
        self.solids().map(Cuboid::volume).sum()
    }
}

impl Placed {
    /// The lowest height at which any of it is, in millimetres.
    pub fn bottom(&self) -> i32 {
        self.solids.iter().map(|solid| solid.lo[2]).min().unwrap_or(0)
    }

    /// The highest height at which any of it is, in millimetres.
    pub fn top(&self) -> i32 {
        self.solids.iter().map(|solid| solid.hi[2]).max().unwrap_or(0)
    }

    /// Cubic millimetres that it takes.
    pub fn volume(&self) -> i64 {
        self.solids.iter().map(Cuboid::volume).sum()
    }
}

impl Answer {
    /// The answer in one word, for programs.
    pub fn key(&self) -> &'static str {
        match self {
            Answer::Fits(_) => "fits",
            Answer::FitsTight { .. } => "tight",
            Answer::NotFound { .. } => "not_found",
            Answer::Impossible { .. } => "impossible",
            Answer::SizesUnknown { .. } => "sizes_unknown",
        }
    }

    /// The plan that there is, whole or not.
    pub fn plan(&self) -> Option<&Plan> {
        match self {
            Answer::Fits(plan) | Answer::FitsTight { plan, .. } => Some(plan),
            Answer::NotFound { best, .. } | Answer::Impossible { best, .. } => Some(best),
            Answer::SizesUnknown { .. } => None,
        }
    }
}
