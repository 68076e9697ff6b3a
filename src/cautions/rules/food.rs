//! Food, drinks and sweets.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "food",
    about: "food and sweets",
    under: None,
    source: "common practice: most drives take none; under 4, advice of children's doctors on nuts and hard sweets (from memory)",
    sheet: "Something to eat or drink: please see whether your child can have what is in it.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = scene.thing.has("food", |hazard| *hazard == Hazard::Food)?;
    if scene.age < 4 {
        let text = format!(
            "{} something to eat or drink. Children under 4 choke easily on nuts, hard sweets and popcorn, \
             and nobody knows what they may eat. Leave it out.",
            sure.is()
        );
        return Some(say(Level::NotForAge, Remedy::LeaveOut, text));
    }
    let text = format!(
        "{} something to eat or drink. It can spoil, draw insects, or hold what a child can't eat, \
         and most drives take none. Leave it out unless yours allows it.",
        sure.is()
    );
    Some(say(Level::LookTwice, Remedy::LeaveOut, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn not_under_4_and_looked_at_from_then_on() {
        let levels = [3, 4, 12].map(|age| told("food", &of_kind("candy"), age).map(|(level, _)| level));
        assert_eq!(levels, [Some(Level::NotForAge), Some(Level::LookTwice), Some(Level::LookTwice)]);
        assert_eq!(told("food", &of_kind("play food"), 3), None);
    }
}
