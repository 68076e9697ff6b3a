//! The screens, and what each of them answers to.

use std::sync::Arc;

use super::card::Card;
use super::careful::Careful;
use super::desk::Desk;
use super::drive::Drive;
use super::fit::Fit;
use super::haul::Haul;
use super::hauls::HaulList;
use super::help::Help;
use super::history::Told;
use super::home::Home;
use super::keymap::Press;
use super::list::{List, Rows};
use super::night::Night;
use super::packing::Packing;
use super::pasted::Pasted;
use super::plan::Plan;
use super::pull::Pull;
use super::review::Review;
use super::seen::Seen;
use super::table::Kind;
use super::tote::Tote;
use crate::model::id::{BoxId, LotId};
use crate::model::profile::Wanted;
use crate::season::BoxCard;
use crate::tui::back::{Ask, Outcome, Window, Worked};

/// Why something can't be done now, in a sentence.
pub type No = String;

/// What a screen answers to.
pub trait Face {
    /// Which it is.
    fn kind(&self) -> Kind;

    /// How many parts it has.
    fn parts(&self) -> usize {
        1
    }

    /// The part in hand.
    fn part(&self) -> usize {
        0
    }

    /// Takes another part in hand.
    fn take_part(&mut self, _part: usize) {}

    /// The rows of a part.
    fn rows<'a>(&'a self, desk: &'a Desk, part: usize) -> Rows<'a>;

    /// Where one is in a part.
    fn list(&self, part: usize) -> &List;

    /// The same, to be moved.
    fn list_mut(&mut self, part: usize) -> &mut List;

    /// The rows that a part shows at this size: the whole table under a title and its rule.
    fn height(&self, desk: &Desk, _part: usize) -> usize {
        desk.room(2).table_rows.max(1).into()
    }

    /// The parts of the season it shows.
    fn wants(&self, _desk: &Desk) -> Vec<Ask> {
        Vec::new()
    }

    /// A part of the season as it is now.
    fn take(&mut self, _window: &Window, _desk: &mut Desk) {}

    /// The box, and the batches of the thing, that is chosen here.
    fn chosen(&self, _desk: &Desk) -> (Option<BoxId>, Vec<LotId>) {
        (None, Vec::new())
    }

    /// Does what a key asks, or says why not.
    fn press(&mut self, press: Press, desk: &mut Desk) -> Result<(), No>;

    /// Does what the open line says, or says why not.
    fn line_do(&mut self, _desk: &mut Desk) -> Result<(), No> {
        Err("There is nothing to do with these words here.".to_owned())
    }

    /// The open line was shut without doing anything.
    fn line_shut(&mut self, _desk: &mut Desk) {}

    /// What is to be filled here: the box, and the line of its checklist; an inner none is anything else.
    fn gap(&self, _seen: &Seen) -> Option<(Arc<BoxCard>, Option<Wanted>)> {
        None
    }

    /// What tells one gap from another.
    fn gap_key(&self) -> String {
        String::new()
    }

    /// Takes one step back inside the screen; tells whether there was one.
    fn back(&mut self, _desk: &mut Desk) -> bool {
        false
    }

    /// An answer was given that only this screen understands.
    fn answered(&mut self, _answer: &super::asked::Answer, _desk: &mut Desk) {}

    /// An act asked for here was done or refused.
    fn did(&mut self, _outcome: &Outcome, _desk: &mut Desk) {}

    /// Something that was to be reckoned came to this, so far; `turn` tells what it was.
    fn worked(&mut self, _turn: u64, _worked: &Worked, _desk: &mut Desk) {}

    /// After every step: makes good what no longer fits.
    fn settle(&mut self, desk: &mut Desk) {
        for part in 0..self.parts() {
            settle_part(self, desk, part);
        }
    }
}

/// Where one is on a screen that has one list: in this field.
macro_rules! one_list {
    ($field:ident) => {
        fn list(&self, _part: usize) -> &List {
            &self.$field
        }

        fn list_mut(&mut self, _part: usize) -> &mut List {
            &mut self.$field
        }
    };
}
pub(super) use one_list;

/// Keeps the selection of a part on its thing and in sight.
pub fn settle_part<F: Face + ?Sized>(face: &mut F, desk: &Desk, part: usize) {
    let height = face.height(desk, part);
    let mut list = std::mem::take(face.list_mut(part));
    list.settle(&face.rows(desk, part), height);
    *face.list_mut(part) = list;
}

/// Moves in the part in hand.
pub fn go<F: Face + ?Sized>(face: &mut F, desk: &Desk, to: impl FnOnce(&mut List, &Rows<'_>)) {
    let part = face.part();
    let mut list = std::mem::take(face.list_mut(part));
    to(&mut list, &face.rows(desk, part));
    *face.list_mut(part) = list;
}

macro_rules! screens {
    ($($(#[$doc:meta])* $name:ident($type:ty),)*) => {
        /// A screen.
        pub enum Screen {
            $($(#[$doc])* $name($type),)*
        }

        impl Screen {
            /// What it answers to.
            pub fn face(&self) -> &dyn Face {
                match self {
                    $(Screen::$name(screen) => screen,)*
                }
            }

            /// The same, to be changed.
            pub fn face_mut(&mut self) -> &mut dyn Face {
                match self {
                    $(Screen::$name(screen) => screen,)*
                }
            }
        }
    };
}

screens! {
    /// Items, boxes, checklist.
    Home(Home),
    /// A haul being written.
    Haul(Haul),
    /// Many lines to look through.
    Pasted(Pasted),
    /// One box being packed.
    Packing(Packing),
    /// Boxes by what they lack.
    Review(Review),
    /// One thing.
    Card(Card),
    /// One tote.
    Tote(Tote),
    /// What to fetch.
    Pull(Pull),
    /// What was done.
    History(Told),
    /// All hauls.
    Hauls(HaulList),
    /// The last night.
    DropOff(Night),
    /// What can be finished, and what to buy.
    Plan(Plan),
    /// What to be careful of.
    Careful(Careful),
    /// Whether all of a box goes in.
    Fit(Fit),
    /// The drive's rules.
    Drive(Drive),
    /// The keys.
    Help(Help),
}

impl std::fmt::Debug for Screen {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}", self.face().kind())
    }
}
