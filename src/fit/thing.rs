//! What is to be packed and into what, as plain values in whole millimetres and tenths of a gram.

use super::cuboid::{Size, volume};

/// Things that may lose at most this share of their volume, in hundredths, are packed like stiff ones.
pub const FIRM: u8 = 10;

/// One form that a thing can take: as it is, folded in two, rolled up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shape {
    /// Its three sides.
    pub size: Size,
    /// For each side whether it may be the vertical one.
    pub up: [bool; 3],
}

/// Room inside a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Room {
    /// Its three sides.
    pub size: Size,
    /// What is put in swells the holder: a bag, not a tin.
    pub swells: bool,
}

/// A thing to be packed, so many times.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Thing {
    /// What it is called.
    pub name: String,
    /// The forms that it can take, the usual one first; none: its size isn't known.
    pub shapes: Vec<Shape>,
    /// How many of it.
    pub count: u16,
    /// Weight of one, in tenths of a gram.
    pub weight: u32,
    /// The share of its volume that it may lose when pressed, in hundredths: 0 is stiff.
    pub press: u8,
    /// The room inside it, if other things can be tucked in.
    pub room: Option<Room>,
    /// The holders that it belongs into, by their place in the list.
    pub belongs: Vec<usize>,
    /// It should be seen first, with nothing on it.
    pub on_top: bool,
    /// The most weight that may rest on it, in tenths of a gram; none: it bears whatever comes.
    pub weak: Option<u32>,
}

/// The inside of a box.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Space {
    /// Its length, width and height.
    pub inside: Size,
    /// Millimetres that are to stay free along each axis at the low side and at the high one.
    pub edge: [[i32; 2]; 3],
}

/// A set of things and the space for them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The box.
    pub space: Space,
    /// What is to go in.
    pub things: Vec<Thing>,
}

impl Shape {
    /// A form that may stand on any of its sides.
    pub fn any_way(size: Size) -> Shape {
        Shape { size, up: [true; 3] }
    }

    /// A form that lies with its third side upright.
    pub fn lying(size: Size) -> Shape {
        Shape { size, up: [false, false, true] }
    }

    /// Every extent that it may have along x, y and z.
    pub fn ways(&self) -> impl Iterator<Item = Size> {
        let [a, b, c] = self.size;
        let turned = [[b, c, a], [c, b, a], [a, c, b], [c, a, b], [a, b, c], [b, a, c]];
        turned.into_iter().zip([0, 0, 1, 1, 2, 2]).filter(|(_, side)| self.up[*side]).map(|(way, _)| way)
    }
}

impl Thing {
    /// Every extent that it may have along x, y and z, in all its forms; those of the usual form first.
    pub fn ways(&self) -> Vec<Size> {
        let mut ways: Vec<Size> = Vec::new();
        for way in self.shapes.iter().flat_map(Shape::ways) {
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
        ways
    }

    /// Whether it is packed as a solid that keeps its form.
    pub fn is_stiff(&self) -> bool {
        self.press <= FIRM
    }

    /// Volume of one as it is, in cubic millimetres.
    pub fn volume(&self) -> i64 {
        self.shapes.first().map_or(0, |shape| volume(shape.size))
    }

    /// Volume of one in its smallest form, pressed as far as it may be.
    pub fn least_volume(&self) -> i64 {
        let smallest = self.shapes.iter().map(|shape| volume(shape.size)).min().unwrap_or(0);
        smallest * i64::from(100 - self.press.min(100)) / 100
    }

    /// How thick it stays however it is pressed, in millimetres.
    pub fn thinnest(&self) -> i32 {
        let side = self.shapes.iter().flat_map(|shape| shape.size).min().unwrap_or(0);
        (side * i32::from(100 - self.press.min(100)) / 100).max(1)
    }
}

impl Space {
    /// A box in which everything may touch the walls.
    pub fn bare(inside: Size) -> Space {
        Space { inside, edge: [[0; 2]; 3] }
    }

    /// A box with as much room left round the edge on every side.
    pub fn with_edge(inside: Size, millimetres: i32) -> Space {
        Space { inside, edge: [[millimetres; 2]; 3] }
    }

    /// What is left of its length, width and height for things; never below nothing.
    pub fn usable(&self) -> Size {
        [0, 1, 2].map(|axis| (self.inside[axis] - self.edge[axis][0] - self.edge[axis][1]).max(0))
    }

    /// The corner from which things are counted.
    pub fn corner(&self) -> Size {
        self.edge.map(|[low, _]| low)
    }
}
