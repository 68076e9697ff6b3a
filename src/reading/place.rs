//! Rule 11: where it is kept.

use super::draft::PlaceSaid;
use super::line::Line;
use super::question::About;
use super::taken::What;
use super::words::{PLACES, SMALL};

/// Finds `tote 7`, `bin B7`, `in tote blue`. Without a label it is a thing (a tote bag).
pub(super) fn places(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let word = line.word(at).filter(|word| PLACES.contains(word) && !line.hangs(at, at + 1))?.to_owned();
        let (from, led) = lead(line, at);
        let label = if line.is(at + 1, &["#", ":", "no"]) { at + 2 } else { at + 1 };
        if line.took(label) == Some(What::Pack) && line.tokens.get(label).is_some_and(|token| token.whole().is_some()) {
            line.doubt(from..label + 1, About::Units, "is the number a label or a count?");
            return Some(label + 1);
        }
        let end = label_end(line, label, led)?;
        let typed = line.typed(label..end).to_lowercase();
        if typed.strip_prefix('x').is_some_and(|rest| !rest.is_empty() && rest.chars().all(|c| c.is_ascii_digit())) {
            line.doubt(from..end, About::Units, "is the number a label or a count?");
            return Some(end);
        }
        let numeric = line.number(label).is_some() || typed == "a";
        line.take(from..end, What::Place);
        line.draft.places.push(PlaceSaid { place: format!("{word} {typed}"), label, numeric });
        Some(end)
    });
}

/// Where *in the* before a place begins, if it stands there.
fn lead(line: &Line<'_>, at: usize) -> (usize, bool) {
    let before = at.checked_sub(1);
    let article = before.filter(|&before| line.is(before, &["the", "my", "our"]));
    let lead = article.unwrap_or(at).checked_sub(1).filter(|&lead| line.is(lead, &["in", "into", "to"]));
    match lead {
        Some(lead) => (lead, true),
        None => (at, false),
    }
}

/// The end of a label: a number, a letter, letters with digits; after *in* any word.
fn label_end(line: &Line<'_>, at: usize, led: bool) -> Option<usize> {
    let mut end = at;
    let mut digits = false;
    while line.open(end).is_some() && (end == at || line.glued(end)) {
        let whole = line.whole(end).is_some();
        let hyphen = line.is(end, &["-"]) && end > at && line.glued(end + 1);
        if !whole && !hyphen && line.word(end).is_none() {
            break;
        }
        digits |= whole;
        end += 1;
    }
    let word = line.word(at).filter(|_| end == at + 1);
    let letter = word.is_some_and(|word| word.chars().count() == 1);
    let any_word = led && word.is_some_and(|word| !SMALL.contains(&word));
    let short = end - at <= 3;
    (end > at && short && (digits || letter || any_word)).then_some(end)
}

/// Asks where the label of a place could begin a count.
pub(super) fn doubtful_labels(line: &mut Line<'_>) {
    let Some(label) = ambiguous(line) else { return };
    let why = format!("\"{}\": is it a label or a count?", line.typed(label - 1..label + 1));
    line.draft.places.clear();
    line.ask(About::Units, why);
}

/// The label of a place that could begin a count: a name follows it, and nothing else counts.
fn ambiguous(line: &Line<'_>) -> Option<usize> {
    let counted = line.draft.pack.named || line.draft.counts.iter().any(|count| !count.article);
    let said = line.draft.places.iter().find(|place| place.numeric)?;
    let behind = (said.label + 1..line.tokens.len())
        .find(|&i| !matches!(line.took(i), Some(What::Colour | What::Whom | What::Flag | What::Size)))?;
    let pack = line.took(behind) == Some(What::Pack);
    let name = line.took(behind) == Some(What::Name) && line.tokens.get(behind).is_some_and(|token| token.text != ",");
    let unit =
        line.took(behind) == Some(What::Count) && line.tokens.get(behind).is_some_and(|token| token.whole().is_none());
    (pack || ((name || unit) && !counted)).then_some(said.label)
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, read, units};

    #[test]
    fn places_have_a_label() {
        for (line, place) in [
            ("comb tote 7 1.00", "tote 7"),
            ("comb 1.00 Tote 7", "tote 7"),
            ("comb 1.00 in tote 7", "tote 7"),
            ("comb 1.00 in the tote blue", "tote blue"),
            ("comb bin B7 1.00", "bin b7"),
            ("comb shelf C 1.00", "shelf c"),
            ("comb 1.00 drawer 3", "drawer 3"),
            ("6 combs tote 7 blue 1.00", "tote 7"),
            ("tote 7, 6 combs 1.00", "tote 7"),
            ("tote 7 6 combs 1.00", "tote 7"),
            ("comb cupboard #2 1.00", "cupboard 2"),
        ] {
            assert_eq!(read(line).place.as_deref(), Some(place), "{line}");
            assert!(about(line).is_empty(), "{line}: {:?}", about(line));
        }
    }

    #[test]
    fn without_a_label_it_is_a_thing() {
        for (line, thing, count) in [
            ("tote bag 1.00", "tote bag", 1),
            ("basket 1.00", "basket", 1),
            ("2 baskets 1.00", "baskets", 2),
            ("drawer 50c", "drawer", 1),
            ("basket 5x3x2 in .50", "basket", 1),
            ("crate 4/$1", "crate", 4),
        ] {
            assert_eq!((name(line).as_str(), units(line)), (thing, Some(count)), "{line}");
            assert_eq!(read(line).place, None, "{line}");
            assert!(about(line).is_empty(), "{line}: {:?}", about(line));
        }
    }

    #[test]
    fn a_label_that_could_be_a_count_asks() {
        for line in [
            "tote 4 combs 1.00",
            "in tote 4 combs 1.00",
            "tote 4 blue combs 1.00",
            "tote a comb 1.00",
            "bin 12 pack pencils 1.00",
            "tote 7 12 pack pencils 1.00",
            "tote 7 packs of 5 pencils 1.00",
            "tote 5 yards of cord 1.00",
            "comb tote x4 1.00",
        ] {
            assert_eq!(about(line), ["units"], "{line}");
            assert_eq!(units(line), None, "{line}");
        }
    }
}
