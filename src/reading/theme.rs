//! Rule 11: what a box will be about.

use super::line::Line;
use super::shop::stops;
use super::taken::What;
use super::words::SMALL;

/// Finds `theme ocean`, `ocean theme`, `for the ocean box`.
pub(super) fn themes(line: &mut Line<'_>) {
    line.scan(|line, at| for_the_box(line, at).or_else(|| theme(line, at)));
}

fn for_the_box(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let start = line.any_phrase(at, &["for the", "for an", "for a"])?;
    let words = (1..=3).find(|&words| line.is(start + words, &["box", "boxes"]))?;
    let end = start + words;
    if !(start..end).all(|i| line.word(i).is_some_and(|word| !SMALL.contains(&word))) || line.is(end + 1, &["of"]) {
        return None;
    }
    let label = line.typed(start..end);
    Some(keep(line, at..end + 1, &label))
}

fn theme(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let themed = line.is(at, &["themed"]);
    if !themed && !line.is(at, &["theme"]) {
        return None;
    }
    let label = if line.is(at + 1, &[":", "="]) { at + 2 } else { at + 1 };
    let mut end = label;
    while line.word(end).is_some_and(|word| !SMALL.contains(&word)) && (end == label || !stops(line, end)) {
        end += if line.is(end + 1, &["the"]) && !stops(line, end + 2) { 2 } else { 1 };
    }
    let before = before(line, at);
    if end > label && !(before.is_some() && (themed || names_thing(line, label, end, at))) {
        let typed = line.typed(label..end);
        return Some(keep(line, at..end, &typed));
    }
    let from = before?;
    let typed = line.typed(from..from + 1);
    keep(line, from..at + 1, &typed);
    Some(at + 1)
}

/// The one word before, over a hyphen if there is one.
fn before(line: &Line<'_>, at: usize) -> Option<usize> {
    let hyphen = at.checked_sub(1).filter(|&before| line.is(before, &["-"]) && line.glued(before));
    let word = hyphen.unwrap_or(at).checked_sub(1)?;
    line.word(word).filter(|word| !SMALL.contains(word)).map(|_| word)
}

/// Whether the words behind *theme* are the thing itself (an ocean theme cup), or only a colour of it.
fn names_thing(line: &Line<'_>, label: usize, end: usize, at: usize) -> bool {
    let catalogue = line.ctx.catalogue;
    let colour = end == label + 1 && stops(line, label) && at >= 2 && line.word(at - 2).is_some();
    let behind = catalogue.kind_of(&line.typed(label..end)).is_some();
    let before = (0..at).any(|i| line.word(i).is_some_and(|word| catalogue.named(word).is_some()));
    colour || (behind && !before)
}

fn keep(line: &mut Line<'_>, range: std::ops::Range<usize>, label: &str) -> usize {
    let end = range.end;
    line.take(range, What::Theme);
    line.draft.themes.push(label.to_lowercase());
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
