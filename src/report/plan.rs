//! Which boxes can be finished: the answer in a few lines, then where it comes from.

use serde::Serialize;

use super::pull::PullList;
use super::table::{Side, table};
use super::{Report, Sum};
use crate::model::category::Category;
use crate::model::id::{BoxId, LotId};
use crate::model::measure::Units;
use crate::model::text::{counted, things_of};

/// How many of the open boxes can be finished, and how to finish more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BoxPlan {
    /// Open boxes that were looked at.
    pub open: u32,
    /// How many of them can be finished with what is on hand; those that have all already count.
    pub can_finish: u32,
    /// No plan finishes more.
    pub at_most: u32,
    /// The answer in a sentence.
    pub headline: String,
    /// What holds back, what doesn't, what is left over; a sentence each, the worst first.
    pub reasons: Vec<String>,
    /// What to buy next, most boxes for the money first.
    pub next: Vec<String>,
    /// What it takes to finish more.
    pub ways: Vec<Way>,
    /// How many of the boxes that can be finished have room for it all; none where that wasn't asked.
    pub room: Option<RoomRow>,
    /// How even the boxes that can be finished are; none where that wasn't asked.
    pub even: Option<EvenRow>,
    /// By age group and whom they are for.
    pub groups: Vec<GroupRow>,
    /// By category.
    pub categories: Vec<CategoryRow>,
    /// The boxes that can be finished, with what each would get.
    pub boxes: Vec<PlanBox>,
    /// Boxes whose ages are no age group of the drive, with those ages.
    #[serde(skip)]
    pub strays: Vec<(String, String)>,
}

/// How many boxes have room for what they get, by sizes added up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RoomRow {
    /// Boxes that have room.
    pub fit: u32,
    /// Boxes that can be finished.
    pub of: u32,
    /// The others.
    pub too_full: Vec<String>,
    /// Things whose size nobody knows; they count as taking none.
    pub sizes_unknown: u32,
}

/// How even boxes are in the number of their things.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EvenRow {
    /// Things in the box that has fewest, once it is finished.
    pub fewest: u32,
    /// Things in the box that has most.
    pub most: u32,
    /// Things in the box that has fewest, once the extras are in.
    pub fewest_then: u32,
    /// Things left over that bring the boxes closer.
    pub extras: u32,
    /// Which box would get which of them.
    pub boxes: Vec<PlanBox>,
}

/// A shopping and how far it gets.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Way {
    /// What was asked for: `all of them`, `20 boxes`, `for at most 40.00`.
    pub aim: String,
    /// Boxes that are finished then.
    pub boxes: u32,
    /// Units to buy.
    pub units: u32,
    /// What they cost; none: no shopping was found that does it.
    pub cost: Option<Sum>,
    /// For an amount of money: no shopping finishes more.
    pub at_most: Option<u32>,
}

/// The boxes of an age group for a girl, a boy or either.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GroupRow {
    /// `girls 6–8`.
    pub group: String,
    /// Open boxes.
    pub open: u32,
    /// How many of them can be finished.
    pub can_finish: u32,
}

/// A category over all open boxes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CategoryRow {
    /// Its word: `wow`.
    pub category: String,
    /// Units that the boxes still need.
    pub needed: u32,
    /// Free units that suit any of them.
    pub on_hand: u32,
    /// Units that are missing to finish them all.
    pub short: u32,
    /// Boxes that could be finished if it never ran out.
    pub if_never_short: u32,
}

/// A box that can be finished.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanBox {
    /// What people call it.
    #[serde(rename = "box")]
    pub label: String,
    /// Which it is.
    #[serde(skip)]
    pub giftbox: BoxId,
    /// What it would get from what is on hand; nothing: it has all already.
    pub things: Vec<PlanThing>,
}

/// What a box would get of a thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanThing {
    /// What it is called.
    pub name: String,
    /// How many.
    pub units: u32,
    /// The tote that it lies in; may be empty.
    #[serde(skip)]
    pub tote: String,
    /// Its batches.
    #[serde(skip)]
    pub lots: Vec<LotId>,
}

/// What was set aside for the boxes that can be finished.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Applied {
    /// What was done, in a sentence.
    pub said: String,
    /// Remarks on it, a sentence each.
    pub notes: Vec<String>,
    /// Whether all open boxes can be finished.
    pub all: bool,
    /// What each box gets.
    pub boxes: Vec<PlanBox>,
    /// What to fetch from which tote.
    pub pull: PullList,
}

impl PlanThing {
    /// `2 notebooks, teal`.
    pub fn words(&self) -> String {
        things_of(Units::new(self.units).unwrap_or_default(), &self.name)
    }
}

impl PlanBox {
    /// `1 comb, 2 pencils`; things with commas in their names are parted by semicolons.
    pub fn words(&self) -> String {
        let things: Vec<String> = self.things.iter().map(PlanThing::words).collect();
        things.join(if things.iter().any(|thing| thing.contains(',')) { "; " } else { ", " })
    }
}

impl RoomRow {
    /// `By their sizes there is room in 19 of the 21 for all they get; too full: 4, 9.`
    pub fn words(&self) -> String {
        let too_full =
            if self.too_full.is_empty() { String::new() } else { format!("; too full: {}", self.too_full.join(", ")) };
        let unknown = match self.sizes_unknown {
            0 => String::new(),
            count => format!(
                " {} no known size and count as taking no room.",
                counted(count.into(), "thing has", "things have")
            ),
        };
        match (self.fit, self.of) {
            (1, 1) => format!("By their sizes there is room in the box for all it gets.{unknown}"),
            (fit, of) => {
                format!("By their sizes there is room in {fit} of the {of} for all they get{too_full}.{unknown}")
            }
        }
    }
}

impl EvenRow {
    /// `The boxes have 11 to 24 things; with 31 extras from what is left over each has at least 16.`
    pub fn words(&self) -> String {
        let EvenRow { fewest, most, fewest_then, extras, .. } = self;
        if fewest == most {
            return format!("Each of these boxes has {}.", counted(u64::from(*most), "thing", "things"));
        }
        let now = format!("These boxes have {fewest} to {most} things");
        if *extras == 0 {
            return format!("{now}; nothing that is left over suits those that have fewer.");
        }
        let extras = counted(u64::from(*extras), "extra", "extras");
        format!("{now}; with {extras} from what is left over each has at least {fewest_then}.")
    }

    fn lines(&self) -> String {
        self.boxes.iter().map(|giftbox| format!("Extras for box {}: {}\n", giftbox.label, giftbox.words())).collect()
    }
}

impl Way {
    /// No shopping was found that gets there.
    pub fn none(aim: &str) -> Way {
        Way { aim: aim.to_owned(), ..Way::default() }
    }

    /// `31 things, about 18.20`; empty where nothing was found.
    pub fn bought(&self) -> String {
        self.cost.as_ref().map(|cost| cost.of_things(self.units)).unwrap_or_default()
    }

    /// `To finish all of them: buy 31 things, about 18.20.`
    pub fn words(&self) -> String {
        if self.cost.is_none() {
            return format!("No shopping was found for {}.", self.aim);
        }
        let more = self.at_most.unwrap_or(self.boxes).saturating_sub(self.boxes);
        let more = if more > 0 { format!(", perhaps up to {more} more") } else { String::new() };
        match (self.at_most, self.units) {
            (Some(_), 0) => format!("Shopping {} finishes no more boxes{more}.", self.aim),
            (Some(_), _) => {
                let boxes = counted(u64::from(self.boxes), "box", "boxes");
                format!("Shopping {} finishes {boxes}{more}: {}.", self.aim, self.bought())
            }
            (None, 0) => format!("To finish {} nothing needs to be bought.", self.aim),
            (None, _) => format!("To finish {}: buy {}.", self.aim, self.bought()),
        }
    }
}

impl BoxPlan {
    /// The answer: how many, what holds back, what to buy next, what all would take, what to do.
    fn answer(&self) -> Vec<String> {
        let mut lines = vec![self.headline.clone()];
        lines.extend(self.room.as_ref().map(RoomRow::words));
        lines.extend(self.even.as_ref().map(EvenRow::words));
        lines.extend(self.reasons.first().filter(|_| self.can_finish < self.open).cloned());
        lines.extend(self.next.first().cloned());
        lines.extend(self.ways.iter().map(Way::words));
        if self.boxes.iter().any(|giftbox| !giftbox.things.is_empty()) {
            lines.push("`brimful plan --apply` sets aside what they still need.".to_owned());
        }
        lines
    }

    fn details(&self) -> String {
        let groups: Vec<Vec<String>> = (self.groups.iter())
            .map(|row| vec![row.group.clone(), row.open.to_string(), row.can_finish.to_string()])
            .collect();
        let mut text =
            table(&[("boxes for", Side::Left), ("open", Side::Right), ("can be finished", Side::Right)], &groups);
        if !self.categories.is_empty() {
            let columns = [
                ("to finish all", Side::Left),
                ("needed", Side::Right),
                ("on hand", Side::Right),
                ("short", Side::Right),
                ("boxes if it never ran out", Side::Right),
            ];
            let rows: Vec<Vec<String>> = self.categories.iter().map(CategoryRow::cells).collect();
            text.push_str(&format!("\n{}", table(&columns, &rows)));
        }
        text
    }

    fn boxes_in_words(&self) -> String {
        let (ready, set): (Vec<&PlanBox>, Vec<&PlanBox>) =
            self.boxes.iter().partition(|giftbox| giftbox.things.is_empty());
        let labels = |boxes: &[&PlanBox]| boxes.iter().map(|it| it.label.as_str()).collect::<Vec<_>>().join(", ");
        let mut text = String::new();
        if !ready.is_empty() {
            text.push_str(&format!("Have all they must hold, in them or set aside: {}\n", labels(&ready)));
        }
        if !set.is_empty() {
            text.push_str(&format!("Can be finished: {}\n", labels(&set)));
        }
        for (label, ages) in &self.strays {
            text.push_str(&format!("Box {label}: {ages} is no age group of the drive.\n"));
        }
        text
    }
}

impl CategoryRow {
    fn cells(&self) -> Vec<String> {
        let category = Category::from(self.category.as_str()).words().to_owned();
        let counts = [self.needed, self.on_hand, self.short, self.if_never_short].map(|count| count.to_string());
        std::iter::once(category).chain(counts).collect()
    }
}

impl Report for BoxPlan {
    fn text(&self) -> String {
        if self.open == 0 {
            return "No open boxes. `brimful box plan \"girl 6-8 ocean, teal\"` plans one.\n".to_owned();
        }
        let told = usize::from(self.can_finish < self.open);
        let more = self.reasons.iter().skip(told).chain(self.next.iter().skip(1));
        let more: String = more.map(|line| format!("{line}\n")).collect();
        let extras = self.even.as_ref().map(EvenRow::lines).unwrap_or_default();
        let parts = [self.answer().join("\n") + "\n", self.details(), more, self.boxes_in_words(), extras];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
    }
}

impl Report for Applied {
    fn text(&self) -> String {
        let mut text = format!("{} `brimful undo` takes it back.\n", self.said);
        text.extend(self.notes.iter().map(|note| format!("{note}\n")));
        text.push('\n');
        for giftbox in self.boxes.iter().filter(|giftbox| !giftbox.things.is_empty()) {
            text.push_str(&format!("Box {}: {}\n", giftbox.label, giftbox.words()));
        }
        text + "\n" + &self.pull.text()
    }
}
