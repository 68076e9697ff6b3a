//! What the open boxes still need: boxes that are alike stand together.

use std::collections::BTreeMap;

use crate::catalogue::Catalogue;
use crate::model::checklist::{Gap, Held};
use crate::model::profile::Wanted;
use crate::model::rows::BoxRow;
use crate::model::whom::ForWhom;
use crate::plan::{Group, Need};

/// Open boxes, sorted into groups that still need the same for the same children.
#[derive(Debug, Default)]
pub(super) struct Sorted {
    /// The groups.
    pub groups: Vec<Group>,
    /// The boxes of each group, by number.
    pub boxes: Vec<Vec<BoxRow>>,
    /// What each box of a group holds already.
    pub held: Vec<Kinds>,
}

/// Units by kind.
pub(super) type Kinds = BTreeMap<String, u32>;

impl Sorted {
    /// Adds a box that holds some things and still lacks others.
    pub fn add(&mut self, row: BoxRow, gaps: &[Gap], inside: &[Held], catalogue: &Catalogue) {
        let (for_whom, ages, needs) = (row.facts.for_whom, row.facts.ages, needs(gaps, catalogue));
        let mut held = Kinds::new();
        for inside in inside {
            let units = (inside.units + inside.aside).count();
            *held.entry(inside.kind.clone().unwrap_or_default()).or_default() += units;
        }
        let same = |(group, kinds): (&Group, &Kinds)| {
            group.for_whom == for_whom && group.ages == ages && group.needs == needs && *kinds == held
        };
        if let Some(at) = self.groups.iter().zip(&self.held).position(same) {
            self.groups[at].boxes += 1;
            self.boxes[at].push(row);
            return;
        }
        let name = format!("{} {ages}", many(for_whom));
        self.groups.push(Group { name, boxes: 1, for_whom, ages, needs, caps: BTreeMap::new(), room: None });
        self.boxes.push(vec![row]);
        self.held.push(held);
    }
}

/// `girls`, `boys`, `girls or boys`.
fn many(for_whom: Option<ForWhom>) -> &'static str {
    match for_whom {
        Some(ForWhom::Girl) => "girls",
        Some(ForWhom::Boy) => "boys",
        None => "girls or boys",
    }
}

/// What lines of a checklist still ask for, by category. A kind that nobody knows the category of is one by itself.
fn needs(gaps: &[Gap], catalogue: &Catalogue) -> Vec<Need> {
    let mut needs: Vec<Need> = Vec::new();
    for gap in gaps.iter().filter(|gap| gap.needs() > 0) {
        let category = match &gap.line.of {
            Wanted::Category(category) => category.word(),
            Wanted::Kind(kind) => catalogue.named(kind).map_or(kind.as_str(), |kind| kind.category.word()),
        };
        let at = needs.iter().position(|need| need.category == category).unwrap_or_else(|| {
            needs.push(Need { category: category.to_owned(), ..Need::default() });
            needs.len() - 1
        });
        match &gap.line.of {
            Wanted::Category(_) => needs[at].count = needs[at].count.max(gap.needs()),
            Wanted::Kind(kind) => _ = needs[at].must.insert(kind.clone(), gap.needs()),
        }
    }
    needs.sort_by(|a, b| a.category.cmp(&b.category));
    needs
}
