//! Holders are filled first: small things go where they belong, then wherever a stiff holder has room to spare.

use super::cuboid::{Cuboid, Size, volume};
use super::pack::{Cargo, Goal, Packer};
use super::press::pressed_ways;
use super::thing::{Problem, Thing};
use crate::model::stop::Stop;

/// How many ways of filling one holder are tried.
const ROLLOUTS: u64 = 8;

/// One thing with what is tucked into it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Filled {
    /// Which of the things.
    pub thing: usize,
    /// What is in it, and where in its room.
    pub contents: Vec<(Filled, Cuboid)>,
}

/// All things, sorted into what goes into the box as it is and what holds others.
#[derive(Debug, Clone, Default)]
pub struct Tucked {
    /// How many of each thing go into the box with nothing in them.
    pub plain: Vec<u16>,
    /// Holders with something in them that go into the box.
    pub filled: Vec<Filled>,
}

/// Never stops: what is done before the search itself is a matter of a few rollouts.
pub struct Never;

impl Stop for Never {
    fn stopped(&self) -> bool {
        false
    }
}

impl Filled {
    /// The extents that it may have: a bag is thicker by what it holds.
    pub fn ways(&self, things: &[Thing]) -> Vec<Size> {
        let thing = &things[self.thing];
        let mut ways = thing.ways();
        if thing.room.as_ref().is_some_and(|room| room.swells) {
            let contents: i64 = self.contents.iter().map(|(_, solid)| solid.volume()).sum();
            for way in &mut ways {
                swell(way, contents);
            }
        }
        ways
    }

    /// Its own weight and that of all in it, in tenths of a gram.
    pub fn weight(&self, things: &[Thing]) -> u64 {
        let inside: u64 = self.contents.iter().map(|(content, _)| content.weight(things)).sum();
        u64::from(things[self.thing].weight) + inside
    }
}

/// Makes a bag thicker where it is thinnest.
fn swell(way: &mut Size, contents: i64) {
    let thin = (0..3).min_by_key(|axis| way[*axis]).unwrap_or(0);
    let face = i64::from(way[(thin + 1) % 3]) * i64::from(way[(thin + 2) % 3]);
    way[thin] += i32::try_from((contents + face - 1) / face).unwrap_or(i32::MAX / 4);
}

/// Fills the holders, the smallest first, so that a filled one may go into a larger one.
pub fn tuck(problem: &Problem) -> Tucked {
    let things = &problem.things;
    let mut tucked = Tucked { plain: things.iter().map(|thing| thing.count).collect(), filled: Vec::new() };
    let room = |thing: &Thing| thing.room.as_ref().map(|room| volume(room.size));
    let mut holders: Vec<usize> = (0..things.len()).filter(|at| room(&things[*at]).is_some()).collect();
    holders.sort_by_key(|at| room(&things[*at]));
    for holder in holders {
        for _ in 0..things[holder].count {
            if !fill(things, holder, &mut tucked) {
                break;
            }
        }
    }
    tucked
}

/// Fills one holder; false if nothing went in.
fn fill(things: &[Thing], holder: usize, tucked: &mut Tucked) -> bool {
    let Some(room) = things[holder].room.as_ref().filter(|_| tucked.plain[holder] > 0) else { return false };
    let mut filled = Filled { thing: holder, contents: Vec::new() };
    add(things, &mut filled, room.size, tucked, |thing| things[thing].belongs.contains(&holder));
    if !room.swells {
        add(things, &mut filled, room.size, tucked, |thing| things[thing].belongs.is_empty());
    }
    if filled.contents.is_empty() {
        return false;
    }
    tucked.plain[holder] -= 1;
    tucked.filled.push(filled);
    true
}

/// Puts as much as will go of some things into the room that is left in a holder.
fn add(things: &[Thing], filled: &mut Filled, room: Size, tucked: &mut Tucked, wanted: impl Fn(usize) -> bool) {
    let may = |thing: usize| thing != filled.thing && !things[thing].on_top && wanted(thing);
    let plain = (0..things.len()).map(|thing| {
        let count = if may(thing) { tucked.plain[thing] } else { 0 };
        (pressed_ways(&things[thing]), count)
    });
    let others = tucked.filled.iter().map(|other| (other.ways(things), u16::from(may(other.thing))));
    let taken = filled.contents.iter().map(|(_, solid)| *solid).collect();
    let cargo = Cargo::new(room, plain.chain(others)).beside(taken);
    let mut packer = Packer::new(cargo, Goal::Most, 0);
    packer.run(&Never, ROLLOUTS);
    let mut gone = Vec::new();
    for piece in &packer.best().pieces {
        let content = if piece.good < things.len() {
            tucked.plain[piece.good] -= 1;
            Filled { thing: piece.good, contents: Vec::new() }
        } else {
            gone.push(piece.good - things.len());
            tucked.filled[piece.good - things.len()].clone()
        };
        filled.contents.push((content, piece.solid));
    }
    gone.sort_unstable();
    for index in gone.into_iter().rev() {
        tucked.filled.remove(index);
    }
}
