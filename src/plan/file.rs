//! A planning problem written as JSON: what `brimful plan --problem` reads.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{self, Display};

use serde::Deserialize;

use super::problem::{AgeRule, Demand, Group, Need, Offer, Problem, Shop, Stock, Thing, Ware};
use crate::model::age::Ages;
use crate::model::whom::ForWhom;

/// A problem, and what is asked beside the usual.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Instance {
    /// The problem.
    pub problem: Problem,
    /// The categories of its checklists, in their order.
    pub categories: Vec<String>,
    /// Counts of boxes for which the least money is asked.
    pub boxes: Vec<u32>,
    /// Amounts for which the most boxes are asked, in whole minor units.
    pub budgets: Vec<i64>,
}

/// Why a file can't be used: what, where, and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadFile(String);

impl Display for BadFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for BadFile {}

/// More boxes than any drive has.
const MOST_BOXES: u32 = 10_000_000;
/// More than goes into a box.
const MOST_NEEDED: u32 = 1_000;
/// Dearer than anything that goes into a box, in minor units.
const DEAREST: i64 = 1_000_000_000;

#[derive(Deserialize)]
struct Written {
    #[serde(default)]
    age_rule: Rule,
    categories: Vec<String>,
    #[serde(default)]
    kinds: BTreeMap<String, String>,
    groups: Vec<WrittenGroup>,
    #[serde(default)]
    lots: Vec<WrittenLot>,
    #[serde(default)]
    price_list: Vec<WrittenOffer>,
    #[serde(default)]
    ask: Ask,
}

#[derive(Deserialize, Default)]
#[serde(rename_all = "lowercase")]
enum Rule {
    #[default]
    Covers,
    Overlaps,
}

#[derive(Deserialize, Default)]
struct Ask {
    #[serde(default)]
    boxes: Vec<u32>,
    #[serde(default)]
    budgets: Vec<i64>,
}

#[derive(Deserialize)]
struct WrittenGroup {
    id: String,
    sex: Sex,
    age_from: u8,
    age_to: u8,
    count: u32,
    #[serde(default)]
    need: BTreeMap<String, u32>,
    #[serde(default)]
    must: BTreeMap<String, u32>,
}

#[derive(Deserialize)]
struct WrittenLot {
    #[serde(default)]
    id: String,
    category: String,
    kind: String,
    quantity: u32,
    age_from: u8,
    age_to: u8,
    sex: Sex,
}

#[derive(Deserialize)]
struct WrittenOffer {
    category: String,
    kind: String,
    sex: Sex,
    age_from: u8,
    age_to: u8,
    unit_price: i64,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename_all = "lowercase")]
enum Sex {
    Girl,
    Boy,
    Either,
}

impl Sex {
    fn for_whom(self) -> Option<ForWhom> {
        match self {
            Sex::Girl => Some(ForWhom::Girl),
            Sex::Boy => Some(ForWhom::Boy),
            Sex::Either => None,
        }
    }
}

/// Reads a problem.
pub fn read(text: &str) -> Result<Instance, BadFile> {
    let written: Written = serde_json::from_str(text)
        .map_err(|error| BadFile(format!("it can't be read: {error}; mend it there and try again")))?;
    let groups = written.groups.iter().map(|group| group.read(&written)).collect::<Result<Vec<_>, _>>()?;
    let mut known = BTreeSet::new();
    if let Some(twice) = groups.iter().find(|group| !known.insert(&group.name)) {
        return Err(BadFile(format!("there are two groups \"{}\"; give each its own id", twice.name)));
    }
    let things = written.lots.iter().map(WrittenLot::read).collect();
    let offers = written.price_list.iter().map(WrittenOffer::read).collect::<Result<Vec<_>, _>>()?;
    if let Some(amount) = written.ask.budgets.iter().find(|amount| **amount < 0) {
        return Err(BadFile(format!("ask.budgets has {amount}; an amount can't be below 0")));
    }
    let age_rule = match written.age_rule {
        Rule::Covers => AgeRule::Covers,
        Rule::Overlaps => AgeRule::Overlaps,
    };
    let problem =
        Problem { age_rule, demand: Demand { groups }, stock: Stock { things }, shop: Shop { offers }, shown: None };
    Ok(Instance { problem, categories: written.categories, boxes: written.ask.boxes, budgets: written.ask.budgets })
}

impl WrittenGroup {
    fn read(&self, of: &Written) -> Result<Group, BadFile> {
        let bad = |what: String| BadFile(format!("group \"{}\": {what}", self.id));
        let ages = Ages::new(self.age_from, Some(self.age_to));
        let ages = ages.ok_or_else(|| bad(format!("ages {} to {} are not in order", self.age_from, self.age_to)))?;
        if self.count > MOST_BOXES {
            return Err(bad(format!("{} boxes; at most {MOST_BOXES} can be planned", self.count)));
        }
        let mut needs: BTreeMap<&str, Need> = BTreeMap::new();
        let category_of = |category: &str| {
            let found = of.categories.iter().find(|known| *known == category);
            found.ok_or_else(|| bad(format!("\"{category}\" is no category of this file; add it to \"categories\"")))
        };
        for (category, &count) in &self.need {
            let category = category_of(category)?;
            needs.insert(category, Need { category: category.clone(), count, must: BTreeMap::new() });
        }
        for (kind, &count) in &self.must {
            let category = of.kinds.get(kind);
            let category = category.ok_or_else(|| bad(format!("must have \"{kind}\"; add that kind to \"kinds\"")))?;
            let category = category_of(category)?;
            let empty = Need { category: category.clone(), ..Need::default() };
            needs.entry(category).or_insert(empty).must.insert(kind.clone(), count);
        }
        let counts = self.need.values().chain(self.must.values());
        if let Some(count) = counts.into_iter().find(|count| **count > MOST_NEEDED) {
            return Err(bad(format!("needs {count} of one thing; a box holds at most {MOST_NEEDED}")));
        }
        Ok(Group {
            name: self.id.clone(),
            boxes: self.count,
            for_whom: self.sex.for_whom(),
            ages,
            needs: needs.into_values().collect(),
            caps: BTreeMap::new(),
            room: None,
        })
    }
}

impl WrittenLot {
    fn read(&self) -> Thing {
        let ware = ware(&self.kind, &self.category, self.sex, (self.age_from, self.age_to));
        Thing { name: self.id.clone(), ware, units: self.quantity, room: None }
    }
}

impl WrittenOffer {
    fn read(&self) -> Result<Offer, BadFile> {
        if !(0..=DEAREST).contains(&self.unit_price) {
            let WrittenOffer { kind, unit_price, .. } = self;
            return Err(BadFile(format!("price_list: {kind} at {unit_price}; a price is 0 to {DEAREST} minor units")));
        }
        let ware = ware(&self.kind, &self.category, self.sex, (self.age_from, self.age_to));
        Ok(Offer { name: self.kind.clone(), ware, price: self.unit_price, pack: 1 })
    }
}

fn ware(kind: &str, category: &str, sex: Sex, ages: (u8, u8)) -> Ware {
    let serves = vec![category.to_owned()];
    Ware { kind: kind.to_owned(), serves, for_whom: sex.for_whom(), ages, not_for: BTreeSet::new() }
}
