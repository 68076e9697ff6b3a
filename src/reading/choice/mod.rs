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

use super::line::Line;
use super::question::{About, Choice};
use super::report::Reading;
use super::{Context, LONGEST_LINE, noted, resolve, understand};

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
            choices.push(Choice::new(label, way));
        }
    }
    choices
}

/// Whether a line written anew answers this question, raises none about units or the price, and
/// says all else as it was said.
fn settles(about: About, before: &Reading, after: &Reading) -> bool {
    let asks = |reading: &Reading, about| reading.questions.iter().any(|question| question.about == about);
    let raises = |about| asks(after, about) && !asks(before, about);
    let open_before = |other: About| other == about || asks(before, other);
    let kept = |other: About, same: bool| same || open_before(other);
    !asks(after, about)
        && ![About::Units, About::Paid, About::Name].into_iter().any(raises)
        && after.questions.len() < before.questions.len()
        && kept(About::Name, before.name == after.name)
        && (kept(About::Units, before.units == after.units) || about == About::Paid)
        && kept(About::Paid, before.paid.is_none() || before.paid == after.paid)
        && (kept(About::Ages, before.ages == after.ages) || open_before(About::Size))
        && (kept(About::Size, before.size == after.size) || open_before(About::Ages) || open_before(About::Units))
        && kept(About::Place, before.place == after.place || (open_before(About::Units) && before.place.is_none()))
        && kept(About::Date, before.date == after.date)
        && kept(About::Expires, before.expires == after.expires)
        && kept(About::Shop, before.shop == after.shop)
        && kept(About::Theme, before.theme == after.theme)
        && kept(About::Measure, before.dims == after.dims && before.weight == after.weight)
        && kept(About::Category, before.category == after.category)
        && (&before.colours, before.for_whom, &before.flags) == (&after.colours, after.for_whom, &after.flags)
}
