//! Where a single piece is left out, the others pushed together may leave room for it.

use super::rating::cornered;
use super::spaces::Spaces;
use super::{Cargo, Piece};
use crate::fit::cuboid::{Cuboid, within};

/// All is pushed along these axes, each time to the other side: down and into one corner, then round the others.
///
/// The corners under the lid are left out: they found a few more loads, but took more time than they were worth.
const ROUND: [usize; 6] = [2, 1, 0, 1, 0, 1];
/// So many of these pushes lead into the first corner.
const FIRST: usize = 3;

/// Pushes what has been loaded into one corner of the container after the other, until one more piece goes in.
#[derive(Debug, Default)]
pub struct Squeeze {
    spaces: Spaces,
}

impl Squeeze {
    /// The pieces with one more of a good, if there is room for it in some corner.
    pub fn add(&mut self, cargo: &Cargo, good: usize, mut pieces: Vec<Piece>) -> Option<Vec<Piece>> {
        let mut high = [true; 3];
        for (step, axis) in ROUND.into_iter().enumerate() {
            high[axis] = !high[axis];
            push(&mut pieces, axis, high[axis], cargo);
            if step + 1 < FIRST {
                continue;
            }
            if let Some(solid) = self.room(cargo, good, &pieces) {
                pieces.push(Piece { good, solid });
                return Some(pieces);
            }
        }
        None
    }

    /// Where there is room for a piece of a good.
    fn room(&mut self, cargo: &Cargo, good: usize, pieces: &[Piece]) -> Option<Cuboid> {
        let ways = &cargo.goods[good].ways;
        let fitting = |space: &Cuboid| ways.iter().find(|way| within(**way, space.size())).copied();
        self.spaces.reset(cargo.container);
        for solid in cargo.taken.iter().chain(pieces.iter().map(|piece| &piece.solid)) {
            self.spaces.cut_for(solid, [1; 3], |rest| fitting(rest).is_some());
        }
        let space = self.spaces.iter().next()?;
        fitting(&space.solid).map(|way| cornered(space, way))
    }
}

/// Moves every piece along an axis, to the high side or the low one, as far as the others let it.
fn push(pieces: &mut [Piece], axis: usize, high: bool, cargo: &Cargo) {
    let turned = |solid: &Cuboid| if high { -solid.hi[axis] } else { solid.lo[axis] };
    let farthest = |solid: &Cuboid| if high { -solid.lo[axis] } else { solid.hi[axis] };
    let wall = if high { -cargo.container[axis] } else { 0 };
    pieces.sort_unstable_by_key(|piece| (turned(&piece.solid), piece.good));
    for at in 0..pieces.len() {
        let solid = pieces[at].solid;
        let others = pieces[..at].iter().map(|piece| &piece.solid).chain(&cargo.taken);
        let stops = others.filter(|other| farthest(other) <= turned(&solid) && in_line(other, &solid, axis));
        let by = stops.map(farthest).max().unwrap_or(wall) - turned(&solid);
        let by = if high { -by } else { by };
        pieces[at].solid.lo[axis] += by;
        pieces[at].solid.hi[axis] += by;
    }
}

/// Whether one would meet the other if moved along an axis.
fn in_line(one: &Cuboid, other: &Cuboid, axis: usize) -> bool {
    let across = |side: usize| one.lo[side] < other.hi[side] && other.lo[side] < one.hi[side];
    across((axis + 1) % 3) && across((axis + 2) % 3)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::cuboid::Size;

    /// A row of pieces 30 mm long, and one of this length that is left out.
    fn squeezed(lows: [i32; 2], last: i32, taken: Vec<Cuboid>) -> Option<Vec<Piece>> {
        let along = |length: i32| -> (Vec<Size>, u16) { (vec![[length, 10, 10]], 1) };
        let cargo = Cargo::new([100, 10, 10], [along(30), along(30), along(last)]).beside(taken);
        let piece = |(good, low): (usize, i32)| Piece { good, solid: Cuboid::at([low, 0, 0], [30, 10, 10]) };
        Squeeze::default().add(&cargo, 2, lows.into_iter().enumerate().map(piece).collect())
    }

    /// Where the pieces begin, by good.
    fn begins(pieces: &[Piece]) -> Vec<(usize, i32)> {
        let mut begins: Vec<_> = pieces.iter().map(|piece| (piece.good, piece.solid.lo[0])).collect();
        begins.sort_unstable();
        begins
    }

    #[test]
    fn gaps_between_pieces_become_one() {
        let whole = squeezed([10, 50], 40, Vec::new()).map(|pieces| begins(&pieces));
        assert_eq!(whole, Some(vec![(0, 0), (1, 30), (2, 60)]));
        assert_eq!(squeezed([10, 50], 41, Vec::new()), None);
    }

    #[test]
    fn nothing_is_pushed_through_what_is_there_from_the_start() {
        let wall = || vec![Cuboid::at([40, 0, 0], [5, 10, 10])];
        let whole = squeezed([5, 55], 25, wall()).map(|pieces| begins(&pieces));
        assert_eq!(whole, Some(vec![(0, 0), (1, 45), (2, 75)]));
        assert_eq!(squeezed([5, 55], 26, wall()), None);
    }
}
