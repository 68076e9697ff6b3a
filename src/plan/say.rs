//! Answers in words.

use super::explain::{Explanation, Left, Short};
use super::most::Most;
use super::next::{Buy, Step};
use super::problem::Problem;

/// How an amount in whole minor units is written.
pub type Amount<'a> = &'a dyn Fn(i64) -> String;

/// Groups that are named before the rest is counted.
const NAMED: usize = 3;

/// How many boxes can be finished: `You can finish 37 of 47 boxes; that is the most you can finish.`
pub fn headline(problem: &Problem, most: &Most) -> String {
    let all = problem.demand.groups.iter().map(|group| u64::from(group.boxes)).sum::<u64>();
    let found = format!("You can finish {} of {}", most.found, boxes(all));
    let more = most.at_most.saturating_sub(most.found);
    match more {
        0 if u64::from(most.found) == all => format!("You can finish {}: all of them.", boxes(all)),
        0 => format!("{found}; that is the most you can finish."),
        _ => format!("{found}, perhaps up to {more} more."),
    }
}

/// What holds back, what isn't short, and what is left over; a sentence each.
pub fn reasons(problem: &Problem, explanation: &Explanation) -> Vec<String> {
    let (holding, later): (Vec<&Short>, Vec<&Short>) = explanation.short.iter().partition(|short| short.holds_back);
    let holds = if holding.len() == 1 { "is what holds you back" } else { "holds you back" };
    let mut said: Vec<String> = holding.iter().map(|short| told(problem, short, holds)).collect();
    said.extend(later.iter().map(|short| told(problem, short, "would run short next")));
    if !explanation.ample.is_empty() && !explanation.short.is_empty() {
        let ample: Vec<String> = explanation.ample.iter().map(|category| of_category(category)).collect();
        said.push(format!("There is enough of {} for every box.", list(&ample, "and")));
    }
    said.extend(left_over(&explanation.left));
    said
}

/// `6 more toothbrushes, washcloths or combs finish 6 more boxes, about 1.80.`
pub fn step(step: &Step, amount: Amount<'_>) -> String {
    let buys: Vec<String> = step.buy.iter().map(buy).collect();
    let one = step.buy.len() == 1 && step.buy[0].units == 1;
    let verb = if one { "finishes" } else { "finish" };
    let more = if step.boxes == 1 { "1 more box".to_owned() } else { format!("{} more boxes", step.boxes) };
    format!("{} {verb} {more}, about {}.", list(&buys, "and"), amount(step.cost))
}

fn buy(buy: &Buy) -> String {
    let kinds: Vec<String> =
        buy.kinds.iter().map(|kind| if buy.units == 1 { kind.clone() } else { many(kind) }).collect();
    format!("{} more {}", buy.units, list(&kinds, "or"))
}

/// `Hygiene for girls 6–8 is what holds you back: 9 on hand, 15 needed.`
fn told(problem: &Problem, short: &Short, how: &str) -> String {
    format!("{} {how}: {}.", capital(&what(problem, short)), counts(short))
}

/// `9 on hand, 15 needed`.
fn counts(short: &Short) -> String {
    let offered = if short.kinds.is_empty() { ", and no price is known for any" } else { "" };
    format!("{} on hand, {} needed{offered}", short.on_hand, short.needed)
}

/// `hygiene for girls 6–8`, `the toothbrush for girls 6–8`.
fn what(problem: &Problem, short: &Short) -> String {
    let of = short.kind.clone().map_or_else(|| of_category(&short.category), |kind| format!("the {kind}"));
    let names: Vec<&str> = short.groups.iter().map(|group| problem.demand.groups[*group].name.as_str()).collect();
    if names.len() == problem.demand.groups.len() && names.len() > 1 {
        return format!("{of} for all groups");
    }
    let mut named: Vec<String> = names.iter().take(NAMED).map(|name| (*name).to_owned()).collect();
    match names.len().saturating_sub(NAMED) {
        0 => {}
        1 => named.push("1 more group".to_owned()),
        more => named.push(format!("{more} more groups")),
    }
    format!("{of} for {}", list(&named, "and"))
}

fn left_over(left: &[Left]) -> Option<String> {
    let units: Vec<String> =
        left.iter().map(|left| format!("{} {}", left.units, units_of(&left.category, left.units))).collect();
    let idle: i64 = left.iter().map(|left| left.idle).sum();
    let fits = match idle {
        0 => String::new(),
        1 => "; 1 of them fits no box that is still open".to_owned(),
        some => format!("; {some} of them fit no box that is still open"),
    };
    (!units.is_empty()).then(|| format!("Left over: {}{fits}.", list(&units, "and")))
}

/// So many units of a category: `2 toys`, `47 clothing`.
fn units_of(category: &str, units: i64) -> String {
    match category {
        "toy" | "wow" if units != 1 => many(&of_category(category)),
        other => of_category(other),
    }
}

/// A category as it is said: `wow item`.
fn of_category(category: &str) -> String {
    match category {
        "wow" => "wow item".to_owned(),
        "" => "of no category".to_owned(),
        other => other.to_owned(),
    }
}

fn boxes(count: u64) -> String {
    if count == 1 { "1 box".to_owned() } else { format!("{count} boxes") }
}

/// `a, b and c`.
fn list(parts: &[String], last: &str) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., end] => format!("{} {last} {end}", most.join(", ")),
    }
}

/// A kind, where there is more than one: `combs`, `toothbrushes`, `socks`.
pub fn many(kind: &str) -> String {
    let before_y = kind.chars().rev().nth(1).is_some_and(|letter| !"aeiou".contains(letter));
    if kind.ends_with("ss") || ["sh", "ch", "x"].iter().any(|end| kind.ends_with(end)) {
        format!("{kind}es")
    } else if kind.ends_with('s') {
        kind.to_owned()
    } else if kind.ends_with('y') && before_y {
        format!("{}ies", &kind[..kind.len() - 1])
    } else {
        format!("{kind}s")
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
