//! Writing a line anew: words struck out, words put in, the rest as it was typed.

use std::ops::Range;

use crate::reading::line::Line;
use crate::reading::taken::What;
use crate::reading::token::Shape;

/// A line on its way to another.
#[derive(Clone)]
pub(super) struct Rewrite<'a> {
    line: &'a Line<'a>,
    struck: Vec<bool>,
    added: Vec<(usize, String)>,
}

impl<'a> Rewrite<'a> {
    pub fn of(line: &'a Line<'a>) -> Rewrite<'a> {
        Rewrite { line, struck: vec![false; line.tokens.len()], added: Vec::new() }
    }

    /// Strikes out these tokens.
    pub fn strike(mut self, range: Range<usize>) -> Rewrite<'a> {
        self.struck.iter_mut().take(range.end).skip(range.start).for_each(|struck| *struck = true);
        self
    }

    /// Strikes out all that was taken for one of these.
    pub fn strike_all(mut self, whats: &[What]) -> Rewrite<'a> {
        for (struck, token) in self.struck.iter_mut().zip(&self.line.tokens) {
            *struck |= token.took.is_some_and(|what| whats.contains(&what));
        }
        self
    }

    /// Strikes out words that say nothing; they spoke of what is struck out.
    pub fn without_filler(mut self) -> Rewrite<'a> {
        for (struck, token) in self.struck.iter_mut().zip(&self.line.tokens) {
            *struck |= token.took == Some(What::Filler) && token.text != ",";
        }
        self
    }

    /// Puts words in before a token; behind the last one where there is none.
    pub fn add(mut self, at: usize, words: &str) -> Rewrite<'a> {
        if !words.is_empty() {
            self.added.push((at, words.to_owned()));
        }
        self
    }

    /// Puts words in before the name.
    pub fn lead(self, words: &str) -> Rewrite<'a> {
        let at = name_at(self.line).unwrap_or(0);
        self.add(at, words)
    }

    /// Puts words in at the end.
    pub fn end(self, words: &str) -> Rewrite<'a> {
        let at = self.line.tokens.len();
        self.add(at, words)
    }

    /// What is struck out, as it was typed.
    pub fn struck_words(&self) -> String {
        let typed: Vec<String> = self.stretches().into_iter().map(|range| self.line.typed(range)).collect();
        typed.join(" ").replace(['(', ')'], "")
    }

    fn stretches(&self) -> Vec<Range<usize>> {
        let mut found: Vec<Range<usize>> = Vec::new();
        for at in (0..self.struck.len()).filter(|&at| self.struck.get(at) == Some(&true)) {
            match found.last_mut() {
                Some(last) if last.end == at => last.end = at + 1,
                _ => found.push(at..at + 1),
            }
        }
        found
    }

    /// The line.
    pub fn write(&self) -> String {
        let mut text = String::new();
        let mut apart = true;
        for (at, token) in self.line.tokens.iter().enumerate() {
            apart |= self.put_in(at, &mut text);
            if self.struck.get(at) == Some(&true) {
                apart = true;
                continue;
            }
            let parts = token.shape == Shape::Sign && matches!(token.text.as_str(), "," | ".");
            // A sign that parted two stretches has nothing to part where one of them is gone.
            if parts && (text.is_empty() || text.ends_with(',')) {
                continue;
            }
            if !text.is_empty() && (!token.glued || (apart && !parts)) {
                text.push(' ');
            }
            text.push_str(self.line.source.get(token.span.clone()).unwrap_or_default());
            apart = false;
        }
        self.put_in(self.line.tokens.len(), &mut text);
        text.trim_end_matches([',', ' ']).to_owned()
    }

    fn put_in(&self, at: usize, text: &mut String) -> bool {
        let mut put = false;
        for (_, words) in self.added.iter().filter(|(place, _)| *place == at) {
            if !text.is_empty() && !words.starts_with(',') {
                text.push(' ');
            }
            text.push_str(if text.is_empty() { words.trim_start_matches([',', ' ']) } else { words });
            put = true;
        }
        put
    }
}

/// The first token of the name.
pub(super) fn name_at(line: &Line<'_>) -> Option<usize> {
    (0..line.tokens.len()).find(|&at| line.took(at) == Some(What::Name))
}
