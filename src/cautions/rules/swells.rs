//! What swells in water.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "swells",
    about: "what swells in water",
    under: None,
    source: "common practice; ASTM F963 has a clause on materials that expand (from memory)",
    sheet: "It grows in water: please keep it out of mouths, and away from small children.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("swells", |hazard| *hazard == Hazard::Swells)?;
    let what = format!("{} something that grows in water, and a piece that is swallowed grows in the body.", sure.is());
    if scene.age < 6 {
        let text = format!("{what} Keep it for an older child, or leave it out.");
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(6), text));
    }
    let text = format!("{what} Many drives take none. If yours does, tell the parent on the sheet.");
    Some(say(Level::LookTwice, Remedy::AddToSheet, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn not_under_6_and_looked_at_from_then_on() {
        let levels = [0, 5, 6, 12].map(|age| told("swells", &of_kind("water bead"), age).map(|(level, _)| level));
        let (not_yet, look) = (Some(Level::NotForAge), Some(Level::LookTwice));
        assert_eq!(levels, [not_yet, not_yet, look, look]);
    }
}
