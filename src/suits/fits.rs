//! What may not be bent: who it is for, the ages, the line of the checklist, and that there is one to put in.

use super::size::is_wrong_size;
use super::{Candidate, Wish};
use crate::model::category::Category;
use crate::model::profile::Wanted;
use crate::model::whom::ForWhom;

/// Whether it may be suggested.
pub(super) fn fits(wish: &Wish<'_>, candidate: &Candidate<'_>) -> bool {
    for_them(wish, candidate)
        && covers(wish, candidate)
        && has_their_size(wish, candidate)
        && meets(wish.line, candidate)
        && is_there(candidate)
}

/// Why a thing that was asked for by name does not suit: `for a boy`, `ages 9–12`, `counts for toy, not school`.
pub fn misfit(wish: &Wish<'_>, candidate: &Candidate<'_>) -> Option<String> {
    if !for_them(wish, candidate) {
        return Some(format!("for a {}", candidate.for_whom.map_or("", ForWhom::word)));
    }
    if let Some(ages) = candidate.ages.filter(|_| !covers(wish, candidate)) {
        return Some(format!("ages {ages}"));
    }
    if let Some(size) = candidate.size.filter(|_| !has_their_size(wish, candidate)) {
        return Some(format!("size {}", size.to_lowercase()));
    }
    if let Some(line) = wish.line.filter(|_| !meets(wish.line, candidate)) {
        return Some(counts_otherwise(line, candidate));
    }
    (!is_there(candidate)).then(|| "none on hand that no box holds".to_owned())
}

/// Whether it meets the line only by being named this box's wow item.
pub(super) fn as_wow(line: Option<&Wanted>, category: Option<&Category>) -> bool {
    line == Some(&Wanted::Category(Category::Wow)) && category == Some(&Category::Toy)
}

fn for_them(wish: &Wish<'_>, candidate: &Candidate<'_>) -> bool {
    candidate.for_whom.is_none() || candidate.for_whom == wish.facts.for_whom
}

fn covers(wish: &Wish<'_>, candidate: &Candidate<'_>) -> bool {
    candidate.ages.is_none_or(|ages| ages.covers(wish.facts.ages))
}

fn has_their_size(wish: &Wish<'_>, candidate: &Candidate<'_>) -> bool {
    !is_wrong_size(candidate.category, candidate.kind, candidate.size, wish.facts.ages)
}

fn meets(line: Option<&Wanted>, candidate: &Candidate<'_>) -> bool {
    match line {
        None => true,
        Some(Wanted::Category(wanted)) => candidate.category == Some(wanted) || as_wow(line, candidate.category),
        Some(Wanted::Kind(kind)) => candidate.kind == Some(kind.as_str()),
    }
}

fn is_there(candidate: &Candidate<'_>) -> bool {
    candidate.free > 0 || candidate.aside_here > 0
}

fn counts_otherwise(line: &Wanted, candidate: &Candidate<'_>) -> String {
    let is = match (line, candidate.kind, candidate.category) {
        (Wanted::Kind(_), Some(kind), _) => return format!("{kind}, not {}", line.words()),
        (_, _, Some(category)) => category.words(),
        (_, _, None) => "nothing",
    };
    format!("counts for {is}, not {}", line.words())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::suits::laws::{ages, box_for, plain};

    fn why_not(line: Option<&Wanted>, candidate: Candidate<'_>) -> Option<String> {
        let facts = box_for(Some(ForWhom::Girl), ages(6, 8));
        misfit(&Wish { facts: &facts, line, inside: &[], gaps: &[] }, &candidate)
    }

    #[test]
    fn why_it_does_not_suit() {
        let school = Wanted::Category(Category::School);
        let toothbrush = Wanted::Kind("toothbrush".to_owned());
        let ball = Candidate { category: Some(&Category::Toy), kind: Some("ball"), ..plain("ball, foam") };
        let said = |line, candidate: Candidate<'_>| why_not(line, candidate).unwrap();
        assert_eq!(said(Some(&school), Candidate { for_whom: Some(ForWhom::Boy), ..ball }), "for a boy");
        assert_eq!(said(Some(&school), Candidate { ages: Some(ages(9, 12)), ..ball }), "ages 9–12");
        assert_eq!(said(Some(&school), ball), "counts for toy, not school");
        assert_eq!(said(Some(&toothbrush), ball), "ball, not toothbrush");
        assert_eq!(said(Some(&toothbrush), plain("thing")), "counts for nothing, not toothbrush");
        assert_eq!(said(None, Candidate { free: 0, ..ball }), "none on hand that no box holds");
        assert_eq!(why_not(None, ball), None);
        assert_eq!(why_not(Some(&Wanted::Category(Category::Toy)), ball), None);
    }

    #[test]
    fn a_thing_for_a_girl_is_not_for_a_box_for_either() {
        let facts = box_for(None, ages(6, 8));
        let wish = Wish { facts: &facts, line: None, inside: &[], gaps: &[] };
        let tiara = Candidate { for_whom: Some(ForWhom::Girl), ..plain("tiara") };
        assert_eq!(misfit(&wish, &tiara).as_deref(), Some("for a girl"));
        assert!(fits(&wish, &plain("comb")));
    }

    #[test]
    fn ages_have_to_cover_the_whole_group() {
        let six_up = |from| Candidate { ages: crate::model::age::Ages::new(from, None), ..plain("kit") };
        assert_eq!(why_not(None, six_up(6)), None);
        assert_eq!(why_not(None, six_up(7)).as_deref(), Some("ages 7 and up"));
    }

    #[test]
    fn a_toy_may_be_the_wow_item() {
        let wow = Wanted::Category(Category::Wow);
        let toy = Candidate { category: Some(&Category::Toy), ..plain("kite") };
        let comb = Candidate { category: Some(&Category::Hygiene), ..plain("comb") };
        assert_eq!(why_not(Some(&wow), toy), None);
        assert_eq!(why_not(Some(&wow), comb).as_deref(), Some("counts for hygiene, not wow item"));
        assert!(as_wow(Some(&wow), toy.category) && !as_wow(Some(&wow), Some(&Category::Wow)));
    }
}
