//! The lines of all checklists, put together to spots, and what can meet them.

use std::collections::BTreeMap;

use super::compile::{Sorts, Wares};
use super::flow::ENDLESS;
use super::net::{Gate, Net, Outlet, Source, Spot, Supply};
use super::price::Scale;
use super::problem::{Group, Need, Problem, Ware};

/// What makes lines of checklists one spot.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Line {
    sort: usize,
    category: usize,
    /// The kind asked for by name, or any.
    kind: Option<String>,
    rations: Rations,
}

/// Kinds of which a box may not take all that the line needs, with how many it may take.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Rations {
    most: BTreeMap<String, u32>,
    /// What a box needs at the line, where it matters: lines are one only if as much of each kind may be in as much.
    needed: u32,
}

impl Rations {
    /// Of the things of any kind in a need.
    fn of(group: &Group, need: &Need) -> Rations {
        let needed = need.of_any_kind();
        let left = |(kind, most): (&String, &u32)| {
            (kind.clone(), most.saturating_sub(need.must.get(kind).copied().unwrap_or(0)))
        };
        let most: BTreeMap<String, u32> = group.caps.iter().map(left).filter(|(_, most)| *most < needed).collect();
        let shared = most.values().any(|most| *most > 0);
        Rations { most, needed: if shared { needed } else { 0 } }
    }
}

/// The lines while they are being gathered.
pub(super) struct Lines<'a> {
    wares: &'a Wares<'a>,
    sorts: &'a Sorts,
    categories: &'a [String],
    /// Units that one box of a bundle needs of each.
    asked: BTreeMap<Line, Vec<(usize, i64)>>,
}

/// More than any box needs of a line; what is above it is not counted.
const MOST_NEEDED: u32 = 1_000;

impl<'a> Lines<'a> {
    pub fn new(wares: &'a Wares<'a>, sorts: &'a Sorts, categories: &'a [String]) -> Lines<'a> {
        Lines { wares, sorts, categories, asked: BTreeMap::new() }
    }

    /// The lines of a bundle, by one of its groups.
    pub fn add(&mut self, bundle: usize, index: usize, group: &Group) {
        let sort = self.sorts.of[index];
        for need in &group.needs {
            let Some(category) = self.categories.iter().position(|known| *known == need.category) else { continue };
            for (kind, &count) in &need.must {
                let line = Line { sort, category, kind: Some(kind.clone()), rations: Rations::default() };
                self.ask(line, bundle, count);
            }
            let line = Line { sort, category, kind: None, rations: Rations::of(group, need) };
            self.ask(line, bundle, need.of_any_kind());
        }
    }

    fn ask(&mut self, line: Line, bundle: usize, count: u32) {
        if count == 0 {
            return;
        }
        let asked = self.asked.entry(line).or_default();
        let count = i64::from(count.min(MOST_NEEDED));
        match asked.last_mut() {
            Some((of, known)) if *of == bundle => *known += count,
            _ => asked.push((bundle, count)),
        }
    }

    /// All spots with what can meet them, as one net.
    pub fn into_net(self, problem: &Problem, scale: Scale) -> Net {
        let mut net = Net::default();
        let mut outlets: Vec<Vec<Outlet>> = vec![Vec::new(); self.wares.all.len()];
        for (line, per_box) in &self.asked {
            self.place(&mut net, &mut outlets, line, per_box);
        }
        stock(&mut net, problem, self.wares, &outlets);
        offers(&mut net, problem, self.wares, &outlets, scale);
        net
    }

    /// Makes a spot of a line and opens it to every ware that meets it.
    fn place(&self, net: &mut Net, outlets: &mut [Vec<Outlet>], line: &Line, per_box: &[(usize, i64)]) {
        let spot = net.spots.len();
        net.spots.push(Spot { category: line.category, kind: line.kind.clone(), per_box: per_box.to_vec() });
        let mut gates: BTreeMap<&str, usize> = BTreeMap::new();
        for (index, ware) in self.wares.all.iter().enumerate().filter(|(index, ware)| self.meets(line, *index, ware)) {
            let outlet = match line.rations.most.get(&ware.kind) {
                Some(0) => continue,
                Some(&most) => Outlet::Gate(*gates.entry(&ware.kind).or_insert_with(|| {
                    net.gates.push(Gate { spot, per_box: i64::from(most) });
                    net.gates.len() - 1
                })),
                None => Outlet::Spot(spot),
            };
            outlets[index].push(outlet);
        }
    }

    fn meets(&self, line: &Line, index: usize, ware: &Ware) -> bool {
        self.sorts.fits[line.sort][index]
            && line.kind.as_ref().is_none_or(|kind| *kind == ware.kind)
            && ware.serves.contains(&self.categories[line.category])
    }
}

/// What is on hand, put together by the spots that it fits.
fn stock(net: &mut Net, problem: &Problem, wares: &Wares<'_>, outlets: &[Vec<Outlet>]) {
    let mut alike: BTreeMap<&[Outlet], Vec<usize>> = BTreeMap::new();
    for (thing, &ware) in wares.of_things.iter().enumerate().filter(|(_, ware)| !outlets[**ware].is_empty()) {
        alike.entry(&outlets[ware]).or_default().push(thing);
    }
    for (outlets, things) in alike {
        let units = things.iter().map(|thing| i64::from(problem.stock.things[*thing].units)).sum();
        net.supplies.push(Supply { source: Source::Things(things), units, price: 0, outlets: outlets.to_vec() });
    }
}

/// The cheapest offer for each outlet, cheapest first.
fn offers(net: &mut Net, problem: &Problem, wares: &Wares<'_>, outlets: &[Vec<Outlet>], scale: Scale) {
    let mut best: BTreeMap<Outlet, (i64, usize)> = BTreeMap::new();
    for (offer, &ware) in wares.of_offers.iter().enumerate() {
        let price = scale.unit_price(&problem.shop.offers[offer]);
        for outlet in &outlets[ware] {
            let known = best.entry(*outlet).or_insert((price, offer));
            *known = (*known).min((price, offer));
        }
    }
    let mut chosen: BTreeMap<(i64, usize), Vec<Outlet>> = BTreeMap::new();
    for (outlet, offer) in best {
        chosen.entry(offer).or_default().push(outlet);
    }
    for ((price, offer), outlets) in chosen {
        net.supplies.push(Supply { source: Source::Offer(offer), units: ENDLESS, price, outlets });
    }
}
