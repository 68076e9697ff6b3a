//! Rule 6: pieces put together and given as one.

use super::draft::BundleSaid;
use super::line::Line;
use super::number::{Number, number};
use super::question::About;
use super::taken::What;

const LEADS: [&str; 14] = [
    "split into",
    "split in",
    "divided into",
    "put into",
    "bundled into",
    "bundled in",
    "made into",
    "makes up",
    "makes",
    "make",
    "made",
    "into",
    "in",
    "split",
];

/// Finds `in bundles of 8`, `split into 8s`, `makes 3 bundles of 8`.
pub(super) fn bundles(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let lead = line.any_phrase(at, &LEADS);
        let (count, size, end) = body(line, lead.unwrap_or(at), lead.is_some())?;
        if line.draft.bundle.is_some() || (lead.is_none() && count.is_some()) {
            line.doubt(at..end, About::Units, "are these bundles made of what was bought, or packs?");
            return Some(end);
        }
        line.take(at..end, What::Bundle);
        let words = line.typed(at..end);
        line.draft.bundle = Some(BundleSaid { size, count, words });
        Some(end)
    });
}

/// `3 bundles of 8`, or after a leading word also `8s`: count, size and end.
fn body(line: &Line<'_>, at: usize, led: bool) -> Option<(Option<u32>, u32, usize)> {
    let count = number(line, at).filter(|count| !line.hangs(at, count.end));
    let next = count.map_or(at, |count| count.end);
    if line.is(next, &["bundle", "bundles"]) && line.is(next + 1, &["of"]) {
        let size = number(line, next + 2).filter(|size| !size.article && size.value > 0)?;
        return Some((count.map(|count| count.value), size.value, size.end));
    }
    let Number { value, end, article } = number(line, at).filter(|_| led)?;
    let s = if line.is(end, &["'"]) && line.glued(end) { end + 1 } else { end };
    let in_s = !article && value > 0 && line.is(s, &["s"]) && line.glued(s);
    in_s.then_some((None, value, s + 1))
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{pieces, questions, units};

    #[test]
    fn units_are_bundles() {
        for line in [
            "24 coloured pencils in bundles of 8 1.00",
            "coloured pencils 24 pack 60 cents in bundles of 8",
            "24 pencils split into 8s 1.00",
            "24 pencils split into 8's 1.00",
            "24 pencils 1.00 makes 3 bundles of 8",
            "2 12-packs pencils 1.00 bundles of eight",
        ] {
            assert_eq!((units(line), pieces(line)), (Some(3), Some(8)), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
    }

    #[test]
    fn bundles_that_do_not_come_out_ask() {
        for line in [
            "25 pencils in bundles of 8 1.00",
            "24 pencils makes 4 bundles of 8 1.00",
            "pencils in bundles of 8 1.00",
            "3 bundles of 8 pencils 1.00",
            "a few pencils in bundles of 8 1.00",
        ] {
            assert_eq!(units(line), None, "{line}");
            assert_eq!(questions(line), ["units"], "{line}");
        }
    }
}
