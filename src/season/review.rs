//! Which boxes lack what, and what two computers or second thoughts left to be settled.

use std::collections::BTreeMap;

use super::{ActError, ReviewWish, Season};
use crate::model::category::Category;
use crate::model::checklist::Met;
use crate::model::fact::Fact;
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, EventId, LotId};
use crate::model::lot::Level;
use crate::model::measure::Units;
use crate::model::profile::Wanted;
use crate::model::rows::{BoxRow, LotRow, PlacementRow};
use crate::report::review::{Review, Settle};
use crate::store::Store;

impl<S: Store> Season<S> {
    /// The boxes and what each still needs.
    pub fn review(&self, wish: &ReviewWish) -> Result<Review, ActError> {
        let lacks = wish.lacks.as_deref().map(|words| self.checklist_line(words)).transpose()?;
        let looked_at: Vec<BoxRow> = self.store.boxes()?.into_iter().filter(|row| looks_at(wish, row)).collect();
        let mut boxes = looked_at.iter().map(|row| self.box_line(row)).collect::<Result<Vec<_>, ActError>>()?;
        if let Some(line) = &lacks {
            boxes.retain(|giftbox| giftbox.checklist.iter().any(|cell| cell.line == *line && cell.met != Met::Full));
        }
        let lacks = lacks.unwrap_or_default();
        Ok(Review { lacks, looked_at: looked_at.len(), boxes, settle: self.settle()? })
    }

    /// The checklist line that a word means.
    fn checklist_line(&self, words: &str) -> Result<String, ActError> {
        let profile = self.profile()?;
        let category = Category::from(words);
        let lines: Vec<&Wanted> = profile.bands.iter().flat_map(|band| &band.checklist).map(|line| &line.of).collect();
        let meant = |wanted: &&&Wanted| match wanted {
            Wanted::Category(known) => *known == category,
            Wanted::Kind(kind) => kind == category.word(),
        };
        let line = lines.iter().find(meant).map(|wanted| wanted.words().to_owned());
        line.ok_or_else(|| {
            let mut known: Vec<&str> = lines.iter().map(|wanted| wanted.words()).collect();
            known.dedup();
            known.sort_unstable();
            known.dedup();
            ActError::NotUnderstood(format!("\"{words}\" is on no checklist; there is {}", known.join(", ")))
        })
    }

    /// What wants a look: over-packed things, acts that rest on withdrawn ones, boxes of one number.
    pub fn settle(&self) -> Result<Settle, ActError> {
        let mut settle = Settle::default();
        let lots = self.lots_by_id()?;
        let placements = self.store.placements()?;
        let boxes = self.store.boxes()?;
        let labels: BTreeMap<BoxId, String> = boxes.iter().map(|row| (row.giftbox, row.label())).collect();
        let mut by_lot: BTreeMap<LotId, Vec<&str>> = BTreeMap::new();
        let mut by_box: BTreeMap<BoxId, Vec<&PlacementRow>> = BTreeMap::new();
        for placed in &placements {
            by_lot.entry(placed.lot).or_default().extend(labels.get(&placed.giftbox).map(String::as_str));
            by_box.entry(placed.giftbox).or_default().push(placed);
        }
        for lot in lots.values() {
            let holding = by_lot.get(&lot.lot).map(|labels| labels.join(", ")).unwrap_or_default();
            settle_lot(&mut settle, lot, &holding);
        }
        for row in &boxes {
            let held = by_box.get(&row.giftbox).map(Vec::as_slice).unwrap_or_default();
            self.settle_box(&mut settle, row, held)?;
        }
        self.settle_counts(&mut settle)?;
        self.settle_receipts(&mut settle)?;
        Ok(settle)
    }

    fn settle_receipts(&self, settle: &mut Settle) -> Result<(), ActError> {
        for haul in self.unsettled()?.hauls {
            let differs = match haul.over.strip_prefix('-') {
                Some(less) => format!("{less} less"),
                None => format!("{} more", haul.over),
            };
            let from = if haul.shop.is_empty() { String::new() } else { format!(", {}", haul.shop) };
            settle.add(
                format!("The receipt of {}{from} says {differs} than its lines.", haul.date),
                format!("Correct the line that is wrong, or say what explains it: `brimful settle {}`.", haul.handle),
            );
        }
        Ok(())
    }

    fn settle_box(&self, settle: &mut Settle, row: &BoxRow, held: &[&PlacementRow]) -> Result<(), ActError> {
        let label = row.label();
        if row.withdrawn && !held.is_empty() {
            settle.add(
                format!("Box {label} was taken back, yet things are in it or wait for it."),
                "Take them out, or bring the box again with `brimful redo` where it was planned.",
            );
        }
        if row.twin > 0 && row.state != BoxState::Dropped {
            settle.add(
                format!("Two computers planned a box {}: the later one is now {label}.", row.facts.number),
                format!("Write {label} on it."),
            );
        }
        if row.state != BoxState::Open && self.changed_while_closed(row)? {
            settle.add(
                format!("Things moved in or out of box {label} while it was {} elsewhere.", row.state),
                "Look into the box and compare.",
            );
        }
        let waiting: Units = held.iter().map(|placed| placed.aside).sum();
        if row.state != BoxState::Open && !waiting.is_zero() {
            settle.add(
                format!("Box {label} is {}, yet {waiting} set aside for it never went in.", row.state),
                format!("`brimful box reopen {label}`, then put them in or take them back."),
            );
        }
        Ok(())
    }

    /// Whether something was placed after the box was closed, which only a join can bring about.
    fn changed_while_closed(&self, row: &BoxRow) -> Result<bool, ActError> {
        let told = self.store.events_about(crate::model::event::Subject::Box(row.giftbox))?;
        let live = told.iter().filter(|told| told.live).map(|told| &told.event.fact);
        let mut closed = false;
        let mut changed = false;
        for fact in live {
            match fact {
                Fact::BoxClosed(_) => (closed, changed) = (true, false),
                Fact::BoxReopened(_) => (closed, changed) = (false, false),
                Fact::PutIn(_) | Fact::TakenBack(_) | Fact::Moved(_) | Fact::SetAside(_) => changed |= closed,
                _ => {}
            }
        }
        Ok(closed && changed)
    }

    /// Two counts that saw the same state both took off what was missing: once too often.
    fn settle_counts(&self, settle: &mut Settle) -> Result<(), ActError> {
        let mut seen: BTreeMap<EventId, u32> = BTreeMap::new();
        let mut twice = Vec::new();
        for event in self.store.counts()? {
            if let Fact::Counted(count) = &event.fact {
                let times = seen.entry(count.seen).or_default();
                *times += 1;
                if *times == 2 {
                    twice.push(count.lot);
                }
            }
        }
        for lot in twice {
            let title = self.store.lot(lot)?.map_or_else(|| "Something".to_owned(), |lot| lot.facts.title());
            settle.add(
                format!("{title} was counted on two computers at once; both counts were taken off."),
                "Count it again.",
            );
        }
        Ok(())
    }
}

fn looks_at(wish: &ReviewWish, row: &BoxRow) -> bool {
    row.state != BoxState::Dropped
        && (wish.all || row.state.is_open())
        && wish.ages.is_none_or(|ages| ages == row.facts.ages)
        && wish.for_whom.is_none_or(|whom| whom == row.facts.for_whom)
}

fn settle_lot(settle: &mut Settle, lot: &LotRow, holding: &str) {
    let title = lot.facts.title();
    let places = if holding.is_empty() { String::new() } else { format!(" (boxes {holding})") };
    if lot.withdrawn {
        settle.add(
            format!("{title} was taken back, yet it is still used{places}."),
            "Take it out of the boxes, or log it again.",
        );
    } else if lot.facts.level == Some(Level::Low) {
        settle
            .add(format!("{title} is running low."), "Buy some more; `brimful level` says when there is plenty again.");
    } else if !lot.standing.bare.is_zero() {
        settle.add(
            format!("{} more {title} packed or given than there were{places}.", lot.standing.bare),
            "Take the ones that aren't there back out, or log where they came from.",
        );
    } else if lot.standing.aside > lot.standing.on_hand {
        settle.add(
            format!("{} {title} set aside, but only {} on hand{places}.", lot.standing.aside, lot.standing.on_hand),
            "Let some go with `brimful take`.",
        );
    }
}
