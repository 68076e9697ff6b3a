//! All that the first screen shows beside the stock.

use jiff::civil::Date;

use super::{ActError, Reader, Season};
use crate::model::id::HaulId;
use crate::model::profile::Profile;
use crate::report::boxes::BoxLine;
use crate::store::Store;

/// The boxes and the figures around them.
#[derive(Debug, Clone)]
pub struct Board {
    /// The drive's rules.
    pub profile: Profile,
    /// Reads lines by them, and by what was learned.
    pub reader: Reader,
    /// The boxes that stand on the plan, by number.
    pub boxes: Vec<BoxLine>,
    /// The day it is here.
    pub today: Date,
    /// The next day on which boxes are taken in.
    pub drop_off: Option<Date>,
    /// How many days that is from today.
    pub days_left: Option<i64>,
    /// All that was spent, in words.
    pub spent: String,
    /// Hauls logged.
    pub hauls: usize,
    /// Units on hand.
    pub on_hand: u64,
    /// Of those, set aside.
    pub aside: u64,
    /// The haul that was logged last with today's date.
    pub latest_haul: Option<HaulId>,
    /// Whether anything was ever done.
    pub acts: bool,
}

impl<S: Store> Season<S> {
    /// The boxes and the figures around them.
    pub fn board(&self) -> Result<Board, ActError> {
        let profile = self.profile()?;
        let today = self.moment.today;
        let totals = self.store.totals()?;
        let drop_off = profile.drop_off.iter().copied().filter(|day| *day >= today).min();
        Ok(Board {
            boxes: self.box_lines(&profile)?,
            today,
            drop_off,
            days_left: drop_off.and_then(|day| day.since(today).ok()).map(|span| i64::from(span.get_days())),
            spent: totals.spent.words(profile.currency),
            hauls: usize::try_from(totals.hauls).unwrap_or(usize::MAX),
            on_hand: totals.on_hand,
            aside: totals.aside,
            latest_haul: self.store.latest_haul(today)?,
            reader: self.reader()?,
            acts: !self.store.acts(1)?.is_empty(),
            profile,
        })
    }
}
