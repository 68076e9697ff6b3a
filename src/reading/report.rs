//! What comes back of a line, and its JSON.

use jiff::civil::Date;
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

use super::question::{About, Question};
use super::taken::Taken;
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::currency::Currency;
use crate::model::lot::Source;
use crate::model::measure::{Decigrams, Dims, Units};
use crate::model::money::Money;
use crate::model::whom::ForWhom;

/// The number of this shape of JSON.
pub(super) const VERSION: u32 = 1;

/// A line as understood, or why it is refused.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Outcome {
    /// What was understood.
    Read(Box<Reading>),
    /// Why nothing was.
    Refused(Refused),
}

impl Outcome {
    /// The reading, unless the line was refused.
    pub fn reading(&self) -> Option<&Reading> {
        match self {
            Outcome::Read(reading) => Some(reading),
            Outcome::Refused(_) => None,
        }
    }
}

/// A line that is not read at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// The number of the line, from 1.
    pub n: usize,
    /// What is wrong and what would do.
    pub error: String,
}

impl Serialize for Refused {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut map = to.serialize_map(None)?;
        map.serialize_entry("version", &VERSION)?;
        map.serialize_entry("n", &self.n)?;
        map.serialize_entry("error", &self.error)?;
        map.end()
    }
}

/// A line as understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// The number of the line, from 1; two things parted by `;` share it.
    pub n: usize,
    /// The line as read, without control characters.
    pub line: String,
    /// What is left when all else is taken out; empty where nothing is.
    pub name: String,
    /// How many packs were bought; 1 where no pack is named.
    pub packs: u32,
    /// What a pack says it holds.
    pub per_pack: Option<u32>,
    /// How many things can each be given; `None` where only a question can tell.
    pub units: Option<Units>,
    /// Pieces inside one unit, for sets and bundles.
    pub pieces: Option<u32>,
    /// Paid for the whole line.
    pub paid: Option<Money>,
    /// What the whole line would have cost.
    pub regular: Option<Money>,
    /// The currency of both.
    pub currency: Currency,
    /// Said with *as*, or known of the kind.
    pub category: Option<Category>,
    /// The key of the kind in the catalogue; not in the JSON.
    pub kind: Option<String>,
    /// A girl or a boy; `None` is either.
    pub for_whom: Option<ForWhom>,
    /// Years of age.
    pub ages: Option<Ages>,
    /// The size as said, upper case.
    pub size: Option<String>,
    /// Names of colours in the order said.
    pub colours: Vec<String>,
    /// How it came.
    pub source: Source,
    /// Who gave or made it, as typed.
    pub giver: Option<String>,
    /// The box it was got for: `12`, `12b`.
    pub for_box: Option<String>,
    /// It went back: paid is what was given back for it.
    pub returned: bool,
    /// What is said, but not for sure.
    pub about: Vec<About>,
    /// What was read as an earlier answer said, a phrase each.
    pub remembered: Vec<String>,
    /// What a box will be about, lower case.
    pub theme: Option<String>,
    /// Where it came from, as typed.
    pub shop: Option<String>,
    /// Where it is kept, lower case.
    pub place: Option<String>,
    /// When it was got.
    pub date: Option<Date>,
    /// When it goes off: an ISO day or month.
    pub expires: Option<String>,
    /// Outer sizes, largest first.
    pub dims: Option<Dims>,
    /// Its weight.
    pub weight: Option<Decigrams>,
    /// Properties to be careful about, sorted.
    pub flags: Vec<String>,
    /// Whatever stood in parentheses.
    pub notes: Vec<String>,
    /// What a person must settle.
    pub questions: Vec<Question>,
    /// What each word was taken for; not in the JSON.
    pub taken: Vec<Taken>,
}

impl Serialize for Reading {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let amount = |money: Option<Money>| money.map(|money| money.plain(self.currency));
        let mut map = to.serialize_map(None)?;
        map.serialize_entry("version", &VERSION)?;
        map.serialize_entry("n", &self.n)?;
        map.serialize_entry("line", &self.line)?;
        map.serialize_entry("name", &self.name)?;
        map.serialize_entry("packs", &self.packs)?;
        map.serialize_entry("per_pack", &self.per_pack)?;
        map.serialize_entry("units", &self.units)?;
        map.serialize_entry("pieces", &self.pieces)?;
        map.serialize_entry("paid", &amount(self.paid))?;
        map.serialize_entry("regular", &amount(self.regular))?;
        map.serialize_entry("category", &self.category)?;
        map.serialize_entry("for", &self.for_whom)?;
        map.serialize_entry("ages", &self.ages)?;
        map.serialize_entry("size", &self.size)?;
        map.serialize_entry("colours", &self.colours)?;
        map.serialize_entry("theme", &self.theme)?;
        map.serialize_entry("shop", &self.shop)?;
        map.serialize_entry("place", &self.place)?;
        map.serialize_entry("date", &self.date)?;
        map.serialize_entry("expires", &self.expires)?;
        map.serialize_entry("dims_mm", &self.dims)?;
        map.serialize_entry("weight_g", &self.weight.map(Decigrams::grams))?;
        map.serialize_entry("source", &self.source)?;
        map.serialize_entry("giver", &self.giver)?;
        map.serialize_entry("for_box", &self.for_box)?;
        map.serialize_entry("returned", &self.returned)?;
        map.serialize_entry("about", &self.about)?;
        map.serialize_entry("remembered", &self.remembered)?;
        map.serialize_entry("flags", &self.flags)?;
        map.serialize_entry("notes", &self.notes)?;
        map.serialize_entry("questions", &self.questions)?;
        map.end()
    }
}
