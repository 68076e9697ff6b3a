//! Rule 5: packs, and what they hold.

use super::line::Line;
use super::number::{Number, number, number_before};
use super::taken::What;
use super::words::{LOOSE_PACKS, PACKS, PLACES, SMALL, unit};

/// Words that only ever say how many a pack holds.
const COUNTED: [&str; 4] = ["ct", "cts", "count", "cnt"];
const PIECES: [&str; 4] = ["piece", "pieces", "pc", "pcs"];

/// Finds every pack that is named.
pub(super) fn packs(line: &mut Line<'_>) {
    line.scan(|line, at| {
        if line.glued(at) && at.checked_sub(1).is_some_and(|before| line.is(before, &["-", "'"])) {
            return None;
        }
        sized(line, at).or_else(|| of(line, at)).or_else(|| inside(line, at)).or_else(|| plain(line, at))
    });
}

fn whole_number(line: &Line<'_>, at: usize) -> Option<Number> {
    number(line, at).filter(|number| !number.article && !letters_before(line, at))
}

fn letters_before(line: &Line<'_>, at: usize) -> bool {
    line.glued(at) && at.checked_sub(1).is_some_and(|before| line.word(before).is_some_and(|word| word != "x"))
}

/// `12 pack`, `12-pack`, `12pk`, `12 ct`, `100 piece`; perhaps `2 x` before or `x 2` behind.
fn sized(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let size = whole_number(line, at)?;
    let tight = line.is(size.end, &["-"]) && line.glued(size.end);
    let mut word_at = if tight { size.end + 1 } else { size.end };
    let inner =
        line.word(word_at).and_then(unit).filter(|_| line.is(word_at + 1, &PACKS) || line.is(word_at + 1, &["-"]));
    if inner.is_some() {
        word_at += if line.is(word_at + 1, &["-"]) { 2 } else { 1 };
    }
    let word = line.word(word_at)?.to_owned();
    let pieces = PIECES.contains(&word.as_str());
    let pack = PACKS.contains(&word.as_str());
    if !(pieces || pack || COUNTED.contains(&word.as_str())) {
        return None;
    }
    // A two-piece swimsuit is no swimsuit in two pieces.
    if pieces && tight && line.number(at).is_none() {
        return None;
    }
    let (from, count) = times_before(line, at);
    // `3 packs` counts packs, `3-packs` and `2 3 packs` say what each holds.
    let counts_packs = pack && !tight && count.is_none() && (word.ends_with('s') || size.value == 1);
    if counts_packs && !line.glued(word_at) {
        return None;
    }
    let (count, end) = match count {
        Some(count) => (Some(count), word_at + 1),
        None => times_behind(line, word_at + 1),
    };
    if pieces {
        line.draft.pack.pieces.push(size.value);
    } else {
        line.draft.pack.sizes.push(size.value);
        line.draft.pack.unit = inner.map(|(one, _)| one.to_owned());
    }
    note(line, from..end, count);
    Some(end)
}

/// `2 packs of 12`, `box of 16`, `card of 6`.
fn of(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let (count, word_at) = counted(line, at);
    let word = line.word(word_at)?;
    if !(PACKS.contains(&word) || LOOSE_PACKS.contains(&word)) || !line.is(word_at + 1, &["of", "with"]) {
        return None;
    }
    let size = whole_number(line, word_at + 2).filter(|size| !line.hangs(word_at + 2, size.end))?;
    let mut end = size.end;
    if let Some((one, _)) = line.word(end).and_then(unit)
        && (line.is(end + 1, &["of"]) || size.value > 1)
    {
        line.draft.pack.unit = Some(one.to_owned());
        end += 1;
    }
    let (times, end) = times_behind(line, end);
    line.draft.pack.sizes.push(size.value);
    note(line, at..end, count);
    line.draft.pack.counts.extend(times);
    Some(end)
}

/// `12 per pack`, `12 in a pack`.
fn inside(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let size = whole_number(line, at)?;
    if let Some(end) = line.phrase(size.end, "in each").filter(|&end| !is_pack(line, end)) {
        line.draft.pack.sizes.push(size.value);
        note(line, at..end, None);
        return Some(end);
    }
    let end = line.any_phrase(size.end, &["per", "to a", "in a", "in each", "to the", "/"])?;
    if !is_pack(line, end) || line.is(end + 1, &["of"]) {
        return None;
    }
    line.draft.pack.sizes.push(size.value);
    note(line, at..end + 1, None);
    Some(end + 1)
}

fn is_pack(line: &Line<'_>, at: usize) -> bool {
    line.word(at).is_some_and(|word| PACKS.contains(&word) || LOOSE_PACKS.contains(&word))
}

/// A pack without a number: `2 packs of pens`, `a box of crayons`, `2 boxes crayons`.
fn plain(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let (count, word_at) = counted(line, at);
    let word = line.word(word_at)?;
    let sure = PACKS.contains(&word) && !part_of_a_name(line, word_at);
    let of = line.is(word_at + 1, &["of"]);
    let thing_behind = line.word(word_at + 1).is_some_and(|word| !SMALL.contains(&word));
    let loose = LOOSE_PACKS.contains(&word) && (of || (count.is_some() && word.ends_with('s') && thing_behind));
    if !(sure || loose) || line.hangs(word_at, word_at + 1) {
        return None;
    }
    note(line, at..word_at + 1, count);
    Some(word_at + 1)
}

/// Whether this pack word ends a name that the catalogue knows (a tissue pack).
fn part_of_a_name(line: &Line<'_>, at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| line.word(before)) else { return false };
    let word = line.word(at).unwrap_or_default();
    line.ctx.catalogue.named(&format!("{before} {word}")).is_some()
}

/// A count or an article before a pack word; an article is no count.
fn counted(line: &Line<'_>, at: usize) -> (Option<u32>, usize) {
    match number(line, at) {
        Some(number) if number.article => (Some(1), number.end),
        Some(number) if !letters_before(line, at) => (Some(number.value), number.end),
        _ => (None, at),
    }
}

/// `2 x` or `2` right before a pack with its size; not the label of a place.
fn times_before(line: &Line<'_>, at: usize) -> (usize, Option<u32>) {
    let x = at.checked_sub(1).filter(|&before| line.is(before, &["x"]));
    let end = x.unwrap_or(at);
    let label = |from: usize| from.checked_sub(1).is_some_and(|before| line.is(before, &PLACES));
    match number_before(line, end).filter(|&(from, _)| !label(from)) {
        Some((from, count)) => (from, Some(count)),
        None => (at, None),
    }
}

/// `x 2`, `x2`, `qty 2` behind a pack.
fn times_behind(line: &Line<'_>, at: usize) -> (Option<u32>, usize) {
    let times = line.is(at, &["x", "qty", "quantity"]).then(|| line.whole(at + 1)).flatten();
    let more = line.is(at + 2, &["x"]) || line.glued(at + 2) && line.word(at + 2).is_some();
    match times.filter(|_| !more) {
        Some(count) => (Some(count), at + 2),
        None => (None, at),
    }
}

fn note(line: &mut Line<'_>, range: std::ops::Range<usize>, count: Option<u32>) {
    let of = usize::from(line.is(range.end, &["of"]));
    line.take(range.start..range.end + of, What::Pack);
    line.draft.pack.named = true;
    line.draft.pack.counts.extend(count);
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, packs, pieces, questions, units};

    #[test]
    fn a_pack_with_its_size() {
        for line in [
            "12 pack pencils 1.00",
            "12-pack pencils 1.00",
            "12pk pencils 1.00",
            "pencils 12 ct 1.00",
            "pencils 12 count 1.00",
            "pencils, pack of 12, 1.00",
            "a pack of 12 pencils 1.00",
            "1 pack of 12 pencils 1.00",
            "package of twelve pencils 1.00",
            "box of 12 pencils 1.00",
            "bag of 12 pencils 1.00",
            "set of 12 pencils 1.00",
            "card of 12 pencils 1.00",
            "12 pack of pencils 1.00",
            "a 12 pack of pencils 1.00",
            "pack of a dozen pencils 1.00",
            "12 per pack pencils 1.00",
        ] {
            assert_eq!((packs(line), units(line)), ((1, Some(12)), Some(12)), "{line}");
            assert_eq!(name(line), "pencils", "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        assert_eq!(units("six-pack combs 1.00"), Some(6));
    }

    #[test]
    fn several_packs_with_their_size() {
        for line in [
            "2 packs of 12 pencils 1.00",
            "2 12-packs pencils 1.00",
            "2 12 packs pencils 1.00",
            "two 12 packs of pencils 1.00",
            "2 x 12 pack pencils 1.00",
            "2x12 pack pencils 1.00",
            "2x 12-pack pencils 1.00",
            "12pk x 2 pencils 1.00",
            "12pk x2 pencils 1.00",
            "pencils 12 ct qty 2 1.00",
            "x2 12pk pencils 1.00",
            "2 packs 12 ct pencils 1.00",
            "pencils 12-pack, 2 packs 1.00",
        ] {
            assert_eq!((packs(line), units(line)), ((2, Some(12)), Some(24)), "{line}");
            assert_eq!(name(line), "pencils", "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn sets_are_one_unit() {
        for (line, count, each) in [
            ("5 boxes of 16 crayons 4.00", 5, Some(16)),
            ("crayons 16 ct 1.00", 1, Some(16)),
            ("100 piece jigsaw 1.00", 1, Some(100)),
            ("2 100 piece jigsaws 1.00", 2, Some(100)),
            ("crayons 16 pc 1.00", 1, Some(16)),
            ("box of crayons 1.00", 1, None),
            ("2 boxes crayons 1.00", 2, None),
            ("2 packs of markers 1.00", 2, None),
            ("a 4 piece tea set 1.00", 1, Some(4)),
        ] {
            assert_eq!((units(line), pieces(line)), (Some(count), each), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn what_could_be_counted_twice_asks() {
        for line in [
            "12 pencils 12 pack 1.00",
            "2 pencils 12 pack 1.00",
            "24 pencils 2 packs of 12 1.00",
            "a pack of pencils 1.00",
            "2 packs of pencils 1.00",
            "24 crayons 50c",
            "pencils 12 pack 10 pack 1.00",
            "48 pc pencils 1.00",
            "pens 1.00 a pack",
        ] {
            assert_eq!(units(line), None, "{line}");
            assert_eq!(questions(line), ["units"], "{line}");
        }
    }

    #[test]
    fn things_that_only_sound_like_packs() {
        for (line, expected) in [
            ("2 gift bags 1.00", "gift bags"),
            ("a box 1.00", "box"),
            ("card game 1.00", "card game"),
            ("a tea set 1.00", "tea set"),
            ("tissue pack 1.00", "tissue pack"),
            ("backpack 1.00", "backpack"),
            ("one-piece swimsuit 1.00", "one-piece swimsuit"),
        ] {
            assert_eq!(name(line), expected, "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }
}
