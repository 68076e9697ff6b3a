//! Toys that shoot or fling something.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "launched",
    about: "toys that shoot",
    under: Some(8),
    source: "common practice; ASTM F963 has a clause on toys that shoot (from memory)",
    sheet: "Something flies off: please let nobody aim at a face.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("launched", |hazard| *hazard == Hazard::Launched)?;
    let what = format!("{} something that flies off and can hit an eye.", sure.has());
    if scene.age < 3 {
        let text = format!("{what} Keep it for an older child.");
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text));
    }
    let text =
        format!("{what} Make sure that it flies slowly and that its tip is soft and stays on; if not, leave it out.");
    Some(say(Level::LookTwice, Remedy::KeepForOlder(8), text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn looked_at_until_the_eighth_birthday() {
        let levels = [2, 3, 7, 8].map(|age| told("launched", &of_kind("flying toy"), age).map(|(level, _)| level));
        assert_eq!(levels, [Some(Level::NotForAge), Some(Level::LookTwice), Some(Level::LookTwice), None]);
    }
}
