//! Latex.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "latex",
    about: "latex",
    under: None,
    source: "common practice: some children can't touch latex",
    sheet: "Latex: please keep it from a child whose skin can't bear it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("latex", |hazard| *hazard == Hazard::Latex)?;
    let text =
        format!("{} latex in it, which some children can't touch. Tell the parent on the sheet.", sure.there_is());
    Some(say(Level::TellParent, Remedy::AddToSheet, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn at_every_age() {
        let tell = Some((Level::TellParent, Remedy::AddToSheet));
        assert_eq!([3, 12].map(|age| told("latex", &of_kind("balloon"), age)), [tell, tell]);
        assert_eq!(told("latex", &of_kind("ball"), 3), None);
    }
}
