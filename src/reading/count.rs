//! Rule 7: how many.

use super::draft::Count;
use super::line::Line;
use super::number::number;
use super::question::About;
use super::taken::What;
use super::token::Shape;
use super::words::{BOUNDS, unit};
use crate::model::category::Category;

const VAGUE: [&str; 16] = [
    "quite a few",
    "a few",
    "few",
    "some",
    "several",
    "a handful",
    "handful",
    "a bunch",
    "bunch",
    "a lot",
    "lots",
    "loads",
    "many",
    "various",
    "dozens",
    "hundreds",
];

/// Behind a number these may say something of one thing: a 70 sheet notebook.
pub(super) const OF_ONE: [&str; 11] =
    ["month", "months", "sheet", "page", "pages", "ply", "subject", "ring", "colour", "color", "tier"];

/// Finds every count.
pub(super) fn counts(line: &mut Line<'_>) {
    line.scan(vague);
    line.scan(bounded);
    line.scan(halves);
    line.scan(times);
    line.scan(dozens);
    line.scan(with_unit);
    line.scan(leading);
}

/// A few is no number.
fn vague(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let mut end = line.any_phrase(at, &VAGUE)?;
    while line.is(end, &["of", "."]) {
        end += 1;
    }
    line.doubt(at..end, About::Units, "how many is that?");
    Some(end)
}

/// At least twelve is no number either.
fn bounded(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let start = line.any_phrase(at, &BOUNDS)?;
    let number = number(line, start).filter(|number| !number.article && !line.hangs(start, number.end))?;
    line.doubt(at..number.end, About::Units, "how many is that?");
    Some(number.end)
}

/// `one and a half yards`, `half a yard`: a part of a thing is no count.
fn halves(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let number = number(line, at).map_or(at, |number| number.end);
    let behind = || line.phrase(number, "and a half").filter(|_| number > at);
    let of_unit = || {
        let end = line.any_phrase(at, &["half a", "half of a", "half"])?;
        line.word(end).and_then(unit).is_some_and(|(_, many)| !many).then_some(end)
    };
    let end = of_unit().or_else(behind)?;
    line.doubt(at..end, About::Units, "how many can be given?");
    Some(end)
}

/// `x4`, `x 4`, `4x`, `qty 4`.
fn times(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let count = |line: &mut Line<'_>, value, range: std::ops::Range<usize>, maybe_size| {
        let end = range.end;
        line.take(range, What::Count);
        line.draft.counts.push(Count { value, article: false, times: true, maybe_size, unit: None });
        Some(end)
    };
    if line.is(at, &["x", "qty", "quantity"]) && !line.hangs_before(at) {
        let colon = usize::from(line.is(at + 1, &[":"]));
        let value = line.whole(at + 1 + colon)?;
        let end = at + 2 + colon;
        return if line.hangs_behind(end) { None } else { count(line, value, at..end, false) };
    }
    let value = line.whole(at).filter(|_| !line.hangs_before(at))?;
    if !line.is(at + 1, &["x"]) || line.hangs_behind(at + 2) {
        return None;
    }
    let behind_whom = at.checked_sub(1).is_some_and(|before| line.took(before) == Some(What::Whom));
    let maybe_size = line.glued(at + 1) && (behind_whom || begins_name_before(line, at));
    count(line, value, at..at + 2, maybe_size)
}

/// A dozen says by itself that it counts, wherever it stands.
fn dozens(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let number = number(line, at).filter(|number| !line.hangs(at, number.end))?;
    let dozen = (at..number.end).any(|i| line.is(i, &["dozen", "doz", "dz"]));
    let by_the = at.checked_sub(1).is_some_and(|before| line.is(before, &["the", "per", "by"]));
    if !dozen || by_the {
        return None;
    }
    let behind_price = at.checked_sub(1).is_some_and(|before| line.took(before) == Some(What::Price));
    let counted = line.draft.pack.named || (0..at).any(|i| super::number::number(line, i).is_some_and(|n| !n.article));
    if behind_price && counted {
        // 36 combs 1.00 a dozen: part of the price, not a second count.
        line.doubt(at..number.end, About::Paid, "how often is that the price?");
        return Some(number.end);
    }
    if !begins_name_before(line, at) {
        // It leads: left whole for the rule of leading numbers.
        return Some(number.end);
    }
    line.take(at..number.end, What::Count);
    line.draft.counts.push(Count { value: number.value, article: false, times: false, maybe_size: false, unit: None });
    Some(number.end)
}

/// `3 pairs`, `a bar of`, `5 yards`, and `bar of` without a number.
fn with_unit(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let number = number(line, at).filter(|_| !line.hangs_before(at));
    let word_at = number.map_or(at, |number| number.end);
    let word = line.word(word_at)?;
    let (one, many) = unit(word)?;
    let of = line.is(word_at + 1, &["of"]);
    let short = matches!(word, "pr" | "prs" | "pair" | "yd" | "yds");
    let thing_behind = line.word(word_at + 1).is_some() && !of && !short;
    let value = number.map_or(1, |number| number.value);
    let own_name =
        line.word(word_at + 1).is_some_and(|next| line.ctx.catalogue.named(&format!("{word} {next}")).is_some());
    let fits = match number {
        None => of && !begins_name_before(line, at),
        Some(_) => of || ((many || value == 1 || !thing_behind) && (many || !own_name)),
    };
    let after_number = number.is_some() && line.number(word_at - 1).is_some();
    if !fits || line.hangs_behind(word_at + 1) || (line.hangs_before(word_at) && !after_number) {
        return None;
    }
    let end = word_at + 1 + usize::from(of);
    // A roll of 200 may be one thing, or two hundred.
    let counts_again = of && line.whole(end).is_some() && !line.hangs_behind(end + 1);
    let article = number.is_none_or(|number| number.article) && !counts_again;
    let unit = Some(one.to_owned());
    line.take(at..end, What::Count);
    line.draft.counts.push(Count { value, article, times: false, maybe_size: false, unit });
    Some(end)
}

/// A number before the name. One that hangs on to letters (3d, 4-colour) belongs to the name,
/// and so does one that begins a name which the catalogue knows (3 ring binder).
fn leading(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let number = number(line, at).filter(|number| !line.hangs(at, number.end))?;
    let grade = line.glued(at) && at.checked_sub(1).is_some_and(|before| line.is(before, &["#"]));
    if grade || begins_name_before(line, at) || begins_known_name(line, at, number.end) {
        return None;
    }
    if let Some(end) = line.any_phrase(number.end, &["in a row", "of a kind"]) {
        line.doubt(at..end, About::Units, "does this count, or is it a name?");
        return Some(end);
    }
    let of_one = line.is(number.end, &OF_ONE) || is_praise(line, number.value, number.end);
    let said_of_one = of_one && !begins_known_name(line, number.end, number.end);
    if said_of_one || line.is(number.end, &["million", "gross", "score", "k"]) {
        line.doubt(at..number.end + 1, About::Units, "how many is that?");
        return Some(number.end + 1);
    }
    let listed = at == 0
        && number.value > 1
        && line.glued(number.end)
        && line.is(number.end, &[")", "."])
        && line.open(number.end + 1).is_some();
    if listed {
        line.doubt(at..number.end + 1, About::Units, "does this count, or number a list?");
        return Some(number.end + 1);
    }
    let of = usize::from(line.is(number.end, &["of"]));
    // Behind *girls* a number may as well be a size.
    let maybe_size = at.checked_sub(1).is_some_and(|before| line.took(before) == Some(What::Whom)) && !number.article;
    line.take(at..number.end + of, What::Count);
    line.draft.counts.push(Count {
        value: number.value,
        article: number.article,
        times: false,
        maybe_size,
        unit: None,
    });
    Some(number.end + of)
}

/// A five star notebook is one; three star stickers are three.
fn is_praise(line: &Line<'_>, value: u32, at: usize) -> bool {
    let Some(thing) = line.word(at + 1).filter(|_| line.is(at, &["star"]) && (2..=5).contains(&value)) else {
        return false;
    };
    let school = line.ctx.catalogue.named(thing).is_some_and(|kind| kind.category == Category::School);
    !thing.ends_with('s') || (value == 5 && school)
}

/// Whether an open word stands before this one.
fn begins_name_before(line: &Line<'_>, at: usize) -> bool {
    let names = |token: &super::token::Token| {
        let small = matches!(token.text.as_str(), "the" | "my" | "our" | "x" | "for" | "with" | "in");
        matches!(token.took, None | Some(What::Name)) && token.shape == Shape::Word && !small
    };
    line.tokens.iter().take(at).any(names)
}

fn begins_known_name(line: &Line<'_>, at: usize, end: usize) -> bool {
    if line.word(end).is_none() {
        return false;
    }
    (end + 2..end + 4).any(|end| {
        (at..end).all(|i| line.open(i).is_some()) && line.ctx.catalogue.named(&line.typed(at..end)).is_some()
    })
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, questions, units};

    #[test]
    fn counts_lead_or_are_marked() {
        for (line, count, thing) in [
            ("6 combs 1.00", 6, "combs"),
            ("six combs 1.00", 6, "combs"),
            ("a comb 1.00", 1, "comb"),
            ("an eraser 1.00", 1, "eraser"),
            ("comb 1.00", 1, "comb"),
            ("twenty-one combs 1.00", 21, "combs"),
            ("1.00, 3 combs", 3, "combs"),
            ("girls 3 combs 1.00", 3, "combs"),
            ("combs x4 1.00", 4, "combs"),
            ("4x combs 1.00", 4, "combs"),
            ("4 x combs 1.00", 4, "combs"),
            ("combs qty 4 1.00", 4, "combs"),
            ("combs qty: 4 1.00", 4, "combs"),
            ("a couple of combs 1.00", 2, "combs"),
            ("a dozen erasers 1.20", 12, "erasers"),
            ("half a dozen erasers 1.20", 6, "erasers"),
            ("socks 3 pairs 1.00", 3, "socks"),
            ("3 pairs of socks 1.00", 3, "socks"),
            ("a pair of socks 1.00", 1, "socks"),
            ("bar of soap 1.00", 1, "soap"),
            ("2 bars soap 1.00", 2, "soap"),
            ("socks 2pr 1.00", 2, "socks"),
            ("2 pr socks 1.00", 2, "socks"),
            ("pencils, a dozen, 1.00", 12, "pencils"),
            ("pencils 2 dozen 1.00", 24, "pencils"),
            ("a dozen and a half combs 1.00", 18, "combs"),
            ("two thousand beads 1.00", 2000, "beads"),
            ("12 pair socks 1.00", 12, "socks"),
            ("2 dz combs 1.00", 24, "combs"),
            ("3 sheets of stickers 1.00", 3, "stickers"),
            ("water bottle 1.00", 1, "water bottle"),
            ("2 water bottles 1.00", 2, "water bottles"),
            ("3 t-shirts 4.00", 3, "t-shirts"),
            ("3 ring binder 1.00", 1, "3 ring binder"),
            ("2 3-ring binders 1.00", 2, "3-ring binders"),
            ("4-colour pen 1.00", 1, "4-colour pen"),
            ("2 3d puzzle erasers 1.00", 2, "3d puzzle erasers"),
            ("1,000 beads 1.00", 1000, "beads"),
        ] {
            assert_eq!((units(line), name(line).as_str()), (Some(count), thing), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn what_is_no_sure_count_asks() {
        for line in [
            "a few combs 1.00",
            "some combs 1.00",
            "several combs 1.00",
            "a handful of beads 1.00",
            "a bunch of combs 1.00",
            "lots of combs 1.00",
            "at least 12 combs 1.00",
            "wallet 5 1.00",
            "notebooks 4 15c each",
            "notebooks four 15c each",
            "12 or 13 combs 1.00",
            "2 socks 3 pairs 1.00",
            "12combs 1.00",
            "70 sheet notebook 1.00",
            "3 ply tissue 1.00",
            "notebook 70 sheets 1.00",
            "pencils by the dozen 1.00",
            "2x4 combs 1.00",
            "girls 6x leggings 1.00",
            "1k beads 1.00",
            "a gross of pencils 1.00",
            "two combs and a brush 1.00",
            "roll of 200 stickers 1.00",
            "2) combs 1.00",
            "1.5 yards of ribbon 1.00",
            "0 combs 1.00",
            "99999999999 combs 1.00",
            "5000000 combs 1.00",
            "３ combs 1.00",
            "shorts 6x 1.00",
            "girls 7 dress 1.00",
        ] {
            assert_eq!(units(line), None, "{line}");
            assert_eq!(questions(line), ["units"], "{line}");
        }
    }
}
