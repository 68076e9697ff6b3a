//! Weapons and what looks like one.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "weapon",
    about: "weapons and toy weapons",
    under: None,
    source: "common practice: most drives take none, nor what looks like one",
    sheet: "It looks like a weapon: please decide whether your child may have it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("weapon", |hazard| *hazard == Hazard::Weapon)?;
    let text = format!(
        "{} a weapon or looks like one. Most drives take none, not even as a toy. Leave it out unless yours allows it.",
        sure.is()
    );
    Some(say(Level::LookTwice, Remedy::LeaveOut, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};

    #[test]
    fn at_every_age() {
        for kind in ["toy gun", "water pistol", "knife"] {
            assert!([0, 12].iter().all(|age| told("weapon", &of_kind(kind), *age).is_some()), "{kind}");
        }
        assert_eq!(told("weapon", &of_kind("flying disc"), 6), None);
    }
}
