//! Button and coin cells.

use crate::cautions::rule::{Rule, Said, Scene, say};
use crate::cautions::{Looked, Remedy, Sure};
use crate::model::kind::Hazard;
use crate::model::rules::Level;

pub(super) const RULE: Rule = Rule {
    id: "button-cell",
    about: "button cells",
    under: None,
    source: "Public Law 117-171 (Reese's Law) and 16 CFR 1263, for children of 6 and younger; ASTM F963-17 clause 5.15.2",
    sheet: "Button cells: please keep them away from small children. If one is swallowed, go to a doctor at once.",
    look,
};

fn look(scene: &Scene<'_>) -> Option<Said> {
    let sure = cells(scene.thing)?;
    let why = format!("{} button cells; one that is swallowed can burn within 2 hours.", sure.has());
    if scene.age <= 6 {
        let text = format!(
            "{why} Make sure that their lid opens only with a tool or with two movements at once. \
             If it doesn't, take them out or leave it out."
        );
        return Some(say(Level::LookTwice, Remedy::TakePartOut("button cells"), text));
    }
    let text = format!("{why} Tell the parent on the sheet to keep them from small children.");
    Some(say(Level::TellParent, Remedy::AddToSheet, text))
}

fn cells(thing: &Looked<'_>) -> Option<Sure> {
    let named = ["button cell", "coin cell"].iter().any(|words| thing.is_called(words));
    let sure = thing.has("button cell", |hazard| *hazard == Hazard::ButtonCell);
    if named { Some(Sure::Said) } else { sure }
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::{of_kind, told, words};
    use crate::model::rules::Level;

    /// 16 CFR 1263: the aim are children of 6 and younger.
    #[test]
    fn looked_at_up_to_6_and_told_from_7_on() {
        let levels = [0, 6, 7, 12].map(|age| told("button-cell", &of_kind("watch"), age).map(|(level, _)| level));
        let (look, tell) = (Some(Level::LookTwice), Some(Level::TellParent));
        assert_eq!(levels, [look, look, tell, tell]);
    }

    #[test]
    fn a_name_may_say_it() {
        let mut cells = of_kind("battery");
        assert_eq!(told("button-cell", &cells, 6), None);
        cells.name = "button cells";
        assert!(words("button-cell", &cells, 6).starts_with("This has button cells; one that is swallowed can burn"));
    }
}
