//! Fills the boxes of a net as far as supplies reach, and tells what holds it back.

use std::collections::BTreeMap;

use super::flow::{ENDLESS, Flow};
use super::net::{Net, Outlet, Source};

const SOURCE: usize = 0;
const SINK: usize = 1;
const FIRST: usize = 2;

/// A net with a flow through it: from the supplies, cheapest first, to what some boxes need.
#[derive(Debug, Clone)]
pub(super) struct Filler<'a> {
    net: &'a Net,
    /// The prices of what may be bought, lowest first; none: only what is on hand.
    prices: Vec<i64>,
    flow: Flow,
    arcs: Arcs,
    /// What one box of each bundle needs: spot and units.
    wants: Vec<Vec<(usize, i64)>>,
    /// The gates to what each bundle needs.
    passes: Vec<Vec<usize>>,
    /// What flows, and what it costs.
    sent: i64,
    cost: i128,
    /// What is wanted in all.
    wanted: i64,
}

/// How a net was filled.
#[derive(Debug, Clone)]
pub(super) struct State {
    left: Vec<i64>,
    sent: i64,
    cost: i128,
    wanted: i64,
}

/// The arcs of each supply, of the outlets of each, of each gate and of each spot.
#[derive(Debug, Clone, Default)]
struct Arcs {
    supplies: Vec<usize>,
    outlets: Vec<Vec<usize>>,
    gates: Vec<usize>,
    spots: Vec<usize>,
}

/// Spots that are short together: `Σ terms · boxes ≤ most`, or else so much is missing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cut {
    /// What one box of a bundle takes of it.
    pub terms: Vec<(usize, i64)>,
    /// What there is.
    pub most: i64,
    /// The spots.
    pub spots: Vec<usize>,
}

impl<'a> Filler<'a> {
    /// With what is on hand, and with what can be bought if that is wanted.
    pub fn new(net: &'a Net, bundles: usize, buying: bool) -> Filler<'a> {
        let (supplies, gates) = (net.supplies.len(), net.gates.len());
        let mut flow = Flow::new(FIRST + supplies + gates + net.spots.len());
        let gate_point = |gate: usize| FIRST + supplies + gate;
        let spot_point = |spot: usize| FIRST + supplies + gates + spot;
        let mut arcs = Arcs::default();
        for (index, supply) in net.supplies.iter().enumerate() {
            arcs.supplies.push(flow.arc(SOURCE, FIRST + index, 0));
            let point = |outlet: &Outlet| match *outlet {
                Outlet::Spot(spot) => spot_point(spot),
                Outlet::Gate(gate) => gate_point(gate),
            };
            arcs.outlets
                .push(supply.outlets.iter().map(|outlet| flow.arc(FIRST + index, point(outlet), ENDLESS)).collect());
        }
        arcs.gates =
            net.gates.iter().enumerate().map(|(at, gate)| flow.arc(gate_point(at), spot_point(gate.spot), 0)).collect();
        arcs.spots = (0..net.spots.len()).map(|spot| flow.arc(spot_point(spot), SINK, 0)).collect();
        let mut wants = vec![Vec::new(); bundles];
        for (index, spot) in net.spots.iter().enumerate() {
            for &(bundle, units) in &spot.per_box {
                wants[bundle].push((index, units));
            }
        }
        let mut passes = vec![Vec::new(); bundles];
        for (index, gate) in net.gates.iter().enumerate() {
            for (bundle, _) in &net.spots[gate.spot].per_box {
                passes[*bundle].push(index);
            }
        }
        let prices = if buying { net.prices() } else { Vec::new() };
        Filler { net, prices, flow, arcs, wants, passes, sent: 0, cost: 0, wanted: 0 }
    }

    /// How many levels of buying there are: on hand only, then up to each price.
    pub fn levels(&self) -> usize {
        self.prices.len() + 1
    }

    /// What one more unit that is short at each level costs beyond what it costs at the levels below; at the last
    /// level nothing can be bought for it.
    pub fn steps(&self) -> Vec<Option<i64>> {
        let before = std::iter::once(0).chain(self.prices.iter().copied());
        let steps = self.prices.iter().zip(before).map(|(price, before)| Some(price - before));
        steps.chain([None]).collect()
    }

    /// Empties all; so many boxes of each bundle are to be filled, in parts of a box.
    pub fn clear(&mut self, boxes: &[i64], parts: i64) {
        (self.sent, self.cost, self.wanted) = (0, 0, 0);
        for (supply, &arc) in self.net.supplies.iter().zip(&self.arcs.supplies) {
            let stock = matches!(supply.source, Source::Things(_));
            self.flow.reset(arc, if stock { supply.units.saturating_mul(parts) } else { 0 });
        }
        for &arc in self.arcs.outlets.iter().flatten() {
            self.flow.reset(arc, ENDLESS);
        }
        for (index, gate) in self.net.gates.iter().enumerate() {
            let count: i64 = self.net.spots[gate.spot].per_box.iter().map(|(bundle, _)| boxes[*bundle]).sum();
            self.flow.reset(self.arcs.gates[index], count.saturating_mul(gate.per_box));
        }
        for (spot, &arc) in self.net.spots.iter().zip(&self.arcs.spots) {
            let wanted = spot.per_box.iter().fold(0_i64, |sum, (of, units)| sum.saturating_add(boxes[*of] * units));
            self.flow.reset(arc, wanted);
            self.wanted = self.wanted.saturating_add(wanted);
        }
    }

    /// Fills level by level; what is short after each, with what holds it back there.
    pub fn fill_by_level(&mut self, mut short: impl FnMut(usize, &mut Self)) {
        self.shut();
        for level in 0..self.levels() {
            self.fill_level(level);
            if self.short() == 0 {
                return;
            }
            short(level, self);
        }
    }

    /// Fills all, as cheaply as can be; what is short at the end.
    pub fn fill(&mut self) -> i64 {
        self.fill_by_level(|_, _| ());
        self.short()
    }

    /// Fills all from what is on hand, so that of what fits many spots most is left; what is short at the end.
    ///
    /// What a supply gives is never taken back by one that comes after it.
    pub fn fill_scarce_first(&mut self) -> i64 {
        let mut order: Vec<usize> = (0..self.net.supplies.len()).collect();
        order.retain(|index| matches!(self.net.supplies[*index].source, Source::Things(_)));
        order.sort_by_key(|index| self.net.supplies[*index].outlets.len());
        for &index in &order {
            self.flow.reset(self.arcs.supplies[index], 0);
        }
        for index in order {
            self.flow.widen(self.arcs.supplies[index], self.net.supplies[index].units);
            self.sent += self.flow.push(SOURCE, SINK);
            if self.short() == 0 {
                break;
            }
        }
        self.short()
    }

    /// What is wanted and not there.
    pub fn short(&self) -> i64 {
        self.wanted - self.sent
    }

    /// What is wanted at a spot and not there.
    pub fn short_at(&self, spot: usize) -> i64 {
        self.flow.left(self.arcs.spots[spot])
    }

    /// What is bought costs, in parts of a minor unit.
    pub fn cost(&self) -> i128 {
        self.cost
    }

    /// Wants some boxes more.
    pub fn want(&mut self, bundle: usize, boxes: i64) {
        for &(spot, units) in &self.wants[bundle] {
            self.flow.widen(self.arcs.spots[spot], units * boxes);
            self.wanted += units * boxes;
        }
        for &gate in &self.passes[bundle] {
            self.flow.widen(self.arcs.gates[gate], self.net.gates[gate].per_box * boxes);
        }
    }

    /// All that flows, to be put back.
    pub fn state(&self) -> State {
        State { left: self.flow.state(), sent: self.sent, cost: self.cost, wanted: self.wanted }
    }

    /// Puts back a state.
    pub fn restore(&mut self, state: &State) {
        self.flow.restore(&state.left);
        (self.sent, self.cost, self.wanted) = (state.sent, state.cost, state.wanted);
    }

    /// Whether a bundle needs anything of this net.
    pub fn concerns(&self, bundle: usize) -> bool {
        !self.wants[bundle].is_empty()
    }

    /// How many units each supply gives to each of its outlets.
    pub fn given(&self) -> impl Iterator<Item = (usize, Outlet, i64)> + '_ {
        self.net.supplies.iter().enumerate().flat_map(move |(index, supply)| {
            let arcs = &self.arcs.outlets[index];
            supply.outlets.iter().zip(arcs).map(move |(outlet, arc)| (index, *outlet, self.flow.carried(*arc)))
        })
    }

    /// How many units each supply that is on hand gives.
    pub fn given_by_stock(&self) -> impl Iterator<Item = i64> + '_ {
        let stock = self.net.supplies.iter().zip(&self.arcs.supplies);
        let stock = stock.filter(|(supply, _)| matches!(supply.source, Source::Things(_)));
        stock.map(|(_, arc)| self.flow.carried(*arc))
    }

    fn shut(&mut self) {
        for (supply, &arc) in self.net.supplies.iter().zip(&self.arcs.supplies) {
            if matches!(supply.source, Source::Offer(_)) {
                let carried = self.flow.carried(arc);
                self.flow.reset(arc, 0);
                self.flow.widen(arc ^ 1, carried);
            }
        }
    }

    fn fill_level(&mut self, level: usize) {
        let price = level.checked_sub(1).map(|index| self.prices[index]);
        for (supply, &arc) in self.net.supplies.iter().zip(&self.arcs.supplies) {
            if matches!(supply.source, Source::Offer(_)) && Some(supply.price) == price {
                self.flow.widen(arc, ENDLESS);
            }
        }
        let some = self.flow.push(SOURCE, SINK);
        self.sent += some;
        self.cost += i128::from(some) * i128::from(price.unwrap_or(0));
    }

    /// What holds it back now, taken apart into spots that have nothing to do with each other.
    pub fn cuts(&self) -> Vec<Cut> {
        let behind = self.behind();
        let mut piece: Vec<usize> = (0..self.net.spots.len()).collect();
        for (supply, _) in self.net.stock() {
            let open = supply.outlets.iter().filter(|outlet| behind.outlet(**outlet));
            let spots: Vec<usize> = open.map(|outlet| self.net.spot(*outlet)).collect();
            join(&mut piece, &spots);
        }
        let mut pieces: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for spot in (0..piece.len()).filter(|spot| behind.spots[*spot]) {
            pieces.entry(root(&piece, spot)).or_default().push(spot);
        }
        pieces.into_values().map(|spots| self.cut(spots, &behind)).collect()
    }

    /// From where more could flow to boxes that are short.
    fn behind(&self) -> Behind {
        let reaching = self.flow.reaching(SINK);
        let gates = FIRST + self.net.supplies.len();
        let spots = gates + self.net.gates.len();
        Behind { gates: reaching[gates..spots].to_vec(), spots: reaching[spots..].to_vec() }
    }

    fn cut(&self, spots: Vec<usize>, behind: &Behind) -> Cut {
        let mut terms: BTreeMap<usize, i64> = BTreeMap::new();
        for &(bundle, units) in spots.iter().flat_map(|spot| &self.net.spots[*spot].per_box) {
            *terms.entry(bundle).or_default() += units;
        }
        let full =
            self.net.gates.iter().zip(&behind.gates).filter(|(gate, behind)| !**behind && spots.contains(&gate.spot));
        for (gate, _) in full {
            for (bundle, _) in &self.net.spots[gate.spot].per_box {
                *terms.entry(*bundle).or_default() -= gate.per_box;
            }
        }
        let inside = |outlet: &Outlet| behind.outlet(*outlet) && spots.contains(&self.net.spot(*outlet));
        let most = self
            .net
            .stock()
            .filter(|(supply, _)| supply.outlets.iter().any(inside))
            .map(|(supply, _)| supply.units)
            .sum();
        Cut { terms: terms.into_iter().filter(|(_, units)| *units != 0).collect(), most, spots }
    }
}

/// From which gates and spots more could flow to boxes that are short.
struct Behind {
    gates: Vec<bool>,
    spots: Vec<bool>,
}

impl Behind {
    fn outlet(&self, outlet: Outlet) -> bool {
        match outlet {
            Outlet::Spot(spot) => self.spots[spot],
            Outlet::Gate(gate) => self.gates[gate],
        }
    }
}

fn root(piece: &[usize], of: usize) -> usize {
    let mut at = of;
    while piece[at] != at {
        at = piece[at];
    }
    at
}

/// Makes these one piece.
fn join(piece: &mut [usize], spots: &[usize]) {
    let Some(lowest) = spots.iter().map(|spot| root(piece, *spot)).min() else { return };
    for &spot in spots {
        let root = root(piece, spot);
        piece[root] = lowest;
    }
}
