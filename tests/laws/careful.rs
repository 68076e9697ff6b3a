//! Cautions over a year of things: few enough to be read, and none of what matters missing.

use std::collections::BTreeSet;

use brimful::catalogue::Catalogue;
use brimful::cautions::{Child, Looked, When, judge};
use brimful::model::id::{CountedIds, Ids, SeasonId};
use brimful::model::lot::LotFacts;
use brimful::season::{Memory, Store, fill_sample};

/// What the sample's things are told for the age groups that they are for, written down by hand. Of the giraffe, the
/// tower, the sailboat and the wooden tractor neither kind nor size is known, and they are for children of 3 to 5.
const TOLD: [(&str, &str); 13] = [
    ("bouncy balls", "small-ball-toy"),
    ("chunky toy cars", "small-part-toy"),
    ("dinosaur puzzle", "small-part-toy"),
    ("elephant puzzle", "small-part-toy"),
    ("farm puzzle", "small-part-toy"),
    ("plush giraffe", "small-part-toy"),
    ("safety scissors", "sharp"),
    ("school scissors", "sharp"),
    ("solar calculator", "button-cell"),
    ("stacking tower", "small-part-toy"),
    ("toy sailboat", "small-part-toy"),
    ("toy tractors", "small-part-toy"),
    ("wooden tractor", "small-part-toy"),
];

#[test]
fn at_most_one_thing_in_five_of_the_sample_carries_a_sign() {
    let season = fill_sample(Memory::new(SeasonId::new(CountedIds::new(0x5a).fresh()))).unwrap();
    let (profile, catalogue) = (season.profile().unwrap(), Catalogue::built_in());
    let last = *profile.drop_off.last().unwrap();
    let lots = season.store().lots().unwrap();
    let mut told = BTreeSet::new();
    for facts in lots.iter().map(|lot| &lot.facts) {
        let kind = catalogue.kind_of(facts.kind.as_deref().unwrap_or(&facts.name));
        for ages in profile.bands.iter().map(|band| band.ages) {
            if facts.ages.is_none_or(|own| own.covers(ages)) {
                let cautions = judge(&Looked::of(facts, kind), &Child::from(ages), &When::after(last, 60), &[]);
                told.extend(cautions.into_iter().map(|caution| (facts.name.as_str(), caution.rule)));
            }
        }
    }
    let names: BTreeSet<&str> = told.iter().map(|(name, _)| *name).collect();
    println!("{} of {} things of the sample carry a sign: {told:?}", names.len(), lots.len());
    assert!(names.len() * 5 <= lots.len(), "{} of {}", names.len(), lots.len());
    assert_eq!(told, TOLD.iter().map(|(name, rule)| (*name, (*rule).to_owned())).collect());
}

#[test]
fn a_batch_as_it_was_logged_is_looked_at() {
    let catalogue = Catalogue::built_in();
    let rules = |name: &str, note: &str| {
        let facts = LotFacts { name: name.to_owned(), notes: vec![note.to_owned()], ..LotFacts::default() };
        let looked = Looked::of(&facts, catalogue.kind_of(name));
        let told = judge(&looked, &Child { youngest: 6, oldest: 8 }, &When::default(), &[]);
        told.into_iter().map(|caution| caution.rule).collect::<Vec<_>>()
    };
    assert_eq!(rules("red hoodies", ""), ["drawstring"]);
    assert_eq!(rules("red hoodies", "cord taken out of the hood"), [""; 0]);
    assert_eq!(rules("party balloons", ""), ["balloon", "latex"]);
    assert_eq!(rules("gummy bears", ""), ["food", "melts"]);
    assert_eq!(rules("combs", ""), [""; 0]);
}
