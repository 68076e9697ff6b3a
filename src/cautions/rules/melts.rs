//! What melts on the way.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "melts",
    about: "what melts",
    under: None,
    source: "common practice: cartons stand in hot trucks and containers",
    sheet: "It may have melted on the way: please look before your child has it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    scene.thing.has("melts", |hazard| *hazard == Hazard::Melts)?;
    let text = "This can melt on a hot journey and run into everything else. \
                Put it into a bag of its own, or leave it out.";
    Some(say(Level::LookTwice, Remedy::SealInBag, text.to_owned()))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};

    #[test]
    fn what_runs_is_told_and_what_only_softens_is_not() {
        assert!(told("melts", &of_kind("lip balm"), 6).is_some());
        assert!(told("melts", &of_kind("soap"), 6).is_none());
    }
}
