//! The shopping page: what is to be bought, beside what there is enough of.

use std::collections::BTreeSet;

use super::Planning;
use super::supply::Wanted;
use crate::model::category::Category;
use crate::model::money::{KnownSum, Money};
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::plan::{self, Group, Offer, Shopping, Wish};
use crate::report::Sum;
use crate::report::buy::{BuyPart, BuyRow, Known, ShoppingPage};
use crate::season::{ActError, Ware};
use crate::suits::is_their_size;

/// Kinds that are named as examples of a category.
const EXAMPLES: usize = 4;

impl Planning {
    /// What to buy for what was wished, beside what there is enough of.
    ///
    /// # Errors
    /// No shopping was found that does it.
    pub fn page(&self, stop: &dyn Stop) -> Result<ShoppingPage, ActError> {
        let (aim, shopping) = match (self.budget, self.boxes_wished) {
            (Some(budget), _) => {
                let within = plan::with_budget(&self.problem, budget.minor(), stop);
                let boxes = counted(u64::from(within.shopping.boxes), "box", "boxes");
                let aim = format!("To finish {boxes} for at most {}", budget.plain(self.currency));
                (aim, Some(self.with_all_offers(within.shopping)))
            }
            (None, Some(count)) => {
                let found = plan::cheapest(&self.shopping_problem(), Wish::Boxes(count), stop).shopping;
                (format!("To finish {}", counted(u64::from(count), "box", "boxes")), found)
            }
            (None, None) => {
                let found = plan::cheapest(&self.shopping_problem(), Wish::All, stop).shopping;
                let boxes = self.boxes.iter().map(Vec::len).sum::<usize>();
                let all = counted(boxes as u64, "open box", "open boxes");
                (if boxes == 1 { format!("To finish {all}") } else { format!("To finish all {all}") }, found)
            }
        };
        let open = self.open();
        match shopping {
            Some(shopping) => Ok(self.shopping_page(aim, open, &shopping)),
            None => Err(ActError::Nothing(format!("{aim}: no shopping was found; {open} boxes are open."))),
        }
    }

    /// A shopping among offers with a known price, told among all offers.
    pub(super) fn with_all_offers(&self, mut shopping: Shopping) -> Shopping {
        let priced: Vec<usize> = (0..self.offers.len()).filter(|at| self.offers[*at].0.priced).collect();
        shopping.list.retain_mut(|line| {
            let at = priced.get(line.offer).copied();
            line.offer = at.unwrap_or(line.offer);
            at.is_some()
        });
        shopping
    }

    fn shopping_page(&self, aim: String, open: u32, shopping: &Shopping) -> ShoppingPage {
        let mut seen: BTreeSet<(&str, Option<&str>)> = BTreeSet::new();
        let lines = self.offers.iter().map(|(wanted, _)| (wanted.category.as_str(), wanted.kind.as_deref()));
        let lines: Vec<_> = lines.filter(|line| seen.insert(*line)).collect();
        let mut rows: Vec<BuyRow> =
            lines.into_iter().map(|(category, kind)| self.row(category, kind, shopping)).collect();
        // What is to be bought first; a sort that leaves what is alike in its order.
        rows.sort_by_key(|row| row.buy == 0);
        let units = shopping.list.iter().map(|line| line.units).sum();
        ShoppingPage { aim, open, finishes: shopping.boxes, units, total: self.sum(shopping), rows }
    }

    fn row(&self, category: &str, kind: Option<&str>, shopping: &Shopping) -> BuyRow {
        let of_line = |wanted: &Wanted| wanted.category == category && wanted.kind.as_deref() == kind;
        let offers = self.offers.iter().enumerate().filter(|(_, (wanted, _))| of_line(wanted));
        let bought = |at: usize| shopping.list.iter().filter(move |line| line.offer == at);
        let mut row = BuyRow {
            what: kind.map_or_else(|| Category::from(category).words().to_owned(), str::to_owned),
            category: category.to_owned(),
            needed: self.line_needs(category, kind, &shopping.plan),
            on_hand: self.line_has(category, kind, &shopping.plan),
            buy: 0,
            pack: 1,
            packs: 0,
            at_most: String::new(),
            cost: Sum::of(KnownSum::default(), self.currency),
            parts: Vec::new(),
            paid_before: Vec::new(),
        };
        let mut sum = KnownSum::default();
        for (at, (wanted, offer)) in offers {
            let units: u32 = bought(at).map(|line| line.units).sum();
            row.buy += units;
            row.pack = offer.pack;
            row.packs += bought(at).map(|line| line.packs).sum::<u32>();
            sum.known += bought(at).map(|line| Money::total(line.cost)).sum::<Money>();
            sum.unpriced += if wanted.priced { 0 } else { u64::from(units) };
            row.at_most = if wanted.priced { self.plain(offer) } else { String::new() };
            if units > 0 {
                let sizes = if category == Category::Clothing.word() { self.sizes(wanted) } else { Vec::new() };
                row.parts.push(BuyPart { whom: wanted.whom.clone(), units, sizes });
            }
        }
        row.cost = Sum::of(sum, self.currency);
        if kind.is_none() {
            let known = self.prices.kinds(category).into_iter().take(EXAMPLES);
            let told = |(kind, each): (String, i64)| Known { kind, each: Money::total(each).plain(self.currency) };
            row.paid_before = known.map(told).collect();
        }
        row
    }

    /// What a pack costs, or one where there are no packs.
    pub(super) fn plain(&self, offer: &Offer) -> String {
        Money::total(offer.price).plain(self.currency)
    }

    /// Units that the boxes of a plan need at a line.
    pub(super) fn line_needs(&self, category: &str, kind: Option<&str>, counts: &[u32]) -> u32 {
        let per_box = |group: &Group| -> u32 {
            let of_it = group.needs.iter().filter(|need| need.category == category);
            of_it
                .map(|need| kind.map_or_else(|| need.of_any_kind(), |kind| need.must.get(kind).copied().unwrap_or(0)))
                .sum()
        };
        let groups = self.problem.demand.groups.iter().zip(counts);
        groups.map(|(group, count)| count.saturating_mul(per_box(group))).sum()
    }

    /// Units on hand for a line: of a category those that no line by name takes.
    pub(super) fn line_has(&self, category: &str, kind: Option<&str>, counts: &[u32]) -> u32 {
        if let Some(kind) = kind {
            return self.suiting(category, Some(kind));
        }
        let named = self.offers.iter().filter(|(wanted, _)| wanted.category == category);
        let taken =
            |kind: &String| self.suiting(category, Some(kind)).min(self.line_needs(category, Some(kind), counts));
        let taken: u32 = named.filter_map(|(wanted, _)| wanted.kind.as_ref()).map(taken).sum();
        self.suiting(category, None).saturating_sub(taken)
    }

    /// The sizes of clothes, on hand now or once, that are for these children.
    pub(super) fn sizes(&self, wanted: &Wanted) -> Vec<String> {
        let groups = || self.problem.demand.groups.iter().filter(|group| wanted.whom.contains(&group.name));
        let fits = |ware: &Ware| {
            groups().any(|group| {
                let size = ware.size.as_deref();
                let theirs = || is_their_size(ware.category.as_ref(), ware.kind.as_deref(), size, group.ages);
                ware.ages.map_or_else(theirs, |ages| ages.covers(group.ages))
                    && (ware.for_whom.is_none() || ware.for_whom == group.for_whom)
            })
        };
        let clothes = self.shelf.wares().iter().filter(|ware| ware.category == Some(Category::Clothing) && fits(ware));
        let sizes = clothes.filter_map(|ware| ware.size.as_deref().map(str::to_lowercase));
        let number = |size: &str| size.split(|letter: char| !letter.is_ascii_digit()).next()?.parse::<u32>().ok();
        let sizes: BTreeSet<(Option<u32>, String)> = sizes.map(|size| (number(&size), size)).collect();
        sizes.into_iter().map(|(_, size)| size).collect()
    }
}
