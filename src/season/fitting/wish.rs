//! What somebody tries with a box without changing anything: leaving things out, laying them on top, swapping them.

use std::collections::{BTreeMap, BTreeSet};

use super::measured::{Measured, Origin, give_room};
use super::{Fitting, LidSaid};
use crate::model::id::{LotId, PlacementId};

/// What is tried with the things of a box.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FitWish {
    /// These are left out.
    pub out: BTreeSet<PlacementId>,
    /// These are kept on top, or no longer.
    pub top: BTreeMap<PlacementId, bool>,
    /// A batch on hand instead of these.
    pub instead: BTreeMap<PlacementId, LotId>,
}

/// Where the size of a thing is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizeFrom {
    /// It was said of its batch.
    Batch,
    /// It was measured of its kind.
    Kind,
    /// It is typical of the kind, at least in part.
    Typical,
    /// Nobody knows it.
    Nowhere,
}

/// A thing in or for a box, as it is packed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FitThing {
    /// Which units they are.
    pub placement: PlacementId,
    /// Their batch.
    pub lot: LotId,
    /// What one of it is called.
    pub name: String,
    /// What the batch is called.
    pub called: String,
    /// How many.
    pub count: u16,
    /// Its sides in millimetres, the longest first.
    pub size: Option<[i32; 3]>,
    /// Where they are from.
    pub from: SizeFrom,
    /// It should be seen first.
    pub on_top: bool,
    /// What holder it belongs into; empty: none.
    pub inside: String,
}

/// A thing on hand that could be in a box instead of another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instead {
    /// Its batch.
    pub lot: LotId,
    /// What one of it is called.
    pub name: String,
    /// Its sides in millimetres.
    pub size: [i32; 3],
}

impl Fitting {
    /// The inside of the box in millimetres, the height last.
    pub fn inside(&self) -> [i32; 3] {
        self.space.inside
    }

    /// Its things, one after the other.
    pub fn things(&self) -> Vec<FitThing> {
        let holder = |it: &Measured| it.thing.belongs.first().and_then(|at| self.things.get(*at));
        let told = |it: &Measured| {
            let from = match it.origin {
                Origin::Said if it.by_batch => SizeFrom::Batch,
                Origin::Said => SizeFrom::Kind,
                Origin::Typical => SizeFrom::Typical,
                Origin::Unknown => SizeFrom::Nowhere,
            };
            Some(FitThing {
                placement: it.placement?,
                lot: it.lot?,
                name: it.thing.name.clone(),
                called: it.called.clone(),
                count: it.thing.count,
                size: it.thing.shapes.first().map(|shape| shape.size),
                from,
                on_top: it.thing.on_top,
                inside: holder(it).map(|holder| holder.thing.name.clone()).unwrap_or_default(),
            })
        };
        self.things.iter().filter_map(told).collect()
    }

    /// What of the stock could be in the box instead of a thing, the most suitable first; perhaps only what is smaller.
    pub fn instead_of(&self, placement: PlacementId, smaller: bool) -> Vec<Instead> {
        let Some(thing) = self.things.iter().find(|it| it.placement == Some(placement)) else { return Vec::new() };
        let fills = |it: &&Measured| it.category == thing.category && it.thing.name != thing.thing.name;
        let small = |it: &&Measured| !smaller || it.thing.volume() < thing.thing.volume();
        let told = |it: &Measured| {
            let size = it.thing.shapes.first()?.size;
            Some(Instead { lot: it.lot?, name: it.thing.name.clone(), size })
        };
        self.others.iter().filter(fills).filter(small).filter_map(told).collect()
    }

    /// The box as it would be.
    #[must_use]
    pub fn with(&self, wish: &FitWish) -> Fitting {
        let is_out = |it: &Measured| it.placement.is_some_and(|placement| wish.out.contains(&placement));
        let kept: Vec<usize> = (0..self.things.len()).filter(|at| !is_out(&self.things[*at])).collect();
        let things = kept.iter().map(|at| {
            let it = &self.things[*at];
            let mut changed = self.swapped(it, it.placement.and_then(|placement| wish.instead.get(&placement)));
            changed.thing.belongs =
                it.thing.belongs.iter().filter_map(|holder| kept.binary_search(holder).ok()).collect();
            let top = it.placement.and_then(|placement| wish.top.get(&placement));
            changed.thing.on_top = top.copied().unwrap_or(it.thing.on_top);
            changed
        });
        let mut things: Vec<Measured> = things.collect();
        give_room(&mut things);
        // The lid closes over less as well, but nobody has seen it over something else.
        let lid: Option<LidSaid> = self.lid.clone().filter(|_| wish.instead.is_empty());
        Fitting { things, lid, ..self.clone() }
    }

    /// A thing, or as many of another as there are on hand.
    fn swapped(&self, it: &Measured, by: Option<&LotId>) -> Measured {
        let other = by.and_then(|lot| self.others.iter().find(|other| other.lot.as_ref() == Some(lot)));
        let Some(other) = other else { return it.clone() };
        let mut thing = other.thing.clone();
        thing.count = thing.count.clamp(1, it.thing.count.max(1));
        Measured { thing, placement: it.placement, category: it.category.clone(), aside: 0, ..other.clone() }
    }
}
