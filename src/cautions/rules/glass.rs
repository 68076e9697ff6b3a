//! Glass.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "glass",
    about: "glass",
    under: None,
    source: "EN 71-1 clause 4.5, under 3; common practice from 3 on: glass breaks on the way",
    sheet: "Glass: please see whether it is whole before your child has it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("glass", |hazard| *hazard == Hazard::Glass)?;
    let what = format!("{} glass in it, which can break on the way and cut.", sure.there_is());
    if scene.age < 3 {
        let text = format!("{what} It is not for children under 3. Take the glass out, or keep it for an older child.");
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text));
    }
    let text = format!("{what} Take the glass out where that can be done, wrap it well, or choose one of plastic.");
    Some(say(Level::LookTwice, Remedy::TakePartOut("glass"), text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    /// EN 71-1 clause 4.5: glass that can be reached only from 36 months on.
    #[test]
    fn not_under_3_and_looked_at_from_then_on() {
        let mut frame = of_kind("photo frame");
        let (not_yet, look) =
            ((Level::NotForAge, Remedy::KeepForOlder(3)), (Level::LookTwice, Remedy::TakePartOut("glass")));
        assert_eq!([2, 3, 12].map(|age| told("glass", &frame, age)), [Some(not_yet), Some(look), Some(look)]);
        frame.notes = vec!["took the glass out, card front now"];
        assert_eq!(told("glass", &frame, 2), None);
    }
}
