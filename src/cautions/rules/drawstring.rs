//! Cords drawn through jackets and hooded tops, by the size of the garment.

use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Looked, Remedy, Sure};
use crate::model::category::Category;
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "drawstring",
    about: "cords in hoods and jackets",
    under: None,
    source: "16 CFR 1120.3(b); ASTM F1816-97",
    sheet: "A cord in a garment: please pull it out if it is at the hood or neck.",
    look,
};

/// Sizes up to which no cord may be at hood or neck, and up to which one at the waist is held short.
const HOOD: u32 = 12;
const WAIST: u32 = 16;
/// The largest number that is read as a size of this scale; larger ones are heights or another country's sizes.
const SCALE: u32 = 20;

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = drawn(scene.thing)?;
    let what = format!("{} a cord at the hood, neck or waist.", sure.has());
    let rest = match scene.thing.size.and_then(smallest) {
        Some(size) if size > WAIST => return None,
        Some(size) if size > HOOD => {
            "In sizes up to 16 its ends at the waist should be no longer than 75 mm (3 in), without knots or toggles. \
             Shorten it, or pull it out."
        }
        Some(_) => {
            "In sizes 2T to 12 there should be none at hood or neck, and at the waist no end longer than 75 mm (3 in): \
             it can catch and pull tight. Pull it out."
        }
        None => {
            "Nobody has said which size it is, 2T to 16; in sizes 2T to 12 there should be none at hood or neck. \
             Pull it out."
        }
    };
    Some(say(Level::LookTwice, Remedy::TakePartOut("cord"), format!("{what} {rest}")))
}

/// A cord that was said of a hooded garment is one that is drawn through it.
fn drawn(thing: &Looked<'_>) -> Option<Sure> {
    let usual = |hazard: &Hazard| *hazard == Hazard::Drawstring;
    let named = || ["hood", "hooded", "hoodie", "jacket"].iter().any(|word| thing.is_called(word));
    let may_have = thing.usual(usual).is_some() || thing.sort() == Some(&Category::Clothing) && named();
    if !may_have || thing.is_without("drawstring") {
        return None;
    }
    thing.has("cord", usual)
}

/// The smallest size that is named: 7 of `7-8`, 2 of `2T`; none where it is no size of this scale.
fn smallest(size: &str) -> Option<u32> {
    let size = size.trim().to_uppercase();
    // Sizes in months lie below the scale, and are small for sure.
    if size.ends_with('M') && size.len() > 1 {
        return Some(0);
    }
    let numbers = size.split(|c: char| !c.is_ascii_digit()).filter_map(|digits| digits.parse().ok());
    numbers.min().filter(|number| *number <= SCALE)
}

#[cfg(test)]
mod tests {
    use super::smallest;
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told, words};
    use crate::model::rules::Level;

    /// 16 CFR 1120.3(b): hood and neck in sizes 2T to 12; the waist in sizes 2T to 16, 3 in (75 mm).
    #[test]
    fn the_size_of_the_garment_decides_and_not_the_age() {
        let text = |size| {
            let mut jacket = of_kind("jacket");
            jacket.size = size;
            words("drawstring", &jacket, 9)
        };
        for size in ["2T", "12", "10-12", "6X", "12-14", "18M"] {
            assert!(text(Some(size)).contains("none at hood or neck, and at the waist"), "{size}");
        }
        for size in ["13", "14", "16", "14-16"] {
            assert!(text(Some(size)).contains("no longer than 75 mm (3 in), without knots"), "{size}");
        }
        assert_eq!([text(Some("17")), text(Some("18-20"))], ["", ""]);
        for size in [None, Some("M"), Some("128"), Some("")] {
            assert!(text(size).contains("Nobody has said which size"), "{size:?}");
        }
        let look = Some((Level::LookTwice, Remedy::TakePartOut("cord")));
        assert_eq!([0, 12].map(|age| told("drawstring", &of_kind("jacket"), age)), [look, look]);
    }

    #[test]
    fn a_cord_that_is_out_is_out() {
        let mut top = of_kind("jacket");
        top.notes = vec!["cord taken out of the hood"];
        assert_eq!(told("drawstring", &top, 6), None);
        top.notes = vec!["took the drawstring out"];
        assert_eq!(told("drawstring", &top, 6), None);
    }

    #[test]
    fn a_cord_that_was_said_of_a_hooded_thing() {
        let mut top = of_kind("sweater");
        top.flags = vec!["cord"];
        assert_eq!(told("drawstring", &top, 6), None);
        top.name = "hooded sweater";
        assert!(words("drawstring", &top, 6).starts_with("This has a cord at the hood"));
    }

    #[test]
    fn sizes_are_read_from_their_smallest_number() {
        assert_eq!(["7-8", "2T", "98-104", "XL"].map(smallest), [Some(7), Some(2), None, None]);
        assert_eq!(smallest("99999999999999999999"), None);
    }
}
