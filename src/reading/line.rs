//! A line while it is being read: its tokens, and the draft that the rules write.

use std::ops::Range;

use super::Context;
use super::draft::Draft;
use super::question::{About, Question};
use super::taken::What;
use super::token::{Shape, Token, cut};

/// The tokens of a line with what has been understood so far.
pub(super) struct Line<'a> {
    /// The cleaned line.
    pub source: &'a str,
    pub ctx: &'a Context<'a>,
    pub tokens: Vec<Token>,
    pub draft: Draft,
}

impl<'a> Line<'a> {
    /// Cuts up a cleaned line.
    pub fn new(source: &'a str, ctx: &'a Context<'a>) -> Line<'a> {
        let (tokens, notes) = cut(source);
        Line { source, ctx, tokens, draft: Draft { notes, ..Draft::default() } }
    }

    /// Tries a rule at each open token from the left; a rule that takes words says where it ended.
    pub fn scan(&mut self, rule: impl Fn(&mut Line<'a>, usize) -> Option<usize>) {
        let mut at = 0;
        while at < self.tokens.len() {
            at = match self.open(at).is_some().then(|| rule(self, at)).flatten() {
                Some(end) => end.max(at + 1),
                None => at + 1,
            };
        }
    }

    /// The token here, if no rule has taken it yet.
    pub fn open(&self, at: usize) -> Option<&Token> {
        self.tokens.get(at).filter(|token| token.took.is_none())
    }

    /// The open word here.
    pub fn word(&self, at: usize) -> Option<&str> {
        self.open(at).filter(|token| token.shape == Shape::Word).map(|token| token.text.as_str())
    }

    /// The open number here.
    pub fn number(&self, at: usize) -> Option<&Token> {
        self.open(at).filter(|token| token.shape == Shape::Number)
    }

    /// The open whole number here.
    pub fn whole(&self, at: usize) -> Option<u32> {
        self.open(at).and_then(Token::whole)
    }

    /// Whether one of these words or signs stands open here.
    pub fn is(&self, at: usize, texts: &[&str]) -> bool {
        self.open(at).is_some_and(|token| token.shape != Shape::Number && texts.contains(&token.text.as_str()))
    }

    /// The end of an open phrase that begins here; a hyphen may stand between its words.
    pub fn phrase(&self, at: usize, phrase: &str) -> Option<usize> {
        let mut end = at;
        for (i, word) in phrase.split(' ').enumerate() {
            if i > 0 && self.is(end, &["-"]) && self.glued(end) {
                end += 1;
            }
            if !self.is(end, &[word]) {
                return None;
            }
            end += 1;
        }
        Some(end)
    }

    /// The end of the first of these phrases that begins here.
    pub fn any_phrase(&self, at: usize, phrases: &[&str]) -> Option<usize> {
        phrases.iter().find_map(|phrase| self.phrase(at, phrase))
    }

    /// Whether no white space stands before this token (and it is not the first).
    pub fn glued(&self, at: usize) -> bool {
        self.tokens.get(at).is_some_and(|token| token.glued)
    }

    /// Whether the words `at..end` hang on to letters, or a hyphen, before or behind them.
    pub fn hangs(&self, at: usize, end: usize) -> bool {
        self.hangs_before(at) || self.hangs_behind(end)
    }

    /// Whether letters, digits or a hyphen stand right before this token.
    pub fn hangs_before(&self, at: usize) -> bool {
        self.glued(at) && at.checked_sub(1).is_some_and(|before| self.binds(before))
    }

    /// Whether letters, digits or a hyphen with more behind it begin right here.
    pub fn hangs_behind(&self, end: usize) -> bool {
        let sign = self.tokens.get(end).is_some_and(|token| token.shape == Shape::Sign);
        self.glued(end) && self.binds(end) && (!sign || self.glued(end + 1))
    }

    fn binds(&self, at: usize) -> bool {
        let sign_binds = |token: &Token| matches!(token.text.as_str(), "-" | "'");
        self.tokens.get(at).is_some_and(|token| token.shape != Shape::Sign || sign_binds(token))
    }

    /// Takes the tokens of a range that are still open.
    pub fn take(&mut self, range: Range<usize>, what: What) {
        for token in self.tokens.get_mut(range).into_iter().flatten() {
            token.took.get_or_insert(what);
        }
    }

    /// What the token here was taken for.
    pub fn took(&self, at: usize) -> Option<What> {
        self.tokens.get(at).and_then(|token| token.took)
    }

    /// The words of a range as typed, with single spaces.
    pub fn typed(&self, range: Range<usize>) -> String {
        let start = self.tokens.get(range.start).map_or(0, |token| token.span.start);
        let end = range.end.checked_sub(1).and_then(|last| self.tokens.get(last)).map_or(start, |token| token.span.end);
        let slice = self.source.get(start..end).unwrap_or_default();
        slice.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Leaves something open.
    pub fn ask(&mut self, about: About, why: String) {
        self.draft.ask(Question::new(about, why));
    }

    /// Leaves something open about these words, and takes them.
    pub fn doubt(&mut self, range: Range<usize>, about: About, why: &str) {
        let why = format!("\"{}\": {why}", self.typed(range.clone()));
        self.take(range, What::Doubt);
        self.ask(about, why);
    }
}
