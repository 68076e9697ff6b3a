//! Setting aside, putting in, taking back, moving; one of this into each of these boxes.

use super::names::Thing;
use super::{ActError, Done, Season, Which};
use crate::model::checklist::gaps;
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, Moved, PlacementField, PlacementMended, Placing};
use crate::model::giftbox::BoxState;
use crate::model::id::{BoxId, PlacementId};
use crate::model::measure::Units;
use crate::model::rows::{BoxRow, PlacementRow};
use crate::store::Store;

/// How something is put in or set aside.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PutHow {
    /// Only held for the box, still in its tote.
    pub aside: bool,
    /// It is the wow item of this box.
    pub wow: bool,
    /// The holder in this box that it goes into.
    pub inside: Option<String>,
    /// Why it was chosen.
    pub why: Option<String>,
    /// Why it is allowed in this box though a caution speaks against it.
    pub allow: Option<String>,
}

impl<S: Store> Season<S> {
    /// Puts units of a thing into a box, or sets them aside for it. What is set aside for this box goes in first.
    pub fn put<'a>(
        &mut self,
        giftbox: &str,
        units: Units,
        which: impl Into<Which<'a>>,
        how: &PutHow,
    ) -> Result<Done, ActError> {
        let row = self.box_called(giftbox)?;
        let holder = how.inside.as_deref().map(|words| self.holder(&row, words)).transpose()?;
        let thing = match which.into() {
            Which::Words(words) => self.for_box(&row, words, how.aside)?,
            Which::Lots(lots) => self.thing_of(lots)?,
        };
        let mut facts = self.placings(&row, &thing, units, how.aside)?;
        let set = fields(how, holder);
        if !set.is_empty() {
            let said: Vec<Fact> = facts.iter().filter_map(|fact| said_of(fact, &set)).collect();
            facts.extend(said);
        }
        let mut done = self.act(&facts)?;
        done.notes.extend(self.still_needs(&row)?);
        Ok(done)
    }

    /// One of a thing into each of these boxes, or set aside for each: one act, one undo.
    pub fn each<'a>(&mut self, boxes: &str, which: impl Into<Which<'a>>, aside: bool) -> Result<Done, ActError> {
        let rows = self.boxes_called(boxes)?;
        self.one_each(&rows, which.into(), aside)
    }

    /// The same for boxes named by id.
    pub fn each_of<'a>(&mut self, boxes: &[BoxId], which: impl Into<Which<'a>>, aside: bool) -> Result<Done, ActError> {
        let mut rows = boxes.iter().map(|giftbox| self.box_row(*giftbox)).collect::<Result<Vec<_>, ActError>>()?;
        rows.sort_by_key(|row| (row.facts.number, row.twin));
        rows.dedup_by_key(|row| row.giftbox);
        if rows.is_empty() {
            return Err(ActError::NotUnderstood("which boxes? It takes at least one".to_owned()));
        }
        self.one_each(&rows, which.into(), aside)
    }

    fn one_each(&mut self, rows: &[BoxRow], which: Which<'_>, aside: bool) -> Result<Done, ActError> {
        let mut thing = self.on_hand(which)?;
        let wanted = Units::new(u32::try_from(rows.len()).unwrap_or(u32::MAX)).unwrap_or_default();
        if wanted > thing.free() {
            return Err(not_enough(&thing, wanted));
        }
        let mut facts = Vec::new();
        for row in rows {
            open(row)?;
            facts.extend(self.use_free(row, &mut thing, Units::ONE, aside)?);
        }
        self.act(&facts)
    }

    /// Takes units of a thing out of a box, back to their tote; then those only set aside for it.
    pub fn take<'a>(&mut self, giftbox: &str, units: Units, which: impl Into<Which<'a>>) -> Result<Done, ActError> {
        let row = self.box_called(giftbox)?;
        let held = self.held_as(&row, which.into())?;
        let mut left = units;
        let mut facts = Vec::new();
        for placement in held.iter().rev() {
            let taking = left.min(placement.units);
            push(&mut facts, taking, placement, Fact::TakenBack);
            left -= taking;
        }
        for placement in held.iter().rev() {
            let letting = left.min(placement.aside);
            push(&mut facts, letting, placement, Fact::LetGo);
            left -= letting;
        }
        enough(&row, &held, units, left)?;
        let mut done = self.act(&facts)?;
        done.notes.extend(self.still_needs(&row)?);
        Ok(done)
    }

    /// Moves units of a thing from one box to another; what was set aside stays set aside.
    pub fn carry<'a>(
        &mut self,
        from: &str,
        to: &str,
        units: Units,
        which: impl Into<Which<'a>>,
    ) -> Result<Done, ActError> {
        let (from, to) = (self.box_called(from)?, self.box_called(to)?);
        if from.giftbox == to.giftbox {
            return Err(ActError::NotUnderstood(format!("it is in box {} already", to.label())));
        }
        let held = self.held_as(&from, which.into())?;
        let mut left = units;
        let mut facts = Vec::new();
        for row in held.iter().rev() {
            let moving = left.min(row.units);
            left -= moving;
            if !moving.is_zero() {
                let to_placement = self.ids.placement();
                let PlacementRow { placement, lot, giftbox, .. } = *row;
                let to_box = to.giftbox;
                facts.push(Fact::Moved(Moved { placement, lot, giftbox, to_placement, to_box, units: moving }));
            }
        }
        for row in held.iter().rev() {
            let moving = left.min(row.aside);
            left -= moving;
            push(&mut facts, moving, row, Fact::LetGo);
            if !moving.is_zero() {
                let placement = self.ids.placement();
                facts.push(Fact::SetAside(Placing { placement, lot: row.lot, giftbox: to.giftbox, units: moving }));
            }
        }
        enough(&from, &held, units, left)?;
        let mut done = self.act(&facts)?;
        done.notes.extend(self.still_needs(&from)?);
        Ok(done)
    }

    /// Says why a thing in a box was chosen.
    pub fn note<'a>(&mut self, giftbox: &str, which: impl Into<Which<'a>>, why: &str) -> Result<Done, ActError> {
        let row = self.box_called(giftbox)?;
        let held = self.held_as(&row, which.into())?;
        let why = crate::model::text::clean(why.trim());
        let facts = held.iter().map(|row| mended(row, vec![PlacementField::Why(why.clone())])).collect::<Vec<_>>();
        self.act(&facts)
    }

    /// The facts that put units of a thing into a box: set-aside ones of this box first.
    fn placings(&mut self, row: &BoxRow, thing: &Thing, units: Units, aside: bool) -> Result<Vec<Fact>, ActError> {
        let mut thing = thing.clone();
        let mut left = units;
        let mut facts = Vec::new();
        if !aside {
            for held in self.store.placements_in(row.giftbox)? {
                let Some(lot) = thing.lots.iter_mut().find(|lot| lot.lot == held.lot) else { continue };
                let putting = left.min(held.aside).min(lot.standing.on_hand);
                lot.standing.on_hand -= putting;
                lot.standing.aside -= putting;
                left -= putting;
                push(&mut facts, putting, &held, Fact::PutIn);
            }
        }
        if left > thing.free() {
            return Err(not_enough(&thing, units));
        }
        facts.extend(self.use_free(row, &mut thing, left, aside)?);
        if facts.is_empty() {
            return Err(ActError::NotUnderstood("how many? It takes at least one".to_owned()));
        }
        Ok(facts)
    }

    /// Takes free units, the batch that is used up first first, and counts them off the thing.
    pub(super) fn use_free(
        &mut self,
        row: &BoxRow,
        thing: &mut Thing,
        units: Units,
        aside: bool,
    ) -> Result<Vec<Fact>, ActError> {
        open(row)?;
        let mut left = units;
        let mut facts = Vec::new();
        for lot in &mut thing.lots {
            let units = left.min(lot.free());
            if units.is_zero() {
                continue;
            }
            left -= units;
            lot.standing.on_hand -= units;
            let placing = Placing { placement: self.ids.placement(), lot: lot.lot, giftbox: row.giftbox, units };
            facts.push(if aside { Fact::SetAside(placing) } else { Fact::PutIn(placing) });
        }
        Ok(facts)
    }

    /// The thing that the words mean here: one set aside for this box before any other.
    fn for_box(&self, row: &BoxRow, words: &str, aside: bool) -> Result<Thing, ActError> {
        if !aside {
            let waiting = self.store.placements_in(row.giftbox)?.into_iter().filter(|held| !held.aside.is_zero());
            let mut things = self.things_among(&waiting.map(|held| held.lot).collect())?;
            for thing in &mut things {
                thing.lots.retain(|lot| !lot.withdrawn);
            }
            things.retain(|thing| !thing.lots.is_empty());
            if let Ok(thing) = self.one_of(words, &things, "set aside") {
                // More of the same thing may lie in other batches.
                let same = thing.lots.first().map(|lot| self.same_as(lot)).transpose()?.flatten();
                return Ok(same.unwrap_or(thing));
            }
        }
        self.on_hand(Which::Words(words))
    }

    /// What is in or for a box and called so, in the order it came there.
    pub(super) fn held_as(&self, row: &BoxRow, which: Which<'_>) -> Result<Vec<PlacementRow>, ActError> {
        let held = self.store.placements_in(row.giftbox)?;
        let words = match which {
            Which::Words(words) => words,
            Which::Lots(lots) => {
                let held: Vec<_> = held.into_iter().filter(|held| lots.contains(&held.lot)).collect();
                let none = || ActError::Nothing(format!("None of that is in box {}.", row.label()));
                return if held.is_empty() { Err(none()) } else { Ok(held) };
            }
        };
        let things = self.things_among(&held.iter().map(|held| held.lot).collect())?;
        let thing = self.one_of(words, &things, &format!("in box {}", row.label()))?;
        Ok(held.into_iter().filter(|held| thing.lots.iter().any(|lot| lot.lot == held.lot)).collect())
    }

    fn holder(&self, row: &BoxRow, words: &str) -> Result<PlacementId, ActError> {
        let held = self.held_as(row, Which::Words(words))?;
        let inside = held.iter().rev().find(|held| !held.units.is_zero()).or(held.last());
        inside.map(|held| held.placement).ok_or_else(|| ActError::Nothing(format!("\"{words}\" is not in it")))
    }

    /// What the box still needs, in a sentence.
    pub(super) fn still_needs(&self, row: &BoxRow) -> Result<Option<String>, ActError> {
        let profile = self.profile()?;
        let Some(band) = profile.band(row.facts.ages) else { return Ok(None) };
        let gaps = gaps(&band.checklist, &self.held_in(row)?);
        let needs: Vec<String> = (gaps.iter().filter(|gap| gap.needs() > 0))
            .map(|gap| format!("{} {}", gap.needs(), gap.line.of.words()))
            .collect();
        Ok(Some(if needs.is_empty() {
            format!("Box {} has all that it must hold, in it or set aside.", row.label())
        } else {
            format!("Box {} still needs {}.", row.label(), needs.join(", "))
        }))
    }
}

fn open(row: &BoxRow) -> Result<(), ActError> {
    match row.state {
        BoxState::Open => Ok(()),
        state => Err(ActError::Refused(Refusal::BoxNotOpen { label: row.label(), state })),
    }
}

fn not_enough(thing: &Thing, wanted: Units) -> ActError {
    let (name, free, aside) = (thing.title.clone(), thing.free(), thing.aside());
    ActError::Refused(Refusal::NotEnough { name, free, wanted, aside })
}

fn enough(row: &BoxRow, held: &[PlacementRow], wanted: Units, left: Units) -> Result<(), ActError> {
    if wanted.is_zero() {
        return Err(ActError::NotUnderstood("how many? It takes at least one".to_owned()));
    }
    if left.is_zero() {
        return Ok(());
    }
    let there = held.iter().map(|held| held.units + held.aside).sum();
    Err(ActError::Refused(Refusal::NotInBox { label: row.label(), there, wanted }))
}

fn push(facts: &mut Vec<Fact>, units: Units, row: &PlacementRow, fact: fn(Placing) -> Fact) {
    if !units.is_zero() {
        let PlacementRow { placement, lot, giftbox, .. } = *row;
        facts.push(fact(Placing { placement, lot, giftbox, units }));
    }
}

fn fields(how: &PutHow, holder: Option<PlacementId>) -> Vec<PlacementField> {
    let why = how.why.as_ref().map(|why| PlacementField::Why(crate::model::text::clean(why.trim())));
    let wow = how.wow.then_some(PlacementField::Wow(true));
    let inside = holder.map(|holder| PlacementField::Inside(Some(holder)));
    let allow = how.allow.as_ref().map(|why| PlacementField::Allowed(crate::model::text::clean(why.trim())));
    wow.into_iter().chain(inside).chain(why).chain(allow).collect()
}

fn said_of(fact: &Fact, set: &[PlacementField]) -> Option<Fact> {
    match fact {
        Fact::SetAside(b) | Fact::PutIn(b) => {
            let (placement, lot, giftbox) = (b.placement, b.lot, b.giftbox);
            Some(Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set: set.to_vec() }))
        }
        _ => None,
    }
}

fn mended(row: &PlacementRow, set: Vec<PlacementField>) -> Fact {
    let PlacementRow { placement, lot, giftbox, .. } = *row;
    Fact::PlacementMended(PlacementMended { placement, lot, giftbox, set })
}
