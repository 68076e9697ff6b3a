//! Columns of text, cut for nobody, aligned by cells.

use unicode_width::UnicodeWidthStr;

/// How a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// Lines of a table: headings, then rows, each indented by one space.
pub fn table(columns: &[(&str, Side)], rows: &[Vec<String>]) -> String {
    let headings: Vec<String> = columns.iter().map(|(heading, _)| (*heading).to_owned()).collect();
    let width = |index: usize| {
        let cells = rows.iter().chain([&headings]).filter_map(|row| row.get(index));
        cells.map(|cell| cell.width()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns.len()).map(width).collect();
    let mut text = String::new();
    for row in [&headings].into_iter().chain(rows).filter(|row| row.iter().any(|cell| !cell.is_empty())) {
        let cells = row.iter().zip(columns).zip(&widths);
        let line: Vec<String> = cells.map(|((cell, (_, side)), width)| pad(cell, *width, *side)).collect();
        text.push_str(format!(" {}", line.join("  ")).trim_end());
        text.push('\n');
    }
    text
}

fn pad(cell: &str, width: usize, side: Side) -> String {
    let space = " ".repeat(width.saturating_sub(cell.width()));
    match side {
        Side::Left => format!("{cell}{space}"),
        Side::Right => format!("{space}{cell}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_letters_stay_aligned() {
        let rows = [vec!["櫛".to_owned(), "9".to_owned()], vec!["comb".to_owned(), "10".to_owned()]];
        let text = table(&[("item", Side::Left), ("left", Side::Right)], &rows);
        assert_eq!(text, " item  left\n 櫛       9\n comb    10\n");
    }
}
