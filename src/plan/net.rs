//! What can go where: supplies, spots, and the gates between them where only so many of a kind may be in a box.

use std::collections::BTreeMap;

/// What can go where, of one category or of categories that share things.
#[derive(Debug, Clone, Default)]
pub(super) struct Net {
    pub spots: Vec<Spot>,
    pub gates: Vec<Gate>,
    /// What is on hand first, then what can be bought, cheapest first.
    pub supplies: Vec<Supply>,
}

/// Lines of checklists that the same things meet.
#[derive(Debug, Clone)]
pub(super) struct Spot {
    pub category: usize,
    /// The kind asked for by name, or any.
    pub kind: Option<String>,
    /// Units that one box of a bundle needs here.
    pub per_box: Vec<(usize, i64)>,
}

/// The way of one kind to a spot, of which a box may not take all that it needs.
#[derive(Debug, Clone)]
pub(super) struct Gate {
    pub spot: usize,
    /// Units that may pass for each box at the spot.
    pub per_box: i64,
}

/// Things that fit the same spots, or an offer.
#[derive(Debug, Clone)]
pub(super) struct Supply {
    pub source: Source,
    pub units: i64,
    /// What a unit costs, in the parts of [`super::price::Scale`]; nothing, if it is on hand.
    pub price: i64,
    pub outlets: Vec<Outlet>,
}

/// Where a supply comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Source {
    /// Things on hand, by index.
    Things(Vec<usize>),
    /// An offer, by index.
    Offer(usize),
}

/// Where a supply can go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Outlet {
    Spot(usize),
    Gate(usize),
}

impl Net {
    /// The different prices of what can be bought, lowest first.
    pub fn prices(&self) -> Vec<i64> {
        let mut prices: Vec<i64> = self.offers().map(|supply| supply.price).collect();
        prices.sort_unstable();
        prices.dedup();
        prices
    }

    fn offers(&self) -> impl Iterator<Item = &Supply> {
        self.supplies.iter().filter(|supply| matches!(supply.source, Source::Offer(_)))
    }

    /// What is on hand, with the things of each supply, by index.
    pub fn stock(&self) -> impl Iterator<Item = (&Supply, &[usize])> {
        self.supplies.iter().filter_map(|supply| match &supply.source {
            Source::Things(things) => Some((supply, things.as_slice())),
            Source::Offer(_) => None,
        })
    }

    /// The spot that an outlet leads to.
    pub fn spot(&self, outlet: Outlet) -> usize {
        match outlet {
            Outlet::Spot(spot) => spot,
            Outlet::Gate(gate) => self.gates[gate].spot,
        }
    }

    /// Takes categories apart that share nothing on hand.
    pub fn split(self, categories: usize) -> Vec<Net> {
        let part = self.parts(categories);
        let mut nets: BTreeMap<usize, Net> = BTreeMap::new();
        let place = |spot: usize| part[self.spots[spot].category];
        let mut at = Places::default();
        for (index, spot) in self.spots.iter().enumerate() {
            let net = nets.entry(place(index)).or_default();
            at.spots.push(net.spots.len());
            net.spots.push(spot.clone());
        }
        for gate in &self.gates {
            let net = nets.entry(place(gate.spot)).or_default();
            at.gates.push(net.gates.len());
            net.gates.push(Gate { spot: at.spots[gate.spot], per_box: gate.per_box });
        }
        for supply in &self.supplies {
            let mut shares: BTreeMap<usize, Vec<Outlet>> = BTreeMap::new();
            for outlet in &supply.outlets {
                shares.entry(place(self.spot(*outlet))).or_default().push(at.of(*outlet));
            }
            for (part, outlets) in shares {
                nets.entry(part).or_default().supplies.push(Supply { outlets, ..supply.clone() });
            }
        }
        nets.into_values().collect()
    }

    /// Which categories go together, each told by the lowest of them.
    fn parts(&self, categories: usize) -> Vec<usize> {
        let mut part: Vec<usize> = (0..categories).collect();
        for supply in self.supplies.iter().filter(|supply| matches!(supply.source, Source::Things(_))) {
            let of: Vec<usize> =
                supply.outlets.iter().map(|outlet| part[self.spots[self.spot(*outlet)].category]).collect();
            let Some(&lowest) = of.iter().min() else { continue };
            for known in part.iter_mut().filter(|known| of.contains(known)) {
                *known = lowest;
            }
        }
        part
    }
}

/// Where spots and gates stand in the net that they came into.
#[derive(Default)]
struct Places {
    spots: Vec<usize>,
    gates: Vec<usize>,
}

impl Places {
    fn of(&self, outlet: Outlet) -> Outlet {
        match outlet {
            Outlet::Spot(spot) => Outlet::Spot(self.spots[spot]),
            Outlet::Gate(gate) => Outlet::Gate(self.gates[gate]),
        }
    }
}
