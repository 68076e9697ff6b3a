//! Small parts, for children under 3.

use crate::cautions::cylinder::{Goes, goes};
use crate::cautions::exempt::is_exempt;
use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Remedy, Sure};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "small-part",
    about: "small parts",
    under: Some(3),
    source: "16 CFR 1501.3 and 1501.4; 16 CFR 1500.18(a)(9)",
    sheet: "Small parts: please keep it away from children under 3, who could choke on them.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let thing = scene.thing;
    let exempt = is_exempt(thing);
    match thing.has("small-parts", |hazard| *hazard == Hazard::SmallPart) {
        Some(Sure::Said) if exempt => Some(of_an_exempt_thing()),
        _ if exempt => None,
        Some(sure) => Some(parts(sure)),
        None => of_its_size(scene),
    }
}

fn of_its_size(scene: &Scene<'_>) -> Option<Said> {
    let Some((size, sure)) = scene.thing.measured() else {
        return Some(unknown("Nobody has said how big this is."));
    };
    match goes(size) {
        Goes::In => Some(whole(sure)),
        Goes::Perhaps => Some(gauge(sure)),
        Goes::Not if scene.thing.comes_in_pieces() => {
            Some(unknown("This comes in pieces, and nobody has said how big they are."))
        }
        Goes::Not => None,
    }
}

fn parts(sure: Sure) -> Said {
    let what = match sure {
        Sure::Usually => "This usually is or has a small part.",
        Sure::Said => "This has small parts.",
    };
    let text = format!(
        "{what} Children under 3 put things into their mouths and could choke. \
         Keep it for an older child, or take out what is small."
    );
    say(Level::NotForAge, Remedy::KeepForOlder(3), text)
}

fn whole(sure: Sure) -> Said {
    let is = sure.is();
    let text = format!("{is} small enough for a child under 3 to choke on. Keep it for an older child.");
    say(Level::NotForAge, Remedy::KeepForOlder(3), text)
}

fn gauge(sure: Sure) -> Said {
    let is = sure.is();
    let text = format!(
        "{is} so small that it may go into a small-parts gauge, 31.7 mm (1.25 in) wide. \
         Test it: what fits inside whole is not for a child under 3."
    );
    say(Level::LookTwice, Remedy::TestWithGauge, text)
}

fn unknown(why: &str) -> Said {
    let text = format!(
        "{why} What fits whole into a small-parts gauge, 31.7 mm (1.25 in) wide, is not for a child under 3. \
         Test it, with all that can come off."
    );
    say(Level::LookTwice, Remedy::TestWithGauge, text)
}

fn of_an_exempt_thing() -> Said {
    let text = "This has small parts. The public rule leaves things of its sort out, but children under 3 could choke \
                on them. Test them with a small-parts gauge, or keep it for an older child.";
    say(Level::LookTwice, Remedy::TestWithGauge, text.to_owned())
}

#[cfg(test)]
mod tests {
    use crate::cautions::Looked;
    use crate::cautions::testing::{of_kind, size, told, words};
    use crate::cautions::{Remedy, rule};
    use crate::model::category::Category;
    use crate::model::rules::Level;

    fn toy() -> Looked<'static> {
        Looked { name: "thing", category: Some(&Category::Toy), ..Looked::default() }
    }

    /// 16 CFR 1501.4: the cylinder, in every orientation.
    #[test]
    fn the_size_that_was_said_decides() {
        let not_yet = Some((Level::NotForAge, Remedy::KeepForOlder(3)));
        let gauge = Some((Level::LookTwice, Remedy::TestWithGauge));
        for (sides, expected) in [
            ([24, 24, 2], not_yet),
            ([2, 24, 24], not_yet),
            ([32, 32, 32], gauge),
            ([33, 33, 33], None),
            ([65, 3, 3], gauge),
            ([3, 66, 3], None),
        ] {
            let dims = size(&sides);
            assert_eq!(told("small-part", &Looked { dims: Some(&dims), ..toy() }, 2), expected, "{sides:?}");
        }
    }

    /// 16 CFR 1501.2 and 1500.19(b)(1): under 3; on the third birthday another rule takes over.
    #[test]
    fn it_ends_on_the_third_birthday() {
        let toy = of_kind("toy figure");
        assert_eq!(told("small-part", &toy, 0), Some((Level::NotForAge, Remedy::KeepForOlder(3))));
        assert!(told("small-part", &toy, 2).is_some());
        assert_eq!(told("small-part", &toy, 3), None);
        assert!(words("small-part", &toy, 2).starts_with("This usually is or has a small part."));
    }

    /// 16 CFR 1501.3.
    #[test]
    fn exempt_things_are_left_out() {
        for kind in ["crayon", "hair clip", "pencil", "sock", "story book", "modelling clay", "paint", "balloon"] {
            assert_eq!(told("small-part", &of_kind(kind), 1), None, "{kind}");
        }
        let mut clip = of_kind("hair clip");
        clip.flags = vec!["small-parts"];
        assert_eq!(told("small-part", &clip, 1), Some((Level::LookTwice, Remedy::TestWithGauge)));
    }

    #[test]
    fn what_is_unknown_is_said_to_be_unknown() {
        assert!(words("small-part", &toy(), 2).starts_with("Nobody has said how big this is."));
        assert!(words("small-part", &of_kind("tea set"), 2).starts_with("This comes in pieces"));
        let mut parts = toy();
        parts.flags = vec!["small-parts"];
        assert!(words("small-part", &parts, 2).starts_with("This has small parts."));
        assert_eq!(rule("small-part").unwrap().under, Some(3));
    }
}
