//! A kind of thing, as the catalogue describes it.
//!
//! What is not known of a kind is `None` or missing; unknown is never the same as harmless.

use super::category::Category;
use super::measure::{Decigrams, Dims};

/// What a thing is: toothbrush, notebook. Belongs to one category.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// The name, singular and lower case; also the key it is known by.
    pub name: String,
    /// Other names for the same thing.
    pub also: Vec<String>,
    /// The category it serves unless a line says otherwise.
    pub category: Category,
    /// Whether it is given as a set: a pack of crayons is one thing of many pieces.
    pub set: bool,
    /// What a typical one is like; none for a kind that was learned by its name alone.
    pub typical: Option<Typical>,
}

/// What a typical thing of a kind is like: common practice, not measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Typical {
    /// Outer size of one as it is packed.
    pub size: Dims,
    /// Weight of one.
    pub weight: Decigrams,
    /// It comes as several pieces under a name of its own: a tea set, a board game.
    pub several: bool,
    /// How far it can be pressed.
    pub press: Press,
    /// How it may lie.
    pub lies: Lies,
    /// The room inside, if other things can be tucked into it.
    pub room: Option<Room>,
    /// What to be careful about.
    pub careful: Vec<Hazard>,
    /// What is done with it before it is given: sharpen, wash, test the battery.
    pub chores: Vec<String>,
    /// Kinds without which it is of no use.
    pub needs: Vec<String>,
    /// Kinds that it goes with.
    pub with: Vec<String>,
}

/// How far a thing can be pressed, from stiff to soft.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Press {
    /// Not at all: a ruler, a cup.
    Stiff,
    /// A tenth: a notebook, a pencil case.
    Firm,
    /// A quarter, and it comes back: a hair bow, a rubber ball.
    Springy,
    /// A half: clothes, soft toys.
    Soft,
    /// Takes any shape of the same volume: beads in a bag, slime.
    Loose,
}

impl Press {
    /// The share of its volume that it may lose, in hundredths; *common practice*.
    pub fn share(self) -> u32 {
        match self {
            Press::Stiff | Press::Loose => 0,
            Press::Firm => 10,
            Press::Springy => 25,
            Press::Soft => 50,
        }
    }
}

/// How a thing may lie.
#[expect(clippy::struct_excessive_bools, reason = "each is asked by itself, and any may hold with any other")]
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash)]
pub struct Lies {
    /// It is thin and lies flat at the bottom.
    pub flat: bool,
    /// It may be folded in two.
    pub fold: bool,
    /// It may be rolled up.
    pub roll: bool,
    /// It must stand upright.
    pub upright: bool,
}

/// Room inside a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Room {
    /// Its size.
    pub size: Dims,
    /// What is put in swells it: a bag, not a tin.
    pub swells: bool,
}

/// Something to be careful about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// It is or has a part that may be swallowed.
    SmallPart,
    /// It is or has a ball of this diameter in millimetres.
    Ball(u32),
    /// A marble, or marbles come with it.
    Marble,
    /// A balloon.
    Balloon,
    /// A cord or string of this length in millimetres.
    Cord(u32),
    /// It goes round the neck.
    NeckLoop,
    /// A cord drawn through a garment at hood, neck or waist.
    Drawstring,
    /// A magnet that may come loose.
    Magnet,
    /// Batteries other than button cells.
    Battery,
    /// Button or coin cells.
    ButtonCell,
    /// A point or an edge.
    Sharp,
    /// Something flies.
    Launched,
    /// It looks like a weapon, or is one.
    Weapon,
    /// It burns or makes a flame.
    Flame,
    /// A thin plastic bag or film.
    PlasticBag,
    /// It swells in water, or in the body.
    Swells,
    /// It may leak.
    Liquid,
    /// It may melt.
    Melts,
    /// It is eaten or drunk.
    Food,
    /// A medicine or vitamin.
    Medicine,
    /// Latex.
    Latex,
    /// It is or has glass.
    Glass,
}
