//! A haul on its way: what its headings and lines have said so far.

use super::returning::Back;
use crate::model::haul::{HaulFacts, HaulField};
use crate::model::id::{BoxId, HaulId};
use crate::model::lot::LotFacts;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::reading::Head;

/// A haul on its way.
pub struct Draft {
    /// Which.
    pub haul: HaulId,
    /// What is kept of it already, if it was logged before.
    pub known: Option<HaulFacts>,
    /// What is said of it as a whole.
    pub facts: HaulFacts,
    /// What its headings said.
    pub said: Vec<HaulField>,
    /// Its earlier lines.
    pub before: Vec<LotFacts>,
    /// What was given back in it before.
    pub refunds: Money,
    /// Whether it is an opening count.
    pub opening: bool,
    /// Where its things lie, unless a line says otherwise.
    pub tote: Option<String>,
    /// Its new lines.
    pub lots: Vec<LotFacts>,
    /// For which boxes some of them were got, by their place among those.
    pub for_boxes: Vec<(usize, BoxId)>,
    /// What goes back with it.
    pub backs: Vec<Back>,
}

impl Draft {
    /// Takes in what a heading said.
    pub fn say(&mut self, fields: impl IntoIterator<Item = HaulField>) {
        for field in fields {
            self.facts.set(field.clone());
            self.said.push(field);
        }
    }

    /// Whether what follows this heading is another haul: one of another shop or day, or an opening
    /// count behind a haul that was none.
    pub fn ends_at(&self, head: &Head) -> bool {
        match head {
            Head::At { shop, date } if self.known.is_some() && self.is_empty() => {
                let other_shop = shop.as_ref().is_some_and(|shop| *shop != self.facts.shop);
                other_shop || date.is_some_and(|date| date != self.facts.date)
            }
            Head::At { .. } => !self.is_empty(),
            Head::Opening { .. } => self.known.is_some() && !self.opening,
            _ => false,
        }
    }

    /// What all its lines, also earlier ones, come to with what is on top.
    pub fn total(&self) -> Money {
        let lines = self.all_lots().filter_map(|lot| lot.paid).sum::<Money>();
        let refunds = self.backs.iter().map(|back| back.refund).sum::<Money>() + self.refunds;
        lines + self.facts.on_top(lines) - refunds
    }

    /// All its lines, also earlier ones.
    pub fn all_lots(&self) -> impl Iterator<Item = &LotFacts> {
        self.before.iter().chain(&self.lots)
    }

    /// Whether nothing came or went with it yet.
    pub fn is_empty(&self) -> bool {
        self.lots.is_empty() && self.backs.is_empty()
    }

    /// What a haul that was logged before becomes: the fields in which it differs now.
    pub fn mended(&self) -> Vec<HaulField> {
        self.known.as_ref().map(|known| known.changes_to(&self.facts)).unwrap_or_default()
    }
}

/// Headings without any line speak of the haul that was logged before, not of one to come.
pub fn headings_alone(drafts: &mut Vec<Draft>) {
    let later = drafts.split_off(1);
    let Some(draft) = drafts.first_mut().filter(|draft| draft.known.is_some()) else { return };
    let same = later.into_iter().filter(|other| other.opening == draft.opening);
    let said: Vec<HaulField> = same.flat_map(|other| other.said).collect();
    draft.say(said);
}

/// Whether the lines add up to what the receipt says.
pub fn receipt(draft: &Draft, profile: &Profile) -> Option<String> {
    let receipt = draft.facts.receipt?;
    let over = receipt - draft.total();
    Some(match over.minor() {
        0 => "It adds up to the receipt.".to_owned(),
        1.. => format!("The receipt says {} more than the lines.", over.plain(profile.currency)),
        _ => format!("The receipt says {} less than the lines.", (-over).plain(profile.currency)),
    })
}
