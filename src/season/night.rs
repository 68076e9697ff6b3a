//! The last night: one list of what stops each box, and its fix from stock or shop.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::filling::{Filled, Filler};
use super::{ActError, Season};
use crate::model::checklist::{Gap, gaps};
use crate::model::giftbox::BoxState;
use crate::model::measure::Units;
use crate::model::profile::{Profile, Wanted};
use crate::model::rows::BoxRow;
use crate::model::text::{listed, things_of};
use crate::report::boxes::BoxCard;
use crate::report::night::{LastNight, NightRow};
use crate::store::Store;

/// A box looked at, with what it still needs.
struct Looked {
    row: BoxRow,
    card: BoxCard,
    gaps: Vec<Gap>,
}

impl<S: Store> Season<S> {
    /// Each box that is not handed in, what stops it, and how to mend that. No unit is promised twice: boxes nearest
    /// to full are served first.
    pub fn last_night(&self) -> Result<LastNight, ActError> {
        let profile = self.profile()?;
        let (done, left): (Vec<BoxRow>, Vec<BoxRow>) = (self.store.boxes()?.into_iter())
            .filter(|row| row.state != BoxState::Dropped)
            .partition(|row| row.state == BoxState::HandedIn);
        let mut looked = left.into_iter().map(|row| self.looked(row)).collect::<Result<Vec<_>, ActError>>()?;
        looked.sort_by_key(|it| {
            let away: u32 = it.gaps.iter().map(Gap::needs).sum();
            (turn(it.row.state), Reverse(it.row.state.is_open()), away, it.row.facts.number, it.row.twin)
        });
        let shelf = self.shelf()?;
        let mut filler = Filler::over(shelf.wares(), &self.catalogue);
        let day = day_of_drop_off(&profile, self.moment.today);
        let rows = looked.iter().map(|it| night_row(it, &profile, day, &mut filler)).collect();
        let days_left = day.and_then(|day| day.since(self.moment.today).ok()).map(|span| i64::from(span.get_days()));
        Ok(LastNight {
            drop_off: day.map(|day| day.to_string()).unwrap_or_default(),
            days_left,
            rows,
            handed_in: done.len(),
        })
    }

    fn looked(&self, row: BoxRow) -> Result<Looked, ActError> {
        let profile = self.profile()?;
        let checklist = profile.band(row.facts.ages).map(|band| band.checklist.as_slice()).unwrap_or_default();
        Ok(Looked { card: self.box_card_of(row.giftbox)?, gaps: gaps(checklist, &self.held_in(&row)?), row })
    }
}

/// The next day on which boxes are taken in; once all are over, the last one.
fn day_of_drop_off(profile: &Profile, today: Date) -> Option<Date> {
    let days = profile.drop_off.iter().copied();
    days.clone().filter(|day| *day >= today).min().or(days.max())
}

/// Open boxes want something before closed ones do.
fn turn(state: BoxState) -> u8 {
    match state {
        BoxState::Open => 0,
        BoxState::CameBack => 1,
        BoxState::Closed | BoxState::HandedIn | BoxState::Dropped => 2,
    }
}

fn night_row(it: &Looked, profile: &Profile, day: Option<Date>, filler: &mut Filler<'_>) -> NightRow {
    let (stops, fix, fix_from_stock) = match it.row.state {
        BoxState::Open if profile.band(it.row.facts.ages).is_none() => {
            let known: Vec<String> = profile.bands.iter().map(|band| band.ages.to_string()).collect();
            let stops = vec![format!("{} is no age group of the drive", it.row.facts.ages), "not closed".to_owned()];
            (stops, format!("give it one of the drive's: {}", known.join(", ")), false)
        }
        BoxState::Open => {
            let filled = filler.fill(&it.row.facts, &it.card.contents, &it.gaps);
            let missing = filled.missing.is_empty();
            (open_stops(it), open_fix(it, &filled), missing)
        }
        BoxState::CameBack => {
            (vec!["came back".to_owned()], "open it again, look it over and hand it in".to_owned(), true)
        }
        _ => {
            let mut stops = vec!["closed, not handed in".to_owned()];
            stops.splice(0..0, needs(&it.gaps));
            let on = day.map(|day| format!(" on {day}")).unwrap_or_default();
            (stops, format!("hand it in{on}"), true)
        }
    };
    let (label, heading) = (it.row.label(), it.card.line.heading());
    NightRow { box_id: it.row.giftbox, label, heading, stops, fix, fix_from_stock }
}

fn open_stops(it: &Looked) -> Vec<String> {
    let aside = it.card.line.aside;
    let waiting = (aside > 0).then(|| format!("{aside} set aside never went in"));
    needs(&it.gaps).into_iter().chain(waiting).chain(["not closed".to_owned()]).collect()
}

/// `needs 2 school, 1 toothbrush`, where anything is missing.
fn needs(gaps: &[Gap]) -> Option<String> {
    let open = gaps.iter().filter(|gap| gap.needs() > 0);
    let needs: Vec<String> = open.map(|gap| format!("{} {}", gap.needs(), gap.line.of.words())).collect();
    (!needs.is_empty()).then(|| format!("needs {}", needs.join(", ")))
}

fn open_fix(it: &Looked, filled: &Filled) -> String {
    let mut steps = Vec::new();
    if it.card.line.aside > 0 {
        steps.push("put in what is set aside".to_owned());
    }
    if !filled.found.is_empty() {
        let many = filled.found.len() > 1 || filled.found.iter().any(|(_, units)| *units > 1);
        let named: Vec<String> = filled.found.iter().map(|(title, units)| named(title, *units)).collect();
        steps.push(format!("{} {} on hand", listed(&named), if many { "are" } else { "is" }));
    }
    if !filled.missing.is_empty() {
        let buy = format!("buy {} for {}", to_buy(&filled.missing), whom(it));
        steps.push(if filled.found.is_empty() { format!("nothing on hand suits: {buy}") } else { buy });
    }
    if steps.is_empty() {
        steps.push("close it".to_owned());
    }
    steps.join("; ")
}

/// `ruler, clear`, but `2 rulers, clear`.
fn named(title: &str, units: u32) -> String {
    let words = things_of(Units::new(units).unwrap_or_default(), title);
    words.strip_prefix("1 ").map_or(words.clone(), str::to_owned)
}

fn to_buy(missing: &[(Wanted, u32)]) -> String {
    let lines: Vec<String> = missing.iter().map(|(of, count)| format!("{count} {}", of.words())).collect();
    listed(&lines)
}

/// `a girl of 6–8`, `a child of 3–5`.
fn whom(it: &Looked) -> String {
    let facts = &it.row.facts;
    format!("a {} of {}", facts.for_whom.map_or("child", crate::model::whom::ForWhom::word), facts.ages)
}
