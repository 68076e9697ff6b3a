//! Liquids that may leak.

use crate::cautions::Remedy;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "liquid",
    about: "liquids",
    under: None,
    source: "common practice: liquids leak on the way, and many drives take none",
    sheet: "A liquid: please see whether it has leaked on the way.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    // Her word that it is sealed outranks that such things usually leak.
    if scene.thing.says("sealed") {
        return None;
    }
    let sure = scene.thing.has("liquid", |hazard| *hazard == Hazard::Liquid)?;
    let text = format!(
        "{} something in it that can leak and spoil the box. Many drives take no liquids. \
         If yours does, close it well and put it into a bag of its own.",
        sure.has()
    );
    Some(say(Level::LookTwice, Remedy::SealInBag, text))
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};
    use crate::model::rules::Level;

    #[test]
    fn unless_it_is_said_to_be_sealed() {
        let look = Some((Level::LookTwice, Remedy::SealInBag));
        let mut shampoo = of_kind("shampoo");
        assert_eq!([0, 12].map(|age| told("liquid", &shampoo, age)), [look, look]);
        shampoo.flags = vec!["sealed"];
        assert_eq!(told("liquid", &shampoo, 6), None);
        let mut ball = of_kind("ball");
        ball.flags = vec!["liquid"];
        assert_eq!(told("liquid", &ball, 6), look);
    }
}
