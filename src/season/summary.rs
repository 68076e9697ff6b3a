//! How the season stands.

use super::{ActError, ReviewWish, Season};
use crate::model::checklist::Met;
use crate::model::rows::LotRow;
use crate::report::Sum;
use crate::report::boxes::BoxLine;
use crate::report::summary::{Lacking, Summary};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// How the season stands, in a few figures.
    pub fn summary(&self) -> Result<Summary, ActError> {
        let profile = self.profile()?;
        let list = self.box_list()?;
        let open = self.review(&ReviewWish::default())?;
        let lots = self.store.lots()?;
        let spent = lots.iter().filter(|lot| lot.haul.is_some()).map(|lot| lot.known(lot.cost_in, lot.facts.units));
        let next = profile.drop_off.iter().filter(|day| **day >= self.moment.today).min();
        let days_left = next.and_then(|day| day.since(self.moment.today).ok()).map(|span| i64::from(span.get_days()));
        Ok(Summary {
            drive: profile.name.clone(),
            drop_off: next.map(ToString::to_string).unwrap_or_default(),
            days_left,
            boxes: list.boxes.len(),
            full: list.boxes.iter().filter(|line| line.full).count(),
            closed: list.boxes.iter().filter(|line| line.state != "open").count(),
            on_hand: lots.iter().map(|lot| lot.standing.on_hand.count()).sum(),
            aside: lots.iter().map(aside).sum(),
            hauls: self.store.hauls()?.len(),
            spent: Sum::of(spent.sum(), profile.currency),
            lacking: lacking(&open.boxes),
            to_look_at: open.settle.items.len(),
        })
    }
}

fn aside(lot: &LotRow) -> u32 {
    lot.standing.aside.count()
}

fn lacking(boxes: &[BoxLine]) -> Vec<Lacking> {
    let mut lines: Vec<Lacking> = Vec::new();
    for cell in boxes.iter().flat_map(|giftbox| &giftbox.checklist).filter(|cell| cell.met != Met::Full) {
        match lines.iter_mut().find(|line| line.line == cell.line) {
            Some(line) => (line.boxes, line.needs) = (line.boxes + 1, line.needs + cell.needs),
            None => lines.push(Lacking { line: cell.line.clone(), boxes: 1, needs: cell.needs }),
        }
    }
    lines
}
