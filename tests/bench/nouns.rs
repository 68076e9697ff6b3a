//! How often the catalogue knows what a noun counts for, against a list that somebody else labelled.
//!
//! The list is no part of this project: its path stands in `BRIMFUL_NOUNS`, its columns are `noun,category,source,…`
//! with the categories hygiene, school, clothing, toy and other.

use std::collections::BTreeMap;

use brimful::catalogue::Catalogue;
use brimful::model::category::Category;

#[derive(Default, Clone, Copy)]
struct Score {
    right: u32,
    wrong: u32,
    unknown: u32,
}

/// Prints the share of right, wrong and unknown categories, in all and by source.
pub fn nouns() {
    let Some(path) = std::env::var_os("BRIMFUL_NOUNS") else {
        println!("nouns: BRIMFUL_NOUNS names no list, so nothing was measured.");
        return;
    };
    let text = match std::fs::read_to_string(&path) {
        Ok(text) => text,
        Err(error) => {
            println!("nouns: {}: {error}", path.display());
            return;
        }
    };
    let catalogue = Catalogue::built_in();
    let mut scores: BTreeMap<String, Score> = BTreeMap::new();
    let show = std::env::var("BRIMFUL_NOUNS_SHOW").unwrap_or_default();
    for (at, line) in text.lines().skip(1).enumerate() {
        let cells: Vec<&str> = line.split(',').collect();
        let [noun, label, source, ..] = cells[..] else { continue };
        let found = catalogue.category_of(noun).map(|category| told(&category));
        let half = if at % 2 == 0 { "even rows" } else { "odd rows" };
        for group in ["all", source, half, label] {
            let score = scores.entry(group.to_owned()).or_default();
            match &found {
                None => score.unknown += 1,
                Some(found) if *found == label => score.right += 1,
                Some(_) => score.wrong += 1,
            }
        }
        let is = match &found {
            None => "unknown",
            Some(found) if *found == label => "right",
            Some(_) => "wrong",
        };
        if show == is && at % 2 == 0 {
            println!("{noun},{label},{}", found.unwrap_or_default());
        }
    }
    println!(
        "{:<26} {:>7} {:>7} {:>7} {:>8}   wrong of those answered",
        "nouns", "right", "wrong", "unknown", "right of"
    );
    for (group, Score { right, wrong, unknown }) in scores {
        let share = |part: u32, of: u32| f64::from(part) * 100.0 / f64::from(of.max(1));
        let all = share(right, right + wrong + unknown);
        println!("{group:<26} {right:>7} {wrong:>7} {unknown:>7} {all:>7.1}%   {:.1}%", share(wrong, right + wrong));
    }
}

/// A wow item is a judgement about a toy, and extras are whatever is none of the four.
fn told(category: &Category) -> String {
    match category {
        Category::Wow => "toy".to_owned(),
        Category::Extras => "other".to_owned(),
        other => other.word().to_owned(),
    }
}
