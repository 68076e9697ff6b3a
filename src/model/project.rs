//! From events to rows: one place that knows how, for every kind of store.
//!
//! A store appends events and then calls [`refresh`] with what they speak of; a rebuild calls it
//! with everything there is. Both go the same way, so both end with the same rows.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::event::{Event, Order, Subject};
use super::fact::Fact;
use super::fold::Fold;
use super::giftbox::BoxState;
use super::id::{ActId, BoxId, EventId, HaulId, LotId};
use super::lot::LotFacts;
use super::measure::Units;
use super::money::Money;
use super::profile::Profile;
use super::rows::{ActRow, BoxRow, Folded, HaulRow, LotRow, OutRow};
use super::share::allot;

/// An event and whether its act holds.
#[derive(Debug, Clone)]
pub struct Told {
    /// The event.
    pub event: Arc<Event>,
    /// Whether its act is live.
    pub live: bool,
}

/// What a store keeps for the projection: events by what they speak of, and the rows.
pub trait Tables {
    /// What can go wrong in this store.
    type Error;

    /// All events about something, in the one order.
    fn events_about(&self, subject: Subject) -> Result<Vec<Told>, Self::Error>;
    /// All events of an act, in the one order.
    fn events_of(&self, act: ActId) -> Result<Vec<Arc<Event>>, Self::Error>;

    /// An act's row.
    fn act(&self, act: ActId) -> Result<Option<ActRow>, Self::Error>;
    /// A batch's row.
    fn lot(&self, lot: LotId) -> Result<Option<LotRow>, Self::Error>;
    /// The rows of a haul's batches.
    fn lots_of(&self, haul: HaulId) -> Result<Vec<LotRow>, Self::Error>;
    /// What left by one event.
    fn outs_of(&self, event: EventId) -> Result<Vec<OutRow>, Self::Error>;
    /// A box's row.
    fn giftbox(&self, giftbox: BoxId) -> Result<Option<BoxRow>, Self::Error>;
    /// The rows of all boxes of this number.
    fn boxes_numbered(&self, number: u32) -> Result<Vec<BoxRow>, Self::Error>;
    /// A haul's row.
    fn haul(&self, haul: HaulId) -> Result<Option<HaulRow>, Self::Error>;

    /// Keeps an act's row.
    fn put_act(&mut self, row: &ActRow) -> Result<(), Self::Error>;
    /// Keeps a batch with its placements and outs in place of what was kept for it.
    fn put_lot(&mut self, folded: &Folded) -> Result<(), Self::Error>;
    /// Forgets a batch's rows.
    fn drop_lot(&mut self, lot: LotId) -> Result<(), Self::Error>;
    /// Keeps a box's row.
    fn put_box(&mut self, row: &BoxRow) -> Result<(), Self::Error>;
    /// Forgets a box's row.
    fn drop_box(&mut self, giftbox: BoxId) -> Result<(), Self::Error>;
    /// Keeps a haul's row.
    fn put_haul(&mut self, row: &HaulRow) -> Result<(), Self::Error>;
    /// Forgets a haul's row.
    fn drop_haul(&mut self, haul: HaulId) -> Result<(), Self::Error>;
    /// Keeps the drive's rules, or forgets them.
    fn put_profile(&mut self, profile: Option<&Profile>) -> Result<(), Self::Error>;
}

/// The number of this code; rows made by another number are dropped and made anew.
pub const PROJECTION: u32 = 4;

/// The row of an act that begins with this event; [`refresh`] settles whether it holds.
pub fn act_row(first: &Event) -> ActRow {
    ActRow {
        act: first.act,
        device: first.device,
        by: first.by.clone(),
        order: first.order(),
        live: true,
        steps_back: first.fact.is_about_an_act(),
        undone_by: None,
    }
}

/// Brings the rows of all that `touched` names up to date with the events.
pub fn refresh<T: Tables>(tables: &mut T, touched: BTreeSet<Subject>) -> Result<(), T::Error> {
    let touched = settle_acts(tables, touched)?;
    let mut hauls = BTreeSet::new();
    let mut lots = BTreeSet::new();
    let mut boxes = BTreeSet::new();
    for subject in touched {
        match subject {
            Subject::Profile => refresh_profile(tables)?,
            Subject::Haul(haul) => _ = hauls.insert(haul),
            Subject::Lot(lot) => _ = lots.insert(lot),
            Subject::Box(giftbox) => _ = boxes.insert(giftbox),
            // Acts are settled; placements are rows of their batch, which every such event names too.
            // Lessons are read from their events.
            Subject::Act(_) | Subject::Placement(_) | Subject::Lessons => {}
        }
    }
    for &haul in &hauls {
        refresh_haul(tables, haul)?;
    }
    refresh_boxes(tables, &boxes)?;
    Lots::default().refresh(tables, &lots, hauls)
}

/// Decides which acts hold; an act that changes touches all that its events speak of.
fn settle_acts<T: Tables>(tables: &mut T, touched: BTreeSet<Subject>) -> Result<BTreeSet<Subject>, T::Error> {
    let mut all = touched.clone();
    for subject in touched {
        let Subject::Act(act) = subject else { continue };
        let Some(mut row) = tables.act(act)? else { continue };
        let verdict = tables.events_about(subject)?;
        let last = verdict.last().map(|told| &told.event);
        let undone_by = last.filter(|event| matches!(event.fact, Fact::Voided(_))).map(|event| event.order());
        let live = undone_by.is_none() || row.steps_back;
        if (live, undone_by) != (row.live, row.undone_by) {
            (row.live, row.undone_by) = (live, undone_by);
            tables.put_act(&row)?;
            all.extend(tables.events_of(act)?.iter().flat_map(|event| event.fact.subjects()));
        }
    }
    Ok(all)
}

fn refresh_profile<T: Tables>(tables: &mut T) -> Result<(), T::Error> {
    let told = tables.events_about(Subject::Profile)?;
    let last = told.iter().rev().find(|told| told.live).map(|told| &told.event.fact);
    match last {
        Some(Fact::ProfileSet(set)) => tables.put_profile(Some(&set.profile)),
        _ => tables.put_profile(None),
    }
}

fn refresh_haul<T: Tables>(tables: &mut T, haul: HaulId) -> Result<(), T::Error> {
    let mut row: Option<HaulRow> = None;
    for told in tables.events_about(Subject::Haul(haul))?.iter().filter(|told| told.live) {
        match &told.event.fact {
            Fact::HaulLogged(b) if row.is_none() => {
                let (facts, refunds) = (b.facts.clone(), Money::ZERO);
                row = Some(HaulRow { haul, facts, refunds, logged: told.event.order() });
            }
            Fact::HaulMended(b) => {
                if let Some(row) = &mut row {
                    b.set.iter().for_each(|field| row.facts.set(field.clone()));
                }
            }
            Fact::Returned(b) => {
                if let Some(row) = &mut row {
                    row.refunds += b.refund.max(Money::ZERO);
                }
            }
            _ => {}
        }
    }
    match row {
        Some(row) => tables.put_haul(&row),
        None => tables.drop_haul(haul),
    }
}

fn refresh_boxes<T: Tables>(tables: &mut T, boxes: &BTreeSet<BoxId>) -> Result<(), T::Error> {
    let mut numbers = BTreeSet::new();
    for &giftbox in boxes {
        numbers.extend(tables.giftbox(giftbox)?.map(|row| row.facts.number));
        let told = tables.events_about(Subject::Box(giftbox))?;
        match box_row(giftbox, &told) {
            Some(row) => {
                numbers.insert(row.facts.number);
                tables.put_box(&row)?;
            }
            None => tables.drop_box(giftbox)?,
        }
    }
    numbers.into_iter().try_for_each(|number| tell_twins_apart(tables, number))
}

/// A box's row from its events; none once its plan is undone and nothing rests on it.
fn box_row(giftbox: BoxId, told: &[Told]) -> Option<BoxRow> {
    let plan = told.iter().find_map(|told| match &told.event.fact {
        Fact::BoxPlanned(b) => Some((told, b)),
        _ => None,
    });
    let (planned, b) = plan?;
    let mut live = told.iter().filter(|told| told.live && told.event.uid != planned.event.uid).peekable();
    if !planned.live && live.peek().is_none() {
        return None;
    }
    let mut row = BoxRow {
        giftbox,
        facts: b.facts.clone(),
        twin: 0,
        state: BoxState::Open,
        withdrawn: !planned.live,
        planned: planned.event.order(),
    };
    for told in live {
        match &told.event.fact {
            Fact::BoxMended(b) => b.set.iter().for_each(|field| row.facts.set(field.clone())),
            Fact::BoxClosed(_) => row.state = BoxState::Closed,
            Fact::BoxReopened(_) => row.state = BoxState::Open,
            Fact::BoxHandedIn(_) => row.state = BoxState::HandedIn,
            Fact::BoxCameBack(_) => row.state = BoxState::CameBack,
            Fact::BoxDropped(_) => row.state = BoxState::Dropped,
            _ => {}
        }
    }
    Some(row)
}

/// Two computers may both have called a box 12: the one planned later is 12b.
fn tell_twins_apart<T: Tables>(tables: &mut T, number: u32) -> Result<(), T::Error> {
    let mut twins = tables.boxes_numbered(number)?;
    twins.sort_by_key(|row| (row.state == BoxState::Dropped, row.planned));
    for (twin, row) in (0..).zip(&mut twins) {
        if row.twin != twin {
            row.twin = twin;
            tables.put_box(row)?;
        }
    }
    Ok(())
}

/// One batch on its way from events to rows.
struct Draft {
    lot: LotId,
    told: Vec<Told>,
    haul: Option<HaulId>,
    facts: LotFacts,
    withdrawn: bool,
    origin: Arc<Event>,
    last: EventId,
    cost_in: Money,
    /// Whether nobody counted it when it came.
    uncounted: bool,
}

impl Draft {
    /// What its events say of it; none once its arrival is undone and nothing rests on it.
    fn from(lot: LotId, told: Vec<Told>) -> Option<Draft> {
        let (first, haul, mut facts) = told.iter().find_map(|told| match &told.event.fact {
            Fact::LotAdded(b) if b.lot == lot => Some((told, b.haul, b.facts.clone())),
            Fact::Split(b) if b.into == lot => Some((told, None, b.facts.clone())),
            Fact::KitMade(b) if b.into == lot => Some((told, None, b.facts.clone())),
            Fact::Parted(b) => {
                let out = b.into.iter().find(|out| out.lot == lot)?;
                Some((told, None, out.facts.clone()))
            }
            _ => None,
        })?;
        let (origin, withdrawn, uncounted) = (Arc::clone(&first.event), !first.live, facts.level.is_some());
        for told in told.iter().filter(|told| told.live) {
            if let Fact::LotMended(b) = &told.event.fact {
                b.set.iter().for_each(|field| facts.set(field.clone()));
            }
        }
        let last = told.iter().rev().find(|told| told.live)?.event.uid;
        let cost_in = paid(&facts);
        Some(Draft { lot, told, haul, facts, withdrawn, origin, last, cost_in, uncounted })
    }

    /// What of a line the shares of its haul's other lines depend on.
    fn bearing(facts: &LotFacts, withdrawn: bool) -> (Money, bool, bool) {
        (paid(facts), withdrawn, facts.units.is_zero())
    }

    /// What its share of a haul follows.
    fn weight(&self) -> Option<Money> {
        if self.withdrawn { None } else { Some(paid(&self.facts)) }
    }
}

/// What a line cost as far as is known; a foreign file's negative price counts as none.
fn paid(facts: &LotFacts) -> Money {
    facts.paid.unwrap_or_default().max(Money::ZERO)
}

/// The work of refreshing batches: facts first, then shares of hauls, then the fold, in order of arrival.
#[derive(Default)]
struct Lots {
    drafts: BTreeMap<LotId, Draft>,
    of_haul: BTreeSet<(HaulId, LotId)>,
    queue: BTreeSet<(Order, LotId)>,
}

impl Lots {
    fn refresh<T: Tables>(
        mut self,
        tables: &mut T,
        lots: &BTreeSet<LotId>,
        mut hauls: BTreeSet<HaulId>,
    ) -> Result<(), T::Error> {
        for &lot in lots {
            let old = tables.lot(lot)?;
            self.draft(tables, lot)?;
            let draft = self.drafts.get_mut(&lot);
            let was = old.as_ref().map(|row| Draft::bearing(&row.facts, row.withdrawn));
            let is = draft.as_ref().map(|draft| Draft::bearing(&draft.facts, draft.withdrawn));
            let haul = draft.as_ref().and_then(|draft| draft.haul).or(old.as_ref().and_then(|row| row.haul));
            if let (Some(draft), Some(old)) = (draft, &old)
                && haul.is_some()
            {
                draft.cost_in = old.cost_in;
            }
            if was != is {
                hauls.extend(haul);
            }
        }
        for haul in hauls {
            self.share(tables, haul)?;
        }
        self.fold_all(tables)
    }

    /// Reads a batch's events and puts it into the queue, or forgets it if nothing is left of it.
    fn draft<T: Tables>(&mut self, tables: &mut T, lot: LotId) -> Result<(), T::Error> {
        if self.drafts.contains_key(&lot) {
            return Ok(());
        }
        match Draft::from(lot, tables.events_about(Subject::Lot(lot))?) {
            Some(draft) => {
                self.queue.insert((draft.origin.order(), lot));
                self.of_haul.extend(draft.haul.map(|haul| (haul, lot)));
                self.drafts.insert(lot, draft);
                Ok(())
            }
            None => tables.drop_lot(lot),
        }
    }

    /// Shares what came on top of a haul over its lines, so that they add up to the receipt.
    fn share<T: Tables>(&mut self, tables: &mut T, haul: HaulId) -> Result<(), T::Error> {
        for row in tables.lots_of(haul)? {
            self.draft(tables, row.lot)?;
        }
        let mut lines: Vec<(Order, LotId, Money)> = Vec::new();
        for (_, lot) in self.of_haul.range((haul, LotId::LEAST)..=(haul, LotId::MOST)) {
            if let Some((draft, weight)) = self.drafts.get(lot).and_then(|draft| Some((draft, draft.weight()?))) {
                lines.push((draft.origin.order(), *lot, weight));
            }
        }
        lines.sort_unstable();
        let paid = lines.iter().map(|(.., weight)| *weight).sum();
        let on_top = tables.haul(haul)?.map_or(Money::ZERO, |row| row.facts.on_top(paid));
        let weights: Vec<u64> = lines.iter().map(|(.., weight)| weight.minor().unsigned_abs()).collect();
        for ((_, lot, weight), share) in lines.iter().zip(allot(on_top, &weights)) {
            if let Some(draft) = self.drafts.get_mut(lot) {
                draft.cost_in = *weight + share;
            }
        }
        Ok(())
    }

    /// Folds from the oldest arrival on: what a batch passes on is known before the next one needs it.
    fn fold_all<T: Tables>(&mut self, tables: &mut T) -> Result<(), T::Error> {
        while let Some((arrived, lot)) = self.queue.pop_first() {
            let Some(draft) = self.drafts.get(&lot) else { continue };
            let folded = fold(tables, lot, draft)?;
            let onward: Vec<LotId> = draft.told.iter().flat_map(|told| passes_on(&told.event, lot)).collect();
            tables.put_lot(&folded)?;
            for next in onward {
                self.requeue(tables, next, arrived)?;
            }
        }
        Ok(())
    }

    /// Queues what was made of a batch; a batch older than its own source is none of its making.
    fn requeue<T: Tables>(&mut self, tables: &mut T, lot: LotId, source: Order) -> Result<(), T::Error> {
        self.draft(tables, lot)?;
        if let Some(draft) = self.drafts.get(&lot).filter(|draft| draft.origin.order() > source) {
            self.queue.insert((draft.origin.order(), lot));
        }
        Ok(())
    }
}

/// The batches that this event makes out of `lot`.
fn passes_on(event: &Event, lot: LotId) -> Vec<LotId> {
    match &event.fact {
        Fact::Split(b) if b.lot == lot => vec![b.into],
        Fact::KitMade(b) if b.parts.iter().any(|part| part.lot == lot) => vec![b.into],
        Fact::Parted(b) if b.lot == lot => b.into.iter().map(|out| out.lot).collect(),
        _ => Vec::new(),
    }
}

/// What of a passed-on cost comes to this batch: all of it, or its share of what was parted.
fn arrives(event: &Event, lot: LotId, cost: Money) -> Money {
    let Fact::Parted(b) = &event.fact else { return cost };
    let weights: Vec<u64> = b.into.iter().map(|out| out.share.into()).collect();
    let shares = allot(cost, &weights);
    let of_lot = b.into.iter().zip(shares).find(|(out, _)| out.lot == lot);
    of_lot.map_or(Money::ZERO, |(_, share)| share)
}

/// What came in with a batch: as bought, or what its parts passed on.
struct Inflow {
    units: Units,
    cost: Money,
    unpriced: bool,
    about: bool,
}

fn inflow<T: Tables>(tables: &T, draft: &Draft) -> Result<Inflow, T::Error> {
    let facts = &draft.facts;
    if draft.withdrawn {
        return Ok(Inflow { units: Units::ZERO, cost: Money::ZERO, unpriced: false, about: false });
    }
    let mut inflow =
        Inflow { units: facts.units, cost: draft.cost_in, unpriced: facts.paid.is_none(), about: facts.about };
    if matches!(draft.origin.fact, Fact::LotAdded(_)) {
        return Ok(inflow);
    }
    (inflow.cost, inflow.unpriced) = (Money::ZERO, false);
    for out in tables.outs_of(draft.origin.uid)? {
        // A source that claims to have come after what was made of it is no source.
        if let Some(source) = tables.lot(out.lot)?.filter(|source| source.added < draft.origin.order()) {
            inflow.cost += arrives(&draft.origin, draft.lot, out.cost);
            inflow.unpriced |= source.unpriced;
            inflow.about |= source.about;
        }
    }
    Ok(inflow)
}

fn fold<T: Tables>(tables: &T, lot: LotId, draft: &Draft) -> Result<Folded, T::Error> {
    let inflow = inflow(tables, draft)?;
    let mut fold = Fold::new(lot, inflow.units, inflow.cost, draft.uncounted);
    draft.told.iter().filter(|told| told.live).for_each(|told| fold.tell(&told.event));
    let (standing, mut placements, outs) = fold.finish();
    placements.retain(|row| !row.aside.is_zero() || !row.units.is_zero());
    let cost_in = if inflow.units.is_zero() { Money::ZERO } else { inflow.cost };
    let row = LotRow {
        lot,
        haul: draft.haul,
        facts: draft.facts.clone(),
        withdrawn: draft.withdrawn,
        added: draft.origin.order(),
        last: draft.last,
        cost_in,
        unpriced: inflow.unpriced,
        about: inflow.about,
        standing,
    };
    Ok(Folded { row, placements, outs })
}
