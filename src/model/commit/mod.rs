//! What must hold before an act is kept: enough on hand, boxes open, names known.
//!
//! Stores call [`holds`] inside the transaction that would keep the act, so that between the
//! look and the deed nobody else can take the last one.

mod check;

use check::{Check, Stop};
use thiserror::Error;

use super::event::Subject;
use super::fact::Fact;
use super::giftbox::BoxState;
use super::id::{ActId, BoxId, PlacementId};
use super::measure::Units;
use super::profile::Profile;
use super::project::{Tables, Told};
use super::rows::PlacementRow;

/// Why an act can't be kept, in words for the person who did it.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Refusal {
    /// Too few on hand.
    #[error("only {free} {name} on hand that no box holds, {wanted} asked{}", held(*aside))]
    NotEnough {
        /// What.
        name: String,
        /// Free ones.
        free: Units,
        /// How many were asked for.
        wanted: Units,
        /// Set aside for boxes.
        aside: Units,
    },
    /// Too few in the box or set aside for it.
    #[error("box {label} holds only {there} of that, {wanted} asked")]
    NotInBox {
        /// The box.
        label: String,
        /// How many there are.
        there: Units,
        /// How many were asked for.
        wanted: Units,
    },
    /// The box is not open.
    #[error("box {label} is {state}; {}", way_out(*state))]
    BoxNotOpen {
        /// The box.
        label: String,
        /// What it is.
        state: BoxState,
    },
    /// The step does not follow from where the box stands.
    #[error("box {label} is {state}, so it can't be {wanted}")]
    WrongStep {
        /// The box.
        label: String,
        /// What it is.
        state: BoxState,
        /// What was asked.
        wanted: &'static str,
    },
    /// A box to be taken off the plan still holds things.
    #[error("box {label} still holds or waits for {count} things; take them back first")]
    BoxNotEmpty {
        /// The box.
        label: String,
        /// How many.
        count: Units,
    },
    /// Something was named that isn't there (any more).
    #[error("{0} is not there any more; somebody may have undone it")]
    Unknown(&'static str),
    /// It makes no sense: no name, no units, a price below nothing, an id used twice.
    #[error("{0}")]
    Senseless(&'static str),
    /// The count was taken before something else moved.
    #[error("{name} changed while it was being counted; count again")]
    CountedTooLate {
        /// What.
        name: String,
    },
    /// Amounts are kept already.
    #[error("amounts are kept in {kept} already, so the drive's currency can't become {wanted}")]
    CurrencyFixed {
        /// The currency in use.
        kept: &'static str,
        /// The one asked for.
        wanted: &'static str,
    },
    /// Other acts rest on the one to be undone.
    #[error("other acts rest on it")]
    RestedOn {
        /// Those acts.
        acts: Vec<ActId>,
    },
}

fn held(aside: Units) -> String {
    if aside.is_zero() { String::new() } else { format!(" ({aside} more set aside for boxes)") }
}

fn way_out(state: BoxState) -> &'static str {
    match state {
        BoxState::Dropped => "undo that first",
        BoxState::HandedIn => "say first that it came back",
        BoxState::Open | BoxState::Closed | BoxState::CameBack => "open it again first",
    }
}

/// What a store must be able to tell for the check, beside its tables.
pub trait Holdings: Tables {
    /// Units in or for a box.
    fn placement(&self, placement: PlacementId) -> Result<Option<PlacementRow>, Self::Error>;
    /// All that is in or set aside for a box.
    fn placements_in(&self, giftbox: BoxId) -> Result<Vec<PlacementRow>, Self::Error>;
    /// The drive's rules, where some were set.
    fn profile(&self) -> Result<Option<Profile>, Self::Error>;
    /// Whether any amount of money is kept.
    fn keeps_amounts(&self) -> Result<bool, Self::Error>;
}

/// Whether the facts of one act can be kept after each other; an inner error is the refusal.
pub fn holds<T: Holdings>(tables: &T, facts: &[Fact]) -> Result<Result<(), Refusal>, T::Error> {
    let mut check = Check::of(tables);
    for fact in facts {
        if let Err(stop) = check.fact(fact) {
            return match stop {
                Stop::Refused(refusal) => Ok(Err(refusal)),
                Stop::Failed(error) => Err(error),
            };
        }
    }
    Ok(Ok(()))
}

/// The other live acts that speak, later on, of something which this act made.
pub fn resting_on<T: Tables>(tables: &T, act: ActId) -> Result<Vec<ActId>, T::Error> {
    let mut acts = Vec::new();
    for event in tables.events_of(act)? {
        for made in event.fact.creates() {
            // What came before spoke of the same placement as an earlier act had begun it.
            let later = |told: &Told| told.event.order() > event.order();
            for told in tables.events_about(made)?.into_iter().filter(later) {
                let resting = told.event.act;
                if told.live && resting != act && !acts.contains(&resting) && !makes(&told.event.fact, made) {
                    acts.push(resting);
                }
            }
        }
    }
    Ok(acts)
}

/// A later "set aside" of the same placement begins it as well as the first one did.
fn makes(fact: &Fact, subject: Subject) -> bool {
    fact.creates().contains(&subject)
}
