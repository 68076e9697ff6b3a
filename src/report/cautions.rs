//! What to be careful of: each remark with its reason, its source and what can be done.

use serde::Serialize;

use super::Report;
use crate::model::id::{BoxId, LotId};
use crate::model::rules::Level;

/// All remarks on what was asked for.
#[derive(Debug, Clone, Serialize)]
pub struct Cautions {
    /// Box by box, the strictest first.
    pub cautions: Vec<CautionRow>,
    /// Who decides in the end.
    pub closing: &'static str,
    /// What was looked at, in words.
    #[serde(skip)]
    pub about: String,
}

/// One remark.
#[derive(Debug, Clone, Serialize)]
pub struct CautionRow {
    /// The box; empty where a thing was looked at for an age group.
    #[serde(rename = "box")]
    pub label: String,
    /// The ages that it was judged for.
    pub ages: String,
    /// What the thing is called.
    pub thing: String,
    /// How much it asks for.
    pub level: Level,
    /// The id of its rule.
    pub rule: String,
    /// Why, and what to do.
    pub text: String,
    /// Where that stands.
    pub source: String,
    /// What can be done about it, in a few words.
    pub remedy: String,
    /// What the box's sheet tells the parent; empty where that isn't needed.
    pub sheet: String,
    /// Why somebody allowed it in this box all the same; empty: nobody did.
    pub allowed: String,
    /// Who did.
    pub allowed_by: String,
    /// The box.
    #[serde(skip)]
    pub giftbox: Option<BoxId>,
    /// The batches of the thing.
    #[serde(skip)]
    pub lots: Vec<LotId>,
    /// What can be done by one act.
    #[serde(skip)]
    pub way: Way,
}

/// What one act can do about a caution.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Way {
    /// Nothing: it is for a person to look or to decide.
    #[default]
    None,
    /// This part is taken out of it.
    TakePartOut(String),
    /// It is kept for children of at least this age.
    KeepForOlder(u8),
}

impl CautionRow {
    /// Whether it keeps the thing out of the box, and nobody has allowed it.
    pub fn stops(&self) -> bool {
        self.level >= Level::NotForAge && self.allowed.is_empty()
    }

    /// `✗` for what may not go in, `!` for what wants a look.
    pub fn sign(&self) -> char {
        sign(self.level)
    }

    /// The level in words, or that it was allowed.
    pub fn standing(&self) -> String {
        match (self.allowed.as_str(), self.allowed_by.as_str()) {
            ("", _) => self.level.words().to_owned(),
            (why, "") => format!("{}; allowed: {why}", self.level.words()),
            (why, by) => format!("{}; allowed by {by}: {why}", self.level.words()),
        }
    }
}

/// The sign that goes with a level.
pub fn sign(level: Level) -> char {
    if level >= Level::NotForAge { '✗' } else { '!' }
}

impl Cautions {
    /// Whether something is there that may not be.
    pub fn stops(&self) -> bool {
        self.cautions.iter().any(CautionRow::stops)
    }
}

impl Report for Cautions {
    fn text(&self) -> String {
        if self.cautions.is_empty() {
            return format!("Nothing known to be careful of: {}. {}\n", self.about, self.closing);
        }
        let mut text = String::new();
        let mut last = String::new();
        for row in &self.cautions {
            let place = if row.label.is_empty() {
                format!("For {}", row.ages)
            } else {
                format!("Box {}, {}", row.label, row.ages)
            };
            if place != last {
                let gap = if last.is_empty() { "" } else { "\n" };
                text.push_str(&format!("{gap}{place}\n"));
                last = place;
            }
            text.push_str(&format!(" {} {}: {}\n", row.sign(), row.thing, row.standing()));
            for line in wrapped(&row.text, 92) {
                text.push_str(&format!("   {line}\n"));
            }
            text.push_str(&format!("   To do: {}. Source: {}.\n", row.remedy, row.source));
        }
        text.push_str(&format!("\n{}\n", self.closing));
        text
    }
}

/// Text in lines of at most so many letters, broken between words.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
