//! What holds for every thing, child and box; and how many kinds carry a sign.

use std::collections::BTreeSet;

use jiff::civil::date;
use proptest::prelude::*;

use super::testing::{every_kind, size};
use super::{Caution, Child, Looked, RULES, When, judge, judge_box};
use crate::model::measure::Dims;
use crate::model::rules::Level;

/// Age groups, with the most thousandths of all kinds that may carry a sign for them.
///
/// For the youngest, whom few drives have, nearly every rule speaks. The catalogue knows many kinds that nobody should
/// give (matches, medicine), so that the share of what people really pack is smaller.
const BANDS: [(u8, u8, usize); 4] = [(0, 2, 350), (3, 5, 230), (6, 8, 170), (9, 12, 130)];

fn signs(thing: &Looked<'_>, youngest: u8) -> Vec<Caution> {
    let when = When { opened: Some(date(2028, 1, 20)) };
    judge(thing, &Child { youngest, oldest: youngest }, &when, &[])
}

#[test]
fn few_kinds_carry_a_sign() {
    let kinds = every_kind();
    for (youngest, oldest, most) in BANDS {
        let signed: Vec<&str> =
            kinds.iter().filter(|kind| !signs(kind, youngest).is_empty()).map(|kind| kind.name).collect();
        let share = signed.len() * 1000 / kinds.len();
        println!("{youngest}–{oldest}: {} of {} kinds, {share} in a thousand: {signed:?}", signed.len(), kinds.len());
        assert!(share <= most, "{youngest}–{oldest}: {share} in a thousand");
    }
}

#[test]
fn every_rule_but_those_of_what_was_said_speaks_of_some_kind() {
    let kinds = every_kind();
    let told = (0..=12).flat_map(|age| kinds.iter().flat_map(move |kind| signs(kind, age)));
    let spoken: BTreeSet<String> = told.map(|caution| caution.rule).collect();
    let silent: Vec<&str> = RULES.iter().map(|rule| rule.id).filter(|id| !spoken.contains(*id)).collect();
    assert_eq!(silent, ["expiry", "used"]);
}

#[test]
fn what_is_only_typical_is_told_as_usual() {
    // These say what the thing is, by its very kind: a marble, a balloon, a medicine.
    let by_kind = ["marble", "balloon", "flame", "medicine", "melts"];
    for (kind, age) in every_kind().iter().flat_map(|kind| [0, 2, 3, 6, 9].map(|age| (kind, age))) {
        for caution in signs(kind, age) {
            let told = caution.text.contains("usually") || caution.text.contains("nobody has said");
            assert!(told || by_kind.contains(&caution.rule.as_str()), "{}: {}", kind.name, caution.text);
        }
    }
}

#[test]
fn the_words_are_short_and_kind() {
    let unkind = ["event", "verdict", "clearance", "rigid", "manifest", "proven", "null", "danger!", "must not"];
    for (kind, age) in every_kind().iter().flat_map(|kind| [0, 3, 6, 9].map(|age| (kind, age))) {
        for Caution { text, source, remedy, sheet, .. } in signs(kind, age) {
            let sentences = text.matches(". ").count() + text.matches(": ").count() + 1;
            assert!((2..=5).contains(&sentences) && text.ends_with('.') && text.len() <= 260, "{text}");
            assert!(!unkind.iter().any(|word| text.contains(word)), "{text}");
            assert!(!source.is_empty() && !remedy.words().is_empty());
            assert!(sheet.ends_with('.') && sheet.len() <= 120, "{sheet}");
        }
    }
}

/// What was said of a thing of some kind, or of none: flags, sides, a size to wear.
type Parts = (Option<Looked<'static>>, Vec<&'static str>, Option<Dims>, Option<&'static str>);

fn any_thing() -> impl Strategy<Value = Parts> {
    let flags = ["small-parts", "balloon", "cord", "magnet", "sharp", "liquid", "sealed", "used", "battery"];
    let sizes = ["2T", "12", "14", "18", "M"];
    (
        prop::option::weighted(0.9, prop::sample::select(every_kind())),
        prop::sample::subsequence(flags.to_vec(), 0..=3),
        prop::option::of(prop::collection::vec(0_u32..100, 1..=3).prop_map(|sides| size(&sides))),
        prop::option::of(prop::sample::select(sizes.to_vec())),
    )
}

/// The signs of a thing that is put together from these.
fn signs_of((kind, flags, dims, size): &Parts, age: u8) -> Vec<Caution> {
    let kind = kind.clone().unwrap_or_default();
    signs(&Looked { flags: flags.clone(), dims: dims.as_ref(), size: *size, ..kind }, age)
}

fn not_for_age(told: &[Caution]) -> BTreeSet<&str> {
    told.iter().filter(|caution| caution.level == Level::NotForAge).map(|caution| caution.rule.as_str()).collect()
}

proptest! {
    #[test]
    fn an_older_child_never_gets_more_that_is_not_for_the_age(parts in any_thing(), age in 0_u8..15, years in 0_u8..15) {
        let (younger, older) = (signs_of(&parts, age), signs_of(&parts, age + years));
        prop_assert!(not_for_age(&older).is_subset(&not_for_age(&younger)), "{older:?}");
    }

    #[test]
    fn turning_a_thing_changes_nothing(parts in any_thing(), turns in 0_usize..3, age in 0_u8..15) {
        let mut turned = parts.clone();
        if let Some(dims) = &mut turned.2 {
            let turns = turns % dims.0.len();
            dims.0.rotate_left(turns);
        }
        prop_assert_eq!(signs_of(&parts, age), signs_of(&turned, age));
    }

    #[test]
    fn adding_a_thing_never_removes_a_caution(
        things in prop::collection::vec(prop::sample::select(every_kind()), 1..6),
        inside in any::<bool>(),
        age in 0_u8..15,
    ) {
        let child = Child { youngest: age, oldest: age };
        let (first, rest) = things.split_first().unwrap();
        let without = judge_box(rest, &child, &When::default(), &[]);
        let mut more = rest.to_vec();
        match more.first_mut().filter(|_| inside) {
            Some(holder) => holder.holds.push(first.clone()),
            None => more.push(first.clone()),
        }
        let mut with = judge_box(&more, &child, &When::default(), &[]);
        for caution in without {
            let at = with.iter().position(|other| *other == caution);
            prop_assert!(at.is_some(), "{caution:?}");
            with.remove(at.unwrap());
        }
    }
}
