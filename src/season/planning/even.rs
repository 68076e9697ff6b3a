//! Evenness: what is left over goes to the boxes that have fewest things.

use std::collections::BTreeMap;

use super::Planning;
use crate::model::rows::BoxRow;
use crate::plan::{self, Has, Most};
use crate::report::plan::{EvenRow, PlanBox};

impl Planning {
    /// How far apart the boxes of a plan are in the number of their things, and what could bring them closer.
    pub(super) fn evened(&self, most: &Most) -> EvenRow {
        let dealt = plan::assign(&self.varied(most), &most.plan).unwrap_or_default();
        let mut units: BTreeMap<(usize, u32), u32> = BTreeMap::new();
        for (group, count) in most.plan.iter().enumerate() {
            let held: u32 = self.held.get(group).map_or(0, |kinds| kinds.values().sum());
            units.extend((0..*count).map(|giftbox| ((group, giftbox), held)));
        }
        for given in &dealt.given {
            *units.entry((given.group, given.giftbox)).or_default() += given.units;
        }
        let has = units.into_iter().map(|((group, giftbox), units)| Has { group, giftbox, units });
        let has: Vec<Has> = has.collect();
        let spread = plan::even_out(&self.problem, &dealt, &has, None);
        let mut extras: BTreeMap<(usize, u32), BTreeMap<usize, u32>> = BTreeMap::new();
        for extra in &spread.extras {
            *extras.entry((extra.group, extra.giftbox)).or_default().entry(extra.thing).or_default() += extra.units;
        }
        let mut given: Vec<(&BoxRow, BTreeMap<usize, u32>)> = extras
            .into_iter()
            .filter_map(|((group, giftbox), things)| {
                let row = self.boxes.get(group)?.get(usize::try_from(giftbox).ok()?)?;
                Some((row, things))
            })
            .collect();
        given.sort_by_key(|(row, _)| (row.facts.number, row.twin));
        let boxes: Vec<PlanBox> = self.plan_boxes(&given);
        EvenRow {
            fewest: has.iter().map(|has| has.units).min().unwrap_or(0),
            most: spread.most,
            fewest_then: spread.fewest,
            extras: spread.extras.iter().map(|extra| extra.units).sum(),
            boxes,
        }
    }
}
