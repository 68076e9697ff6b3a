//! Toys with small parts, for children of 3 to 5.

use crate::cautions::cylinder::{Goes, goes};
use crate::cautions::exempt::is_exempt;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Looked, Remedy, Sure};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "small-part-toy",
    about: "toys with small parts",
    under: Some(6),
    source: "16 CFR 1500.19(b)(1); 15 USC 1278",
    sheet: "Small parts: please keep it away from children under 3, who could choke on them.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let thing = scene.thing;
    if scene.age < 3 || !thing.is_toy() || is_exempt(thing) {
        return None;
    }
    let parts = thing.has("small-parts", |hazard| *hazard == Hazard::SmallPart);
    let what = match (parts, small_itself(thing)) {
        (Some(sure), _) => format!("{} small parts", sure.has()),
        (None, Some(sure)) => format!("{} a small part by itself", sure.is()),
        (None, None) => return thing.measured().is_none().then(unknown),
    };
    let text = format!(
        "{what}, and in a shop it would carry a choking warning for children under 3. \
         Tell the parent on the sheet, for there may be a smaller brother or sister."
    );
    Some(say(Level::TellParent, Remedy::AddToSheet, text))
}

fn unknown() -> Said {
    let text = "Nobody has said how big this is, or whether small parts come with it. Look it over: \
                what fits whole into a small-parts gauge, 31.7 mm (1.25 in) wide, should be told on the sheet.";
    say(Level::LookTwice, Remedy::TestWithGauge, text.to_owned())
}

fn small_itself(thing: &Looked<'_>) -> Option<Sure> {
    let (size, sure) = thing.measured()?;
    (goes(size) == Goes::In).then_some(sure)
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, size, told, words};
    use crate::cautions::{Looked, Remedy};
    use crate::model::rules::Level;

    const TELL: Option<(Level, Remedy)> = Some((Level::TellParent, Remedy::AddToSheet));

    /// 16 CFR 1500.19(b)(1): at least 3, under 6.
    #[test]
    fn from_the_third_to_the_sixth_birthday() {
        let toy = of_kind("toy figure");
        let by_age: Vec<bool> = [2, 3, 5, 6].iter().map(|age| told("small-part-toy", &toy, *age).is_some()).collect();
        assert_eq!(by_age, [false, true, true, false]);
        assert_eq!(told("small-part-toy", &toy, 3), TELL);
        assert!(words("small-part-toy", &toy, 3).starts_with("This usually has small parts, and"));
    }

    #[test]
    fn a_toy_of_which_nothing_is_known_is_not_taken_for_harmless() {
        let thing = Looked { name: "thingamajig", ..Looked::default() };
        let look = Some((Level::LookTwice, Remedy::TestWithGauge));
        assert_eq!([3, 5, 6].map(|age| told("small-part-toy", &thing, age)), [look, look, None]);
        let large = size(&[200, 100, 80]);
        assert_eq!(told("small-part-toy", &Looked { dims: Some(&large), ..thing }, 3), None);
    }

    #[test]
    fn only_toys_and_games_carry_that_warning() {
        for kind in ["key ring", "eraser", "hair clip", "balloon", "soft toy"] {
            assert_eq!(told("small-part-toy", &of_kind(kind), 3), None, "{kind}");
        }
        let coin = size(&[24, 24, 2]);
        let mut toy = of_kind("spinning top");
        toy.dims = Some(&coin);
        assert_eq!(told("small-part-toy", &toy, 4), TELL);
        assert!(words("small-part-toy", &toy, 4).starts_with("This is a small part by itself"));
    }
}
