//! Rule 7: how many.

use super::draft::Count;
use super::number::number;
use super::question::About;
use super::taken::What;
use super::token::Shape;
use super::words::unit;
use super::work::Work;

const VAGUE: [&str; 22] = [
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
    "about",
    "around",
    "roughly",
    "approx",
    "maybe",
    "almost",
];

/// Finds every count.
pub(super) fn counts(work: &mut Work<'_>) {
    work.scan(vague);
    work.scan(times);
    work.scan(with_unit);
    work.scan(leading);
}

/// A few is no number.
fn vague(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let mut end = work.any_phrase(at, &VAGUE)?;
    while work.is(end, &["of", "."]) {
        end += 1;
    }
    work.doubt(at..end, About::Units, "how many is that?");
    Some(end)
}

/// `x4`, `x 4`, `4x`, `qty 4`.
fn times(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let count = |work: &mut Work<'_>, value, range: std::ops::Range<usize>, maybe_size| {
        let end = range.end;
        work.take(range, What::Count);
        work.draft.counts.push(Count { value, article: false, times: true, maybe_size, unit: None });
        Some(end)
    };
    if work.is(at, &["x", "qty", "quantity"]) && !work.hangs_before(at) {
        let colon = usize::from(work.is(at + 1, &[":"]));
        let value = work.whole(at + 1 + colon)?;
        let end = at + 2 + colon;
        return if work.hangs_behind(end) { None } else { count(work, value, at..end, false) };
    }
    let value = work.whole(at).filter(|_| !work.hangs_before(at))?;
    if !work.is(at + 1, &["x"]) || work.hangs_behind(at + 2) {
        return None;
    }
    let trailing = work.glued(at + 1) && begins_name_before(work, at);
    count(work, value, at..at + 2, trailing)
}

/// `3 pairs`, `a bar of`, `5 yards`, and `bar of` without a number.
fn with_unit(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let number = number(work, at).filter(|number| !work.hangs(at, number.end));
    let word_at = number.map_or(at, |number| number.end);
    let word = work.word(word_at)?;
    let (one, many) = unit(word)?;
    // People say three pair as well as three pairs.
    let many = many || word == "pair";
    let of = work.is(word_at + 1, &["of"]);
    if one == "sheet" && number.is_some() && has_leaves(work) {
        work.doubt(at..word_at + 1, About::Units, "are there so many, or is that what one of them holds?");
        return Some(word_at + 1);
    }
    let thing_behind = work.word(word_at + 1).is_some() && !of;
    let value = number.map_or(1, |number| number.value);
    let own_name =
        work.word(word_at + 1).is_some_and(|next| work.ctx.catalogue.named(&format!("{word} {next}")).is_some());
    let fits = match number {
        None => of && !begins_name_before(work, at),
        Some(_) => of || ((many || value == 1 || !thing_behind) && (many || !own_name)),
    };
    if !fits || work.hangs(word_at, word_at + 1) {
        return None;
    }
    let end = word_at + 1 + usize::from(of);
    let article = number.is_none_or(|number| number.article);
    let unit = Some(one.to_owned());
    work.take(at..end, What::Count);
    work.draft.counts.push(Count { value, article, times: false, maybe_size: false, unit });
    Some(end)
}

/// Whether the thing is made of sheets itself, so that their number may tell of one and not of many.
fn has_leaves(work: &Work<'_>) -> bool {
    const LEAVES: [&str; 12] = [
        "notebook",
        "notebooks",
        "pad",
        "pads",
        "notepad",
        "notepads",
        "sketchbook",
        "sketchbooks",
        "paper",
        "book",
        "books",
        "binder",
    ];
    (0..work.tokens.len()).any(|at| work.is(at, &LEAVES))
}

/// A number before the name. One that hangs on to letters (3d, 4-colour) belongs to the name,
/// and so does one that begins a name which the catalogue knows (3 ring binder).
fn leading(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let number = number(work, at).filter(|number| !work.hangs(at, number.end))?;
    if begins_name_before(work, at) || begins_known_name(work, at, number.end) {
        return None;
    }
    let of = usize::from(work.is(number.end, &["of"]));
    work.take(at..number.end + of, What::Count);
    work.draft.counts.push(Count {
        value: number.value,
        article: number.article,
        times: false,
        maybe_size: false,
        unit: None,
    });
    Some(number.end + of)
}

/// Whether an open word stands before this one.
fn begins_name_before(work: &Work<'_>, at: usize) -> bool {
    let names = |token: &super::token::Token| {
        let small = matches!(token.text.as_str(), "the" | "my" | "our" | "x" | "for" | "with" | "in");
        matches!(token.took, None | Some(What::Name)) && token.shape == Shape::Word && !small
    };
    work.tokens.iter().take(at).any(names)
}

fn begins_known_name(work: &Work<'_>, at: usize, end: usize) -> bool {
    if work.word(end).is_none() {
        return false;
    }
    (end + 2..end + 4).any(|end| {
        (at..end).all(|i| work.open(i).is_some()) && work.ctx.catalogue.named(&work.typed(at..end)).is_some()
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
            "about 12 combs 1.00",
            "wallet 5 1.00",
            "notebooks 4 15c each",
            "notebooks four 15c each",
            "12 or 13 combs 1.00",
            "2 socks 3 pairs 1.00",
            "12combs 1.00",
            "1.5 yards of ribbon 1.00",
            "0 combs 1.00",
            "99999999999 combs 1.00",
            "5000000 combs 1.00",
            "３ combs 1.00",
            "shorts 6x 1.00",
        ] {
            assert_eq!(units(line), None, "{line}");
            assert_eq!(questions(line), ["units"], "{line}");
        }
    }
}
