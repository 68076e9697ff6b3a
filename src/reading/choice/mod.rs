//! Answers to what a line leaves open: each is the line written so that it reads that way.
//!
//! Nothing here is trusted: ways to write the line are thought up (`count`, `price`, `other`), each
//! is read like any line, and only those that settle the question and change nothing else are
//! offered. What an answer says of itself (`label`) is taken from that reading.

mod count;
mod label;
mod other;
mod price;
mod rewrite;
#[cfg(test)]
mod tests;

use super::draft::Scope;
use super::line::Line;
use super::question::{About, Choice};
use super::report::Reading;
use super::{Context, LONGEST_LINE, noted, resolve, understand};
use crate::model::category::Category;
use crate::model::habit::{AtMeans, Lesson, RangeMeans};
use crate::model::money::Money;

/// The most answers with a line that a question gets.
const MOST: usize = 3;

/// A longer line is not rewritten: nobody takes such a line in at a glance.
const LONGEST: usize = 160;

/// Gives each question of a reading its answers.
pub(super) fn offer(reading: &mut Reading, ctx: &Context<'_>) {
    if reading.questions.is_empty() {
        return;
    }
    let mut line = noted(&reading.line, ctx);
    resolve::name_pack_by_its_price(&mut line.draft);
    let answers: Vec<Vec<Choice>> =
        reading.questions.iter().map(|question| answers(&line, reading, question.about)).collect();
    for (question, choices) in reading.questions.iter_mut().zip(answers) {
        question.choices = choices;
    }
}

fn answers(line: &Line<'_>, reading: &Reading, about: About) -> Vec<Choice> {
    let short = reading.line.chars().count() <= LONGEST;
    let ways = match about {
        About::Units if short => count::ways(line, reading),
        // What was paid hangs on how many there are: one answer to both.
        About::Paid if short && reading.units.is_none() => {
            [count::ways(line, reading), price::ways(line, reading)].concat()
        }
        About::Paid if short => price::ways(line, reading),
        About::Units | About::Paid | About::Name => Vec::new(),
        _ => other::ways(line, about),
    };
    let mut choices = tried(line, reading, about, ways);
    if choices.is_empty() && about == About::Units && short {
        choices = tried(line, reading, about, count::plain_ways(line, reading));
    }
    let decided = choices.len() > 1 && !matches!(about, About::Units | About::Paid);
    if !decided {
        choices.push(Choice::by_hand("I'll write it"));
    }
    choices
}

/// The first few ways that read as an answer.
fn tried(line: &Line<'_>, reading: &Reading, about: About, ways: Vec<String>) -> Vec<Choice> {
    let mut choices: Vec<Choice> = Vec::new();
    for way in ways.into_iter().filter(|way| way.chars().count() <= LONGEST_LINE) {
        if choices.len() == MOST {
            break;
        }
        let settled = understand(reading.n, &way, line.ctx);
        let label = label::label(about, reading, &settled);
        if settles(about, reading, &settled) && choices.iter().all(|choice| choice.label != label) {
            let lesson = lesson(line, about, reading, &settled);
            choices.push(Choice { lesson, ..Choice::new(label, way) });
        }
    }
    choices
}

/// What an answer says of more lines than this one.
fn lesson(line: &Line<'_>, about: About, before: &Reading, after: &Reading) -> Option<Lesson> {
    match about {
        About::Size | About::Ages if before.category == Some(Category::Clothing) && !line.draft.ranges.is_empty() => {
            let kind = before.kind.clone()?;
            let means = match (before.size == after.size, before.ages == after.ages) {
                (false, true) => RangeMeans::Size,
                (true, false) => RangeMeans::Ages,
                _ => return None,
            };
            Some(Lesson::Range { kind, means })
        }
        About::Paid => {
            let [price] = line.draft.prices.as_slice() else { return None };
            let doubtful = price.at && price.scope == Scope::Bare && before.units == after.units;
            let shop = before.shop.as_deref().or(line.ctx.shop).filter(|_| doubtful)?.to_owned();
            let all = Money::from_decimal(price.amount, before.currency) == after.paid;
            Some(Lesson::At { shop, means: if all { AtMeans::All } else { AtMeans::Each } })
        }
        _ => None,
    }
}

/// Whether a line written anew answers this question, raises none about units or the price, and
/// says all else as it was said.
fn settles(about: About, before: &Reading, after: &Reading) -> bool {
    let asks = |reading: &Reading, about| reading.questions.iter().any(|question| question.about == about);
    let raises = |about| asks(after, about) && !asks(before, about);
    !asks(after, about)
        && ![About::Units, About::Paid, About::Name].into_iter().any(raises)
        && after.questions.len() < before.questions.len()
        && sums_stay(about, before, after)
        && rest_stays(about, before, after, |about| asks(before, about))
}

/// Units and price change only where they were asked about, or hung on it; the label tells.
fn sums_stay(about: About, before: &Reading, after: &Reading) -> bool {
    let units = before.units == after.units;
    let price = (before.paid, before.regular) == (after.paid, after.regular);
    match about {
        About::Paid => units || before.units.is_none() || after.paid.is_some_and(|paid| !paid.is_zero()),
        About::Units => price || before.paid.is_none(),
        _ => units && price,
    }
}

fn rest_stays(about: About, before: &Reading, after: &Reading, asked: impl Fn(About) -> bool) -> bool {
    let counted = asked(About::Units);
    let stays = |other: About, same: bool| same || other == about || asked(other);
    stays(About::Name, letters(&before.name) == letters(&after.name))
        && stays(About::Ages, before.ages == after.ages || asked(About::Size))
        && stays(About::Size, before.size == after.size || asked(About::Ages) || counted)
        && stays(About::Place, before.place == after.place || (counted && before.place.is_none()))
        && stays(About::Date, before.date == after.date)
        && stays(About::Expires, before.expires == after.expires)
        && stays(About::Shop, before.shop == after.shop)
        && stays(About::Theme, before.theme == after.theme)
        && stays(About::Measure, before.dims == after.dims && before.weight == after.weight)
        && stays(About::Category, before.category == after.category && before.kind == after.kind)
        && (&before.colours, before.for_whom, &before.flags) == (&after.colours, after.for_whom, &after.flags)
}

/// A name without its signs: what is left of `#2 pencils` when two are counted.
fn letters(name: &str) -> Vec<&str> {
    name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect()
}
