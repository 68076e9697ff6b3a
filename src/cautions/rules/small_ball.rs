//! Small balls, for children under 3.

use crate::cautions::looked::Ball;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Remedy, Sure};
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "small-ball",
    about: "small balls",
    under: Some(3),
    source: "16 CFR 1500.18(a)(17); 16 CFR 1500.19(a)(2)",
    sheet: "A small ball: please keep it away from children under 3, who could choke on it.",
    look,
};

/// The hole of the template: 1.75 in, in hundredths of a millimetre.
const HOLE: u32 = 44_45;

/// Whether a ball may fall through the hole. A diameter in whole millimetres may be half of one less.
pub(super) fn is_small(ball: Ball) -> bool {
    ball.across.saturating_mul(100).saturating_sub(50) <= HOLE
}

fn look(scene: &Scene<'_>) -> Option<Said> {
    let ball = scene.thing.ball()?;
    if is_small(ball) {
        let what = match (ball.itself, ball.sure) {
            (true, sure) => format!("{} a small ball", sure.is()),
            (false, sure) => format!("{} a small ball with it", sure.has()),
        };
        let text = format!(
            "{what}: it falls through a hole 44.4 mm (1.75 in) wide. A child under 3 could choke on it. \
             Keep it for an older child."
        );
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text));
    }
    let called_small = || ["small", "mini", "tiny", "little"].iter().any(|word| scene.thing.is_called(word));
    if ball.sure == Sure::Usually && called_small() {
        let text = "Nobody has said how big this ball is, and its name says that it is small. \
                    Measure it: up to 44.4 mm (1.75 in) it is not for a child under 3.";
        return Some(say(Level::LookTwice, Remedy::Measure, text.to_owned()));
    }
    None
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, size, told, words};
    use crate::model::rules::Level;

    const NOT_YET: Option<(Level, Remedy)> = Some((Level::NotForAge, Remedy::KeepForOlder(3)));

    /// 16 CFR 1500.18(a)(17): 1.75 in, 44.4 mm. A ball of 1.5 in is a small ball, one of 1.80 in is none.
    #[test]
    fn the_hole_is_44_millimetres_wide() {
        for (across, expected) in [(38, NOT_YET), (44, NOT_YET), (45, None), (46, None), (u32::MAX, None), (0, NOT_YET)]
        {
            let dims = size(&[across; 3]);
            let mut ball = of_kind("ball");
            ball.dims = Some(&dims);
            assert_eq!(told("small-ball", &ball, 2), expected, "{across} mm");
        }
    }

    #[test]
    fn it_ends_on_the_third_birthday() {
        let ball = of_kind("bouncy ball");
        assert_eq!((told("small-ball", &ball, 2), told("small-ball", &ball, 3)), (NOT_YET, None));
        assert!(words("small-ball", &ball, 2).starts_with("This is usually a small ball: it falls"));
    }

    /// 16 CFR 1500.19(a)(1): dice, and balls shut in for good, are no balls.
    #[test]
    fn dice_and_balls_shut_in_are_no_balls() {
        for kind in ["dice", "slide puzzle", "football"] {
            assert_eq!(told("small-ball", &of_kind(kind), 1), None, "{kind}");
        }
    }

    #[test]
    fn a_ball_called_small_is_to_be_measured() {
        let mut ball = of_kind("ball");
        ball.name = "mini balls";
        assert_eq!(told("small-ball", &ball, 2), Some((Level::LookTwice, Remedy::Measure)));
    }
}
