//! Whether the lid closes: a map of how high things would stand if soft ones were let go.

use super::cuboid::Cuboid;
use super::plan::Plan;
use super::thing::Problem;

/// The map's cells are so many millimetres wide.
const CELL: i32 = 10;
/// Soft things that stand less proud than this, in millimetres, are pushed down by the lid itself.
const LIGHT: i32 = 10;

/// How the lid closes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lid {
    /// By itself, with so many millimetres above the highest thing.
    Closes {
        /// Millimetres.
        spare: i32,
    },
    /// With a light push.
    LightPush {
        /// Millimetres that soft things stand proud.
        by: i32,
        /// Where, along the box and across it.
        at: [i32; 2],
    },
    /// Only with some force.
    HardPush {
        /// Millimetres that soft things stand proud.
        by: i32,
        /// Where, along the box and across it.
        at: [i32; 2],
    },
}

/// How the lid closes over a plan.
pub fn lid(problem: &Problem, plan: &Plan) -> Lid {
    let [length, width, height] = plan.space.inside;
    let columns =
        (0..length).step_by(CELL as usize).flat_map(|x| (0..width).step_by(CELL as usize).map(move |y| [x, y]));
    let highest = columns.map(|at| (standing(problem, plan, at), at)).max_by_key(|(top, _)| *top);
    let (top, at) = highest.unwrap_or((0, [0; 2]));
    match top - height {
        by if by <= 0 => Lid::Closes { spare: -by },
        by if by < LIGHT => Lid::LightPush { by, at },
        by => Lid::HardPush { by, at },
    }
}

/// How high things stand in a column once the soft ones in it spring back.
fn standing(problem: &Problem, plan: &Plan, [x, y]: [i32; 2]) -> i32 {
    let (mut top, mut spring) = (0, 0);
    for placed in plan.outer() {
        let thing = &problem.things[placed.thing];
        let pressed = placed.volume().max(1);
        let relaxed = if thing.is_stiff() { pressed } else { thing.volume().max(pressed) };
        for solid in placed.solids.iter().filter(|solid| covers(solid, x + CELL / 2, y + CELL / 2)) {
            let thick = i64::from(solid.hi[2] - solid.lo[2]);
            top = top.max(solid.hi[2]);
            spring += i32::try_from(thick * (relaxed - pressed) / pressed).unwrap_or(0);
        }
    }
    top + spring
}

fn covers(solid: &Cuboid, x: i32, y: i32) -> bool {
    (solid.lo[0]..solid.hi[0]).contains(&x) && (solid.lo[1]..solid.hi[1]).contains(&y)
}
