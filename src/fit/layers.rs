//! A plan seen from above, layer by layer, as letters.

use super::cuboid::Cuboid;
use super::order::order;
use super::plan::{Placed, Plan};
use super::thing::Problem;

/// The picture of a box is so many letters wide; a letter is twice as high as wide.
const WIDE: i32 = 44;
/// At most so many layers.
const MOST: usize = 5;
/// What stands for things beyond the last letter.
const OTHERS: char = '#';
const FREE: char = '.';

/// A slice of the box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// Where it begins above the bottom, in millimetres.
    pub from: i32,
    /// Where it ends.
    pub to: i32,
    /// The picture from the back row to the front one: a letter for each spot, small where a thing comes up from a
    /// layer below, a dot where nothing is.
    pub rows: Vec<String>,
    /// What the letters are.
    pub legend: Vec<Legend>,
}

/// What a letter stands for in a layer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Legend {
    /// The letter, as it is in the picture.
    pub letter: char,
    /// Which of the things.
    pub thing: usize,
    /// How many of it.
    pub count: u16,
    /// How high its bottom is, in millimetres.
    pub from: i32,
    /// How high its top is.
    pub to: i32,
    /// Whether it is soft.
    pub soft: bool,
    /// Whether it began in a layer below.
    pub from_below: bool,
}

/// The layers of a plan from the bottom up; none for an empty box.
pub fn layers(problem: &Problem, plan: &Plan) -> Vec<Layer> {
    let letters = letters(problem, plan);
    let heights = heights(plan);
    heights.windows(2).map(|pair| layer(problem, plan, &letters, [pair[0], pair[1]])).collect()
}

/// A letter for each thing in the order of packing.
fn letters(problem: &Problem, plan: &Plan) -> Vec<char> {
    let mut letters = vec![OTHERS; problem.things.len()];
    let mut free = 'A'..='Z';
    for step in order(problem, plan).iter().filter(|step| step.into.is_none()) {
        if letters[step.thing] == OTHERS {
            letters[step.thing] = free.next().unwrap_or(OTHERS);
        }
    }
    letters
}

/// Where to cut: the bottom, the top, and between them the heights that go through the fewest solids.
fn heights(plan: &Plan) -> Vec<i32> {
    let top = plan.solids().map(|solid| solid.hi[2]).max().unwrap_or(0);
    let bottom = plan.space.edge[2][0];
    if top <= bottom {
        return Vec::new();
    }
    let mut cuts: Vec<i32> = plan.solids().map(|solid| solid.lo[2]).filter(|height| *height > bottom).collect();
    let through = |cut: i32| plan.solids().filter(|solid| solid.lo[2] < cut && cut < solid.hi[2]).count();
    cuts.sort_unstable();
    cuts.dedup();
    cuts.sort_by_key(|cut| (through(*cut), *cut));
    let (apart, crossed) = ((top - bottom) / 8, plan.solids().count() / 3);
    let mut heights = vec![bottom, top];
    for cut in cuts {
        let near = heights.iter().any(|height| (height - cut).abs() < apart.max(1));
        if heights.len() <= MOST && !near && through(cut) <= crossed {
            heights.push(cut);
        }
    }
    heights.sort_unstable();
    heights
}

fn layer(problem: &Problem, plan: &Plan, letters: &[char], [from, to]: [i32; 2]) -> Layer {
    let mut legend: Vec<Legend> = Vec::new();
    for placed in plan.outer().filter(|placed| placed.solids.iter().any(|solid| solid.lo[2] < to && from < solid.hi[2]))
    {
        let entry = entry(problem, placed, letters, from);
        let same = |other: &&mut Legend| (other.letter, other.from, other.to) == (entry.letter, entry.from, entry.to);
        match legend.iter_mut().filter(|other| other.thing == entry.thing).find(same) {
            Some(other) => other.count += 1,
            None => legend.push(entry),
        }
    }
    legend.sort_by_key(|entry| (entry.letter.to_ascii_uppercase(), entry.from_below, entry.from));
    Layer { from, to, rows: rows(plan, letters, [from, to]), legend }
}

fn entry(problem: &Problem, placed: &Placed, letters: &[char], from: i32) -> Legend {
    let from_below = placed.bottom() < from;
    Legend {
        letter: cased(letters[placed.thing], from_below),
        thing: placed.thing,
        count: 1,
        from: placed.bottom(),
        to: placed.top(),
        soft: !problem.things[placed.thing].is_stiff(),
        from_below,
    }
}

/// The box floor from the back to the front, as far as it is wide in letters.
fn rows(plan: &Plan, letters: &[char], [from, to]: [i32; 2]) -> Vec<String> {
    let [length, width, _] = plan.space.inside;
    let high = (WIDE * width / length.max(1) / 2).clamp(1, 2 * WIDE);
    let spot = |column: i32, row: i32| {
        let (x, y) = ((2 * column + 1) * length / (2 * WIDE), (2 * row + 1) * width / (2 * high));
        letter(plan, letters, [from, to], [x, y])
    };
    (0..high).rev().map(|row| (0..WIDE).map(|column| spot(column, row)).collect()).collect()
}

/// What one sees in a spot of a layer from above.
fn letter(plan: &Plan, letters: &[char], [from, to]: [i32; 2], [x, y]: [i32; 2]) -> char {
    let here = |solid: &Cuboid| {
        let inside = (solid.lo[0]..solid.hi[0]).contains(&x) && (solid.lo[1]..solid.hi[1]).contains(&y);
        inside && solid.lo[2] < to && from < solid.hi[2]
    };
    let seen = plan.outer().flat_map(|placed| placed.solids.iter().map(move |solid| (placed, solid)));
    let highest = seen.filter(|(_, solid)| here(solid)).max_by_key(|(_, solid)| solid.hi[2]);
    highest.map_or(FREE, |(placed, _)| cased(letters[placed.thing], placed.bottom() < from))
}

fn cased(letter: char, from_below: bool) -> char {
    if from_below { letter.to_ascii_lowercase() } else { letter }
}
