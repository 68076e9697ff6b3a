//! Finding a name from a few letters of it.
//!
//! Every word of the query must be found. How well it is found comes in grades, best first, so
//! that a caller can tell "this is it" from "did you mean": the same name, whole words, beginnings
//! of words, letters in order, and one slip of the fingers.

mod quick;

pub use quick::{Marks, Sought, best};

use fuzzy_matcher::FuzzyMatcher;
use fuzzy_matcher::skim::SkimMatcherV2;

use crate::catalogue::same_word;
use crate::model::text::normal;

/// How closely a name answers a query.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Closeness {
    /// It is the same name, singular or plural.
    Same,
    /// All words of the query are words of it.
    Words,
    /// All words of the query begin words of it.
    Beginnings,
    /// All letters of each word are in it, in order.
    Letters,
    /// Each word is a word of it but for a slip.
    Slip,
}

/// An answer: the position of a name in what was searched, and how closely it answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hit {
    /// Position in what was searched.
    pub index: usize,
    /// How closely.
    pub closeness: Closeness,
    score: i64,
}

/// A name to be searched: the name itself, and more words by which it may be asked for.
#[derive(Debug, Clone)]
pub struct Name {
    title: Vec<String>,
    all: Vec<String>,
    text: String,
}

impl Name {
    /// A name and whatever else is said of it.
    pub fn new(title: &str, more: &str) -> Name {
        let all = words(&format!("{title} {more}"));
        Name { title: words(title), text: all.join(" "), all }
    }
}

/// The names that answer a query, the closest first; names equally close stay in their order.
///
/// Letters and slips are looked for only where no word of a name, nor its beginning, answers.
pub fn find(query: &str, names: &[Name]) -> Vec<Hit> {
    let asked = words(query);
    if asked.is_empty() {
        return Vec::new();
    }
    let hits = graded(names, |name| by_words(&asked, name));
    if !hits.is_empty() {
        return hits;
    }
    let matcher = SkimMatcherV2::default();
    graded(names, |name| by_letters(&asked, name, &matcher))
}

fn graded(names: &[Name], grade: impl Fn(&Name) -> Option<(Closeness, i64)>) -> Vec<Hit> {
    let hit = |(index, name)| grade(name).map(|(closeness, score)| Hit { index, closeness, score });
    let mut hits: Vec<Hit> = names.iter().enumerate().filter_map(hit).collect();
    hits.sort_by_key(|hit| (hit.closeness, std::cmp::Reverse(hit.score)));
    hits
}

/// The hits of the best grade alone.
pub fn closest(hits: &[Hit]) -> &[Hit] {
    let best = hits.first().map(|hit| hit.closeness);
    let count = hits.iter().take_while(|hit| Some(hit.closeness) == best).count();
    &hits[..count]
}

/// Whether each word asked for is matched by some word of the name.
fn each(asked: &[String], name: &Name, test: impl Fn(&str, &str) -> bool) -> bool {
    asked.iter().all(|a| name.all.iter().any(|word| test(a, word)))
}

/// Of names that answer alike, the one with fewer words besides is closer.
fn shorter(name: &Name) -> i64 {
    -i64::try_from(name.all.len()).unwrap_or(i64::MAX)
}

fn by_words(asked: &[String], name: &Name) -> Option<(Closeness, i64)> {
    if asked.len() == name.title.len() && asked.iter().zip(&name.title).all(|(a, word)| same_word(a, word)) {
        return Some((Closeness::Same, 0));
    }
    // Cheap to try, and true of most words that are the same.
    if !each(asked, name, |a, word| word.starts_with(a) || same_word(a, word)) {
        return None;
    }
    let whole = each(asked, name, same_word);
    Some((if whole { Closeness::Words } else { Closeness::Beginnings }, shorter(name)))
}

fn by_letters(asked: &[String], name: &Name, matcher: &SkimMatcherV2) -> Option<(Closeness, i64)> {
    if let Some(score) = letters(asked, &name.text, matcher) {
        return Some((Closeness::Letters, score));
    }
    each(asked, name, slip).then(|| (Closeness::Slip, shorter(name)))
}

/// The summed score of all words.
fn letters(asked: &[String], text: &str, matcher: &SkimMatcherV2) -> Option<i64> {
    asked.iter().map(|word| letters_score(word, text, matcher)).sum()
}

/// The score of a word, if it is high for its length: scattered letters are no answer.
fn letters_score(word: &str, text: &str, matcher: &SkimMatcherV2) -> Option<i64> {
    const LEAST_PER_LETTER: i64 = 16;
    let score = matcher.fuzzy_match(text, word)?;
    let length = i64::try_from(word.chars().count()).unwrap_or(i64::MAX);
    (score / length.max(1) >= LEAST_PER_LETTER).then_some(score)
}

/// How many slips a word may have: one from four letters on, two from eight on.
fn slips(asked: &str) -> usize {
    match asked.chars().count() {
        0..4 => 0,
        4..8 => 1,
        _ => 2,
    }
}

/// Whether a word is the one asked for but for so many slips; swapped neighbours are one.
fn slip(asked: &str, word: &str) -> bool {
    let allowed = slips(asked);
    allowed > 0 && strsim::osa_distance(asked, word) <= allowed
}

fn words(text: &str) -> Vec<String> {
    parts(&normal(text)).map(str::to_owned).collect()
}

/// The words of a text that is in lower case already.
fn parts(text: &str) -> impl Iterator<Item = &str> {
    let parts = text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '/' | '&' | '(' | ')'));
    parts.filter(|word| !word.is_empty() && *word != "and")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answers(query: &str, titles: &[&str]) -> Vec<(Closeness, String)> {
        let names: Vec<Name> = titles.iter().map(|title| Name::new(title, "")).collect();
        find(query, &names).into_iter().map(|hit| (hit.closeness, titles[hit.index].to_owned())).collect()
    }

    #[test]
    fn the_same_name_beats_all_else() {
        let titles = ["toothbrush holder", "toothbrush", "brush"];
        assert_eq!(answers("toothbrushes", &titles)[0], (Closeness::Same, "toothbrush".into()));
        assert_eq!(answers("Toothbrush", &titles)[1], (Closeness::Words, "toothbrush holder".into()));
    }

    #[test]
    fn words_come_in_any_order() {
        let titles = ["washcloth, teal", "notebook, teal"];
        assert_eq!(answers("teal wash", &titles), [(Closeness::Beginnings, "washcloth, teal".into())]);
        assert_eq!(answers("teal washcloths", &titles), [(Closeness::Words, "washcloth, teal".into())]);
    }

    #[test]
    fn letters_and_slips_are_found_last() {
        let titles = ["toothbrush", "glue stick"];
        assert_eq!(answers("tbr", &titles), [(Closeness::Letters, "toothbrush".into())]);
        assert_eq!(answers("tootbhrush", &titles), [(Closeness::Slip, "toothbrush".into())]);
        assert_eq!(answers("glux", &titles), [(Closeness::Slip, "glue stick".into())]);
        assert!(answers("zebra", &titles).is_empty());
    }
}
