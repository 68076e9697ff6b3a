//! One of what suits best into each of some boxes; and small sayings about what lies in a box or a tote.

use std::collections::BTreeMap;

use super::{ActError, Done, Season, Shelf, Ware, offers};
use crate::model::category::Category;
use crate::model::checklist::Met;
use crate::model::commit::Refusal;
use crate::model::fact::PlacementField;
use crate::model::fact::{Fact, LotMended, PlacementMended, Placing};
use crate::model::id::{BoxId, LotId, PlacementId};
use crate::model::lot::LotField;
use crate::model::measure::Units;
use crate::model::profile::Wanted;
use crate::model::rows::BoxRow;
use crate::model::rules::Level;
use crate::model::text::{clean, normal};
use crate::report::boxes::BoxCard;
use crate::store::Store;

/// How many of the best are tried until one is found of which some is left.
const TRIED: usize = 50;

impl<S: Store> Season<S> {
    /// Into each box, or set aside for it, one of what suits this line of its checklist best;
    /// without a line, the first that needs something. One act; a unit never goes to two boxes.
    pub fn best(
        &mut self,
        shelf: &Shelf,
        boxes: &[BoxId],
        line: Option<&Wanted>,
        aside: bool,
    ) -> Result<Done, ActError> {
        let profile = self.profile()?;
        let mut used: BTreeMap<LotId, Units> = BTreeMap::new();
        let (mut facts, mut served, mut without) = (Vec::new(), Vec::new(), Vec::new());
        for giftbox in boxes {
            let row = self.box_row(*giftbox)?;
            if !row.state.is_open() {
                return Err(ActError::Refused(Refusal::BoxNotOpen { label: row.label(), state: row.state }));
            }
            let card = self.box_card_of(*giftbox)?;
            let Some(line) = line.cloned().or_else(|| first_gap(&card)) else {
                without.push(format!("Box {} needs nothing more.", row.label()));
                continue;
            };
            let mut suiting = offers(shelf.wares(), &card, &profile, Some(&line), TRIED);
            // What nobody has to look at twice goes first.
            suiting.sort_by_key(|offer| offer.careful == Some(Level::LookTwice));
            let found = suiting.iter().map(|offer| self.one_of_ware(&row, &offer.ware, &line, aside, &mut used));
            match found.collect::<Result<Vec<_>, ActError>>()?.into_iter().flatten().next() {
                Some(put) => {
                    facts.extend(put);
                    served.push(row);
                }
                None => without.push(nothing_suits(&row, &line)),
            }
        }
        if facts.is_empty() {
            return Err(ActError::Nothing(without.join(" ")));
        }
        let mut done = self.act(&facts)?;
        done.notes.extend(without);
        if let [only] = served.as_slice() {
            done.notes.extend(self.still_needs(only)?);
        }
        Ok(done)
    }

    /// The facts that give one unit of a thing to a box, if one is left.
    fn one_of_ware(
        &mut self,
        row: &BoxRow,
        ware: &Ware,
        line: &Wanted,
        aside: bool,
        used: &mut BTreeMap<LotId, Units>,
    ) -> Result<Option<Vec<Fact>>, ActError> {
        let wow = (*line == Wanted::Category(Category::Wow) && ware.category != Some(Category::Wow))
            .then(|| vec![PlacementField::Wow(true)]);
        let (giftbox, units) = (row.giftbox, Units::ONE);
        let waiting = self.store.placements_in(giftbox)?;
        for &lot in &ware.lots {
            let held = waiting.iter().find(|held| held.lot == lot && !held.aside.is_zero()).filter(|_| !aside);
            let Some(stock) = self.store.lot(lot)? else { continue };
            let gone = used.get(&lot).copied().unwrap_or_default();
            let left = if held.is_some() { stock.standing.on_hand } else { stock.free() };
            if left <= gone {
                continue;
            }
            *used.entry(lot).or_default() += units;
            let placement = held.map_or_else(|| self.ids.placement(), |held| held.placement);
            let placing = Placing { placement, lot, giftbox, units };
            let fact = if aside { Fact::SetAside(placing) } else { Fact::PutIn(placing) };
            let said = wow.map(|set| Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set }));
            return Ok(Some(std::iter::once(fact).chain(said).collect()));
        }
        Ok(None)
    }

    /// Makes something the wow item of its box, or no longer.
    pub fn wow(&mut self, placement: PlacementId, lot: LotId, giftbox: BoxId, wow: bool) -> Result<Done, ActError> {
        let row = self.box_row(giftbox)?;
        let set = vec![PlacementField::Wow(wow)];
        self.act(&[Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set })])?;
        let title = self.store.lot(lot)?.map(|lot| lot.facts.title()).unwrap_or_default();
        let (is, label) = (if wow { "is" } else { "is no longer" }, row.label());
        let notes = self.still_needs(&row)?.into_iter().collect();
        Ok(Done { said: format!("{title} {is} the wow item of box {label}."), notes })
    }

    /// Says where all batches of a thing lie now.
    pub fn to_tote(&mut self, lots: &[LotId], tote: &str) -> Result<Done, ActError> {
        let tote = normal(&clean(tote));
        if tote.is_empty() || tote.chars().count() > 60 {
            return Err(ActError::NotUnderstood("which tote? A few letters: tote 4, shelf 2".to_owned()));
        }
        let mut facts = Vec::new();
        let mut title = String::new();
        for &lot in lots {
            let Some(row) = self.store.lot(lot)?.filter(|row| !row.standing.on_hand.is_zero()) else { continue };
            title = row.facts.title();
            if row.facts.tote.as_deref() != Some(tote.as_str()) {
                facts.push(Fact::LotMended(LotMended { lot, set: vec![LotField::Tote(Some(tote.clone()))] }));
            }
        }
        if facts.is_empty() {
            let there = if title.is_empty() {
                "None on hand to move".to_owned()
            } else {
                format!("{title} lies in {tote} already")
            };
            return Err(ActError::Nothing(format!("{there}.")));
        }
        let done = self.act(&facts)?;
        Ok(Done { said: format!("{title} lies in {tote} now."), ..done })
    }
}

fn first_gap(card: &BoxCard) -> Option<Wanted> {
    let short = card.line.checklist.iter().find(|cell| cell.needs > 0);
    // What is only set aside goes in last.
    let short = short.or_else(|| card.line.checklist.iter().find(|cell| cell.met != Met::Full));
    short.map(|cell| cell.of.clone())
}

fn nothing_suits(row: &BoxRow, line: &Wanted) -> String {
    let (whom, ages) = (row.facts.whom(), row.facts.ages);
    let child = if row.facts.for_whom.is_some() { format!("a {whom} of {ages}") } else { format!("a child of {ages}") };
    format!("Nothing on hand suits {} for {child} (box {}).", line.words(), row.label())
}
