//! Which boxes a correction makes dearer or cheaper, told before it is kept.

use std::collections::{BTreeMap, BTreeSet};

use super::{ActError, Season};
use crate::model::event::{Event, Subject};
use crate::model::fact::Fact;
use crate::model::id::BoxId;
use crate::model::kept::Kept;
use crate::model::money::Money;
use crate::store::{Memory, NewAct, Store};

/// A box whose cost a correction changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Repriced {
    /// The box.
    pub label: String,
    /// What its things cost now.
    pub before: String,
    /// What they would cost.
    pub after: String,
}

impl Repriced {
    /// `Box 12 would cost 4.31 instead of 4.61, box 14 1.90 instead of 2.00.`; nothing where none changes.
    pub fn told(boxes: &[Repriced]) -> String {
        let one = |(at, row): (usize, &Repriced)| {
            let Repriced { label, before, after } = row;
            match at {
                0 => format!("Box {label} would cost {after} instead of {before}"),
                _ => format!("box {label} {after} instead of {before}"),
            }
        };
        let all: Vec<String> = boxes.iter().enumerate().map(one).collect();
        if all.is_empty() { String::new() } else { format!("{}.", all.join(", ")) }
    }
}

impl<S: Store> Season<S> {
    /// What these corrections would do to the costs of boxes. Nothing is kept: they are tried on a copy of
    /// all that hangs together with them.
    pub(super) fn effects(&mut self, facts: &[Fact]) -> Result<Vec<Repriced>, ActError> {
        let mut copy = Memory::new(self.store.season());
        let events: Vec<Kept> = self.hanging_together(facts)?.iter().map(Kept::from_event).collect();
        copy.join(&events)?;
        let before = costs(&copy)?;
        let facts = facts.iter().map(|fact| (self.ids.event(), fact.clone())).collect();
        let (act, device) = (self.ids.act(), crate::model::id::DeviceId::new(self.ids.fresh()));
        copy.commit(&NewAct { act, device, by: String::new(), now_millis: self.moment.now_millis, facts })?;
        let after = costs(&copy)?;
        let currency = self.profile()?.currency;
        let mut boxes = Vec::new();
        for (giftbox, was) in &before {
            let change = after.get(giftbox).copied().unwrap_or_default() - *was;
            if change.is_zero() {
                continue;
            }
            let Some(row) = self.store.giftbox(*giftbox)? else { continue };
            let now: Money = self.store.in_box(*giftbox)?.iter().map(|held| held.cost.known).sum();
            let (before, after) = (now.plain(currency), (now + change).plain(currency));
            boxes.push((row.facts.number, Repriced { label: row.label(), before, after }));
        }
        boxes.sort_by_key(|(number, _)| *number);
        Ok(boxes.into_iter().map(|(_, repriced)| repriced).collect())
    }

    /// All live events of the batches and hauls whose costs hang on what these facts speak of.
    fn hanging_together(&self, facts: &[Fact]) -> Result<Vec<Event>, ActError> {
        let costs = |subject: &Subject| matches!(subject, Subject::Lot(_) | Subject::Haul(_));
        let mut queue: Vec<Subject> = facts.iter().flat_map(Fact::subjects).filter(costs).collect();
        let (mut seen, mut events) = (BTreeSet::new(), BTreeMap::new());
        while let Some(subject) = queue.pop() {
            if !seen.insert(subject) {
                continue;
            }
            for told in self.store.events_about(subject)?.into_iter().filter(|told| told.live) {
                queue.extend(told.event.fact.subjects().into_iter().filter(costs));
                events.insert(told.event.order(), Event::clone(&told.event));
            }
        }
        Ok(events.into_values().collect())
    }
}

/// What the known things in each box cost.
fn costs(season: &Memory) -> Result<BTreeMap<BoxId, Money>, ActError> {
    let mut costs: BTreeMap<BoxId, Money> = BTreeMap::new();
    for row in season.placements()? {
        *costs.entry(row.giftbox).or_default() += row.cost;
    }
    Ok(costs)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::season::{Desk, LogHow, Mend, Moment, PutHow};

    fn season() -> Season<Memory> {
        let mut ids = CountedIds::new(0xa1);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: jiff::civil::date(2027, 1, 15) };
        let mut season = Season::new(store, Box::new(ids), desk, moment);
        season.log("4 combs 1.00\n2 soaps 1.00\ntax .20", &LogHow::default()).unwrap();
        season.plan("2 girl 6-8").unwrap();
        for (label, units, thing) in [("1", 1, "comb"), ("2", 2, "comb"), ("2", 1, "soap")] {
            let units = crate::model::measure::Units::new(units).unwrap();
            season.put(label, units, thing, &PutHow::default()).unwrap();
        }
        season
    }

    fn paid(amount: &str) -> Mend {
        Mend { paid: Some(Some(amount.parse().unwrap())), ..Mend::default() }
    }

    #[test]
    fn a_dearer_line_makes_the_boxes_that_hold_it_dearer() {
        let mut season = season();
        // Combs at 2.00 of 3.00 bear 0.13 of the tax: 2.13 over four is 0.53, then 1.07 for two of the other
        // three; soaps bear 0.07: 1.07 over two is 0.54, half to even.
        let told = Repriced::told(&season.mend_effect("combs", &paid("2.00")).unwrap());
        assert_eq!(told, "Box 1 would cost 0.53 instead of 0.28, box 2 1.61 instead of 1.10.");
        let acts = season.store().acts(100).unwrap().len();
        let done = season.mend("combs", &paid("2.00")).unwrap();
        assert_eq!(season.store().acts(100).unwrap().len(), acts + 1, "trying kept nothing");
        assert_eq!(done.notes, ["Box 1 costs 0.53 instead of 0.28, box 2 1.61 instead of 1.10."]);
        let costs = season.costs().unwrap();
        assert_eq!(costs.by_box.iter().map(|row| row.cost.short()).collect::<Vec<_>>(), ["0.53", "1.61"]);
    }

    #[test]
    fn what_changes_no_cost_says_nothing() {
        let mut season = season();
        let tote = Mend { tote: Some(Some("tote 7".to_owned())), ..Mend::default() };
        assert!(season.mend_effect("combs", &tote).unwrap().is_empty());
        assert!(season.mend("combs", &tote).unwrap().notes.is_empty());
    }

    #[test]
    fn what_nobody_counts_costs_nothing_in_a_box_until_it_is_used_up() {
        use crate::model::lot::Level;
        let mut season = season();
        let units = crate::model::measure::Units::new;
        let put = |season: &mut Season<Memory>, count| {
            season.put("1", units(count).unwrap(), "beads", &PutHow::default()).map(|done| done.said)
        };
        season.log("1 beads 1.25 as extras", &LogHow::default()).unwrap();
        assert_eq!(season.level("beads", Some(Level::Plenty)).unwrap().said, "beads: plenty.");
        put(&mut season, 1).unwrap();
        put(&mut season, 1).unwrap();
        let beads = |season: &Season<Memory>| season.store().lots().unwrap().pop().unwrap();
        let there = beads(&season).standing;
        assert_eq!((there.on_hand.count(), there.on_hand_cost.minor(), there.boxed.count()), (1, 125, 2));
        assert_eq!((there.boxed_cost.minor(), there.bare.count(), there.units_in.count()), (0, 0, 3));
        season.level("beads", Some(Level::Low)).unwrap();
        assert!(season.settle().unwrap().items.iter().any(|item| item.what.contains("beads is running low")));
        season.level("beads", Some(Level::Gone)).unwrap();
        assert!(put(&mut season, 1).is_err());
        // Counted again, one takes its cost along; what went before stays as it was.
        season.level("beads", None).unwrap();
        put(&mut season, 1).unwrap();
        let there = beads(&season).standing;
        assert_eq!((there.on_hand.count(), there.boxed_cost.minor()), (0, 125));
    }
}
