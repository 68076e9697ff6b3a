//! What can happen in a season. Each is kept for good; nothing here is ever changed or deleted.
//!
//! Things *as bought* are attributes (the last one who says a field wins); what *moves* is a
//! delta. No fact holds what moved units cost: that is folded from them (see [`super::fold`]).

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::category::Category;
use super::event::Subject;
use super::giftbox::{BoxFacts, BoxField};
use super::habit::Lesson;
use super::haul::{HaulFacts, HaulField};
use super::id::{ActId, BoxId, EventId, HaulId, LotId, PlacementId};
use super::lot::{LotFacts, LotField};
use super::measure::{Dims, Units};
use super::money::Money;
use super::profile::Profile;

/// One thing that happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", content = "body", rename_all = "snake_case")]
pub enum Fact {
    /// The drive's rules were set.
    ProfileSet(ProfileSet),
    /// A haul was logged; its lines follow as batches of the same act.
    HaulLogged(HaulLogged),
    /// Something about a haul was corrected.
    HaulMended(HaulMended),
    /// A batch came.
    LotAdded(LotAdded),
    /// Something about a batch was corrected.
    LotMended(LotMended),
    /// Units were set aside for a box, still in their tote.
    SetAside(Placing),
    /// Set-aside units were let go again.
    LetGo(Placing),
    /// Units were put into a box; those set aside by the same placement go first.
    PutIn(Placing),
    /// Units were taken out of a box, back to their tote.
    TakenBack(Placing),
    /// Units went from box to box.
    Moved(Moved),
    /// Something was said of things in a box.
    PlacementMended(PlacementMended),
    /// Units were given outside any box.
    GivenLoose(Gone),
    /// Units were lost, broken, or thrown away.
    Lost(Gone),
    /// Units turned up.
    Found(Found),
    /// Units were counted.
    Counted(Counted),
    /// Units went back to where they came from, for money.
    Returned(Returned),
    /// Units became bundles.
    Split(Split),
    /// Units of several batches became kits, or one batch.
    KitMade(KitMade),
    /// Units were parted into several batches.
    Parted(Parted),
    /// A box was planned.
    BoxPlanned(BoxPlanned),
    /// Something about a box was changed.
    BoxMended(BoxMended),
    /// A box was closed.
    BoxClosed(BoxStep),
    /// A box was opened again.
    BoxReopened(BoxStep),
    /// A box was handed in.
    BoxHandedIn(BoxDay),
    /// A box came back from the drive.
    BoxCameBack(BoxDay),
    /// A box was taken off the plan.
    BoxDropped(BoxStep),
    /// Somebody says that the lid closes over what is in a box.
    LidCloses(BoxStep),
    /// It was said what an unknown thing counts for.
    KindLearned(KindLearned),
    /// It was measured how large things of a kind are.
    KindMeasured(KindMeasured),
    /// An answer is remembered.
    AnswerKept(AnswerKept),
    /// An act was undone: all its events are passed over.
    Voided(OfAct),
    /// An undone act was brought again.
    Restored(OfAct),
}

macro_rules! bodies {
    ($($(#[$doc:meta])* $name:ident { $($(#[$field_doc:meta])* $field:ident: $type:ty,)* })*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: $type,)*
        }
    )*};
}

bodies! {
    /// The drive's rules.
    ProfileSet {
        /// All of them.
        profile: Profile,
    }
    /// A haul.
    HaulLogged {
        /// Its id.
        haul: HaulId,
        /// What is said of it.
        facts: HaulFacts,
    }
    /// Fields of a haul.
    HaulMended {
        /// Which.
        haul: HaulId,
        /// The fields said anew.
        set: Vec<HaulField>,
    }
    /// A batch.
    LotAdded {
        /// Its id.
        lot: LotId,
        /// The haul it came in.
        haul: Option<HaulId>,
        /// What is said of it.
        facts: LotFacts,
    }
    /// Fields of a batch.
    LotMended {
        /// Which.
        lot: LotId,
        /// The fields said anew.
        set: Vec<LotField>,
    }
    /// What an answer taught that holds for more than one line.
    AnswerKept {
        /// What.
        lesson: Lesson,
    }
    /// What a thing counts for that no catalogue knows.
    KindLearned {
        /// Its name as a person says it, lower case and singular where that is known.
        name: String,
        /// The category it serves from now on.
        category: Category,
    }
    /// How large one thing of a kind is.
    KindMeasured {
        /// Its name in the catalogue, else as a person says it, lower case and singular where that is known.
        name: String,
        /// All three sides, the largest first.
        dims: Dims,
    }
    /// Units of a batch and a box.
    Placing {
        /// The placement.
        placement: PlacementId,
        /// The batch.
        lot: LotId,
        /// The box.
        giftbox: BoxId,
        /// How many.
        units: Units,
    }
    /// Units from one placement to another one in another box.
    Moved {
        /// From here.
        placement: PlacementId,
        /// The batch.
        lot: LotId,
        /// Out of this box.
        giftbox: BoxId,
        /// To there.
        to_placement: PlacementId,
        /// Into this box.
        to_box: BoxId,
        /// How many.
        units: Units,
    }
    /// What is said of things in a box.
    PlacementMended {
        /// The placement.
        placement: PlacementId,
        /// The batch.
        lot: LotId,
        /// The box.
        giftbox: BoxId,
        /// The fields said anew.
        set: Vec<PlacementField>,
    }
    /// Units that left the stock.
    Gone {
        /// The batch.
        lot: LotId,
        /// How many.
        units: Units,
        /// To whom, or how.
        words: String,
    }
    /// Units that turned up.
    Found {
        /// The batch.
        lot: LotId,
        /// How many.
        units: Units,
    }
    /// A count of what is on hand.
    Counted {
        /// The batch.
        lot: LotId,
        /// What was there.
        found: Units,
        /// What should have been there, as far as the one who counted knew.
        expected: Units,
        /// The batch's newest event that they had seen.
        seen: EventId,
    }
    /// Units that went back to the shop.
    Returned {
        /// The batch.
        lot: LotId,
        /// How many.
        units: Units,
        /// The haul in which they went back: its sum is that much less.
        haul: HaulId,
        /// What was given back for all of them.
        refund: Money,
    }
    /// Units broken up or bundled into another batch.
    Split {
        /// The batch they leave.
        lot: LotId,
        /// How many leave it.
        units: Units,
        /// The new batch.
        into: LotId,
        /// What is said of it; its units are the bundles.
        facts: LotFacts,
    }
    /// One of several batches that units are parted into.
    PartOut {
        /// The new batch.
        lot: LotId,
        /// What is said of it.
        facts: LotFacts,
        /// Its share of what the parted units cost, beside the shares of the others.
        share: u32,
    }
    /// Units parted into several batches: a set and what was taken out of it, or a kit and its parts.
    Parted {
        /// The batch they leave.
        lot: LotId,
        /// How many leave it.
        units: Units,
        /// What becomes of them.
        into: Vec<PartOut>,
    }
    /// A part of a kit.
    Part {
        /// The batch.
        lot: LotId,
        /// How many for all the kits together.
        units: Units,
    }
    /// Kits made of several things.
    KitMade {
        /// What went into them.
        parts: Vec<Part>,
        /// The new batch.
        into: LotId,
        /// What is said of it; its units are the kits.
        facts: LotFacts,
    }
    /// A planned box.
    BoxPlanned {
        /// Its id.
        giftbox: BoxId,
        /// What is said of it.
        facts: BoxFacts,
    }
    /// Fields of a box.
    BoxMended {
        /// Which.
        giftbox: BoxId,
        /// The fields said anew.
        set: Vec<BoxField>,
    }
    /// A step in a box's life.
    BoxStep {
        /// Which.
        giftbox: BoxId,
    }
    /// A step in a box's life, with its day.
    BoxDay {
        /// Which.
        giftbox: BoxId,
        /// The day.
        date: Date,
    }
    /// An act undone or brought again.
    OfAct {
        /// Which.
        act: ActId,
    }
}

/// One thing said of units in a box.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PlacementField {
    /// Why it was chosen.
    Why(String),
    /// Whether it is this box's wow item.
    Wow(bool),
    /// The holder it is tucked into.
    Inside(Option<PlacementId>),
    /// Why it is allowed in this box though a caution speaks against it; empty: it isn't any longer.
    Allowed(String),
}

impl Fact {
    /// All that this speaks of.
    pub fn subjects(&self) -> Vec<Subject> {
        match self {
            Fact::ProfileSet(_) => vec![Subject::Profile],
            Fact::HaulLogged(b) => vec![Subject::Haul(b.haul)],
            Fact::HaulMended(b) => vec![Subject::Haul(b.haul)],
            Fact::LotAdded(b) => {
                let mut all = vec![Subject::Lot(b.lot)];
                all.extend(b.haul.map(Subject::Haul));
                all
            }
            Fact::LotMended(b) => vec![Subject::Lot(b.lot)],
            Fact::SetAside(b) | Fact::LetGo(b) | Fact::PutIn(b) | Fact::TakenBack(b) => {
                vec![Subject::Placement(b.placement), Subject::Lot(b.lot), Subject::Box(b.giftbox)]
            }
            Fact::Moved(b) => vec![
                Subject::Placement(b.placement),
                Subject::Placement(b.to_placement),
                Subject::Lot(b.lot),
                Subject::Box(b.giftbox),
                Subject::Box(b.to_box),
            ],
            Fact::PlacementMended(b) => b.subjects(),
            Fact::GivenLoose(b) | Fact::Lost(b) => vec![Subject::Lot(b.lot)],
            Fact::Found(b) => vec![Subject::Lot(b.lot)],
            Fact::Counted(b) => vec![Subject::Lot(b.lot)],
            Fact::Returned(b) => vec![Subject::Lot(b.lot), Subject::Haul(b.haul)],
            Fact::KindLearned(_) | Fact::KindMeasured(_) | Fact::AnswerKept(_) => vec![Subject::Lessons],
            Fact::Split(b) => vec![Subject::Lot(b.lot), Subject::Lot(b.into)],
            Fact::KitMade(b) => {
                b.parts.iter().map(|part| Subject::Lot(part.lot)).chain([Subject::Lot(b.into)]).collect()
            }
            Fact::Parted(b) => {
                [Subject::Lot(b.lot)].into_iter().chain(b.into.iter().map(|out| Subject::Lot(out.lot))).collect()
            }
            Fact::BoxPlanned(b) => vec![Subject::Box(b.giftbox)],
            Fact::BoxMended(b) => vec![Subject::Box(b.giftbox)],
            Fact::BoxClosed(b) | Fact::BoxReopened(b) | Fact::BoxDropped(b) | Fact::LidCloses(b) => {
                vec![Subject::Box(b.giftbox)]
            }
            Fact::BoxHandedIn(b) | Fact::BoxCameBack(b) => vec![Subject::Box(b.giftbox)],
            Fact::Voided(b) | Fact::Restored(b) => vec![Subject::Act(b.act)],
        }
    }

    /// What exists because of this; acts that speak of it rest on this one.
    pub fn creates(&self) -> Vec<Subject> {
        match self {
            Fact::HaulLogged(b) => vec![Subject::Haul(b.haul)],
            Fact::LotAdded(b) => vec![Subject::Lot(b.lot)],
            Fact::Split(b) => vec![Subject::Lot(b.into)],
            Fact::KitMade(b) => vec![Subject::Lot(b.into)],
            Fact::Parted(b) => b.into.iter().map(|out| Subject::Lot(out.lot)).collect(),
            Fact::SetAside(b) | Fact::PutIn(b) => vec![Subject::Placement(b.placement)],
            Fact::Moved(b) => vec![Subject::Placement(b.to_placement)],
            Fact::BoxPlanned(b) => vec![Subject::Box(b.giftbox)],
            Fact::ProfileSet(_)
            | Fact::HaulMended(_)
            | Fact::LotMended(_)
            | Fact::LetGo(_)
            | Fact::TakenBack(_)
            | Fact::PlacementMended(_)
            | Fact::GivenLoose(_)
            | Fact::Lost(_)
            | Fact::Found(_)
            | Fact::Counted(_)
            | Fact::Returned(_)
            | Fact::KindLearned(_)
            | Fact::KindMeasured(_)
            | Fact::AnswerKept(_)
            | Fact::BoxMended(_)
            | Fact::BoxClosed(_)
            | Fact::BoxReopened(_)
            | Fact::BoxHandedIn(_)
            | Fact::BoxCameBack(_)
            | Fact::BoxDropped(_)
            | Fact::LidCloses(_)
            | Fact::Voided(_)
            | Fact::Restored(_) => Vec::new(),
        }
    }

    /// Whether this undoes an act or brings one again.
    pub fn is_about_an_act(&self) -> bool {
        matches!(self, Fact::Voided(_) | Fact::Restored(_))
    }
}

impl PlacementMended {
    /// A thing tucked into a holder speaks of the holder too.
    fn subjects(&self) -> Vec<Subject> {
        let holders = self.set.iter().filter_map(|field| match field {
            PlacementField::Inside(holder) => *holder,
            PlacementField::Why(_) | PlacementField::Wow(_) | PlacementField::Allowed(_) => None,
        });
        let own = [Subject::Placement(self.placement), Subject::Lot(self.lot), Subject::Box(self.giftbox)];
        own.into_iter().chain(holders.map(Subject::Placement)).collect()
    }
}
