//! From a line as understood to the next thing that must be asked of it.

use super::asked::{Answer, Asked, Choice};
use super::seen::Seen;
use crate::model::category::Category;
use crate::model::profile::Profile;
use crate::season::{About, Entry, Outcome, Question, Reading};

/// What stands between a line and its being kept.
#[derive(Debug)]
pub enum Next {
    /// A question.
    Ask(Box<Asked>),
    /// It can't be read at all, and why.
    No(String),
    /// Nothing: it can be kept.
    Keep,
}

/// The next doubt of a line; `left` are those to which nobody knows the answer.
pub fn next(entry: &Entry, left: &[About], seen: &Seen) -> Next {
    match entry {
        Entry::Head(_) => Next::Keep,
        Entry::Line(Outcome::Refused(refused)) => Next::No(refused.error.clone()),
        Entry::Line(Outcome::Read(reading)) => {
            if reading.name.is_empty() {
                return Next::No("It says no thing yet.".to_owned());
            }
            let open = reading.questions.iter().find(|question| !left.contains(&question.about));
            match open {
                Some(question) => Next::Ask(Box::new(ask(question))),
                None if reading.category.is_none() && !left.contains(&About::Category) => {
                    Next::Ask(Box::new(ask_category(reading, seen)))
                }
                None => Next::Keep,
            }
        }
    }
}

/// Whether a line can be kept as it stands.
pub fn is_clear(entry: &Entry, left: &[About], seen: &Seen) -> bool {
    matches!(next(entry, left, seen), Next::Keep)
}

fn ask(question: &Question) -> Asked {
    let choices = question.choices.iter().map(|choice| {
        let words = |line: String| Answer::Words(line, choice.lesson.clone());
        let answer = choice.line.clone().map_or(Answer::Write, words);
        Choice::new(choice.label.clone(), answer)
    });
    let zero = question.can_wait().then(|| Choice::new("don't know", Answer::Leave(question.about)));
    let lesson = question.choices.iter().find_map(|choice| choice.lesson.as_ref());
    let remembers = lesson.map(|lesson| format!(" I'll remember it for {}.", lesson.topic())).unwrap_or_default();
    Asked::new(format!("{}{remembers}", question.why), choices.collect(), zero)
}

/// A thing that no kind is known for counts for nothing until it is said.
fn ask_category(reading: &Reading, seen: &Seen) -> Asked {
    let mut categories = seen.profile().map(Profile::categories).unwrap_or_default();
    if !categories.contains(&Category::Extras) {
        categories.push(Category::Extras);
    }
    let choice = |category: &Category| {
        Choice::new(category.words(), Answer::Words(format!("{} as {}", reading.line.trim(), category.word()), None))
    };
    Asked::new(
        format!("\"{}\": what does it count for?", reading.name),
        categories.iter().take(9).map(choice).collect(),
        Some(Choice::new("don't know", Answer::Leave(About::Category))),
    )
}
