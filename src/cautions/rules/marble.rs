//! Marbles, and toys that come with them.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "marble",
    about: "marbles",
    under: None,
    source: "16 CFR 1500.18(a)(17); 16 CFR 1500.19(b)(4)",
    sheet: "Marbles: please keep them away from children under 3, who could choke on them.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("marble", |hazard| *hazard == Hazard::Marble)?;
    let itself = scene.thing.is_one_of(&["marble"]);
    let what = if itself { "Marbles are small balls".to_owned() } else { format!("{} marbles with it", sure.has()) };
    if scene.age < 3 {
        let text = format!("{what}. A child under 3 could choke on one. Keep it for an older child.");
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text));
    }
    let text = format!(
        "{what}, and in a shop they would carry a choking warning for children under 3. \
         Tell the parent on the sheet, for there may be a smaller brother or sister."
    );
    (itself || scene.age < 8).then(|| say(Level::TellParent, Remedy::AddToSheet, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    /// 16 CFR 1500.19(b)(4): a marble itself from 3 on; a toy that contains one at least 3, under 8.
    #[test]
    fn marbles_from_the_third_birthday_and_toys_with_them_until_the_eighth() {
        let levels = |kind| [2, 3, 7, 8].map(|age| told("marble", &of_kind(kind), age).map(|(level, _)| level));
        let (not_yet, tell) = (Some(Level::NotForAge), Some(Level::TellParent));
        assert_eq!(levels("marble"), [not_yet, tell, tell, tell]);
        assert_eq!(levels("marble run"), [not_yet, tell, tell, None]);
        assert_eq!(levels("jacks"), [None; 4]);
    }
}
