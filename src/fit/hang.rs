//! What is to be seen first, or bears little, hangs under the lid until all else is in; then it drops with the rest.

use super::cuboid::{Cuboid, Size};
use super::pack::{Cargo, Goal, Packer};
use crate::model::stop::Stop;

/// How many ways of laying things side by side under the lid are tried.
const ROLLOUTS: u64 = 32;

/// Lays things side by side under the lid, each as flat as it may be; none where there was no place left.
///
/// Each thing comes with the extents it may have.
pub fn hang(space: Size, things: &[Vec<Size>], stop: &dyn Stop) -> Vec<Option<Cuboid>> {
    let mut hung = vec![None; things.len()];
    if things.is_empty() {
        return hung;
    }
    let flat: Vec<i32> = things.iter().map(|ways| flattest(space, ways)).collect();
    let prints = things.iter().zip(&flat).map(|(ways, flat)| {
        let lying = ways.iter().filter(|way| way[2] == *flat);
        (lying.map(|way| [way[0], way[1], 1]).collect::<Vec<Size>>(), 1)
    });
    // Seen from above each is a rectangle, and the lid one layer.
    let mut packer = Packer::new(Cargo::new([space[0], space[1], 1], prints), Goal::All, 0);
    packer.run(stop, ROLLOUTS);
    for piece in &packer.best().pieces {
        let mut solid = piece.solid;
        (solid.lo[2], solid.hi[2]) = (space[2] - flat[piece.good], space[2]);
        hung[piece.good] = Some(solid);
    }
    hung
}

/// The least height in which a thing fits the space.
fn flattest(space: Size, ways: &[Size]) -> i32 {
    let fitting = ways.iter().filter(|way| (0..3).all(|axis| way[axis] <= space[axis]));
    fitting.map(|way| way[2]).min().unwrap_or(0)
}
