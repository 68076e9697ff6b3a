//! What is free to give, and what can be bought at which price.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::model::lot::Source;
use crate::model::rows::LotRow;
use crate::plan::{Group, Offer, Stock, Thing, Ware};
use crate::season::Ware as OnShelf;
use crate::season::watch::stops;
use crate::suits::is_wrong_size;

/// The free things that may go into a box of some group, the oldest first, and which ware of the shelf each is.
///
/// A thing counts for its own category alone: what is a toy anywhere else is not given away as a wow item.
pub(super) fn stock(wares: &[Arc<OnShelf>], groups: &[Group]) -> (Stock, Vec<Arc<OnShelf>>) {
    let mut free: Vec<&Arc<OnShelf>> = wares.iter().filter(|ware| ware.free() > 0).collect();
    // Batches get their ids in the order in which they come.
    free.sort_by_key(|ware| ware.lots.iter().min().copied());
    let things = free.iter().map(|ware| thing(ware, groups)).collect();
    (Stock { things }, free.into_iter().cloned().collect())
}

/// A thing of the shelf, and which of the groups it may not go to.
pub(super) fn thing(ware: &OnShelf, groups: &[Group]) -> Thing {
    let wrong_size = |ages| is_wrong_size(ware.category.as_ref(), ware.kind.as_deref(), ware.size.as_deref(), ages);
    let stopped = |group: &Group| ware.careful(group.ages).is_some_and(stops) || wrong_size(group.ages);
    let not_for = groups.iter().enumerate().filter(|(_, group)| stopped(group)).map(|(at, _)| at).collect();
    let ages = ware.ages.map_or((0, u8::MAX), |ages| (ages.from(), ages.to().unwrap_or(u8::MAX)));
    let kind = ware.kind.as_deref().unwrap_or_default().to_owned();
    let own = ware.category.iter().map(|category| category.word().to_owned());
    // A kind that is asked for by name and has no category in the catalogue stands as one by itself.
    let by_name = groups.iter().flat_map(|group| &group.needs).any(|need| need.category == kind);
    let serves = own.chain(by_name.then(|| kind.clone())).collect();
    Thing {
        name: ware.title.to_string(),
        ware: Ware { kind, serves, for_whom: ware.for_whom, ages, not_for },
        units: ware.free(),
        room: None,
    }
}

/// What things cost when they were bought.
#[derive(Debug, Clone, Default)]
pub(super) struct Prices {
    bought: Vec<Bought>,
}

/// A purchase: what one pack of so many units cost, in minor units; a single thing is a pack of 1.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Bought {
    kind: String,
    category: String,
    price: i64,
    pack: u32,
}

impl Prices {
    /// All that was bought at a known price.
    pub fn of(lots: &[LotRow]) -> Prices {
        Prices { bought: lots.iter().filter_map(Bought::of).collect() }
    }

    /// The middle price of a kind, in whole packs if the middle purchase was one; of two middle ones the dearer, or that
    /// in the larger pack.
    fn of_kind(&self, kind: &str) -> Option<(i64, u32)> {
        let middle = middle(self.bought.iter().filter(|bought| bought.kind == kind).collect())?;
        Some((middle.price, middle.pack))
    }

    /// The middle price of one thing of a category.
    fn of_category(&self, category: &str) -> Option<(i64, u32)> {
        let middle = middle(self.bought.iter().filter(|bought| bought.category == category).collect())?;
        Some((up(middle.price, i64::from(middle.pack)), 1))
    }

    /// Kinds of a category with what one cost in the middle, rounded up, cheapest first.
    pub fn kinds(&self, category: &str) -> Vec<(String, i64)> {
        let of_it = self.bought.iter().filter(|bought| bought.category == category && !bought.kind.is_empty());
        let kinds: BTreeSet<&str> = of_it.map(|bought| bought.kind.as_str()).collect();
        let priced = |kind: &str| self.of_kind(kind).map(|(price, pack)| (kind.to_owned(), up(price, i64::from(pack))));
        let mut kinds: Vec<(String, i64)> = kinds.into_iter().filter_map(priced).collect();
        kinds.sort_by_key(|(_, each)| *each);
        kinds
    }
}

impl Bought {
    fn of(lot: &LotRow) -> Option<Bought> {
        let units = lot.facts.units.count();
        let paid_for = lot.facts.source == Source::Bought && lot.haul.is_some() && !lot.unpriced && !lot.withdrawn;
        if !paid_for || units == 0 || lot.cost_in.is_negative() {
            return None;
        }
        let packs = lot.facts.packs.filter(|packs| *packs > 0 && units.is_multiple_of(*packs)).unwrap_or(units);
        Some(Bought {
            kind: lot.facts.kind.clone().unwrap_or_default(),
            category: lot.facts.category.as_ref().map(|category| category.word().to_owned()).unwrap_or_default(),
            price: up(lot.cost_in.minor(), i64::from(packs)),
            pack: units / packs,
        })
    }
}

fn middle(mut bought: Vec<&Bought>) -> Option<&Bought> {
    // price / pack, compared as whole numbers.
    let each = |one: &Bought, other: &Bought| i128::from(one.price) * i128::from(other.pack);
    bought.sort_by(|a, b| each(a, b).cmp(&each(b, a)).then(a.pack.cmp(&b.pack)));
    bought.get(bought.len() / 2).copied()
}

/// A part of an amount, rounded up: that is what one needs to have with one.
fn up(amount: i64, parts: i64) -> i64 {
    amount.saturating_add(parts - 1) / parts.max(1)
}

/// Something to buy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Wanted {
    /// The groups whose boxes ask for it, by name: `girls 6–8`.
    pub whom: Vec<String>,
    /// What it counts for.
    pub category: String,
    /// The kind, where it is asked for by name.
    pub kind: Option<String>,
    /// Whether anybody knows what it costs.
    pub priced: bool,
}

/// An offer for whatever boxes may lack, at what such things cost before; one that was never bought stands at 0 and is
/// marked.
///
/// A kind asked for by name is one offer, since it may come in packs that several groups share. Things of any kind are
/// an offer for each sort of children, so that a list tells whom each is for.
pub(super) fn offers(groups: &[Group], prices: &Prices) -> Vec<(Wanted, Offer)> {
    let mut asked: BTreeMap<(&str, Option<&str>, &str), BTreeSet<usize>> = BTreeMap::new();
    for (at, group) in groups.iter().enumerate() {
        for need in &group.needs {
            for kind in need.must.keys() {
                asked.entry((need.category.as_str(), Some(kind.as_str()), "")).or_default().insert(at);
            }
            if need.of_any_kind() > 0 {
                asked.entry((need.category.as_str(), None, group.name.as_str())).or_default().insert(at);
            }
        }
    }
    let offer = |((category, kind, _), of): ((&str, Option<&str>, &str), BTreeSet<usize>)| {
        let by_name = kind.and_then(|kind| prices.of_kind(kind));
        let price = by_name.or_else(|| prices.of_category(category));
        let (cost, pack) = price.unwrap_or((0, 1));
        let name = kind.map_or_else(|| any_of(category), str::to_owned);
        let mut whom: Vec<String> = of.iter().map(|at| groups[*at].name.clone()).collect();
        whom.sort();
        whom.dedup();
        let all_the_same = || of.first().and_then(|at| groups[*at].for_whom);
        let ware = Ware {
            kind: name.clone(),
            serves: vec![category.to_owned()],
            for_whom: if kind.is_none() { all_the_same() } else { None },
            ages: (0, u8::MAX),
            not_for: (0..groups.len()).filter(|at| !of.contains(at)).collect(),
        };
        let wanted =
            Wanted { whom, category: category.to_owned(), kind: kind.map(str::to_owned), priced: price.is_some() };
        (wanted, Offer { name, ware, price: cost, pack })
    };
    asked.into_iter().map(offer).collect()
}

/// `toy`, `wow item`, `hygiene thing`.
fn any_of(category: &str) -> String {
    match category {
        "toy" => "toy".to_owned(),
        "wow" => "wow item".to_owned(),
        other => format!("{other} thing"),
    }
}
