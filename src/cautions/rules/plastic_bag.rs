//! Thin plastic bags and film, for small children.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "plastic-bag",
    about: "thin plastic bags",
    under: Some(6),
    source: "common practice; ASTM F963 has a clause on plastic film (from memory)",
    sheet: "Thin plastic: please keep it away from small children; it can close mouth and nose.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("plastic bag", |hazard| *hazard == Hazard::PlasticBag)?;
    let text = format!(
        "{} thin plastic that could close over a small child's mouth and nose. \
         Use paper or cloth in its place, or leave it out.",
        sure.is()
    );
    Some(say(Level::LookTwice, Remedy::LeaveOut, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};

    #[test]
    fn for_children_under_6() {
        let bag = of_kind("plastic bag");
        assert_eq!([0, 5, 6].map(|age| told("plastic-bag", &bag, age).is_some()), [true, true, false]);
    }
}
