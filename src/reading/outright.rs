//! A field said outright: its name, a colon, and what it is: `name: five star notebook, units: 2`.
//!
//! It beats whatever the other rules say of that field, and settles every doubt about it.

use super::line::Line;
use super::number::number;
use super::question::{About, Question};
use super::report::Reading;
use super::taken::What;
use super::token::Shape;
use super::{Context, understand};
use crate::model::money::Money;

/// A field that can be said outright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Field {
    Name,
    Units,
    Pieces,
    Paid,
    Regular,
    Whom,
    Ages,
    Size,
    Shop,
    Giver,
    Place,
    Date,
    Expires,
    Category,
    Box,
    Note,
}

/// The words for each field. Labels of other rules (`tote: 4`, `theme: ocean`, `colour: peach`) are read there.
const FIELDS: [(&str, Field); 21] = [
    ("name", Field::Name),
    ("units", Field::Units),
    ("count", Field::Units),
    ("how many", Field::Units),
    ("pieces", Field::Pieces),
    ("paid", Field::Paid),
    ("price", Field::Paid),
    ("regular", Field::Regular),
    ("for", Field::Whom),
    ("ages", Field::Ages),
    ("age", Field::Ages),
    ("size", Field::Size),
    ("shop", Field::Shop),
    ("giver", Field::Giver),
    ("place", Field::Place),
    ("date", Field::Date),
    ("expires", Field::Expires),
    ("category", Field::Category),
    ("box", Field::Box),
    ("note", Field::Note),
    ("notes", Field::Note),
];

/// What was said outright, each with the words as typed.
#[derive(Debug, Default)]
pub(super) struct Outright {
    pub said: Vec<(Field, String)>,
}

impl Outright {
    /// The last word on a field.
    pub fn of(&self, field: Field) -> Option<&str> {
        self.said.iter().rev().find(|(said, _)| *said == field).map(|(_, words)| words.as_str())
    }
}

impl Field {
    /// What a doubt about it would be about.
    pub fn about(self) -> Option<About> {
        Some(match self {
            Field::Name => About::Name,
            Field::Units | Field::Pieces => About::Units,
            Field::Paid | Field::Regular => About::Paid,
            Field::Ages => About::Ages,
            Field::Size => About::Size,
            Field::Shop | Field::Giver => About::Shop,
            Field::Place => About::Place,
            Field::Date => About::Date,
            Field::Expires => About::Expires,
            Field::Category => About::Category,
            Field::Box => About::Box,
            Field::Whom | Field::Note => return None,
        })
    }

    /// Whether its words may hold anything up to the next comma.
    fn is_free(self) -> bool {
        matches!(self, Field::Name | Field::Note | Field::Shop | Field::Giver)
    }
}

/// Finds every field said outright.
pub(super) fn fields(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let (field, start) = field(line, at)?;
        let end = value_end(line, start, field);
        if end == start {
            return None;
        }
        let words = line.typed(start..end);
        line.take(at..end, What::Field);
        line.draft.outright.said.push((field, words));
        Some(end)
    });
}

/// A field's name here with a colon right behind it, and where its value begins.
fn field(line: &Line<'_>, at: usize) -> Option<(Field, usize)> {
    FIELDS.iter().find_map(|&(words, field)| {
        let end = line.phrase(at, words).filter(|&end| !line.hangs_before(at) && line.glued(end))?;
        line.is(end, &[":"]).then_some((field, end + 1))
    })
}

/// Up to a comma, the next field or the end; what can only be one number or one word ends with it, so
/// that what stands behind is read as ever.
fn value_end(line: &Line<'_>, start: usize, of: Field) -> usize {
    let limit = (start..line.tokens.len())
        .find(|&at| stops(line, at) || (at > start && field(line, at).is_some()))
        .unwrap_or(line.tokens.len());
    if of.is_free() {
        return limit;
    }
    let glued = |end: usize| (end..limit).find(|&at| !line.glued(at)).unwrap_or(limit);
    let first = match of {
        Field::Units | Field::Pieces => number(line, start).map_or(start + 1, |number| number.end),
        Field::Paid | Field::Regular => money_end(line, start),
        Field::Whom | Field::Category | Field::Box => start + 1,
        // Ranges, dates and labels may be several words: what is their own is read from all of it.
        _ => limit,
    };
    glued(first.min(limit).max(start.min(limit)))
}

/// A sign, a number and a word for money.
fn money_end(line: &Line<'_>, start: usize) -> usize {
    let sign = start + usize::from(line.open(start).is_some_and(|token| token.shape == Shape::Sign));
    let number = number(line, sign).map_or(sign + 1, |number| number.end);
    number + usize::from(line.is(number, &["c", "cent", "cents", "dollar", "dollars", "bucks", "free"]))
}

fn stops(line: &Line<'_>, at: usize) -> bool {
    line.is(at, &[","]) || line.took(at) == Some(What::Note)
}

/// Sets what was said outright, over all that the rules made of the rest; what can't be is asked.
pub(super) fn overrule(reading: &mut Reading, outright: &Outright, ctx: &Context<'_>) {
    for (field, words) in &outright.said {
        let Some(about) = field.about() else {
            set_plain(reading, *field, words, ctx);
            continue;
        };
        // Name, counts and sums were overruled where they are worked out.
        if matches!(field, Field::Name | Field::Units | Field::Pieces | Field::Paid | Field::Regular) {
            continue;
        }
        // A range that may be ages or a size is settled by either.
        let range = [About::Ages, About::Size];
        let settles = |asked: About| asked == about || (range.contains(&asked) && range.contains(&about));
        reading.questions.retain(|question| !settles(question.about));
        if set(reading, *field, words, ctx).is_none() {
            let why = format!("\"{words}\": that is no {}", about.word());
            reading.questions.push(Question::new(about, why));
        }
    }
}

/// What any words will do for.
fn set_plain(reading: &mut Reading, field: Field, words: &str, ctx: &Context<'_>) {
    match field {
        Field::Note => reading.notes.push(words.to_owned()),
        _ => reading.for_whom = part(&format!("thing {words}"), ctx).for_whom,
    }
}

/// Sets one field from its words; none where they make no sense for it.
fn set(reading: &mut Reading, field: Field, words: &str, ctx: &Context<'_>) -> Option<()> {
    match field {
        Field::Ages => reading.ages = Some(part(&format!("ages {words}"), ctx).ages?),
        Field::Size => {
            reading.size = part(&format!("size {words}"), ctx).size.or_else(|| Some(words.to_uppercase()));
        }
        Field::Shop => reading.shop = Some(words.to_owned()),
        Field::Giver => reading.giver = Some(words.to_owned()),
        Field::Place => reading.place = Some(words.to_lowercase()),
        Field::Date => reading.date = Some(part(&format!("thing, {words}"), ctx).date?),
        Field::Expires => reading.expires = Some(part(&format!("thing, exp {words}"), ctx).expires?),
        Field::Category => {
            let said = part(&format!("thing as {words}"), ctx);
            reading.category = Some(said.category?);
        }
        _ => reading.for_box = Some(part(&format!("thing for box {words}"), ctx).for_box?),
    }
    Some(())
}

/// How many the words say; none where they say no number.
pub(super) fn count_of(words: &str, ctx: &Context<'_>) -> Option<u32> {
    let line = Line::new(words, ctx);
    number(&line, 0).filter(|number| number.end == line.tokens.len()).map(|number| number.value)
}

/// The sum that the words say; a whole number alone is one here.
pub(super) fn sum_of(words: &str, ctx: &Context<'_>) -> Option<Money> {
    let said = part(words, ctx);
    let plain = || Money::from_decimal(words.parse().ok()?, ctx.profile.currency).filter(|sum| !sum.is_negative());
    said.paid.or_else(plain)
}

fn part(words: &str, ctx: &Context<'_>) -> Reading {
    understand(0, words, &Context { price_asked: false, ..*ctx })
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, paid, pieces, questions, read, units};

    #[test]
    fn a_field_said_outright_is_so() {
        let reading =
            read("2 of them, name: Five Star notebook, paid: 1.50, size: 7-8, ages: 6-8, note: from the fair");
        assert_eq!(reading.name, "five star notebook");
        assert_eq!(
            (paid("name: tin whistle, paid: 3"), units("name: tin whistle, paid: 3")),
            (Some("3.00".into()), Some(1))
        );
        assert_eq!(
            (reading.size.as_deref(), reading.ages.map(|ages| ages.to_string())),
            (Some("7-8"), Some("6–8".into()))
        );
        assert_eq!(reading.notes, ["from the fair"]);
        assert_eq!(read("comb 1.00, shop: Half Price Barn").shop.as_deref(), Some("Half Price Barn"));
        assert_eq!(read("comb 1.00 colour: teal and coral").colours, ["teal", "coral"]);
        assert_eq!(read("comb 1.00, expires: mar 2027, box: 12").expires.as_deref(), Some("2027-03"));
        assert_eq!(read("comb 1.00 box: 12 theme: under the sea").for_box.as_deref(), Some("12"));
        assert_eq!(read("comb 1.00 category: toy").category.unwrap().word(), "toy");
        assert_eq!(read("comb 1.00 for: girl").for_whom.unwrap().word(), "girl");
        assert_eq!(pieces("24 crayons pieces: 24 units: 1 .50"), Some(24));
        assert_eq!(name("4 in a row game 1.00 name: four in a row"), "four in a row");
    }

    #[test]
    fn it_beats_the_other_rules_and_settles_their_doubts() {
        for line in [
            "wallet 5, units: 5, 1.00",
            "notebooks 4 units: 4 paid: 1.00",
            "6 pens at 10 cents, paid: 0.60",
            "2 leggings 7-8 2.00, size: 7-8",
            "comb 1.00 1.50 paid: 1.50",
        ] {
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        assert_eq!(units("4 packs of 3 combs units: 10 1.00"), Some(10));
        assert_eq!(paid("combs units: 4 15c each").as_deref(), Some("0.60"));
        assert_eq!(paid("4 combs 15c each paid: 0.50").as_deref(), Some("0.50"));
    }

    #[test]
    fn a_value_that_makes_no_sense_is_asked() {
        assert_eq!(about("combs 1.00 units: many"), ["units"]);
        assert_eq!(about("combs paid: lots"), ["paid"]);
        assert_eq!(about("combs 1.00, ages: old"), ["ages"]);
        assert_eq!(about("combs 1.00, category: things"), ["category"]);
    }

    #[test]
    fn other_colons_are_no_fields() {
        assert_eq!(name("tote 3: 6 toothbrushes 2 for $1"), "toothbrushes");
        assert_eq!(units("combs qty: 4 1.00"), Some(4));
        assert_eq!(read("comb 1.00 tote: 3").place.as_deref(), Some("tote 3"));
    }
}
