//! Long cords, for children under 3.

use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Remedy, Sure};
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "cord",
    about: "long cords",
    under: Some(3),
    source: "EN 71-1 clauses 4.11 and 5.4; ASTM F963 clause 4.14.1",
    sheet: "A long cord: please keep it away from children under 3.",
    look,
};

/// The longest cord for children under 18 months, and the longest without a warning under 3 years, in millimetres.
const SHORT: u32 = 220;
/// The longest for children of 18 to 36 months; under 18 months the American clause asks for less than this.
const LONG: u32 = 300;

fn look(scene: &Scene<'_>) -> Option<Said> {
    let (length, sure) = scene.thing.cord()?;
    let Some(length) = length else { return Some(unknown(sure)) };
    // Whole years don't tell 12 months from 18: the stricter length holds for the whole second year.
    let most = if scene.age < 2 { SHORT } else { LONG };
    if length > most {
        let text = format!(
            "{} a cord of about {}. A child under 3 could get caught in a cord of more than {most} mm. \
             Shorten it, take it off, or keep it for an older child.",
            sure.there_is(),
            long(length)
        );
        return Some(say(Level::NotForAge, Remedy::KeepForOlder(3), text));
    }
    if length > SHORT {
        let text = format!(
            "{} a cord of about {}; over {SHORT} mm it would carry a warning in a shop. \
             Tell the parent on the sheet.",
            sure.there_is(),
            long(length)
        );
        return Some(say(Level::TellParent, Remedy::AddToSheet, text));
    }
    None
}

/// A length as people say it: `300 mm`, `2.1 m`.
fn long(length: u32) -> String {
    match (length / 1000, length % 1000 / 100) {
        (0, _) => format!("{length} mm"),
        (metres, 0) => format!("{metres} m"),
        (metres, tenths) => format!("{metres}.{tenths} m"),
    }
}

fn unknown(sure: Sure) -> Said {
    let text = format!(
        "{} a cord, and nobody has said how long it is. \
         Measure it: for a child under 3 it should be no longer than {SHORT} mm.",
        sure.there_is()
    );
    say(Level::LookTwice, Remedy::Measure, text)
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told, words};
    use crate::model::kind::{Hazard, Typical};
    use crate::model::rules::Level;

    fn level(length: u32, age: u8) -> Option<Level> {
        let usual = of_kind("pull toy").typical.unwrap().clone();
        let typical = Typical { careful: vec![Hazard::Cord(length)], ..usual };
        let mut toy = of_kind("pull toy");
        toy.typical = Some(&typical);
        told("cord", &toy, age).map(|(level, _)| level)
    }

    /// EN 71-1 clauses 4.11 and 5.4: 220 mm under 18 months; over 220 mm a warning and 300 mm at most under 36 months.
    #[test]
    fn each_length_on_both_sides_of_its_edge() {
        assert_eq!(
            [220, 221, 300].map(|length| level(length, 1)),
            [None, Some(Level::NotForAge), Some(Level::NotForAge)]
        );
        let (tell, not_yet) = (Some(Level::TellParent), Some(Level::NotForAge));
        assert_eq!([220, 221, 300, 301].map(|length| level(length, 2)), [None, tell, tell, not_yet]);
    }

    #[test]
    fn lengths_are_told_as_people_say_them() {
        assert_eq!([300, 999, 1000, 2100, 50_000].map(super::long), ["300 mm", "999 mm", "1 m", "2.1 m", "50 m"]);
    }

    #[test]
    fn it_ends_on_the_third_birthday() {
        assert_eq!([level(2100, 2), level(2100, 3)], [Some(Level::NotForAge), None]);
    }

    #[test]
    fn a_cord_of_unknown_length_is_to_be_measured() {
        let mut toy = of_kind("toy boat");
        toy.flags = vec!["cord"];
        assert_eq!(told("cord", &toy, 2), Some((Level::LookTwice, Remedy::Measure)));
        assert!(words("cord", &toy, 2).starts_with("There is a cord, and nobody has said how long"));
    }
}
