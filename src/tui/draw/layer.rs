//! A layer of a box from above, in signs: as large as there is room for, in the proportion of the box.

use crate::season::FitPiece;

/// A picture with its frame.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Picture {
    /// Its rows, the back of the box first.
    pub rows: Vec<String>,
    /// Where letters stand: column, row, letter.
    pub letters: Vec<(u16, u16, char)>,
}

/// The columns and rows that a piece takes.
struct Spot {
    left: usize,
    right: usize,
    back: usize,
    front: usize,
}

/// Draws pieces in a box of this length and width in at most so many columns and rows, its frame among them.
///
/// The lowest piece comes first; higher ones lie over it. A row is about twice as high as a column is wide.
pub fn picture(pieces: &[FitPiece], [length, width]: [i32; 2], columns: u16, rows: u16) -> Picture {
    let (wide, high) = extent(length.max(1), width.max(1), columns.saturating_sub(2), rows.saturating_sub(2));
    if wide == 0 || high == 0 {
        return Picture::default();
    }
    let mut grid = vec![vec![' '; wide]; high];
    let mut letters = Vec::new();
    let mut sorted: Vec<&FitPiece> = pieces.iter().collect();
    // Of two at the same height the smaller one is drawn last, so that rounding never hides it.
    sorted.sort_by_key(|piece| (piece.top, std::cmp::Reverse(area(piece))));
    for piece in sorted {
        let (left, right) = cells(piece.lo[0], piece.hi[0], length, wide);
        let (front, back) = cells(piece.lo[1], piece.hi[1], width, high);
        let spot = Spot { left, right, back: high - back, front: high - front };
        letters.retain(|(x, y, _)| !spot.has(*x, *y));
        letters.push(draw(&mut grid, &spot, piece));
    }
    let rule = "─".repeat(wide);
    let inner = grid.iter().map(|row| format!("│{}│", row.iter().collect::<String>()));
    let rows = std::iter::once(format!("┌{rule}┐")).chain(inner).chain([format!("└{rule}┘")]).collect();
    let shown = |(x, y, letter): (usize, usize, char)| Some((short(x + 1)?, short(y + 1)?, letter));
    Picture { rows, letters: letters.into_iter().filter_map(shown).collect() }
}

fn area(piece: &FitPiece) -> i64 {
    i64::from(piece.hi[0] - piece.lo[0]) * i64::from(piece.hi[1] - piece.lo[1])
}

fn short(number: usize) -> Option<u16> {
    u16::try_from(number).ok()
}

/// Columns and rows in the proportion of the box, as many as there is room for.
fn extent(length: i32, width: i32, columns: u16, rows: u16) -> (usize, usize) {
    let (length, width) = (i64::from(length), i64::from(width));
    let (columns, rows) = (i64::from(columns), i64::from(rows));
    let high = (columns * width + length) / (2 * length);
    let (wide, high) = if high <= rows { (columns, high) } else { (2 * rows * length / width, rows) };
    let count = |number: i64, most: i64| usize::try_from(number.clamp(1.min(most), most)).unwrap_or(0);
    (count(wide, columns), count(high, rows))
}

/// From which cell to which, of so many that stand for the whole; at least one.
fn cells(lo: i32, hi: i32, whole: i32, count: usize) -> (usize, usize) {
    let whole = i64::from(whole.max(1));
    let many = i64::try_from(count).unwrap_or(i64::MAX);
    let at = |place: i32| {
        let cell = (i64::from(place).clamp(0, whole) * many * 2 + whole) / (2 * whole);
        usize::try_from(cell).unwrap_or(0).min(count)
    };
    let (from, to) = (at(lo), at(hi));
    if to > from { (from, to) } else { (from.min(count - 1), from.min(count - 1) + 1) }
}

impl Spot {
    fn has(&self, x: usize, y: usize) -> bool {
        (self.left..self.right).contains(&x) && (self.back..self.front).contains(&y)
    }

    /// The sign at a place of something stiff: its border, blank within.
    fn border(&self, x: usize, y: usize) -> char {
        let (first, last) = (x == self.left, x + 1 == self.right);
        let (top, bottom) = (y == self.back, y + 1 == self.front);
        match (first && last, top && bottom) {
            (true, true) => return ' ',
            (true, false) => return '│',
            (false, true) => return '─',
            (false, false) => {}
        }
        match (first, last, top, bottom) {
            (true, _, true, _) => '┌',
            (_, true, true, _) => '┐',
            (true, _, _, true) => '└',
            (_, true, _, true) => '┘',
            (true, ..) | (_, true, ..) => '│',
            (_, _, true, _) | (_, _, _, true) => '─',
            _ => ' ',
        }
    }
}

/// Draws a piece, and tells where its letter is.
fn draw(grid: &mut [Vec<char>], spot: &Spot, piece: &FitPiece) -> (usize, usize, char) {
    let (x, y) = ((spot.left + spot.right - 1) / 2, (spot.back + spot.front - 1) / 2);
    for row in spot.back..spot.front {
        for column in spot.left..spot.right {
            let beside = row == y && column.abs_diff(x) == 1 && spot.right - spot.left >= 5;
            grid[row][column] = match (column, row) {
                at if at == (x, y) => piece.letter,
                _ if piece.soft && beside => ' ',
                _ if piece.soft => '░',
                _ => spot.border(column, row),
            };
        }
    }
    (x, y, piece.letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(letter: char, lo: [i32; 2], hi: [i32; 2], top: i32, soft: bool) -> FitPiece {
        FitPiece { lo, hi, top, letter, soft }
    }

    #[test]
    fn a_box_keeps_its_proportion_within_the_room_there_is() {
        // 330 × 200 mm in 44 columns: 44 × 200 ÷ 330 ÷ 2 = 13.3 rows.
        assert_eq!(extent(330, 200, 44, 13), (44, 13));
        assert_eq!(extent(330, 200, 60, 10), (33, 10));
        assert_eq!(extent(200, 200, 44, 99), (44, 22));
        assert_eq!(extent(1, 30_000, 44, 13), (1, 13));
        assert_eq!(extent(30_000, 1, 44, 13), (44, 1));
        assert_eq!(extent(330, 200, 0, 0), (0, 0));
    }

    #[test]
    fn stiff_things_have_a_border_and_soft_ones_a_texture() {
        let pieces = [piece('A', [0, 0], [60, 60], 10, false), piece('b', [60, 0], [120, 60], 10, true)];
        let drawn = picture(&pieces, [120, 60], 14, 5);
        assert_eq!(
            drawn.rows,
            [
                "┌────────────┐", // 12 columns for 120 mm, 3 rows for 60
                "│┌────┐░░░░░░│",
                "││ A  │░ b ░░│",
                "│└────┘░░░░░░│",
                "└────────────┘",
            ]
        );
        assert_eq!(drawn.letters, [(3, 2, 'A'), (9, 2, 'b')]);
    }

    #[test]
    fn the_back_is_above_and_what_is_higher_lies_over_what_is_lower() {
        let pieces = [piece('A', [0, 0], [100, 100], 5, false), piece('B', [0, 50], [100, 100], 9, false)];
        let drawn = picture(&pieces, [100, 100], 10, 6);
        assert_eq!(drawn.rows, ["┌────────┐", "│┌──────┐│", "│└──B───┘│", "││      ││", "│└──────┘│", "└────────┘"]);
        assert_eq!(drawn.letters, [(4, 2, 'B')], "A's letter lies below B");
    }

    #[test]
    fn however_small_a_thing_is_there_is_a_cell_for_it() {
        let pieces = [piece('P', [299, 0], [300, 1], 5, false)];
        let drawn = picture(&pieces, [300, 200], 12, 6);
        assert!(drawn.rows[4].contains('P'), "{:?}", drawn.rows);
        assert_eq!(picture(&pieces, [300, 200], 2, 2), Picture::default());
    }
}
