//! What stands behind the screens: the season on a thread of its own, searches and long reckoning on two others.
//!
//! Screens hold plain values only. They ask by a [`Request`] and are told by a [`Reply`]; so the
//! thread that draws never waits for a disk, and tests can run both inline.

mod deed;
mod fit;
mod keeper;
mod search;
mod stocked;
mod threads;
mod work;

use std::sync::Arc;

pub use deed::Deed;
pub use keeper::{Clock, Keeper};
pub use search::{Hunt, Job, hunt};
pub use stocked::Stocked;
pub use threads::Threads;
pub use work::{Halt, Task, Work, Worked, work};

use crate::model::id::{BoxId, HaulId, LotId};
use crate::season::{
    Basis, Board, BoxCard, Cautions, Explains, Fitting, HaulCard, HaulLine, History, LastNight, Offer, Place, Prices,
    PullList, RuleRow, Ware,
};

/// A part of the season that a screen shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Ask {
    /// A box with all that is in it.
    Card(BoxId),
    /// A haul with its lines.
    Haul(HaulId),
    /// Where the units of a thing are, and what it cost each time.
    Thing(Vec<LotId>),
    /// What is set aside, by tote.
    Pull,
    /// What was done.
    History,
    /// All hauls.
    Hauls,
    /// What stops each box.
    LastNight,
    /// The drive's rules.
    Rules,
    /// The words of a batch, as one would type them.
    Words(LotId),
    /// What to be careful of.
    Cautions(OfWhat),
    /// The open boxes and all that could finish them.
    Planning,
    /// The same without what things cost: enough to tell who needs what.
    Needs,
    /// A box with the sizes of all its things.
    Fitting(BoxId),
}

/// What is looked over for cautions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OfWhat {
    /// All open boxes.
    All,
    /// One box.
    Box(BoxId),
    /// A thing, for each age group.
    Thing(Vec<LotId>),
}

/// An answer to an [`Ask`].
#[derive(Debug, Clone)]
pub enum Window {
    /// A box.
    Card(Arc<BoxCard>),
    /// A haul.
    Haul(HaulCard),
    /// A thing.
    Thing {
        /// Which it is.
        lots: Vec<LotId>,
        /// Where it is.
        place: Place,
        /// What it cost.
        prices: Prices,
    },
    /// By tote.
    Pull(PullList),
    /// Newest first.
    History(History),
    /// Newest first, each with the ways to settle its receipt.
    Hauls(Vec<(HaulLine, Vec<Explains>)>),
    /// Box by box.
    LastNight(LastNight),
    /// Row by row.
    Rules(Vec<RuleRow>),
    /// The words of a batch.
    Words(LotId, String),
    /// The strictest first.
    Cautions(OfWhat, Cautions),
    /// To be reckoned with.
    Planning(Arc<Basis>),
    /// The same without what things cost.
    Needs(Arc<Basis>),
    /// To be packed on trial; or why it can't be.
    Fitting(BoxId, Result<Arc<Fitting>, String>),
}

/// What the screens ask of the season.
#[derive(Debug)]
pub enum Request {
    /// How it stands, to begin with.
    Start,
    /// Do something, then show these parts.
    Do(Box<Deed>, Vec<Ask>),
    /// Show these parts.
    Show(Vec<Ask>),
    /// Keep the half-written lines.
    Draft(String),
    /// Search; nothing of the season is needed for it.
    Hunt(Job),
    /// Reckon; it takes time, and may be ended from outside.
    Work(Task),
}

/// What an act came to.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// What was done, or why it wasn't.
    pub said: Result<String, String>,
    /// What follows from it.
    pub notes: Vec<String>,
    /// The haul that a log went to.
    pub haul: Option<HaulId>,
    /// Whether boxes were planned.
    pub planned: bool,
    /// What does it all the same, where it was refused only to be looked at once more.
    pub again: Option<(&'static str, Box<Deed>)>,
    /// What is done once somebody gives a reason to allow it.
    pub allow: Option<Box<Deed>>,
}

/// How the season stands after something.
#[derive(Debug, Clone)]
pub struct News {
    /// The boxes and the sums.
    pub board: Arc<Board>,
    /// The things; none while they are still being read.
    pub stocked: Option<Stocked>,
    /// The parts asked for.
    pub windows: Vec<Window>,
}

/// What the season, or a search, tells the screens.
#[derive(Debug)]
pub enum Reply {
    /// How it stands, the first things by name, and what was half written.
    Started {
        /// The boxes and the sums.
        board: Arc<Board>,
        /// The first things on hand by name.
        first: Vec<Ware>,
        /// What was half written.
        draft: Option<String>,
        /// Where the file is.
        file: String,
    },
    /// All things.
    Shelf(Stocked),
    /// An act was done or refused.
    Did(Outcome, News),
    /// Parts asked for.
    Shown(Vec<Window>),
    /// Another program changed the file.
    Changed(News),
    /// What a search found; `turn` tells which search.
    Found {
        /// Which search.
        turn: u64,
        /// Best first.
        offers: Vec<Offer>,
    },
    /// What a piece of work came to, so far.
    Worked {
        /// Which.
        turn: u64,
        /// What.
        worked: Worked,
    },
    /// What was asked can't be answered.
    Trouble(String),
    /// Something went wrong that nobody waits for.
    Aside(String),
}

/// Where requests go. Replies come back as [`Input::Told`](super::app::Input::Told).
pub trait Back {
    /// Asks; the answer comes later.
    fn ask(&mut self, request: Request);
}
