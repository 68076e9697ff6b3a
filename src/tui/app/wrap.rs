//! Text by the cells that it takes: how many, and in rows of so many.

use unicode_width::UnicodeWidthStr;

/// More cells than any screen is wide, and few enough to add several such widths.
const WIDEST: u16 = 10_000;

/// The cells that a text takes; of a very long one, more than there is room for.
pub fn cells(text: &str) -> u16 {
    u16::try_from(text.width()).map_or(WIDEST, |width| width.min(WIDEST))
}

/// A text in lines of at most so many cells, a word that has no room left going to the next one; the last of `most`
/// lines takes all that is left.
pub fn lines_of(text: &str, width: u16, most: usize) -> Vec<&str> {
    let (mut lines, mut left) = (Vec::new(), text);
    while !left.is_empty() && lines.len() < most {
        let end = if lines.len() + 1 == most { left.len() } else { line_end(left, width) };
        lines.push(left[..end].trim_end());
        left = left[end..].trim_start();
    }
    lines
}

/// How much of a text fits into so many cells without breaking a word; at least one word.
fn line_end(text: &str, width: u16) -> usize {
    if cells(text) <= width {
        return text.len();
    }
    let ends = text.match_indices(' ').map(|(at, _)| at);
    let fitting = ends.clone().take_while(|at| cells(&text[..*at]) <= width).last();
    fitting.or_else(|| ends.into_iter().next()).unwrap_or(text.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_parted_at_blanks_and_no_word_is_lost() {
        assert_eq!(lines_of("a bb  ccc dddddd e", 6, usize::MAX), ["a bb", "ccc", "dddddd", "e"]);
        assert_eq!(lines_of("", 6, usize::MAX), [""; 0]);
        assert_eq!(line_end("toothbrushes first", 4), 12, "a word that is too long stands alone");
    }
}
