//! Used and dirty things.

use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Looked, Remedy};
use crate::model::category::Category;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "used",
    about: "used or dirty things",
    under: None,
    source: "common practice: most drives ask for new things, or for clean ones as good as new",
    sheet: "It was used before: please wash it once more.",
    look,
};

/// What is worn on the skin and never handed on.
const NEXT_TO_SKIN: [&str; 4] = ["underpants", "sock", "training bra", "swimsuit"];

fn look(scene: &Scene<'_>) -> Option<Said> {
    let thing = scene.thing;
    let dirty = thing.says("dirty");
    if !dirty && !thing.says("used") {
        return None;
    }
    if thing.sort() == Some(&Category::Hygiene) || thing.is_one_of(&NEXT_TO_SKIN) {
        let text = "This was used, and it belongs to one body alone. Leave it out, and choose a new one.";
        return Some(say(Level::LookTwice, Remedy::LeaveOut, text.to_owned()));
    }
    if !dirty && is_clean(thing) {
        return None;
    }
    let text = "This was used. Many drives take only new things, or clean ones as good as new. \
                Wash it and look it over, and ask your drive.";
    Some(say(Level::LookTwice, Remedy::Wash, text.to_owned()))
}

/// Whether a note says that it was cleaned.
fn is_clean(thing: &Looked<'_>) -> bool {
    thing.notes.iter().any(|note| {
        let note = note.to_lowercase();
        let says = |words: &[&str]| words.iter().any(|word| note.contains(word));
        says(&["washed", "cleaned", "clean"]) && !says(&["not", "n't", "unwashed", "to be", "unclean"])
    })
}

#[cfg(test)]
mod tests {
    use crate::cautions::Remedy;
    use crate::cautions::testing::{of_kind, told};

    #[test]
    fn a_used_thing_is_washed_first() {
        let mut doll = of_kind("doll");
        let remedy = |doll: &_| told("used", doll, 6).map(|(_, remedy)| remedy);
        assert_eq!(remedy(&doll), None);
        doll.flags = vec!["used"];
        assert_eq!(remedy(&doll), Some(Remedy::Wash));
        doll.notes = vec!["washed and brushed, looks new"];
        assert_eq!(remedy(&doll), None);
        doll.notes = vec!["not washed yet"];
        assert_eq!(remedy(&doll), Some(Remedy::Wash));
        doll.flags = vec!["dirty"];
        doll.notes = vec!["washed"];
        assert_eq!(remedy(&doll), Some(Remedy::Wash));
    }

    #[test]
    fn what_touched_a_body_is_left_out() {
        for kind in ["comb", "underpants"] {
            let mut thing = of_kind(kind);
            thing.flags = vec!["used"];
            thing.notes = vec!["washed"];
            assert_eq!(told("used", &thing, 6).map(|(_, remedy)| remedy), Some(Remedy::LeaveOut), "{kind}");
        }
    }
}
