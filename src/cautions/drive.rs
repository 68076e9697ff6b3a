//! What a drive's own rules make of the built-in cautions.

use super::{Caution, Child, Looked, Remedy, When, rule};
use crate::catalogue::likely_singular;
use crate::model::age::Ages;
use crate::model::rules::{DriveRule, Level};
use crate::model::text::normal;

/// The rule that a drive's own caution is said to have.
const OWN: &str = "drive";
/// Where it stands.
const SOURCE: &str = "the drive's rules";

/// The cautions for a thing once the drive has had its say: it adds, makes stricter, and allows.
///
/// What it allows is taken out last, so that an exception holds whatever order the rules stand in.
pub(super) fn with_rules(
    built_in: Vec<Caution>,
    thing: &Looked<'_>,
    child: Child,
    when: When,
    rules: &[DriveRule],
) -> Vec<Caution> {
    let mut cautions = built_in;
    for drive in rules.iter().filter(|rule| names(rule, thing) && holds_for_some(rule, child)) {
        let Some(level) = drive.level.level() else { continue };
        match &drive.about {
            None => cautions.push(own(OWN, level, thing, drive)),
            Some(id) => tighten(&mut cautions, id, level, thing, when, drive),
        }
    }
    let allowed = |caution: &Caution| {
        rules.iter().any(|rule| {
            rule.level.level().is_none()
                && rule.about.as_ref() == Some(&caution.rule)
                && names(rule, thing)
                && holds_for_all(rule, child)
        })
    };
    cautions.retain(|caution| !allowed(caution));
    cautions
}

/// Makes the built-in caution of this id stricter, or adds it where the built-in rule is silent at this age.
fn tighten(cautions: &mut Vec<Caution>, id: &str, level: Level, thing: &Looked<'_>, when: When, drive: &DriveRule) {
    if let Some(caution) = cautions.iter_mut().find(|caution| caution.rule == id) {
        if level > caution.level {
            caution.level = level;
            caution.text = format!("{} {}", said(drive), caution.text);
            if caution.source != SOURCE {
                caution.source = format!("{SOURCE}; {}", caution.source);
            }
            caution.remedy = remedy(level, drive);
        }
    } else if drive.names_things() || rule(id).is_some_and(|rule| rule.concerns(thing, when)) {
        cautions.push(own(id, level, thing, drive));
    }
}

fn own(id: &str, level: Level, thing: &Looked<'_>, drive: &DriveRule) -> Caution {
    Caution {
        rule: id.to_owned(),
        level,
        thing: thing.name.to_owned(),
        text: said(drive),
        source: SOURCE.to_owned(),
        sheet: rule(id).map_or_else(|| format!("The drive says: {}.", reason(drive)), |rule| rule.sheet.to_owned()),
        remedy: remedy(level, drive),
    }
}

fn said(drive: &DriveRule) -> String {
    let reason = reason(drive);
    match drive.level.level() {
        Some(Level::Forbidden) => format!("Your drive forbids it: {reason}."),
        Some(Level::NotForAge) => format!("Your drive keeps it for other ages: {reason}."),
        Some(Level::LookTwice) => format!("Your drive asks to look twice: {reason}."),
        Some(Level::TellParent) | None => format!("Your drive wants the parent to know: {reason}."),
    }
}

/// The drive's reason, to be put into a sentence.
fn reason(drive: &DriveRule) -> &str {
    drive.reason.trim_end_matches('.')
}

fn remedy(level: Level, drive: &DriveRule) -> Remedy {
    match level {
        Level::Forbidden => Remedy::LeaveOut,
        Level::NotForAge => {
            let last = drive.ages.and_then(Ages::to);
            last.and_then(|age| age.checked_add(1)).map_or(Remedy::LeaveOut, Remedy::KeepForOlder)
        }
        Level::LookTwice => Remedy::Allow,
        Level::TellParent => Remedy::AddToSheet,
    }
}

/// Whether each list that isn't empty is met by the thing.
fn names(rule: &DriveRule, thing: &Looked<'_>) -> bool {
    let met = |list: &[String], is: &dyn Fn(&str) -> bool| list.is_empty() || list.iter().any(|word| is(word));
    let kind = |name: &str| thing.kind.is_some_and(|kind| kind == name || kind == likely_singular(name));
    met(&rule.words, &|word| thing.is_called(word))
        && met(&rule.kinds, &kind)
        && met(&rule.flags, &|flag| thing.says(flag) || thing.says(&normal(flag).replace(' ', "-")))
        && (rule.categories.is_empty() || thing.category.is_some_and(|category| rule.categories.contains(category)))
}

/// Whether a child who may get the box is of the rule's ages.
fn holds_for_some(rule: &DriveRule, child: Child) -> bool {
    rule.ages.is_none_or(|ages| ages.from() <= child.oldest && ages.to().is_none_or(|last| child.youngest <= last))
}

/// Whether every child who may get the box is.
fn holds_for_all(rule: &DriveRule, child: Child) -> bool {
    rule.ages.is_none_or(|ages| ages.from() <= child.youngest && ages.to().is_none_or(|last| child.oldest <= last))
}

#[cfg(test)]
mod tests {
    use crate::cautions::testing::of_kind;
    use crate::cautions::{Caution, Child, Looked, Remedy, When, judge};
    use crate::model::age::Ages;
    use crate::model::category::Category;
    use crate::model::rules::{DriveRule, Level, Ruling};

    fn rule(about: Option<&str>, level: Ruling) -> DriveRule {
        DriveRule {
            about: about.map(str::to_owned),
            words: Vec::new(),
            kinds: Vec::new(),
            categories: Vec::new(),
            flags: Vec::new(),
            ages: None,
            level,
            reason: "it was so last year".to_owned(),
        }
    }

    fn at(youngest: u8, oldest: u8, thing: &Looked<'_>, rules: &[DriveRule]) -> Vec<Caution> {
        judge(thing, &Child { youngest, oldest }, &When::default(), rules)
    }

    fn levels(told: &[Caution]) -> Vec<(&str, Level)> {
        told.iter().map(|caution| (caution.rule.as_str(), caution.level)).collect()
    }

    #[test]
    fn a_drive_forbids_a_word_a_kind_a_category_or_what_was_said() {
        let mut slime = of_kind("putty");
        slime.name = "glitter slimes";
        slime.flags = vec!["sealed"];
        let base = rule(None, Ruling::Forbidden);
        let words = |word: &str| DriveRule { words: vec![word.to_owned()], ..base.clone() };
        for (rule, speaks) in [
            (words("slime"), true),
            (words("glitter slime"), true),
            (words("lime"), false),
            (DriveRule { kinds: vec!["putty".to_owned()], ..base.clone() }, true),
            (DriveRule { kinds: vec!["ball".to_owned()], ..base.clone() }, false),
            (DriveRule { categories: vec![Category::Toy], ..base.clone() }, true),
            (DriveRule { categories: vec![Category::School], ..base.clone() }, false),
            (DriveRule { flags: vec!["sealed".to_owned()], ..base.clone() }, true),
            (DriveRule { categories: vec![Category::School], ..words("slime") }, false),
        ] {
            let told = at(6, 8, &slime, std::slice::from_ref(&rule));
            assert_eq!(levels(&told) == [("drive", Level::Forbidden)], speaks, "{rule:?}");
        }
        let told = at(6, 8, &slime, &[words("slime")]);
        assert_eq!(told[0].text, "Your drive forbids it: it was so last year.");
        assert_eq!((told[0].source.as_str(), told[0].remedy), ("the drive's rules", Remedy::LeaveOut));
    }

    #[test]
    fn a_drive_makes_a_built_in_caution_stricter_at_every_age() {
        let forbid = [rule(Some("balloon"), Ruling::Forbidden)];
        let balloon = of_kind("balloon");
        let young = at(3, 5, &balloon, &forbid);
        assert_eq!(levels(&young), [("balloon", Level::Forbidden), ("latex", Level::TellParent)]);
        assert!(young[0].text.starts_with("Your drive forbids it: it was so last year. This is a balloon."));
        assert!(young[0].source.contains("16 CFR 1500.19(b)(2)"));
        assert_eq!(levels(&at(9, 12, &balloon, &forbid))[0], ("balloon", Level::Forbidden));
        assert_eq!(at(9, 12, &of_kind("notebook"), &forbid), []);
        // Nothing is made milder that way.
        let mild = [rule(Some("balloon"), Ruling::TellParent)];
        assert_eq!(levels(&at(3, 5, &balloon, &mild))[0], ("balloon", Level::NotForAge));
    }

    #[test]
    fn a_drive_allows_what_it_names_for_whole_age_groups() {
        let tube = of_kind("toothpaste");
        let allow = DriveRule {
            kinds: vec!["toothpaste".to_owned()],
            ages: Ages::new(6, Some(12)),
            ..rule(Some("liquid"), Ruling::Allow)
        };
        let rules = [allow, rule(Some("liquid"), Ruling::Forbidden)];
        assert_eq!(at(6, 8, &tube, &rules), []);
        assert_eq!(levels(&at(5, 8, &tube, &rules)), [("liquid", Level::Forbidden)]);
        assert_eq!(levels(&at(6, 8, &of_kind("shampoo"), &rules)), [("liquid", Level::Forbidden)]);
    }

    #[test]
    fn ages_count_if_one_child_of_the_box_is_among_them() {
        let few =
            DriveRule { words: vec!["rope".to_owned()], ages: Ages::new(0, Some(5)), ..rule(None, Ruling::NotForAge) };
        let rope = of_kind("jump rope");
        let told = at(5, 8, &rope, std::slice::from_ref(&few));
        assert_eq!((told.len(), told[0].remedy), (1, Remedy::KeepForOlder(6)));
        assert_eq!(at(6, 8, &rope, std::slice::from_ref(&few)), []);
    }
}
