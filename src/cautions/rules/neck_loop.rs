//! Loops that go round the neck.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "neck-loop",
    about: "loops round the neck",
    under: Some(6),
    source: "EN 71-1 clause 5.4, under 3; common practice from 3 to 5",
    sheet: "It goes round the neck: please take it off for sleeping and climbing.",
    look,
};

/// The longest way round a loop that a small head doesn't pass, in millimetres.
const ROUND: u32 = 380;

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("neck loop", |hazard| *hazard == Hazard::NeckLoop)?;
    let round = scene.thing.cord().and_then(|(length, _)| length);
    if round.is_some_and(|round| round <= ROUND) {
        return None;
    }
    let what = format!("{} a loop that goes round the neck", sure.has());
    match round {
        Some(_) if scene.age < 3 => {
            let text = format!(
                "{what}, more than {ROUND} mm round. A child under 3 could be caught in it. \
                 Take the loop off, or keep it for an older child."
            );
            Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text))
        }
        None if scene.age < 3 => {
            let text = format!(
                "{what}, and nobody has said how long it is. \
                 Measure it: for a child under 3 it should be no more than {ROUND} mm round."
            );
            Some(say(Level::LookTwice, Remedy::Measure, text))
        }
        _ => {
            let text = format!("{what}. Pull it: it should come apart before it can hurt. If it doesn't, take it off.");
            Some(say(Level::LookTwice, Remedy::TakePartOut("cord"), text))
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::kind::{Hazard, Typical};
    use crate::model::rules::Level;

    fn by_round(round: Option<u32>, age: u8) -> Option<(Level, Remedy)> {
        let careful = std::iter::once(Hazard::NeckLoop).chain(round.map(Hazard::Cord)).collect();
        let typical = Typical { careful, ..of_kind("lanyard").typical.unwrap().clone() };
        let mut lanyard = of_kind("lanyard");
        lanyard.typical = Some(&typical);
        told("neck-loop", &lanyard, age)
    }

    /// EN 71-1 clause 5.4: 380 mm round, under 36 months.
    #[test]
    fn a_loop_that_a_head_passes_is_not_for_the_smallest() {
        assert_eq!(by_round(Some(380), 2), None);
        assert_eq!(by_round(Some(381), 2), Some((Level::NotForAge, Remedy::KeepForOlder(3))));
        assert_eq!(by_round(None, 2), Some((Level::LookTwice, Remedy::Measure)));
    }

    #[test]
    fn from_3_to_5_it_should_come_apart() {
        let look = Some((Level::LookTwice, Remedy::TakePartOut("cord")));
        assert_eq!([3, 5, 6].map(|age| by_round(Some(450), age)), [look, look, None]);
    }
}
