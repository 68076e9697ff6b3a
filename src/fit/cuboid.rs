//! Boxes along the axes, in whole millimetres: x to the right, y away from you, z up.

/// Extents along x, y and z, in millimetres.
pub type Size = [i32; 3];

/// The longest side that anything here may have; volumes of such things still fit an `i64`.
pub const LONGEST: i32 = 30_000;

/// Volume in cubic millimetres.
pub fn volume(size: Size) -> i64 {
    size.iter().map(|side| i64::from(*side)).product()
}

/// Whether a thing of size `inner` fits into one of size `outer` as it stands.
pub fn within(inner: Size, outer: Size) -> bool {
    inner[0] <= outer[0] && inner[1] <= outer[1] && inner[2] <= outer[2]
}

/// A solid from its lowest corner to its highest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Cuboid {
    /// The corner nearest to the origin.
    pub lo: Size,
    /// The corner farthest from it.
    pub hi: Size,
}

#[expect(
    clippy::needless_bitwise_bool,
    reason = "without branches the search, which asks this most, is faster by a fifth"
)]
impl Cuboid {
    /// What stands at a corner with this size.
    pub fn at(lo: Size, size: Size) -> Cuboid {
        Cuboid { lo, hi: [lo[0] + size[0], lo[1] + size[1], lo[2] + size[2]] }
    }

    /// Its extents.
    pub fn size(&self) -> Size {
        [self.hi[0] - self.lo[0], self.hi[1] - self.lo[1], self.hi[2] - self.lo[2]]
    }

    /// Volume in cubic millimetres.
    pub fn volume(&self) -> i64 {
        volume(self.size())
    }

    /// Whether the two share room; touching is not sharing.
    pub fn meets(&self, other: &Cuboid) -> bool {
        let apart = |axis: usize| (self.lo[axis] >= other.hi[axis]) | (other.lo[axis] >= self.hi[axis]);
        !(apart(0) | apart(1) | apart(2))
    }

    /// Whether `inner` lies wholly in it.
    pub fn holds(&self, inner: &Cuboid) -> bool {
        let beyond = |axis: usize| (inner.lo[axis] < self.lo[axis]) | (inner.hi[axis] > self.hi[axis]);
        !(beyond(0) | beyond(1) | beyond(2))
    }
}
