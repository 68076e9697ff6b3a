//! What people said of a box's lid: that counts for more than any search.

use std::collections::BTreeMap;

use crate::model::fact::Fact;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::model::project::Told;

/// Somebody saw the lid closed over all that is in the box now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct LidSaid {
    /// Their short name; may be empty.
    pub by: String,
    /// They closed the box, rather than saying that it could be.
    pub closed: bool,
}

/// What is in a box, batch by batch.
type Inside = BTreeMap<LotId, Units>;

/// The last word on a box's lid, as long as nothing is in the box that wasn't in it then.
///
/// What was only taken out since makes no difference: the lid closes over less as well.
pub(super) fn lid_said(told: &[Told], giftbox: BoxId) -> Option<LidSaid> {
    let mut inside = Inside::new();
    let mut said: Option<(LidSaid, Inside)> = None;
    for told in told.iter().filter(|told| told.live) {
        match &told.event.fact {
            Fact::PutIn(b) => *inside.entry(b.lot).or_default() += b.units,
            Fact::TakenBack(b) => *inside.entry(b.lot).or_default() -= b.units,
            Fact::Moved(b) if b.to_box == giftbox => *inside.entry(b.lot).or_default() += b.units,
            Fact::Moved(b) => *inside.entry(b.lot).or_default() -= b.units,
            fact @ (Fact::LidCloses(_) | Fact::BoxClosed(_)) => {
                let closed = matches!(fact, Fact::BoxClosed(_));
                said = Some((LidSaid { by: told.event.by.clone(), closed }, inside.clone()));
            }
            _ => {}
        }
    }
    let (said, then) = said?;
    let was_in = |(lot, units): (&LotId, &Units)| then.get(lot).copied().unwrap_or_default() >= *units;
    inside.iter().all(was_in).then_some(said)
}

impl LidSaid {
    /// `ann said that the lid closes.`
    pub fn words(&self) -> String {
        let who = if self.by.is_empty() { "You" } else { &self.by };
        if self.closed {
            format!("The lid closes: {who} closed the box with all that is in it.")
        } else {
            format!("The lid closes: {who} said so.")
        }
    }
}
