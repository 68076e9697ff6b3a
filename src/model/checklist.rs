//! What a box must hold and what it still needs.
//!
//! A unit meets one category line: its own, or wow where it is this box's wow item. A kind line
//! counts within its category's number, so a toothbrush meets "hygiene" and "toothbrush" both.

use serde::Serialize;

use super::category::Category;
use super::measure::Units;
use super::profile::{Line, Wanted};

/// Units of one batch in or set aside for a box, as a checklist sees them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held {
    /// The category of the batch.
    pub category: Option<Category>,
    /// Its kind.
    pub kind: Option<String>,
    /// Whether it is this box's wow item.
    pub wow: bool,
    /// Units in the box.
    pub units: Units,
    /// Units set aside for it.
    pub aside: Units,
}

impl Held {
    /// The category that these units count for in this box.
    pub fn counts_for(&self) -> Option<&Category> {
        if self.wow { Some(&Category::Wow) } else { self.category.as_ref() }
    }

    fn meets(&self, wanted: &Wanted) -> bool {
        match wanted {
            Wanted::Category(category) => self.counts_for() == Some(category),
            Wanted::Kind(kind) => self.kind.as_ref() == Some(kind),
        }
    }
}

/// How far a line is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Met {
    /// All of it is in.
    Full,
    /// It is full once what is set aside is in.
    OnceIn,
    /// Something is in or set aside, not enough.
    Partly,
    /// Nothing yet.
    NothingYet,
}

impl Met {
    /// The sign that stands for it.
    pub fn sign(self) -> char {
        match self {
            Met::Full => '✓',
            Met::OnceIn => '◇',
            Met::Partly => '◒',
            Met::NothingYet => '○',
        }
    }
}

/// A line of a box's checklist with what is there for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gap {
    /// The line.
    pub line: Line,
    /// Units in the box that meet it.
    pub inside: u32,
    /// Units set aside that will.
    pub aside: u32,
}

impl Gap {
    /// How far it is met.
    pub fn met(&self) -> Met {
        if self.inside >= self.line.count {
            Met::Full
        } else if self.inside + self.aside >= self.line.count {
            Met::OnceIn
        } else if self.inside + self.aside > 0 {
            Met::Partly
        } else {
            Met::NothingYet
        }
    }

    /// How many are neither in nor set aside.
    pub fn needs(&self) -> u32 {
        self.line.count.saturating_sub(self.inside + self.aside)
    }

    /// The state in words: `full, 3`, `needs 2 of 4`, `1 set aside, not in yet`.
    pub fn words(&self) -> String {
        match self.met() {
            Met::Full => format!("full, {}", self.inside),
            Met::OnceIn => format!("{} set aside, not in yet", self.line.count - self.inside),
            Met::Partly | Met::NothingYet => format!("needs {} of {}", self.needs(), self.line.count),
        }
    }
}

/// A box's checklist with what is there for each line.
pub fn gaps(checklist: &[Line], held: &[Held]) -> Vec<Gap> {
    let gap = |line: &Line| {
        let meeting = || held.iter().filter(|held| held.meets(&line.of));
        let inside: Units = meeting().map(|held| held.units).sum();
        let aside: Units = meeting().map(|held| held.aside).sum();
        Gap { line: line.clone(), inside: inside.count(), aside: aside.count() }
    };
    checklist.iter().map(gap).collect()
}

/// Whether every line is met by what is in.
pub fn is_full(gaps: &[Gap]) -> bool {
    gaps.iter().all(|gap| gap.met() == Met::Full)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(category: Category, kind: &str, units: u32, aside: u32) -> Held {
        let count = |n| Units::new(n).unwrap();
        let kind = Some(kind.to_owned());
        Held { category: Some(category), kind, wow: false, units: count(units), aside: count(aside) }
    }

    fn line(of: Wanted, count: u32) -> Line {
        Line { of, count }
    }

    #[test]
    fn a_kind_line_counts_within_its_category() {
        let list = [line(Wanted::Category(Category::Hygiene), 3), line(Wanted::Kind("toothbrush".into()), 1)];
        let combs = gaps(&list, &[held(Category::Hygiene, "comb", 3, 0)]);
        assert_eq!((combs[0].met(), combs[1].met()), (Met::Full, Met::NothingYet));
        let brush = gaps(&list, &[held(Category::Hygiene, "toothbrush", 1, 0)]);
        assert_eq!((brush[0].needs(), brush[1].met()), (2, Met::Full));
    }

    #[test]
    fn a_wow_item_counts_for_wow_alone() {
        let list = [line(Wanted::Category(Category::Toy), 1), line(Wanted::Category(Category::Wow), 1)];
        let mut ball = held(Category::Toy, "ball", 1, 0);
        assert_eq!(gaps(&list, &[ball.clone()]).iter().map(Gap::needs).collect::<Vec<_>>(), [0, 1]);
        ball.wow = true;
        assert_eq!(gaps(&list, &[ball]).iter().map(Gap::needs).collect::<Vec<_>>(), [1, 0]);
    }

    #[test]
    fn set_aside_is_not_in() {
        let list = [line(Wanted::Category(Category::Clothing), 2)];
        let gap = &gaps(&list, &[held(Category::Clothing, "socks", 1, 1)])[0];
        assert_eq!((gap.met(), gap.words().as_str()), (Met::OnceIn, "1 set aside, not in yet"));
        assert!(!is_full(std::slice::from_ref(gap)));
    }
}
