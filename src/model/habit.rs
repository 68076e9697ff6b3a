//! Answers that hold for more than one line: what a person means by words that can be read two ways.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::text::normal;

/// What one answer taught.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Lesson {
    /// What two numbers and a dash say of this kind of clothes.
    Range {
        /// The kind's name in the catalogue.
        kind: String,
        /// What they say.
        means: RangeMeans,
    },
    /// What `6 pens at 10 cents` says in this shop.
    At {
        /// The shop, as typed.
        shop: String,
        /// What the price is for.
        means: AtMeans,
    },
}

/// What `7-8` says of clothes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RangeMeans {
    /// Years of age.
    Ages,
    /// A size.
    Size,
}

/// What a price behind *at* is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AtMeans {
    /// Each of them.
    Each,
    /// All of them.
    All,
}

impl Lesson {
    /// What it holds for: a kind of thing, or a shop.
    pub fn topic(&self) -> &str {
        match self {
            Lesson::Range { kind, .. } => kind,
            Lesson::At { shop, .. } => shop,
        }
    }
}

/// What was taught so far; the last word on a topic rules.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Habits {
    ranges: BTreeMap<String, RangeMeans>,
    ats: BTreeMap<String, AtMeans>,
}

impl Habits {
    /// Takes a lesson in.
    pub fn learn(&mut self, lesson: &Lesson) {
        match lesson {
            Lesson::Range { kind, means } => _ = self.ranges.insert(kind.clone(), *means),
            Lesson::At { shop, means } => _ = self.ats.insert(normal(shop), *means),
        }
    }

    /// What a bare range says of this kind.
    pub fn range(&self, kind: &str) -> Option<RangeMeans> {
        self.ranges.get(kind).copied()
    }

    /// What a price behind *at* is for in this shop.
    pub fn at(&self, shop: &str) -> Option<AtMeans> {
        self.ats.get(&normal(shop)).copied()
    }

    /// Whether it knows this already.
    pub fn knows(&self, lesson: &Lesson) -> bool {
        match lesson {
            Lesson::Range { kind, means } => self.range(kind) == Some(*means),
            Lesson::At { shop, means } => self.at(shop) == Some(*means),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_word_on_a_topic_rules() {
        let mut habits = Habits::default();
        let size = |means| Lesson::Range { kind: "leggings".to_owned(), means };
        habits.learn(&size(RangeMeans::Ages));
        habits.learn(&size(RangeMeans::Size));
        habits.learn(&Lesson::At { shop: "Corner  Bazaar".to_owned(), means: AtMeans::Each });
        assert_eq!((habits.range("leggings"), habits.range("shirt")), (Some(RangeMeans::Size), None));
        assert_eq!(habits.at("corner bazaar"), Some(AtMeans::Each));
        assert!(habits.knows(&size(RangeMeans::Size)) && !habits.knows(&size(RangeMeans::Ages)));
    }

    #[test]
    fn a_lesson_is_kept_as_it_is() {
        let text = serde_json::to_string(&Lesson::Range { kind: "leggings".into(), means: RangeMeans::Size }).unwrap();
        assert_eq!(text, r#"{"range":{"kind":"leggings","means":"size"}}"#);
    }
}
