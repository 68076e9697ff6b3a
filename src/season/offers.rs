//! What to offer for a box: the shelf looked through with the box before one.

use std::sync::Arc;

use super::Ware;
use super::watch::stops;
use crate::model::checklist::{Gap, Held, gaps};
use crate::model::id::LotId;
use crate::model::measure::Units;
use crate::model::profile::{Profile, Wanted};
use crate::model::rules::Level;
use crate::report::boxes::{BoxCard, Content};
use crate::suits::{Candidate, In, Wish, misfit, suggest};

/// A thing on hand that suits a box.
#[derive(Debug, Clone, Default)]
pub struct Offer {
    /// The thing.
    pub ware: Arc<Ware>,
    /// The one remark beside it in a list; may be empty.
    pub remark: String,
    /// Why it suits, one reason each.
    pub reasons: Vec<String>,
    /// Units of it set aside for this box.
    pub aside_here: u32,
    /// The box that could no longer be finished without it; empty: none is known.
    pub needed_by: String,
    /// The strictest caution on it for this box's ages.
    pub careful: Option<Level>,
}

/// The things on hand that suit a line of a box's checklist, or anything else of it, best first.
pub fn offers(
    wares: &[Arc<Ware>],
    card: &BoxCard,
    profile: &Profile,
    line: Option<&Wanted>,
    limit: usize,
) -> Vec<Offer> {
    let held = HeldHere::of(wares, card);
    let inside: Vec<In<'_>> = card.contents.iter().map(|content| held.seen(wares, content)).collect();
    let gaps = held.gaps(wares, card, profile);
    let wish = Wish { facts: &card.line.facts, line, inside: &inside, gaps: &gaps };
    let ages = card.line.facts.ages;
    let may_go_in = |(_, ware): &(usize, &Arc<Ware>)| !ware.careful(ages).is_some_and(stops);
    let candidates =
        wares.iter().enumerate().filter(may_go_in).map(|(at, ware)| (at, candidate(ware, held.aside_of(at))));
    let offer = |found: crate::suits::Suggestion| Offer {
        aside_here: held.aside_of(found.index),
        careful: wares[found.index].careful(ages),
        ware: Arc::clone(&wares[found.index]),
        remark: found.remark,
        reasons: found.reasons,
        needed_by: String::new(),
    };
    suggest(&wish, candidates, limit).into_iter().map(offer).collect()
}

/// What speaks against putting a thing into a box, whatever it counts for there: `for a boy`, `ages 9–12`,
/// `not for this age`.
pub fn misfits(ware: &Ware, card: &BoxCard) -> Option<String> {
    if let Some(level) = ware.careful(card.line.facts.ages).filter(|level| stops(*level)) {
        return Some(level.words().to_owned());
    }
    let here = card.contents.iter().filter(|content| ware.lots.contains(&content.lot));
    let wish = Wish { facts: &card.line.facts, line: None, inside: &[], gaps: &[] };
    misfit(&wish, &candidate(ware, here.map(|content| content.aside).sum()))
}

pub(super) fn candidate(ware: &Ware, aside_here: u32) -> Candidate<'_> {
    Candidate {
        title: &ware.title,
        kind: ware.kind.as_deref(),
        category: ware.category.as_ref(),
        for_whom: ware.for_whom,
        ages: ware.ages,
        colours: &ware.colours,
        theme: ware.theme.as_deref(),
        size: ware.size.as_deref(),
        free: ware.free(),
        aside_here: aside_here.min(ware.on_hand),
        flags: &ware.flags,
    }
}

/// Which of the wares a box holds.
struct HeldHere {
    /// Each batch in or for the box, with the place of its ware.
    by_lot: Vec<(LotId, usize)>,
    /// Places of wares with what of them is set aside for the box, by place.
    aside: Vec<(usize, u32)>,
}

impl HeldHere {
    fn of(wares: &[Arc<Ware>], card: &BoxCard) -> HeldHere {
        let mut wanted: Vec<LotId> = card.contents.iter().map(|content| content.lot).collect();
        wanted.sort_unstable();
        wanted.dedup();
        let held = |lot: &LotId| wanted.binary_search(lot).is_ok();
        let places = wares.iter().enumerate().flat_map(|(at, ware)| ware.lots.iter().map(move |lot| (*lot, at)));
        let mut by_lot: Vec<(LotId, usize)> = places.filter(|(lot, _)| held(lot)).collect();
        by_lot.sort_unstable();
        let mut here = HeldHere { by_lot, aside: Vec::new() };
        for content in card.contents.iter().filter(|content| content.aside > 0) {
            let Some(at) = here.place_of(content.lot) else { continue };
            match here.aside.iter_mut().find(|(place, _)| *place == at) {
                Some((_, units)) => *units += content.aside,
                None => here.aside.push((at, content.aside)),
            }
        }
        here.aside.sort_unstable();
        here
    }

    fn place_of(&self, lot: LotId) -> Option<usize> {
        let found = self.by_lot.binary_search_by_key(&lot, |(lot, _)| *lot).ok()?;
        self.by_lot.get(found).map(|(_, at)| *at)
    }

    fn aside_of(&self, place: usize) -> u32 {
        let found = self.aside.binary_search_by_key(&place, |(place, _)| *place);
        found.ok().and_then(|at| self.aside.get(at)).map_or(0, |(_, units)| *units)
    }

    fn ware<'w>(&self, wares: &'w [Arc<Ware>], content: &Content) -> Option<&'w Ware> {
        self.place_of(content.lot).and_then(|at| wares.get(at)).map(AsRef::as_ref)
    }

    fn seen<'w>(&self, wares: &'w [Arc<Ware>], content: &'w Content) -> In<'w> {
        let kind = self.ware(wares, content).and_then(|ware| ware.kind.as_deref());
        In { title: &content.name, kind, category: content.category.as_ref() }
    }

    fn gaps(&self, wares: &[Arc<Ware>], card: &BoxCard, profile: &Profile) -> Vec<Gap> {
        let held = |content: &Content| Held {
            category: content.category.clone(),
            kind: self.ware(wares, content).and_then(|ware| ware.kind.as_deref()).map(str::to_owned),
            wow: content.wow,
            units: Units::new(content.units).unwrap_or_default(),
            aside: Units::new(content.aside).unwrap_or_default(),
        };
        let checklist = profile.band(card.line.facts.ages).map(|band| band.checklist.as_slice()).unwrap_or_default();
        gaps(checklist, &card.contents.iter().map(held).collect::<Vec<_>>())
    }
}
