//! What each word of a line was taken for.

use std::ops::Range;

/// What a rule takes words for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// How many there are.
    Count,
    /// A pack, and how many it holds.
    Pack,
    /// Pieces put together as one.
    Bundle,
    /// An amount, and what it covers.
    Price,
    /// Marked down, or the regular price.
    MarkedDown,
    /// It cost nothing.
    Free,
    /// A girl, a boy, or either.
    Whom,
    /// Years of age.
    Ages,
    /// A size of clothes or shoes.
    Size,
    /// A colour.
    Colour,
    /// What a box is about.
    Theme,
    /// Where it is kept.
    Place,
    /// Where it came from.
    Shop,
    /// When it was got.
    Date,
    /// When it goes off.
    Expiry,
    /// Length, breadth, height or weight.
    Measure,
    /// The part of the checklist it serves.
    Category,
    /// A property to be careful about.
    Flag,
    /// A note in parentheses.
    Note,
    /// It is not said for sure.
    About,
    /// How it came: made, given by somebody.
    Source,
    /// For which box it was got.
    Box,
    /// It went back to the shop.
    Returned,
    /// A field said outright by its name.
    Field,
    /// A word that says nothing more.
    Filler,
    /// The thing itself.
    Name,
    /// Words that raise a question.
    Doubt,
}

impl What {
    /// One word for it, to stand beneath the words it took.
    pub fn word(self) -> &'static str {
        match self {
            What::Count => "count",
            What::Pack => "pack",
            What::Bundle => "bundle",
            What::Price => "price",
            What::MarkedDown => "marked down",
            What::Free => "free",
            What::Whom => "for",
            What::Ages => "ages",
            What::Size => "size",
            What::Colour => "colour",
            What::Theme => "theme",
            What::Place => "place",
            What::Shop => "shop",
            What::Date => "date",
            What::Expiry => "expires",
            What::Measure => "measure",
            What::Category => "category",
            What::Flag => "flag",
            What::Note => "note",
            What::About => "about",
            What::Source => "source",
            What::Box => "box",
            What::Returned => "returned",
            What::Field => "field",
            What::Filler => "",
            What::Name => "name",
            What::Doubt => "which?",
        }
    }
}

/// A stretch of the line and what it was taken for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Bytes in [`Reading::line`](super::Reading::line).
    pub span: Range<usize>,
    /// What for.
    pub what: What,
}
