//! Points and edges.

use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Remedy, Sure};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "sharp",
    about: "points and edges",
    under: None,
    source: "16 CFR 1500.48 and 1500.49, under 8; EN 71-1 clauses 4.7 and 4.8, under 3; common practice from 8 on",
    sheet: "A point or an edge: please stay with a child under 8 who uses it.",
    look,
};

/// What cuts or pricks at every age.
const NEVER_BLUNT: [&str; 4] = ["knife", "razor", "fishing kit", "dart board"];

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("sharp", |hazard| *hazard == Hazard::Sharp)?;
    let what = format!("{} a sharp point or edge.", sure.has());
    let never_blunt = scene.thing.is_one_of(&NEVER_BLUNT);
    match scene.age {
        0..3 => {
            let text = format!("{what} It is not for children under 3. Keep it for an older child.");
            Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text))
        }
        3..8 if never_blunt || sure == Sure::Said && scene.thing.is_toy() => {
            let text = format!("{what} Children under 8 should get nothing of the sort. Keep it for an older child.");
            Some(say(Level::NotForAge, Remedy::KeepForOlder(8), text))
        }
        3..8 => {
            let text = format!(
                "{what} Children under 8 should have only those without which the thing would be of no use. \
                 See whether it is blunt or can be covered; if not, keep it for an older child."
            );
            Some(say(Level::LookTwice, Remedy::KeepForOlder(8), text))
        }
        _ if never_blunt => {
            let text = format!("{what} Many drives take no blades or hooks. Leave it out unless yours allows it.");
            Some(say(Level::LookTwice, Remedy::LeaveOut, text))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    const NOT_YET: Option<Level> = Some(Level::NotForAge);
    const LOOK: Option<Level> = Some(Level::LookTwice);

    /// 16 CFR 1500.48 and 1500.49: under 8. EN 71-1 clauses 4.5, 4.7, 4.8: edges that are needed from 36 months on.
    #[test]
    fn a_point_that_is_needed_is_looked_at_until_the_eighth_birthday() {
        let levels = [2, 3, 7, 8].map(|age| told("sharp", &of_kind("compass"), age).map(|(level, _)| level));
        assert_eq!(levels, [NOT_YET, LOOK, LOOK, None]);
    }

    #[test]
    fn a_toy_said_to_be_sharp_is_not_for_them() {
        let mut toy = of_kind("toy boat");
        toy.flags = vec!["sharp"];
        let levels = [2, 7, 8].map(|age| told("sharp", &toy, age).map(|(level, _)| level));
        assert_eq!(levels, [NOT_YET, NOT_YET, None]);
    }

    #[test]
    fn a_blade_is_never_passed_over() {
        let levels = [2, 7, 8, 12].map(|age| told("sharp", &of_kind("razor"), age).map(|(level, _)| level));
        assert_eq!(levels, [NOT_YET, NOT_YET, LOOK, LOOK]);
    }
}
