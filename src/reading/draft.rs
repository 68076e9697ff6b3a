//! What the rules noted, as said: nothing is worked out here yet.

use std::ops::Range;

use jiff::civil::Date;
use rust_decimal::Decimal;

use super::outright::Outright;
use super::question::{About, Question};
use super::source::Came;
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::measure::{Decigrams, Dims};
use crate::model::whom::ForWhom;

/// What was said, family by family.
#[derive(Debug, Default)]
pub(super) struct Draft {
    pub prices: Vec<Price>,
    /// Hundredths taken off.
    pub offs: Vec<Decimal>,
    pub free: bool,
    pub counts: Vec<Count>,
    pub pack: PackSaid,
    pub bundle: Option<BundleSaid>,
    pub whom: Vec<WhomSaid>,
    pub ages: Vec<Ages>,
    /// Ranges of which only the kind of thing tells what they mean.
    pub ranges: Vec<RangeSaid>,
    pub sizes: Vec<String>,
    pub colours: Vec<String>,
    pub themes: Vec<String>,
    pub shops: Vec<String>,
    /// The shop behind *from*: where nothing was paid, it gave it.
    pub from: Option<String>,
    pub places: Vec<PlaceSaid>,
    pub dates: Vec<Date>,
    pub expiries: Vec<String>,
    pub dims: Vec<Dims>,
    pub weights: Vec<Decigrams>,
    pub categories: Vec<Category>,
    pub flags: Vec<&'static str>,
    pub notes: Vec<String>,
    /// What is said, but not for sure.
    pub about: Vec<About>,
    pub came: Vec<Came>,
    pub givers: Vec<String>,
    pub boxes: Vec<String>,
    pub returned: bool,
    /// Ranges that turned out to be sizes.
    pub sized: Vec<Range<usize>>,
    /// Readings that rest on an earlier answer.
    pub remembered: Vec<String>,
    pub outright: Outright,
    pub name: String,
    pub questions: Vec<Question>,
    /// The words that raised a question, and what about.
    pub doubts: Vec<(Range<usize>, About)>,
}

impl Draft {
    /// Leaves something open; one question about a thing is enough.
    pub fn ask(&mut self, question: Question) {
        if !self.asks(question.about) {
            self.questions.push(question);
        }
    }

    /// Whether something is open already.
    pub fn asks(&self, about: About) -> bool {
        self.questions.iter().any(|question| question.about == about)
    }
}

/// An amount with its words.
#[derive(Debug, Clone)]
pub(super) struct Price {
    pub amount: Decimal,
    pub regular: bool,
    pub scope: Scope,
    /// So many for this price.
    pub deal: Option<u32>,
    /// *at* stood before it.
    pub at: bool,
    /// The tokens of the amount and the words that belong to it.
    pub from: usize,
    pub to: usize,
    /// A coin word (a penny, a quarter) that may be part of a name.
    pub coin: bool,
}

/// What a price is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Scope {
    /// Nothing was said: the whole line.
    Bare,
    /// *for all*: the whole line, said.
    Whole,
    /// Each thing bought.
    Each,
    /// *each*, but far from the price.
    Stray,
    /// Each pack; holds the word.
    Pack(String),
    /// Each of a unit, or of a thing, by this word.
    Per(String),
}

/// A count with what it counts.
#[derive(Debug, Clone)]
pub(super) struct Count {
    pub value: u32,
    /// Only *a* or *an*.
    pub article: bool,
    /// `x4`, `qty 4`: counts packs where packs are named.
    pub times: bool,
    /// `6x` behind a name, or a number behind *girls*: on clothes it can be a size.
    pub maybe_size: bool,
    /// *pair*, *bar*: the word that names the unit.
    pub unit: Option<String>,
}

/// What was said of packs.
#[derive(Debug, Default)]
pub(super) struct PackSaid {
    pub named: bool,
    pub counts: Vec<u32>,
    pub sizes: Vec<u32>,
    /// `100 piece`: the pieces of one thing given as a set.
    pub pieces: Vec<u32>,
    /// The unit inside: a pack of 6 *pairs*.
    pub unit: Option<String>,
}

/// Bundles of `size` pieces, perhaps with how many there are.
#[derive(Debug)]
pub(super) struct BundleSaid {
    pub size: u32,
    pub count: Option<u32>,
    pub words: String,
}

/// *girl*, *boy*, or a word for either.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WhomSaid {
    Only(ForWhom),
    Either,
}

/// Two numbers and a dash.
#[derive(Debug)]
pub(super) struct RangeSaid {
    pub from: u32,
    pub to: u32,
    /// *girl* or *boy* stands beside it.
    pub beside: bool,
    pub words: String,
    /// Its tokens.
    pub tokens: Range<usize>,
}

/// A place, and whether its label might be something else.
#[derive(Debug)]
pub(super) struct PlaceSaid {
    pub place: String,
    /// The tokens of its label.
    pub label: usize,
    pub numeric: bool,
}
