//! Rule 11: what a box will be about.

use super::shop::stops;
use super::taken::What;
use super::words::SMALL;
use super::work::Work;

/// Finds `theme ocean`, `ocean theme`, `for the ocean box`.
pub(super) fn themes(work: &mut Work<'_>) {
    work.scan(|work, at| for_the_box(work, at).or_else(|| theme(work, at)));
}

fn for_the_box(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let start = work.any_phrase(at, &["for the", "for an", "for a"])?;
    let words = (1..=3).find(|&words| work.is(start + words, &["box", "boxes"]))?;
    let end = start + words;
    if !(start..end).all(|i| work.word(i).is_some_and(|word| !SMALL.contains(&word))) || work.is(end + 1, &["of"]) {
        return None;
    }
    let label = work.typed(start..end);
    Some(keep(work, at..end + 1, &label))
}

fn theme(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let themed = work.is(at, &["themed"]);
    if !themed && !work.is(at, &["theme"]) {
        return None;
    }
    let label = if work.is(at + 1, &[":", "="]) { at + 2 } else { at + 1 };
    let mut end = label;
    while work.word(end).is_some_and(|word| !SMALL.contains(&word)) && (end == label || !stops(work, end)) {
        end += if work.is(end + 1, &["the"]) && !stops(work, end + 2) { 2 } else { 1 };
    }
    let before = before(work, at);
    if end > label && !(before.is_some() && (themed || names_thing(work, label, end, at))) {
        let typed = work.typed(label..end);
        return Some(keep(work, at..end, &typed));
    }
    let from = before?;
    let typed = work.typed(from..from + 1);
    keep(work, from..at + 1, &typed);
    Some(at + 1)
}

/// The one word before, over a hyphen if there is one.
fn before(work: &Work<'_>, at: usize) -> Option<usize> {
    let hyphen = at.checked_sub(1).filter(|&before| work.is(before, &["-"]) && work.glued(before));
    let word = hyphen.unwrap_or(at).checked_sub(1)?;
    work.word(word).filter(|word| !SMALL.contains(word)).map(|_| word)
}

/// Whether the words behind *theme* are the thing itself (an ocean theme cup), or only a colour of it.
fn names_thing(work: &Work<'_>, label: usize, end: usize, at: usize) -> bool {
    let catalogue = work.ctx.catalogue;
    let colour = end == label + 1 && stops(work, label) && at >= 2 && work.word(at - 2).is_some();
    let behind = catalogue.kind_of(&work.typed(label..end)).is_some();
    let before = (0..at).any(|i| work.word(i).is_some_and(|word| catalogue.named(word).is_some()));
    colour || (behind && !before)
}

fn keep(work: &mut Work<'_>, range: std::ops::Range<usize>, label: &str) -> usize {
    let end = range.end;
    work.take(range, What::Theme);
    work.draft.themes.push(label.to_lowercase());
    end
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, read};

    #[test]
    fn themes_before_and_behind() {
        for (line, theme) in [
            ("cup theme ocean 1.00", "ocean"),
            ("cup, theme Under The Sea, 1.00", "under the sea"),
            ("cup for the ocean box 1.00", "ocean"),
            ("cup ocean theme 1.00", "ocean"),
            ("ocean theme cup 1.00", "ocean"),
            ("ocean-themed cup 1.00", "ocean"),
            ("cup ocean theme pink 1.00", "ocean"),
            ("cup theme: space tote 4 1.00", "space"),
            ("cup theme forest 1.00", "forest"),
        ] {
            assert_eq!(read(line).theme.as_deref(), Some(theme), "{line}");
            assert_eq!(name(line), "cup", "{line}");
        }
        assert_eq!(read("cup ocean theme pink 1.00").colours, ["pink"]);
        assert!(read("cup theme forest 1.00").colours.is_empty());
    }
}
