//! What to be careful about: what can hurt a child of some age, what doesn't travel well, what the drive forbids.
//!
//! Pure, over plain values. Each rule has a file of its own in [`rules`], with its words, its source and its tests;
//! [`RULES`] lists them. [`looked`] tells what a line said from what is only typical, [`drive`] adds what the drive
//! says. What nobody has said is told as unknown, never taken for harmless.

mod cylinder;
mod drive;
mod exempt;
#[cfg(test)]
mod laws;
mod looked;
mod rule;
mod rules;
#[cfg(test)]
mod testing;

pub use looked::{Looked, Sure};
pub use rule::Rule;
pub use rules::{RULES, rule};

use jiff::ToSpan;
use jiff::civil::Date;

use crate::model::age::Ages;
use crate::model::rules::{DriveRule, Level};

/// Stands below every list of cautions.
pub const CLOSING: &str = "The drive's own list and local law decide; this is no certification.";

/// Whom a box is for: the ages of its group in whole years, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Child {
    /// The youngest who may get it; this one is looked after.
    pub youngest: u8,
    /// The oldest who may get it.
    pub oldest: u8,
}

impl From<Ages> for Child {
    fn from(ages: Ages) -> Child {
        Child { youngest: ages.from(), oldest: ages.to().unwrap_or(Ages::OLDEST) }
    }
}

/// When a box is opened.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct When {
    /// The day, as far as it is known.
    pub opened: Option<Date>,
}

impl When {
    /// A box handed in on that day, and so many days on its way.
    pub fn after(drop_off: Date, travel_days: u16) -> When {
        When { opened: drop_off.checked_add(i64::from(travel_days).days()).ok() }
    }
}

/// One remark on one thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// The id of its rule; `drive` for a rule of the drive's own.
    pub rule: String,
    /// How much it asks for.
    pub level: Level,
    /// What the thing is called.
    pub thing: String,
    /// Two or three sentences to the packer: what it is, why it matters, what to do.
    pub text: String,
    /// Where the rule stands.
    pub source: String,
    /// What the box's sheet says to the parent, if the thing is given.
    pub sheet: String,
    /// What can be done about it.
    pub remedy: Remedy,
}

/// What can be done about a caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Remedy {
    /// Take this part of it out, or off.
    TakePartOut(&'static str),
    /// Keep it for a child of at least this age.
    KeepForOlder(u8),
    /// Try it in a small-parts gauge.
    TestWithGauge,
    /// Measure it.
    Measure,
    /// Close it well and put it into a bag of its own.
    SealInBag,
    /// Wash it.
    Wash,
    /// Say it on the box's sheet.
    AddToSheet,
    /// Look at it, and allow it if the drive does.
    Allow,
    /// Leave it out of the box.
    LeaveOut,
}

impl Remedy {
    /// What to do, in a few words.
    pub fn words(self) -> String {
        match self {
            Remedy::TakePartOut(part) => format!("take the {part} out"),
            Remedy::KeepForOlder(age) => format!("keep it for a child of {age} or older"),
            Remedy::TestWithGauge => "test it with a small-parts gauge".to_owned(),
            Remedy::Measure => "measure it".to_owned(),
            Remedy::SealInBag => "close it well and put it into a bag of its own".to_owned(),
            Remedy::Wash => "wash it".to_owned(),
            Remedy::AddToSheet => "add it to the sheet".to_owned(),
            Remedy::Allow => "look at it, and allow it if the drive does".to_owned(),
            Remedy::LeaveOut => "leave it out".to_owned(),
        }
    }
}

/// Every caution for a thing and for what it holds, the strictest first.
pub fn judge(thing: &Looked<'_>, child: &Child, when: &When, rules: &[DriveRule]) -> Vec<Caution> {
    judge_box(std::slice::from_ref(thing), child, when, rules)
}

/// Every caution for a box: all things in it, and all that they hold; the strictest first.
pub fn judge_box(things: &[Looked<'_>], child: &Child, when: &When, rules: &[DriveRule]) -> Vec<Caution> {
    let mut cautions = Vec::new();
    let mut waiting: Vec<&Looked<'_>> = things.iter().rev().collect();
    while let Some(thing) = waiting.pop() {
        cautions.extend(drive::with_rules(built_in(thing, *child, *when), thing, *child, *when, rules));
        waiting.extend(thing.holds.iter().rev());
    }
    cautions.sort_by_key(|caution| std::cmp::Reverse(caution.level));
    cautions
}

/// What the built-in rules say of one thing, in the order of the table.
fn built_in(thing: &Looked<'_>, child: Child, when: When) -> Vec<Caution> {
    RULES.iter().filter_map(|rule| rule.judge(thing, child, when)).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::testing::of_kind;
    use super::*;

    #[test]
    fn what_a_holder_holds_is_looked_at_too() {
        let mut pouch = of_kind("pouch");
        let mut case = of_kind("pencil case");
        case.holds = vec![of_kind("balloon")];
        pouch.holds = vec![case];
        let told = judge(&pouch, &Child { youngest: 6, oldest: 8 }, &When::default(), &[]);
        assert_eq!(
            told.first().map(|caution| (caution.thing.as_str(), caution.level)),
            Some(("balloon", Level::NotForAge))
        );
    }

    #[test]
    fn a_box_is_opened_after_its_journey() {
        assert_eq!(When::after(date(2027, 11, 21), 60).opened, Some(date(2028, 1, 20)));
        assert_eq!(When::after(Date::MAX, 1).opened, None);
    }

    #[test]
    fn a_band_without_an_upper_end_goes_on() {
        assert_eq!(Child::from(Ages::new(9, None).unwrap()), Child { youngest: 9, oldest: 99 });
    }
}
