//! Whether the lid closes over a box: its things measured, the search asked, and the answer told.

mod lid;
mod measured;
mod sizes;
mod told;

use std::collections::BTreeMap;

use super::offers::offers;
use super::{ActError, Done, Season};
use crate::fit::{Answer, Engine, Problem, Space, Thing};
use crate::model::checklist::gaps;
use crate::model::event::Subject;
use crate::model::fact::{BoxStep, Fact};
use crate::model::id::PlacementId;
use crate::model::lot::LotFacts;
use crate::model::measure::{Decigrams, Dims};
use crate::model::profile::Profile;
use crate::model::rows::{BoxRow, PlacementRow};
use crate::model::stop::Stop;
use crate::report::boxes::BoxCard;
use crate::report::fit::FitReport;
use crate::store::Store;
use lid::{LidSaid, lid_said};
pub(super) use measured::Measured;
use measured::Origin;
pub(super) use sizes::Sizes;

/// So many ways at most are tried with flat things lying flat and the wow item on top, before that is let go.
const WISHED: u64 = 300;
/// How many things on hand are tried for each line that the box still needs.
const OFFERED: usize = 5;
/// More things than this are no gift box.
const MOST: u32 = 1000;

/// A box with all that is known of its things: plain values, to be searched wherever there is time.
#[derive(Debug, Clone)]
pub struct Fitting {
    label: String,
    heading: String,
    /// The inside of the box, the height last.
    space: Space,
    limit: Option<Decigrams>,
    things: Vec<Measured>,
    lid: Option<LidSaid>,
    /// Units that are only set aside.
    aside: u32,
    /// Things on hand that the box still needs.
    needed: Vec<Measured>,
}

/// What the search came to.
struct Found {
    problem: Problem,
    answer: Answer,
    /// Flat things lie flat, and the wow item is on top.
    as_wished: bool,
}

impl<S: Store> Season<S> {
    /// Whether all that is in a box or set aside for it goes in: at most so many ways are tried.
    pub fn fit_box(&self, label: &str, tries: u64, stop: &dyn Stop) -> Result<FitReport, ActError> {
        Ok(self.fitting(label)?.report(tries, stop))
    }

    /// A box and its things, ready to be searched.
    pub fn fitting(&self, label: &str) -> Result<Fitting, ActError> {
        let row = self.box_called(label)?;
        let profile = self.profile()?;
        let space = profile.inside.as_ref().and_then(inside).ok_or_else(no_inside)?;
        let held = self.store.placements_in(row.giftbox)?;
        let count = held.iter().map(|held| (held.units + held.aside).count()).fold(0, u32::saturating_add);
        if count > MOST {
            return Err(ActError::NotUnderstood(format!("{count} things are too many to search; {MOST} at the most")));
        }
        let card = self.box_card_of(row.giftbox)?;
        let sizes = self.kind_sizes()?;
        let things = self.measured(&held, &sizes)?;
        Ok(Fitting {
            label: row.label(),
            heading: card.line.heading(),
            space,
            limit: profile.weight_limit,
            things,
            lid: self.lid_of(&row)?,
            aside: held.iter().map(|held| held.aside.count()).sum(),
            needed: self.needed(&row, &card, &profile, &sizes)?,
        })
    }

    /// Notes that somebody saw the lid closed over all that is in a box.
    pub fn lid_closes(&mut self, label: &str) -> Result<Done, ActError> {
        let row = self.box_called(label)?;
        let held = self.store.placements_in(row.giftbox)?;
        if held.iter().all(|held| held.units.is_zero()) {
            return Err(ActError::Nothing(format!("Nothing is in box {}.", row.label())));
        }
        let mut done = self.act(&[Fact::LidCloses(BoxStep { giftbox: row.giftbox })])?;
        done.notes.push("It holds until something more goes in.".to_owned());
        Ok(done)
    }

    /// Cubic millimetres inside a box.
    pub(super) fn room_inside(&self) -> Result<u64, ActError> {
        let space = self.profile()?.inside.as_ref().and_then(inside).ok_or_else(no_inside)?;
        Ok(space.inside.iter().map(|side| u64::from(side.unsigned_abs())).product())
    }

    fn lid_of(&self, row: &BoxRow) -> Result<Option<LidSaid>, ActError> {
        Ok(lid_said(&self.store.events_about(Subject::Box(row.giftbox))?, row.giftbox))
    }

    /// What is in or for a box with its measures, and what is tucked into what.
    pub(super) fn measured(&self, held: &[PlacementRow], sizes: &Sizes) -> Result<Vec<Measured>, ActError> {
        let places: BTreeMap<PlacementId, usize> = held.iter().zip(0..).map(|(row, at)| (row.placement, at)).collect();
        let mut things = Vec::new();
        for row in held {
            let facts = self.store.lot(row.lot)?.map(|lot| lot.facts).unwrap_or_default();
            let units = (row.units + row.aside).count();
            let mut measured = self.measure(&facts, u16::try_from(units).unwrap_or(u16::MAX), sizes);
            measured.thing.on_top = row.wow;
            measured.thing.belongs = row.inside.and_then(|holder| places.get(&holder).copied()).into_iter().collect();
            things.push(measured);
        }
        let holders: Vec<usize> = things.iter().flat_map(|measured| measured.thing.belongs.clone()).collect();
        for holder in holders {
            if let Some(measured) = things.get_mut(holder) {
                measured.holds();
            }
        }
        Ok(things)
    }

    pub(super) fn measure(&self, facts: &LotFacts, count: u16, sizes: &Sizes) -> Measured {
        let kind = match &facts.kind {
            Some(kind) => self.catalogue.named(kind),
            None => self.catalogue.kind_of(&facts.name),
        };
        Measured::of(facts, kind, sizes.of(facts, kind), count)
    }

    /// Things on hand that would fill what the box still needs.
    fn needed(
        &self,
        row: &BoxRow,
        card: &BoxCard,
        profile: &Profile,
        sizes: &Sizes,
    ) -> Result<Vec<Measured>, ActError> {
        let checklist = profile.band(row.facts.ages).map(|band| band.checklist.as_slice()).unwrap_or_default();
        let gaps = gaps(checklist, &self.held_in(row)?);
        let open: Vec<_> = gaps.iter().filter(|gap| gap.needs() > 0).collect();
        if open.is_empty() || !row.state.is_open() {
            return Ok(Vec::new());
        }
        let shelf = self.shelf()?;
        let mut needed: Vec<Measured> = Vec::new();
        for gap in open {
            for offer in offers(shelf.wares(), card, profile, Some(&gap.line.of), OFFERED) {
                let Some(lot) = offer.ware.lots.first() else { continue };
                let Some(lot) = self.store.lot(*lot)? else { continue };
                let measured = self.measure(&lot.facts, 1, sizes);
                if needed.iter().all(|known| known.thing.name != measured.thing.name) {
                    needed.push(measured);
                }
            }
        }
        Ok(needed)
    }
}

impl Fitting {
    /// Looks for a way, at most so many times and until it is time to stop, and tells what came of it.
    pub fn report(&self, tries: u64, stop: &dyn Stop) -> FitReport {
        told::report(self, &self.search(tries, stop))
    }

    /// First as one would wish it, then any way that things can be turned.
    fn search(&self, tries: u64, stop: &dyn Stop) -> Found {
        let (wished, free) = (self.problem(|known| known.thing.clone()), self.problem(Measured::unwished));
        let tried = if wished == free { 0 } else { WISHED.min(tries / 2) };
        if tried > 0 {
            let answer = searched(&wished, tried, stop);
            if matches!(answer, Answer::Fits(_) | Answer::FitsTight { .. }) {
                return Found { problem: wished, answer, as_wished: true };
            }
        }
        let mut answer = searched(&free, tries - tried, stop);
        if let Answer::NotFound { tried: ways, .. } = &mut answer {
            *ways += tried;
        }
        Found { as_wished: wished == free, problem: free, answer }
    }

    /// All things whose sizes are known, put so or so.
    fn problem(&self, thing: impl Fn(&Measured) -> Thing) -> Problem {
        let known: Vec<usize> =
            (0..self.things.len()).filter(|at| self.things[*at].origin != Origin::Unknown).collect();
        let things = known.iter().map(|at| {
            let mut thing = thing(&self.things[*at]);
            thing.belongs = thing.belongs.iter().filter_map(|holder| known.binary_search(holder).ok()).collect();
            thing
        });
        Problem { space: self.space, things: things.collect() }
    }
}

fn searched(problem: &Problem, tries: u64, stop: &dyn Stop) -> Answer {
    let mut engine = Engine::new(problem.clone(), 0);
    engine.run(stop, tries);
    engine.best()
}

/// The inside of the drive's box, the shortest side upright.
fn inside(dims: &Dims) -> Option<Space> {
    let mut sides: Vec<i32> = dims.0.iter().filter_map(|side| i32::try_from(side.0).ok()).collect();
    sides.sort_unstable_by(|one, other| other.cmp(one));
    let inside: [i32; 3] = sides.try_into().ok()?;
    Some(Space::bare(inside))
}

fn no_inside() -> ActError {
    ActError::Nothing(
        "The drive's rules don't say how large the box is inside. Measure it in millimetres, write it into the rules \
         (`brimful profile > rules.toml`) as\n  [box]\n  inside_mm = [330, 200, 120]\nand set them: \
         brimful profile rules.toml"
            .to_owned(),
    )
}
