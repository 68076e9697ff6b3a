//! Answers to what a line leaves open: each is the line written so that it reads that way.

use super::question::{About, Choice};
use super::report::Reading;
use super::{Context, understand};

/// Gives each question of a reading its answers.
pub(super) fn offer(reading: &mut Reading, ctx: &Context<'_>) {
    let mut questions = std::mem::take(&mut reading.questions);
    for question in &mut questions {
        question.choices = choices(reading, question.about, ctx);
    }
    reading.questions = questions;
}

fn choices(reading: &Reading, about: About, ctx: &Context<'_>) -> Vec<Choice> {
    let mut choices = Vec::new();
    if about == About::Paid {
        let line = format!("{} free", reading.line);
        let settled = understand(reading.n, &line, ctx);
        if settled.questions.iter().all(|question| question.about != About::Paid) {
            choices.push(Choice::new("it was free", line));
        }
    }
    choices.push(Choice::by_hand("I'll write it"));
    choices
}
