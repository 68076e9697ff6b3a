//! Which free things would fill boxes one after the other, so that none is promised twice.

use std::collections::HashMap;
use std::sync::Arc;

use super::Ware;
use super::offers::candidate;
use crate::catalogue::Catalogue;
use crate::model::category::Category;
use crate::model::checklist::Gap;
use crate::model::id::LotId;
use crate::model::profile::Wanted;
use crate::report::boxes::BoxCard;
use crate::suits::{Candidate, In, Wish, suggest};

/// The free units of a shelf, as far as no box was promised them yet.
pub struct Filler<'a> {
    wares: &'a [Arc<Ware>],
    catalogue: &'a Catalogue,
    left: Vec<u32>,
    by_category: HashMap<&'a Category, Vec<usize>>,
    by_lot: HashMap<LotId, usize>,
}

/// What would go into a box, and what nothing on hand would do for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Filled {
    /// Titles with units, in the order in which lines of the checklist ask for them.
    pub found: Vec<(String, u32)>,
    /// Lines with the units that must be bought.
    pub missing: Vec<(Wanted, u32)>,
}

impl<'a> Filler<'a> {
    /// All that is free.
    pub fn over(wares: &'a [Arc<Ware>], catalogue: &'a Catalogue) -> Filler<'a> {
        let mut by_category: HashMap<&Category, Vec<usize>> = HashMap::new();
        for (at, ware) in wares.iter().enumerate().filter(|(_, ware)| ware.free() > 0) {
            if let Some(category) = &ware.category {
                by_category.entry(category).or_default().push(at);
            }
        }
        let lots = wares.iter().enumerate().flat_map(|(at, ware)| ware.lots.iter().map(move |lot| (*lot, at)));
        let left = wares.iter().map(|ware| ware.free()).collect();
        Filler { wares, catalogue, left, by_category, by_lot: lots.collect() }
    }

    /// Promises a box what it needs, as far as something suits.
    pub fn fill(&mut self, card: &BoxCard, gaps: &[Gap]) -> Filled {
        let mut needs: Vec<(&Wanted, u32)> = gaps.iter().map(|gap| (&gap.line.of, gap.needs())).collect();
        // A unit of a kind counts for its category too, so kinds go first.
        needs.sort_by_key(|(of, _)| matches!(of, Wanted::Category(_)));
        let mut chosen: Vec<usize> = Vec::new();
        let mut filled = Filled::default();
        for at in 0..needs.len() {
            let (of, wanted) = needs[at];
            let mut missing = wanted;
            for _ in 0..wanted {
                let Some(ware) = self.best(card, of, &chosen) else { break };
                chosen.push(ware);
                missing -= 1;
                if matches!(of, Wanted::Kind(_)) {
                    lessen(&mut needs[at + 1..], self.wares[ware].category.as_ref(), 1);
                }
            }
            if missing > 0 {
                if let Wanted::Kind(kind) = of {
                    let category = self.catalogue.named(kind).map(|kind| &kind.category);
                    lessen(&mut needs[at + 1..], category, missing);
                }
                filled.missing.push((of.clone(), missing));
            }
        }
        for ware in chosen {
            let title = &self.wares[ware].title;
            match filled.found.iter_mut().find(|(known, _)| **known == **title) {
                Some((_, units)) => *units += 1,
                None => filled.found.push((title.to_string(), 1)),
            }
        }
        filled
    }

    /// Takes one unit of what suits a line best.
    fn best(&mut self, card: &BoxCard, of: &Wanted, chosen: &[usize]) -> Option<usize> {
        let there = card.contents.iter().map(|content| {
            let kind = self.by_lot.get(&content.lot).and_then(|at| self.wares[*at].kind.as_deref());
            In { title: &content.name, kind, category: content.category.as_ref() }
        });
        let new = chosen.iter().map(|at| {
            let ware = &self.wares[*at];
            In { title: &ware.title, kind: ware.kind.as_deref(), category: ware.category.as_ref() }
        });
        let inside: Vec<In<'_>> = there.chain(new).collect();
        let wish = Wish { facts: &card.line.facts, line: Some(of), inside: &inside, gaps: &[] };
        let free = |at: usize| (at, Candidate { free: self.left[at], ..candidate(&self.wares[at], 0) });
        let found = match of {
            // What is a toy anywhere else is not given away as a wow item here.
            Wanted::Category(category) => {
                let of_it = self.by_category.get(category).map(Vec::as_slice).unwrap_or_default();
                suggest(&wish, of_it.iter().map(|at| free(*at)), 1)
            }
            Wanted::Kind(_) => suggest(&wish, (0..self.wares.len()).map(free), 1),
        };
        let at = found.first()?.index;
        self.left[at] -= 1;
        Some(at)
    }
}

/// Less is needed of a category's line.
fn lessen(needs: &mut [(&Wanted, u32)], category: Option<&Category>, units: u32) {
    for (of, count) in needs {
        if let Wanted::Category(of) = of
            && Some(of) == category
        {
            *count = count.saturating_sub(units);
        }
    }
}
