//! A layer of a box from above, in signs: as large as there is room for, in the proportion of the box.

use crate::season::FitPiece;

/// A picture with its frame.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Picture {
    /// Its rows, the back of the box first.
    pub rows: Vec<String>,
    /// Where letters stand: column, row, letter; what lies wholly under others has none.
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
/// Later pieces lie over earlier ones. A row is about twice as high as a column is wide.
pub fn picture(pieces: &[FitPiece], [length, width]: [i32; 2], columns: u16, rows: u16) -> Picture {
    let (wide, high) = extent(length.max(1), width.max(1), columns.saturating_sub(2), rows.saturating_sub(2));
    if wide == 0 || high == 0 {
        return Picture::default();
    }
    let mut grid = Grid { signs: vec![vec![' '; wide]; high], owners: vec![vec![None; wide]; high] };
    for (owner, piece) in pieces.iter().enumerate() {
        let (left, right) = cells(piece.lo[0], piece.hi[0], length, wide);
        let (front, back) = cells(piece.lo[1], piece.hi[1], width, high);
        grid.draw(owner, &Spot { left, right, back: high - back, front: high - front }, piece.soft);
    }
    grid.part(pieces);
    let mut letters = Vec::new();
    for (owner, piece) in pieces.iter().enumerate() {
        letters.extend(grid.name(owner, piece));
    }
    let rule = "─".repeat(wide);
    let inner = grid.signs.iter().map(|row| format!("│{}│", row.iter().collect::<String>()));
    let rows = std::iter::once(format!("┌{rule}┐")).chain(inner).chain([format!("└{rule}┘")]).collect();
    Picture { rows, letters }
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

/// Signs, and which piece each of them is of.
struct Grid {
    signs: Vec<Vec<char>>,
    owners: Vec<Vec<Option<usize>>>,
}

impl Grid {
    fn draw(&mut self, owner: usize, spot: &Spot, soft: bool) {
        for y in spot.back..spot.front {
            for x in spot.left..spot.right {
                self.signs[y][x] = if soft { '░' } else { spot.border(x, y) };
                self.owners[y][x] = Some(owner);
            }
        }
    }

    /// A blank column parts soft things that lie side by side: they have no border.
    fn part(&mut self, pieces: &[FitPiece]) {
        let is_soft = |owner: Option<usize>| owner.and_then(|owner| pieces.get(owner)).is_some_and(|piece| piece.soft);
        for (signs, owners) in self.signs.iter_mut().zip(&self.owners) {
            for x in 1..owners.len() {
                let (left, right) = (owners[x - 1], owners[x]);
                if left != right && is_soft(left) && is_soft(right) {
                    signs[x] = ' ';
                }
            }
        }
    }

    /// Writes the letter of a piece in the middle of what one sees of it; gives its place in the framed picture.
    fn name(&mut self, owner: usize, piece: &FitPiece) -> Option<(u16, u16, char)> {
        let is_its = |x: usize, y: usize| self.owners.get(y).and_then(|row| row.get(x)) == Some(&Some(owner));
        let rows = 0..self.signs.len();
        let seen: Vec<(usize, usize)> =
            rows.flat_map(|y| (0..self.signs[y].len()).map(move |x| (x, y))).filter(|(x, y)| is_its(*x, *y)).collect();
        let many = seen.len().max(1);
        let middle = seen.iter().fold((0, 0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
        // The middle of all cells of it, in whole cells; a row counts as much as two columns.
        let far = |at: &(usize, usize)| (at.0 * many).abs_diff(middle.0) + 2 * (at.1 * many).abs_diff(middle.1);
        let (x, y) = seen.iter().copied().min_by_key(|at| (far(at), at.1, at.0))?;
        let beside = |x: usize| is_its(x, y) && piece.soft && seen.len() >= 5;
        let blank: Vec<usize> = [x.checked_sub(1), Some(x + 1)].into_iter().flatten().filter(|x| beside(*x)).collect();
        for x in blank {
            self.signs[y][x] = ' ';
        }
        self.signs[y][x] = piece.letter;
        Some((u16::try_from(x + 1).ok()?, u16::try_from(y + 1).ok()?, piece.letter))
    }
}

impl Spot {
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

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(letter: char, lo: [i32; 2], hi: [i32; 2], soft: bool) -> FitPiece {
        FitPiece { lo, hi, letter, soft }
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
        let pieces = [piece('A', [0, 0], [60, 60], false), piece('b', [60, 0], [120, 60], true)];
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
    fn the_back_is_above_and_later_pieces_lie_over_earlier_ones() {
        let pieces = [piece('A', [0, 0], [100, 100], false), piece('B', [0, 50], [100, 100], false)];
        let drawn = picture(&pieces, [100, 100], 10, 6);
        assert_eq!(drawn.rows, ["┌────────┐", "│┌──B───┐│", "│└──────┘│", "││  A   ││", "│└──────┘│", "└────────┘"]);
        assert_eq!(drawn.letters, [(4, 3, 'A'), (4, 1, 'B')], "A's letter is where one sees A");
        let under = [piece('A', [0, 0], [50, 50], false), piece('B', [0, 0], [100, 100], false)];
        assert_eq!(picture(&under, [100, 100], 10, 6).letters, [(4, 2, 'B')], "one sees nothing of A");
    }

    #[test]
    fn however_small_a_thing_is_there_is_a_cell_for_it() {
        let pieces = [piece('P', [299, 0], [300, 1], false)];
        let drawn = picture(&pieces, [300, 200], 12, 6);
        assert!(drawn.rows[3].contains('P'), "{:?}", drawn.rows);
        assert_eq!(picture(&pieces, [300, 200], 2, 2), Picture::default());
    }
}
