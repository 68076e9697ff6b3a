//! Which free things would fill boxes one after the other, so that none is promised twice.

use std::collections::HashMap;
use std::sync::Arc;

use super::Ware;
use super::offers::candidate;
use super::watch::stops;
use crate::catalogue::Catalogue;
use crate::model::category::Category;
use crate::model::checklist::Gap;
use crate::model::giftbox::BoxFacts;
use crate::model::id::LotId;
use crate::model::profile::Wanted;
use crate::report::boxes::Content;
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
    pub fn fill(&mut self, facts: &BoxFacts, contents: &[Content], gaps: &[Gap]) -> Filled {
        let mut needs: Vec<(&Wanted, u32)> = gaps.iter().map(|gap| (&gap.line.of, gap.needs())).collect();
        // A unit of a kind counts for its category too, so kinds go first.
        needs.sort_by_key(|(of, _)| matches!(of, Wanted::Category(_)));
        let mut chosen: Vec<usize> = Vec::new();
        let mut filled = Filled::default();
        for at in 0..needs.len() {
            let (of, wanted) = needs[at];
            let mut missing = wanted;
            for _ in 0..wanted {
                let Some(ware) = self.best(facts, contents, of, &chosen) else { break };
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
    fn best(&mut self, facts: &BoxFacts, contents: &[Content], of: &Wanted, chosen: &[usize]) -> Option<usize> {
        let there = contents.iter().map(|content| {
            let kind = self.by_lot.get(&content.lot).and_then(|at| self.wares[*at].kind.as_deref());
            In { title: &content.name, kind, category: content.category.as_ref() }
        });
        let new = chosen.iter().map(|at| {
            let ware = &self.wares[*at];
            In { title: &ware.title, kind: ware.kind.as_deref(), category: ware.category.as_ref() }
        });
        let inside: Vec<In<'_>> = there.chain(new).collect();
        let wish = Wish { facts, line: Some(of), inside: &inside, gaps: &[] };
        let free = |at: usize| {
            // What may not go in is not promised.
            let free = if self.wares[at].careful(facts.ages).is_some_and(stops) { 0 } else { self.left[at] };
            (at, Candidate { free, ..candidate(&self.wares[at], 0) })
        };
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

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::*;
    use crate::model::age::Ages;
    use crate::model::profile::Line;
    use crate::model::whom::ForWhom;
    use crate::suits::misfit;

    fn ware(title: &str, kind: &str, category: Category, on_hand: u32) -> Ware {
        Ware { title: title.into(), kind: Some(kind.into()), category: Some(category), on_hand, ..Ware::default() }
    }

    fn gap(of: Wanted, count: u32) -> Gap {
        Gap { line: Line { of, count }, inside: 0, aside: 0 }
    }

    fn girl() -> BoxFacts {
        let (theme, palette) = (String::new(), Vec::new());
        BoxFacts { number: 1, for_whom: Some(ForWhom::Girl), ages: Ages::new(6, Some(8)).unwrap(), theme, palette }
    }

    fn hygiene(count: u32) -> Gap {
        gap(Wanted::Category(Category::Hygiene), count)
    }

    fn toothbrush(count: u32) -> Gap {
        gap(Wanted::Kind("toothbrush".to_owned()), count)
    }

    #[test]
    fn a_kind_counts_for_its_category_whether_found_or_bought() {
        let catalogue = Catalogue::built_in();
        let wares = [ware("comb", "comb", Category::Hygiene, 9), ware("brush", "toothbrush", Category::Hygiene, 1)];
        let wares = wares.map(Arc::new);
        let mut filler = Filler::over(&wares, &catalogue);
        let first = filler.fill(&girl(), &[], &[hygiene(2), toothbrush(1)]);
        assert_eq!(first.found, [("brush".to_owned(), 1), ("comb".to_owned(), 1)]);
        assert_eq!(first.missing, []);
        let second = filler.fill(&girl(), &[], &[hygiene(2), toothbrush(1)]);
        assert_eq!(second.found, [("comb".to_owned(), 1)]);
        assert_eq!(second.missing, [(Wanted::Kind("toothbrush".to_owned()), 1)]);
    }

    #[test]
    fn a_toy_is_not_promised_as_a_wow_item() {
        let catalogue = Catalogue::built_in();
        let wares = [Arc::new(ware("kite", "kite", Category::Toy, 3))];
        let filled = Filler::over(&wares, &catalogue).fill(&girl(), &[], &[gap(Wanted::Category(Category::Wow), 1)]);
        assert_eq!((filled.found.len(), filled.missing.len()), (0, 1));
    }

    fn some_ware() -> impl Strategy<Value = (bool, bool, u32, Option<ForWhom>)> {
        let whom = prop_oneof![Just(None), Just(Some(ForWhom::Girl)), Just(Some(ForWhom::Boy))];
        (any::<bool>(), any::<bool>(), 0_u32..4, whom)
    }

    proptest! {
        #[test]
        fn nothing_is_promised_twice_and_nothing_that_suits_is_bought(
            made in prop::collection::vec(some_ware(), 0..8),
            boxes in prop::collection::vec((0_u32..4, 0_u32..2, any::<bool>()), 1..6),
        ) {
            let catalogue = Catalogue::built_in();
            let wares: Vec<Arc<Ware>> = (made.iter().enumerate()).map(|(at, (brush, school, count, for_whom))| {
                let category = if *school { Category::School } else { Category::Hygiene };
                let kind = if *brush { "toothbrush" } else { "comb" };
                Arc::new(Ware { for_whom: *for_whom, ..ware(&format!("thing {at}"), kind, category, *count) })
            }).collect();
            let mut filler = Filler::over(&wares, &catalogue);
            let mut promised: BTreeMap<String, u32> = BTreeMap::new();
            for (hygienic, brushes, either) in boxes {
                let facts = BoxFacts { for_whom: (!either).then_some(ForWhom::Girl), ..girl() };
                let filled = filler.fill(&facts, &[], &[hygiene(hygienic), toothbrush(brushes)]);
                let suiting = |of: &Wanted| wares.iter().enumerate().any(|(at, ware)| {
                    let wish = Wish { facts: &facts, line: Some(of), inside: &[], gaps: &[] };
                    misfit(&wish, &Candidate { free: filler.left[at], ..candidate(ware, 0) }).is_none()
                });
                for (of, _) in &filled.missing {
                    prop_assert!(!suiting(of), "{of:?} is on hand");
                }
                let named = |title: &String| wares.iter().find(|ware| *ware.title == **title).unwrap();
                let found = |keep: &dyn Fn(&Ware) -> bool| {
                    filled.found.iter().filter(|(title, _)| keep(named(title))).map(|(_, units)| units).sum::<u32>()
                };
                let clean = found(&|ware| ware.category == Some(Category::Hygiene));
                prop_assert!(clean + filled.missing.iter().map(|(_, units)| units).sum::<u32>() >= hygienic);
                let brush = found(&|ware| ware.kind.as_deref() == Some("toothbrush"));
                let brushes_bought = filled.missing.iter().filter(|(of, _)| matches!(of, Wanted::Kind(_)));
                prop_assert!(brush + brushes_bought.map(|(_, units)| units).sum::<u32>() >= brushes);
                for (title, units) in filled.found {
                    *promised.entry(title).or_default() += units;
                }
            }
            for ware in &wares {
                prop_assert!(promised.get(&*ware.title).copied().unwrap_or_default() <= ware.on_hand);
            }
        }
    }
}
