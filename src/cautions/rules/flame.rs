//! What burns or makes a flame.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "flame",
    about: "what burns",
    under: None,
    source: "common practice: no drive sends fire, and no carrier takes it undeclared",
    sheet: "It burns or bangs: please keep it, and use it yourself.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    scene.thing.has("flame", |hazard| *hazard == Hazard::Flame)?;
    let text = "This burns, bangs, or is lit with a flame. It is nothing for a child alone, and it may not travel with \
                the boxes. Leave it out.";
    Some(say(Level::NotForAge, Remedy::LeaveOut, text.to_owned()))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn at_every_age() {
        for kind in ["matches", "candle"] {
            let out = Some((Level::NotForAge, Remedy::LeaveOut));
            assert_eq!([0, 12].map(|age| told("flame", &of_kind(kind), age)), [out, out], "{kind}");
        }
    }
}
