//! Magnets.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "magnet",
    about: "magnets",
    under: Some(14),
    source: "16 CFR 1262.2 and 1262.3 (a flux index of 50 kG² mm²); EN 71-1 clause 4.23.2, for toys, under 14",
    sheet: "Magnets: please keep them out of mouths. If one is swallowed, go to a doctor at once.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("magnet", |hazard| *hazard == Hazard::Magnet)?;
    let text = format!(
        "{} a magnet. Two that are swallowed pull together inside the body and do great harm. \
         Make sure that none is loose and none can come loose; take out what is.",
        sure.has()
    );
    Some(say(Level::LookTwice, Remedy::TakePartOut("magnet"), text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    /// EN 71-1, scope: toys are for children under 14. How strong a magnet is, nobody can see; so it is looked at.
    #[test]
    fn magnets_are_looked_at_until_the_fourteenth_birthday() {
        let look = Some((Level::LookTwice, Remedy::TakePartOut("magnet")));
        assert_eq!([0, 8, 13, 14].map(|age| told("magnet", &of_kind("magnet set"), age)), [look, look, look, None]);
        let mut bag = of_kind("purse");
        assert_eq!(told("magnet", &bag, 6), None);
        bag.flags = vec!["magnet"];
        assert_eq!(told("magnet", &bag, 6), look);
        bag.lacks = vec!["magnet"];
        assert_eq!(told("magnet", &bag, 6), None);
    }
}
