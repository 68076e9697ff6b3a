//! Medicines and vitamins.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "medicine",
    about: "medicines and vitamins",
    under: None,
    source: "common practice: no drive takes them, and customs may hold the whole carton",
    sheet: "A medicine or a vitamin: please keep it, and ask a doctor.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    scene.thing.has("medicine", |hazard| *hazard == Hazard::Medicine)?;
    let text = "This is a medicine or a vitamin. A child could take too much of it, and customs may hold it. \
                Leave it out; a parent or a doctor gives it.";
    Some(say(Level::NotForAge, Remedy::LeaveOut, text.to_owned()))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn at_every_age() {
        for kind in ["vitamin", "medicine"] {
            let out = Some((Level::NotForAge, Remedy::LeaveOut));
            assert_eq!([0, 12].map(|age| told("medicine", &of_kind(kind), age)), [out, out], "{kind}");
        }
    }
}
