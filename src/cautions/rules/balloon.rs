//! Balloons, for children under 8.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "balloon",
    about: "balloons",
    under: Some(8),
    source: "16 CFR 1500.19(b)(2)",
    sheet: "Balloons: children under 8 can choke on them. Please blow them up yourself, and throw broken ones away at once.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("balloon", |hazard| *hazard == Hazard::Balloon)?;
    let what = if scene.thing.is_one_of(&["balloon", "punch ball"]) {
        "This is a balloon.".to_owned()
    } else {
        format!("{} a balloon with it.", sure.has())
    };
    let text = format!(
        "{what} Children under 8 can choke or suffocate on balloons that are not blown up, and on the pieces of broken \
         ones. Keep it for an older child."
    );
    Some(say(Level::NotForAge, Remedy::KeepForOlder(8), text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told, words};
    use crate::model::rules::Level;

    /// 16 CFR 1500.19(b)(2): under 8.
    #[test]
    fn it_ends_on_the_eighth_birthday() {
        let not_yet = Some((Level::NotForAge, Remedy::KeepForOlder(8)));
        let balloon = of_kind("balloon");
        assert_eq!([0, 3, 7, 8].map(|age| told("balloon", &balloon, age)), [not_yet, not_yet, not_yet, None]);
    }

    #[test]
    fn a_balloon_that_was_said_to_come_with_it() {
        let mut kit = of_kind("craft kit");
        assert_eq!(told("balloon", &kit, 6), None);
        kit.flags = vec!["balloon"];
        assert!(words("balloon", &kit, 6).starts_with("This has a balloon with it."));
    }
}
