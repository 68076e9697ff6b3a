//! Small balls from 3 on, and toys that come with one for children of 3 to 7.

use super::small_ball::is_small;
use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "small-ball-toy",
    about: "small balls, and toys with one",
    under: None,
    source: "16 CFR 1500.19(b)(3)",
    sheet: "A small ball: please keep it away from children under 3, who could choke on it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let ball = scene.thing.ball().filter(|ball| is_small(*ball))?;
    let speaks = scene.age >= 3 && (ball.itself || scene.age < 8);
    if !speaks {
        return None;
    }
    let what = if ball.itself {
        format!("{} a small ball", ball.sure.is())
    } else {
        format!("{} a small ball with it", ball.sure.has())
    };
    let text = format!(
        "{what}, and in a shop it would carry a choking warning for children under 3. \
         Tell the parent on the sheet, for there may be a smaller brother or sister."
    );
    Some(say(Level::TellParent, Remedy::AddToSheet, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Looked;
    use crate::cautions::testing::{of_kind, size, told};
    use crate::model::kind::{Hazard, Typical};

    fn speaks(thing: &Looked<'_>, ages: [u8; 4]) -> [bool; 4] {
        ages.map(|age| told("small-ball-toy", thing, age).is_some())
    }

    /// 16 CFR 1500.19(b)(3): a small ball itself from 3 on.
    #[test]
    fn a_small_ball_from_the_third_birthday() {
        assert_eq!(speaks(&of_kind("bouncy ball"), [2, 3, 8, 12]), [false, true, true, true]);
        let dims = size(&[45; 3]);
        let mut ball = of_kind("bouncy ball");
        ball.dims = Some(&dims);
        assert_eq!(speaks(&ball, [2, 3, 8, 12]), [false; 4]);
    }

    /// 16 CFR 1500.19(b)(3): what contains one at least 3, under 8.
    #[test]
    fn a_toy_with_one_until_the_eighth() {
        let with = |across| {
            let typical = of_kind("paddle ball").typical.unwrap().clone();
            Typical { careful: vec![Hazard::Ball(across)], ..typical }
        };
        for (across, expected) in [(44, [false, true, true, false]), (45, [false; 4])] {
            let typical = with(across);
            let mut game = of_kind("paddle ball");
            game.typical = Some(&typical);
            assert_eq!(speaks(&game, [2, 3, 7, 8]), expected, "{across} mm");
        }
    }
}
