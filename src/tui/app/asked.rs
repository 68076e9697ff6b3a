//! A question with numbered answers, one key each.

use super::fit::Trial;
use super::line::Named;
use crate::model::habit::Lesson;
use crate::season::About;
use crate::tui::back::Deed;

/// A question that stands.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The question.
    pub question: String,
    /// The answers 1 to 9.
    pub choices: Vec<Choice>,
    /// The answer 0, where there is one.
    pub zero: Option<Choice>,
}

/// An answer with its words.
#[derive(Debug, Clone)]
pub struct Choice {
    /// What it says.
    pub label: String,
    /// What it does.
    pub answer: Answer,
}

/// What an answer does.
#[derive(Debug, Clone)]
pub enum Answer {
    /// The line as it is meant, and what that teaches for lines to come.
    Words(String, Option<Lesson>),
    /// Back to the words.
    Write,
    /// Nobody knows: it stays open.
    Leave(About),
    /// This is done.
    Do(Box<Deed>),
    /// The line is opened for more words: given loose, or lost.
    Gone(Named, bool),
    /// It goes back to the shop: the line is opened for what comes back for it.
    Return(String),
    /// The line is opened for the reason why it is allowed.
    Allow(Box<Deed>),
    /// It is tried how a box is packed so.
    Try(Trial),
    /// Nothing is done.
    Nothing,
}

impl Asked {
    /// A question with its answers.
    pub fn new(question: impl Into<String>, choices: Vec<Choice>, zero: Option<Choice>) -> Asked {
        Asked { question: question.into(), choices, zero }
    }

    /// The answer of a digit.
    pub fn answer(&self, digit: i8) -> Option<&Choice> {
        match usize::try_from(digit) {
            Ok(0) => self.zero.as_ref(),
            Ok(number) => self.choices.get(number - 1),
            Err(_) => None,
        }
    }

    /// Each answer with its digit, in the order told.
    pub fn told(&self) -> impl Iterator<Item = (usize, &str)> {
        let numbered = self.choices.iter().enumerate().map(|(at, choice)| (at + 1, choice.label.as_str()));
        numbered.chain(self.zero.iter().map(|choice| (0, choice.label.as_str())))
    }
}

impl Choice {
    /// An answer with its words.
    pub fn new(label: impl Into<String>, answer: Answer) -> Choice {
        Choice { label: label.into(), answer }
    }
}
