//! The same haul entered twice.

use std::collections::{BTreeMap, BTreeSet};

use super::hauls::haul_name;
use super::{ActError, Season};
use crate::catalogue::likely_singular;
use crate::model::id::{HaulId, LotId};
use crate::model::lot::{LotFacts, Source};
use crate::store::Store;

/// Of so many lines at least, hauls are held against each other.
const FEWEST: usize = 3;
/// In so many of a hundred lines two hauls must be the same to be taken for one.
const SHARE: usize = 70;

/// An earlier haul that looks like the one being entered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Twin {
    /// The earlier one.
    pub haul: HaulId,
    /// Its shop and day.
    pub name: String,
    /// How many lines are the same.
    pub same: usize,
    /// Of how many.
    pub of: usize,
}

impl Twin {
    /// `This looks like the haul of 12 Oct: 6 of 7 lines are the same.`
    pub fn words(&self) -> String {
        let Twin { name, same, of, .. } = self;
        let lines = if same == of {
            format!("all {of} lines are the same")
        } else {
            format!("{same} of {of} lines are the same")
        };
        format!("This looks like {name}: {lines}.")
    }
}

impl<S: Store> Season<S> {
    /// The earlier haul of which these lines look like a second entry; `own` is the haul they go to.
    pub(super) fn twin_of(&self, lines: &[&LotFacts], own: HaulId) -> Result<Option<Twin>, ActError> {
        let bought: Vec<&LotFacts> = lines.iter().copied().filter(|lot| lot.source != Source::OpeningCount).collect();
        if bought.len() < FEWEST {
            return Ok(None);
        }
        let mut same: BTreeMap<HaulId, BTreeSet<LotId>> = BTreeMap::new();
        for line in &bought {
            self.find_again(line, own, &mut same)?;
        }
        let best = same.into_iter().max_by_key(|(haul, lots)| (lots.len(), *haul));
        let Some((haul, lots)) = best.filter(|(_, lots)| lots.len() * 100 >= bought.len() * SHARE) else {
            return Ok(None);
        };
        let row = self.haul_row(haul)?;
        Ok(Some(Twin { haul, name: haul_name(&row), same: lots.len(), of: bought.len() }))
    }

    /// Notes of each other haul one line that says what this one says and isn't taken by another.
    fn find_again(
        &self,
        line: &LotFacts,
        own: HaulId,
        same: &mut BTreeMap<HaulId, BTreeSet<LotId>>,
    ) -> Result<(), ActError> {
        let mut done = BTreeSet::new();
        for title in titles(line) {
            for lot in self.store.lots_titled(&title)?.into_iter().filter(|lot| !lot.withdrawn) {
                let Some(haul) = lot.haul.filter(|haul| *haul != own && !done.contains(haul)) else { continue };
                let says_the_same = lot.facts.units == line.units && lot.facts.paid == line.paid;
                if says_the_same && same.entry(haul).or_default().insert(lot.lot) {
                    done.insert(haul);
                }
            }
        }
        Ok(())
    }
}

/// The titles under which a line may have been logged before: in the plural and in the singular.
fn titles(line: &LotFacts) -> BTreeSet<String> {
    let one = likely_singular(&line.name);
    let many = format!("{one}s");
    [line.name.clone(), one, many].into_iter().map(|name| LotFacts { name, ..line.clone() }.title()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::season::{Desk, LogHow, Moment, NotLogged};
    use crate::store::Memory;

    const HAUL: &str = "at Corner Bazaar\n6 combs .60\n2 notebooks teal 1.00\n1 soap dish .40\n4 rulers .40 each";

    fn season() -> Season<Memory> {
        let mut ids = CountedIds::new(0x71);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let today = jiff::civil::date(2027, 1, 15);
        let mut season = Season::new(store, Box::new(ids), desk, Moment { now_millis: 1_800_000_000_000, today });
        season.log(HAUL, &LogHow::default()).unwrap();
        season.at(Moment { now_millis: 1_800_900_000_000, today: jiff::civil::date(2027, 1, 25) });
        season
    }

    fn twin(season: &mut Season<Memory>, text: &str) -> Option<String> {
        match season.log(text, &LogHow::default()) {
            Ok(_) => None,
            Err(NotLogged::Twice(twin)) => Some(twin.words()),
            Err(error) => panic!("{text}: {error:?}"),
        }
    }

    #[test]
    fn the_same_haul_again_is_noticed_and_nothing_is_saved() {
        let mut season = season();
        let again = "6 combs .60\n2 notebooks teal 1.00\na soap dish .40\nruler x4 .40 each\n1 kite 2.00";
        assert_eq!(
            twin(&mut season, again).unwrap(),
            "This looks like Corner Bazaar, 2027-01-15: 4 of 5 lines are the same."
        );
        assert_eq!(
            twin(&mut season, HAUL).unwrap(),
            "This looks like Corner Bazaar, 2027-01-15: all 4 lines are the same."
        );
        assert_eq!(season.hauls().unwrap().hauls.len(), 1);
        // It may be another one all the same.
        season.log(HAUL, &LogHow { again: true, ..LogHow::default() }).unwrap();
        assert_eq!(season.hauls().unwrap().hauls.len(), 2);
    }

    #[test]
    fn other_prices_other_counts_or_few_lines_are_no_twin() {
        let mut season = season();
        for other in [
            "6 combs .60\n2 notebooks teal 1.00",
            "6 combs .66\n2 notebooks teal 1.10\n1 soap dish .40\n4 rulers .40 each",
            "5 combs .60\n3 notebooks teal 1.00\n1 soap dish .40\n4 rulers .40 each",
            "6 combs .60\n6 combs .60\n6 combs .60",
        ] {
            assert_eq!(twin(&mut season, other), None, "{other}");
        }
    }

    #[test]
    fn line_by_line_it_is_told_with_the_line_that_makes_it_look_so() {
        let mut season = season();
        let mut how = LogHow::default();
        let mut told = Vec::new();
        for line in HAUL.lines().skip(1) {
            let logged = season.log(line, &how).unwrap();
            how.onto = logged.haul;
            told.extend(logged.done.notes);
        }
        assert_eq!(
            told,
            [
                "This looks like Corner Bazaar, 2027-01-15: all 3 lines are the same.",
                "This looks like Corner Bazaar, 2027-01-15: all 4 lines are the same.",
            ]
        );
    }
}
