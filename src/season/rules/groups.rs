//! Age groups in words, and what becomes of checklists and boxes when groups change.

use super::rule::Read;
use crate::model::age::Ages;
use crate::model::profile::Band;

/// What a change of groups means for a box of one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Follows {
    /// Its group is still there.
    Same,
    /// One group has taken its group's place.
    Becomes(Ages),
    /// Its ages are now in several groups.
    Parted,
    /// No group has any of its ages.
    Gone,
}

/// `3-5, 6-8, 9-12`.
pub fn words(bands: &[Band]) -> String {
    bands.iter().map(|band| band.ages.to_string().replace('–', "-")).collect::<Vec<_>>().join(", ")
}

/// The groups that the words name; each keeps the checklist of the group whose place it takes.
pub fn read(words: &str, before: &[Band]) -> Read<Vec<Band>> {
    let parts = words.split([',', ';']).map(str::trim).filter(|part| !part.is_empty());
    let mut groups = parts.map(ages).collect::<Read<Vec<Ages>>>()?;
    if groups.is_empty() {
        return Err("a drive has at least one age group; write for example 3-5, 6-8, 9-12".to_owned());
    }
    groups.sort_by_key(|ages| ages.from());
    for pair in groups.windows(2) {
        if last(pair[0]) >= pair[1].from() {
            return Err(format!("{} and {} overlap; each age belongs to one group", pair[0], pair[1]));
        }
    }
    let band =
        |ages| Band { ages, checklist: nearest(ages, before).map(|band| band.checklist.clone()).unwrap_or_default() };
    Ok(groups.into_iter().map(band).collect())
}

/// What becomes of a box for these ages when groups change.
///
/// One group has taken the place of another where it alone has its ages, or where each shares most years with the other.
pub fn follows(ages: Ages, before: &[Band], after: &[Band]) -> Follows {
    if after.iter().any(|band| band.ages == ages) {
        return Follows::Same;
    }
    let sharing = after.iter().filter(|band| shared(band.ages, ages) > 0).count();
    let next = nearest(ages, after).map(|band| band.ages);
    match (sharing, next) {
        (0, _) | (_, None) => Follows::Gone,
        (1, Some(next)) => Follows::Becomes(next),
        (_, Some(next)) if nearest(next, before).is_some_and(|band| band.ages == ages) => Follows::Becomes(next),
        _ => Follows::Parted,
    }
}

/// `6-8`, `6–8`, `7`; both ends are said, as boxes are planned by them.
fn ages(part: &str) -> Read<Ages> {
    let year = |word: &str| word.trim().parse::<u8>().ok();
    let (from, to) = part.split_once(['-', '–']).unwrap_or((part, part));
    let found = year(from).zip(year(to)).and_then(|(from, to)| Ages::new(from, Some(to)));
    found.ok_or_else(|| format!("\"{part}\" is no age group; write its first and its last age: 6-8"))
}

fn last(ages: Ages) -> u8 {
    ages.to().unwrap_or(Ages::OLDEST)
}

/// How many years two groups share.
fn shared(one: Ages, other: Ages) -> u8 {
    let (from, to) = (one.from().max(other.from()), last(one).min(last(other)));
    if from <= to { to - from + 1 } else { 0 }
}

/// The group that shares most years; where none does, the one closest by age. The younger one of two alike.
fn nearest(ages: Ages, before: &[Band]) -> Option<&Band> {
    let apart = |band: &Band| ages.from().abs_diff(last(band.ages)).min(band.ages.from().abs_diff(last(ages)));
    before.iter().min_by_key(|band| {
        let years = shared(ages, band.ages);
        (u8::MAX - years, if years > 0 { 0 } else { apart(band) })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::profile::{Line, Wanted};

    fn group(from: u8, to: u8, count: u32) -> Band {
        let line = Line { of: Wanted::Category(crate::model::category::Category::Toy), count };
        Band { ages: Ages::new(from, Some(to)).unwrap(), checklist: vec![line] }
    }

    fn standing() -> Vec<Band> {
        vec![group(3, 5, 3), group(6, 8, 6), group(9, 12, 9)]
    }

    /// Groups in words with the count by which each checklist is known.
    fn after(words: &str) -> Read<Vec<(String, u32)>> {
        let bands = read(words, &standing())?;
        Ok(bands.iter().map(|band| (band.ages.to_string(), band.checklist[0].count)).collect())
    }

    #[test]
    fn a_changed_group_keeps_its_checklist() {
        let so = |groups: &[(&str, u32)]| Ok(groups.iter().map(|(ages, count)| ((*ages).to_owned(), *count)).collect());
        assert_eq!(after("9-12, 6–8, 3-5"), so(&[("3–5", 3), ("6–8", 6), ("9–12", 9)]));
        assert_eq!(after("3-4, 5-9, 10-12"), so(&[("3–4", 3), ("5–9", 6), ("10–12", 9)]));
        assert_eq!(after("3-8; 9-12"), so(&[("3–8", 3), ("9–12", 9)]));
        assert_eq!(after("2, 13-17"), so(&[("2", 3), ("13–17", 9)]));
    }

    #[test]
    fn what_is_no_list_of_groups_is_named() {
        assert_eq!(after("3-6, 6-8").unwrap_err(), "3–6 and 6–8 overlap; each age belongs to one group");
        assert_eq!(after("8-6").unwrap_err(), "\"8-6\" is no age group; write its first and its last age: 6-8");
        assert!(after("").unwrap_err().starts_with("a drive has at least one age group"));
        assert!(after("3-500").is_err() && after("13 and up").is_err());
    }

    #[test]
    fn boxes_follow_the_one_group_that_has_their_ages() {
        let six = |words| follows(Ages::new(6, Some(8)).unwrap(), &standing(), &read(words, &standing()).unwrap());
        let becomes = |from, to| Follows::Becomes(Ages::new(from, Some(to)).unwrap());
        assert_eq!(six("3-5, 6-8"), Follows::Same);
        assert_eq!(six("3-5, 6-9, 10-12"), becomes(6, 9));
        assert_eq!(six("3-8"), becomes(3, 8));
        assert_eq!(six("3-6, 7-9, 10-12"), becomes(7, 9));
        assert_eq!(six("3-5, 6-7, 8-12"), becomes(6, 7));
        assert_eq!(six("3-6, 7-12"), Follows::Parted);
        assert_eq!(six("3-5, 9-12"), Follows::Gone);
    }
}
