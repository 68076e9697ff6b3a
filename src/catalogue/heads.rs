//! What a thing counts for by the words of its name alone, where no kind is known for it.

use std::collections::HashMap;

use super::singular::{same_word, singulars};
use super::spelling::folded;
use crate::model::category::Category;

const BUILT_IN: &str = include_str!("nouns.txt");

/// Of these it is the noun before that tells: a trombone case, a chess set. Where nobody knows that one, they tell
/// nothing, unless they are a kind.
const PARTS: [&str; 80] = [
    "accessory",
    "attachment",
    "bag",
    "base",
    "basket",
    "bench",
    "blade",
    "box",
    "bundle",
    "cabinet",
    "cable",
    "caddy",
    "care",
    "carrier",
    "case",
    "chair",
    "cleaner",
    "clip",
    "collection",
    "container",
    "cover",
    "cushion",
    "cutter",
    "dispenser",
    "display",
    "equipment",
    "filter",
    "frame",
    "gear",
    "grip",
    "guard",
    "hanger",
    "hardware",
    "holder",
    "hook",
    "insert",
    "key",
    "kit",
    "knob",
    "label",
    "lid",
    "liner",
    "lock",
    "machine",
    "material",
    "mount",
    "net",
    "opener",
    "organizer",
    "pack",
    "pad",
    "part",
    "peg",
    "plug",
    "pole",
    "post",
    "press",
    "rack",
    "refill",
    "rest",
    "rod",
    "scale",
    "screen",
    "seat",
    "set",
    "sheet",
    "shelf",
    "sleeve",
    "stand",
    "station",
    "storage",
    "strap",
    "string",
    "supply",
    "table",
    "tool",
    "tray",
    "warmer",
    "weight",
    "wrap",
];

/// Nouns, words and ends of words, and what they count for.
#[derive(Debug, Clone, Default)]
pub(super) struct Heads {
    /// The last words of a name.
    nouns: HashMap<String, Category>,
    /// Words anywhere in a name.
    anywhere: HashMap<String, Category>,
    /// Ends of its last word.
    ends: Vec<(String, Category)>,
}

impl Heads {
    /// Those that come with the program.
    pub fn built_in() -> Heads {
        let mut heads = Heads::default();
        for (head, words) in lines() {
            let (category, where_) = head.split_once(' ').unwrap_or((head, ""));
            for word in words {
                let (word, category) = (folded(word), Category::from(category));
                match where_ {
                    "anywhere" => _ = heads.anywhere.insert(word, category),
                    "ends" => heads.ends.push((word, category)),
                    _ => _ = heads.nouns.insert(word, category),
                }
            }
        }
        heads
    }

    /// Whether one of these words makes a toy of anything.
    pub fn is_toy(words: &[&str]) -> bool {
        words.iter().any(|word| ["toy", "toys", "doll", "dolls", "pretend", "playset"].contains(word))
    }

    /// What a word anywhere in the name says of it; the last such word rules.
    pub fn topic(&self, words: &[&str]) -> Option<Category> {
        (0..words.len()).rev().find_map(|from| {
            let upto = (from + 1..=words.len().min(from + 3)).rev();
            upto.filter_map(|to| words.get(from..to)).find_map(|part| one_of(&self.anywhere, &part.join(" ")))
        })
    }

    /// What a word counts for that nobody knows, by its last letters.
    pub fn by_letters(&self, word: &str) -> Option<Category> {
        let ends = |form: &String| {
            let longer = |end: &str| form.len() > end.len() + 1 && form.ends_with(end);
            self.ends.iter().find(|(end, _)| longer(end)).map(|(_, category)| category.clone())
        };
        singulars(word).iter().find_map(ends)
    }

    /// What a noun counts for, its last word in the singular or plural.
    pub fn noun(&self, noun: &str) -> Option<Category> {
        one_of(&self.nouns, noun)
    }

    /// The words before a last one that only names a part or a case of them.
    pub fn whole<'w>(words: &'w [&'w str]) -> Option<&'w [&'w str]> {
        let (last, before) = words.split_last()?;
        (is_part(last) && !before.is_empty()).then_some(before)
    }
}

/// What stands for a name, whose last word may be a plural.
fn one_of(known: &HashMap<String, Category>, name: &str) -> Option<Category> {
    let (before, last) = name.rsplit_once(' ').map_or(("", name), |(before, last)| (before, last));
    let whole = |last: String| folded(format!("{before} {last}").trim_start());
    singulars(last).into_iter().find_map(|last| known.get(&whole(last)).cloned())
}

/// Whether a word only names a part, a case or a heap of something.
pub(super) fn is_part(word: &str) -> bool {
    PARTS.iter().any(|part| same_word(part, word))
}

/// The groups of the file: a category, perhaps with *anywhere* or *ends*, and a line of its words.
fn lines() -> impl Iterator<Item = (&'static str, impl Iterator<Item = &'static str>)> {
    let lines = BUILT_IN.lines().filter(|line| !line.starts_with('#'));
    let words = |words: &'static str| words.split(',').map(str::trim).filter(|word| !word.is_empty());
    let with_head = lines.scan("", |head, line| match line.strip_suffix(':') {
        Some(next) => Some((std::mem::replace(head, next), "")),
        None => Some((*head, line)),
    });
    with_head.map(move |(head, line)| (head, words(line)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_word_stands_once_under_a_category_that_is_known() {
        let mut seen = HashMap::new();
        for (head, words) in lines() {
            let (category, where_) = head.split_once(' ').unwrap_or((head, ""));
            let known = Category::CORE.contains(&Category::from(category)) || ["extras", ""].contains(&category);
            assert!(known && ["", "anywhere", "ends"].contains(&where_), "{head}");
            for word in words {
                assert_ne!(head, "", "{word} stands before any category");
                assert_eq!(seen.insert((where_, word), category), None, "{word} stands twice");
            }
        }
        assert!(seen.len() > 4000, "{}", seen.len());
    }

    #[test]
    fn the_words_of_a_group_are_sorted() {
        let mut before = "";
        for line in BUILT_IN.lines() {
            let Some(words) = line.strip_prefix("  ") else {
                before = "";
                continue;
            };
            for word in words.split(',').map(str::trim).filter(|word| !word.is_empty()) {
                assert!(before < word, "{word} stands behind {before}");
                before = word;
            }
        }
    }

    #[test]
    fn words_tell_by_their_place() {
        let heads = Heads::built_in();
        let topic = |name: &str| heads.topic(&name.split(' ').collect::<Vec<_>>());
        assert_eq!(heads.noun("cummerbunds"), Some(Category::Clothing));
        assert_eq!(heads.noun("silk cummerbund"), None);
        assert_eq!(heads.by_letters("marshwear"), Some(Category::Clothing));
        assert_eq!(heads.by_letters("frobnicator"), None);
        assert_eq!(topic("lacrosse frobnicator"), Some(Category::Toy));
        assert_eq!(topic("frobnicator"), None);
        assert_eq!(Heads::whole(&["trombone", "case"]), Some(["trombone"].as_slice()));
        assert_eq!(Heads::whole(&["case"]), None);
    }
}
