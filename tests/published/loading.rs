//! Problems of container loading: the published ones, made anew by their published rule, and sets of our own.
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    clippy::expect_used,
    reason = "figures here are small, and a problem that isn't there stops"
)]

use brimful::fit::{Problem, Shape, Space, Thing};

/// The inside of the container of Bischoff & Ratcliff, in centimetres; the engine counts whatever one gives it.
pub const CONTAINER: [i32; 3] = [587, 233, 220];
/// How many types of boxes the problems of their classes 1 to 7 have.
pub const TYPES: [usize; 7] = [3, 5, 8, 10, 12, 15, 20];
/// The inside of a box of our own sets, in millimetres.
pub const BOX: [i32; 3] = [330, 200, 120];

/// A type of box: its sides, which of them may be vertical, and how many there are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Type {
    pub size: [i32; 3],
    pub up: [bool; 3],
    pub count: u16,
}

/// The generator of Park & Miller (Random number generators: good ones are hard to find, Communications of the ACM
/// 31, 1988), which the problems are made with.
struct ParkMiller(u64);

impl ParkMiller {
    const MODULUS: u64 = 2_147_483_647;

    /// A number from 0 up to, but not including, `limit`.
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = 16_807 * self.0 % Self::MODULUS;
        self.0 * limit / Self::MODULUS
    }
}

/// One of the hundred problems of a class.
///
/// E. E. Bischoff and M. S. W. Ratcliff, Issues in the development of approaches to container loading, Omega 23
/// (1995), 377-390, where the steps are described; distributed by J. E. Beasley's OR-Library as thpack1 to thpack7.
pub fn bischoff_ratcliff(types: usize, number: u32) -> Vec<Type> {
    const RANGES: [(i32, i32); 3] = [(30, 120), (25, 100), (20, 80)];
    let mut dice = ParkMiller(2_502_505 + 100 * (u64::from(number) - 1));
    for _ in 0..10 {
        dice.below(1);
    }
    let mut made: Vec<Type> = (0..types)
        .map(|_| {
            let mut size = RANGES.map(|(lo, hi)| lo + dice.below((hi - lo + 1) as u64) as i32);
            size.sort_unstable_by(|one, other| other.cmp(one));
            Type { size, up: stable(size), count: 1 }
        })
        .collect();
    let whole = volume(CONTAINER);
    let mut cargo: i64 = made.iter().map(|of| volume(of.size)).sum();
    loop {
        let next = &mut made[dice.below(types as u64) as usize];
        cargo += volume(next.size);
        if cargo > whole {
            return made;
        }
        next.count += 1;
    }
}

/// A side may be vertical if it is less than twice the smaller of the other two.
fn stable(size: [i32; 3]) -> [bool; 3] {
    [0, 1, 2].map(|side| size[side] < 2 * size[(side + 1) % 3].min(size[(side + 2) % 3]))
}

pub fn volume(size: [i32; 3]) -> i64 {
    size.iter().map(|side| i64::from(*side)).product()
}

/// A problem for the engine.
pub fn problem(container: [i32; 3], types: &[Type]) -> Problem {
    let thing = |(at, of): (usize, &Type)| Thing {
        name: format!("type {}", at + 1),
        shapes: vec![Shape { size: of.size, up: of.up }],
        count: of.count,
        ..Thing::default()
    };
    Problem { space: Space::bare(container), things: types.iter().enumerate().map(thing).collect() }
}

/// Splitmix64, as in the engine, so that sets are the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A number from `lo` to `hi`, both included.
    pub fn between(&mut self, lo: i32, hi: i32) -> i32 {
        lo + (self.number() % (hi - lo + 1) as u64) as i32
    }
}

/// One each of so many things such as are given: two books that lie, and long, flat, thick and small things, all
/// scaled to a share of the box. Nobody knows which of these sets can be packed.
pub fn mixed(things: usize, share: f64, seed: u64) -> Vec<Type> {
    let mut dice = Dice(seed.wrapping_mul(7919));
    let mut kind = |at: usize| {
        let kind = if at < 2 { 0 } else { dice.between(1, 10) };
        let ranges = match kind {
            0 => [(200, 300), (140, 195), (8, 25)],
            1..=3 => [(150, 300), (15, 50), (10, 35)],
            4..=6 => [(90, 200), (60, 150), (15, 45)],
            7 | 8 => [(60, 115), (55, 110), (50, 100)],
            _ => [(20, 60), (15, 45), (10, 30)],
        };
        let size = ranges.map(|(lo, hi)| dice.between(lo, hi));
        Type { size, up: if kind == 0 { [false, false, true] } else { [true; 3] }, count: 1 }
    };
    let drawn: Vec<Type> = (0..things).map(&mut kind).collect();
    let wanted = (share * volume(BOX) as f64) as i64;
    // In steps of one thousandth, up to the last scale at which all together stay below the share.
    let scaled = |thousandths: i32| -> Vec<Type> {
        let side = |side: i32, most: i32| (side * thousandths / 1000).clamp(3, most);
        let sized = |of: &Type| Type { size: [0, 1, 2].map(|at| side(of.size[at], BOX[at])), ..of.clone() };
        drawn.iter().map(sized).collect()
    };
    let below = |thousandths: &i32| scaled(*thousandths).iter().map(|of| volume(of.size)).sum::<i64>() <= wanted;
    scaled((1..4000).rev().find(below).unwrap_or(1))
}

/// A full box cut up, cut by cut, then shaved here and there down to a share of it, each piece turned at random:
/// it is known to fit.
pub fn cut(pieces: usize, share: f64, seed: u64) -> Vec<Type> {
    let mut dice = Dice(seed.wrapping_mul(104_729));
    let mut sizes = vec![BOX];
    while sizes.len() < pieces {
        let any = [(); 4].map(|()| dice.between(0, sizes.len() as i32 - 1) as usize);
        let large = any.into_iter().max_by_key(|at| volume(sizes[*at])).unwrap_or(0);
        let axis = dice.between(0, 2) as usize;
        let side = sizes[large][axis];
        if side >= 30 {
            let first = dice.between(side * 3 / 10, side * 7 / 10);
            let mut rest = sizes[large];
            rest[axis] = side - first;
            sizes[large][axis] = first;
            sizes.push(rest);
        }
    }
    let wanted = (share * volume(BOX) as f64) as i64;
    let mut left: i64 = sizes.iter().map(|size| volume(*size)).sum();
    while left > wanted {
        let (at, axis) = (dice.between(0, pieces as i32 - 1) as usize, dice.between(0, 2) as usize);
        if sizes[at][axis] > 8 {
            left -= volume(sizes[at]) / i64::from(sizes[at][axis]);
            sizes[at][axis] -= 1;
        }
    }
    let mut turned = |mut size: [i32; 3]| {
        size.rotate_left(dice.between(0, 2) as usize);
        if dice.between(0, 1) == 1 {
            size.swap(0, 1);
        }
        Type { size, up: [true; 3], count: 1 }
    };
    sizes.into_iter().map(&mut turned).collect()
}

/// The fifteen problems of Loh & Nee: each with its container.
///
/// H. T. Loh and A. Y. C. Nee, A packing algorithm for hexahedral boxes, Industrial Automation 92, Singapore (1992),
/// 115-126; the file is thpack8 of J. E. Beasley's OR-Library, as it is.
pub fn loh_nee() -> Vec<([i32; 3], Vec<Type>)> {
    let mut numbers = include_str!("loh_nee.txt").split_whitespace().map(|word| word.parse::<i32>().expect("a number"));
    let mut next = || numbers.next().expect("one more number");
    let count = next();
    let problem = |_| {
        let _number = next();
        let container = [next(), next(), next()];
        let types = (0..next()).map(|_| {
            let _number = next();
            let sides = [(); 3].map(|()| (next(), next() == 1));
            Type { size: sides.map(|side| side.0), up: sides.map(|side| side.1), count: next() as u16 }
        });
        (container, types.collect())
    };
    (0..count).map(problem).collect()
}
