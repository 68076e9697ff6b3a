//! A batch: units of one kind of thing got together.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::age::Ages;
use super::category::Category;
use super::measure::{Decigrams, Dims, Units};
use super::money::Money;
use super::whom::ForWhom;

/// How a batch came.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// Paid for.
    #[default]
    Bought,
    /// Given by somebody.
    Given,
    /// Made at home.
    Made,
    /// There on the first day, when the totes were counted.
    OpeningCount,
    /// Broken out of another batch.
    Split,
    /// Put together from several others.
    Kit,
    /// Several batches of one thing made one.
    Joined,
    /// Taken out of a set or a kit, or what is left of it.
    Part,
}

/// How much there is of a thing that nobody counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Level {
    /// Enough for now.
    Plenty,
    /// It runs low.
    Low,
    /// None is left.
    Gone,
}

impl Level {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Level::Plenty => "plenty",
            Level::Low => "low",
            Level::Gone => "gone",
        }
    }
}

/// All that is said of a batch; each field is an attribute, the last one who says it wins.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotFacts {
    /// What it is called, lower case.
    pub name: String,
    /// How it came.
    pub source: Source,
    /// How much there is, if nobody counts it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<Level>,
    /// What was taken out of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lacks: Vec<String>,
    /// Who gave or made it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub giver: Option<String>,
    /// Whether how many came is doubtful.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub rough: bool,
    /// Things that can each be given.
    pub units: Units,
    /// Pieces inside one unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<u32>,
    /// Packs bought, where packs were named.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub packs: Option<u32>,
    /// What was paid for all of it; unknown while the price is open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paid: Option<Money>,
    /// Whether the amount is doubtful.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub about: bool,
    /// What all of it would have cost undiscounted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub regular: Option<Money>,
    /// The kind's name in the catalogue.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<String>,
    /// The category it serves.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub category: Option<Category>,
    /// Who it is for; either, if not said.
    #[serde(default, rename = "for", skip_serializing_if = "Option::is_none")]
    pub for_whom: Option<ForWhom>,
    /// The ages it is for; any, if not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ages: Option<Ages>,
    /// A size as said, upper case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<String>,
    /// Colours in the order said.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<String>,
    /// A theme, lower case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub theme: Option<String>,
    /// Where it lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tote: Option<String>,
    /// A day or a month as ISO text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expires: Option<String>,
    /// Outer sizes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dims: Option<Dims>,
    /// The weight of one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<Decigrams>,
    /// What the line said of it: sealed, breakable.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flags: Vec<String>,
    /// What stood in parentheses.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
}

macro_rules! lot_fields {
    ($($(#[$doc:meta])* $variant:ident($type:ty) => $field:ident,)*) => {
        /// One field of a batch set to a value; the value may be "nothing", which is not the same as unsaid.
        #[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum LotField {
            $($(#[$doc])* $variant($type),)*
        }

        impl LotFacts {
            /// Sets one field.
            pub fn set(&mut self, field: LotField) {
                match field {
                    $(LotField::$variant(value) => self.$field = value,)*
                }
            }

            /// The fields in which `wanted` differs from this.
            pub fn changes_to(&self, wanted: &LotFacts) -> Vec<LotField> {
                let mut changes = Vec::new();
                $(if self.$field != wanted.$field {
                    changes.push(LotField::$variant(wanted.$field.clone()));
                })*
                changes
            }
        }
    };
}

lot_fields! {
    /// What it is called.
    Name(String) => name,
    /// How it came.
    Source(Source) => source,
    /// How much there is, if nobody counts it.
    Level(Option<Level>) => level,
    /// What was taken out of it.
    Lacks(Vec<String>) => lacks,
    /// Who gave or made it.
    Giver(Option<String>) => giver,
    /// Whether how many came is doubtful.
    Rough(bool) => rough,
    /// How many.
    Units(Units) => units,
    /// Pieces inside one.
    Pieces(Option<u32>) => pieces,
    /// Packs bought.
    Packs(Option<u32>) => packs,
    /// Paid for all of it.
    Paid(Option<Money>) => paid,
    /// Whether the amount is doubtful.
    About(bool) => about,
    /// Undiscounted.
    Regular(Option<Money>) => regular,
    /// Catalogue kind.
    Kind(Option<String>) => kind,
    /// Category.
    Category(Option<Category>) => category,
    /// Who it is for.
    For(Option<ForWhom>) => for_whom,
    /// Ages.
    Ages(Option<Ages>) => ages,
    /// Size.
    Size(Option<String>) => size,
    /// Colours.
    Colours(Vec<String>) => colours,
    /// Theme.
    Theme(Option<String>) => theme,
    /// Where it lies.
    Tote(Option<String>) => tote,
    /// Expiry.
    Expires(Option<String>) => expires,
    /// Outer sizes.
    Dims(Option<Dims>) => dims,
    /// Weight of one.
    Weight(Option<Decigrams>) => weight,
    /// Flags.
    Flags(Vec<String>) => flags,
    /// Notes.
    Notes(Vec<String>) => notes,
}

impl LotFacts {
    /// The name with its first colour and size, as lists show it: `notebook, teal`.
    pub fn title(&self) -> String {
        let mut title = self.name.clone();
        if !self.colours.is_empty() {
            title.push_str(", ");
            title.push_str(&self.colours.join(" and "));
        }
        if let Some(size) = &self.size {
            title.push_str(", size ");
            title.push_str(size);
        }
        if !self.lacks.is_empty() {
            title.push_str(", without ");
            title.push_str(&self.lacks.join(" and "));
        }
        title
    }

    /// Everything a search may look at, in one line.
    pub fn haystack(&self) -> String {
        let mut words = self.title();
        let more = [self.kind.as_deref(), self.theme.as_deref(), self.tote.as_deref()];
        for word in more.into_iter().flatten().chain(self.for_whom.map(ForWhom::word)) {
            words.push(' ');
            words.push_str(word);
        }
        words
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Source::Bought => "bought",
            Source::Given => "given",
            Source::Made => "made",
            Source::OpeningCount => "opening count",
            Source::Split => "split from a pack",
            Source::Kit => "a kit",
            Source::Joined => "several batches made one",
            Source::Part => "out of a set",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_carry_one_batch_into_another() {
        let old = LotFacts { name: "comb".into(), paid: Money::new(50), ..LotFacts::default() };
        let new = LotFacts { name: "comb, wide".into(), tote: Some("tote 4".into()), ..LotFacts::default() };
        let changes = old.changes_to(&new);
        assert_eq!(changes.len(), 3);
        let mut mended = old;
        for change in changes {
            mended.set(change);
        }
        assert_eq!(mended, new);
    }

    #[test]
    fn set_to_nothing_is_not_unsaid() {
        let text = serde_json::to_string(&[LotField::Paid(None)]).unwrap();
        assert_eq!(text, r#"[{"paid":null}]"#);
        assert_eq!(serde_json::from_str::<Vec<LotField>>(&text).unwrap(), [LotField::Paid(None)]);
    }
}
