//! Kinds of things, read from `kinds.toml`.

use std::collections::{BTreeMap, HashMap};
use std::sync::{Arc, LazyLock};

use serde::Deserialize;

use super::colours::Colours;
use super::singular::singulars;
use crate::model::category::Category;
use crate::model::kind::Kind;
use crate::model::text::normal;

const BUILT_IN: &str = include_str!("kinds.toml");

/// Words after which a name only says more about the thing before them.
const TRAILERS: [&str; 6] = ["with", "for", "in", "without", "and", "like"];

/// All known kinds, found by any of their names.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    kinds: Vec<Kind>,
    by_name: HashMap<String, usize>,
    colours: Colours,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenKind {
    #[serde(default)]
    also: Vec<String>,
    #[serde(default)]
    set: bool,
}

impl Catalogue {
    /// The kinds that come with the program.
    pub fn built_in() -> Catalogue {
        // A test reads the same file and fails if it can't be read.
        Catalogue::from_toml(BUILT_IN).unwrap_or_default()
    }

    /// The kinds that come with the program, read once for all that need them.
    pub fn shared() -> Arc<Catalogue> {
        static SHARED: LazyLock<Arc<Catalogue>> = LazyLock::new(|| Arc::new(Catalogue::built_in()));
        Arc::clone(&SHARED)
    }

    /// Learns what a thing counts for; it is found by this name and by its likely singulars.
    pub fn learn(&mut self, name: &str, category: Category) {
        let also = singulars(name).into_iter().skip(1).collect();
        self.add(Kind { name: name.to_owned(), also, category, set: false });
    }

    fn from_toml(text: &str) -> Result<Catalogue, toml::de::Error> {
        let written: BTreeMap<String, BTreeMap<String, WrittenKind>> = toml::from_str(text)?;
        let mut catalogue = Catalogue { colours: Colours::built_in(), ..Catalogue::default() };
        for (category, kinds) in written {
            for (name, WrittenKind { also, set }) in kinds {
                catalogue.add(Kind { name, also, category: Category::from(category.as_str()), set });
            }
        }
        Ok(catalogue)
    }

    /// Adds a kind, or replaces the one of the same name.
    pub fn add(&mut self, kind: Kind) {
        let at = match self.kinds.iter().position(|known| known.name == kind.name) {
            Some(at) => at,
            None => self.kinds.len(),
        };
        self.by_name.insert(normal(&kind.name), at);
        for other in &kind.also {
            self.by_name.entry(normal(other)).or_insert(at);
        }
        match self.kinds.get_mut(at) {
            Some(known) => *known = kind,
            None => self.kinds.push(kind),
        }
    }

    /// Every kind.
    pub fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// The names of colours.
    pub fn colours(&self) -> &Colours {
        &self.colours
    }

    /// The kind that goes by exactly this name, in the singular or plural; `decks of cards` is a
    /// plural of its first word.
    pub fn named(&self, name: &str) -> Option<&Kind> {
        let name = normal(name);
        self.ending_in_one(&name).or_else(|| {
            let (head, of) = name.split_once(" of ")?;
            let (before, last) = head.rsplit_once(' ').map_or(("", head), |(before, last)| (before, last));
            let one = |last: String| self.ending_in_one(format!("{before} {last} of {of}").trim_start());
            singulars(last).into_iter().skip(1).find_map(one)
        })
    }

    /// The kind of this name, its last word in the singular or plural.
    fn ending_in_one(&self, name: &str) -> Option<&Kind> {
        let (before, last) = match name.rsplit_once(' ') {
            Some((before, last)) => (Some(before), last),
            None => (None, name),
        };
        singulars(last).into_iter().find_map(|last| {
            let whole = before.map_or_else(|| last.clone(), |before| format!("{before} {last}"));
            self.by_name.get(&whole).and_then(|&at| self.kinds.get(at))
        })
    }

    /// What kind of thing a name means: the whole name if it is known, else its head.
    ///
    /// The head is the end of the name ("red wool socks" are socks), but nothing behind
    /// *with* or *for* counts, and of "a box of soap" it is the soap.
    pub fn kind_of(&self, name: &str) -> Option<&Kind> {
        if let Some(kind) = self.named(name) {
            return Some(kind);
        }
        let name = normal(name);
        let words: Vec<&str> = name.split(' ').collect();
        let end = words.iter().skip(1).position(|word| TRAILERS.contains(word)).map_or(words.len(), |at| at + 1);
        let head = words.get(..end).unwrap_or(&words);
        if let Some(of) = head.iter().position(|&word| word == "of") {
            let inner = head.get(of + 1..).unwrap_or_default();
            let outer = head.get(..of).unwrap_or_default();
            return self.by_end(inner).or_else(|| self.by_end(outer));
        }
        self.by_end(head).or_else(|| self.by_set(head))
    }

    /// A marker set is markers, where those are given as a set anyway.
    fn by_set(&self, words: &[&str]) -> Option<&Kind> {
        let (last, before) = words.split_last()?;
        let kind = self.by_end(before).filter(|kind| kind.set);
        kind.filter(|_| ["set", "sets"].contains(last))
    }

    /// The longest end of these words that is a known name.
    fn by_end(&self, words: &[&str]) -> Option<&Kind> {
        (0..words.len()).find_map(|from| self.named(&words.get(from..)?.join(" ")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_reads_and_no_name_stands_twice() {
        let catalogue = Catalogue::from_toml(BUILT_IN).unwrap();
        assert!(catalogue.kinds().len() >= 150, "{}", catalogue.kinds().len());
        let mut seen = HashMap::new();
        for kind in catalogue.kinds() {
            for name in std::iter::once(&kind.name).chain(&kind.also) {
                assert_eq!(*name, normal(name), "not lower case with single spaces");
                assert!(name.chars().all(|c| c.is_ascii_alphanumeric() || " -".contains(c)), "{name}");
                assert!((3..=30).contains(&name.len()), "{name}");
                assert_eq!(seen.insert(name.clone(), &kind.name), None, "{name} stands twice");
            }
            assert!(Category::CORE.contains(&kind.category) || kind.category == Category::Extras, "{}", kind.name);
        }
    }

    #[test]
    fn names_find_their_kind() {
        let catalogue = Catalogue::built_in();
        let kind = |name: &str| catalogue.kind_of(name).map(|kind| kind.name.as_str());
        assert_eq!(kind("Tooth  Brushes"), Some("toothbrush"));
        assert_eq!(kind("colored pencils"), Some("coloured pencil"));
        assert_eq!(kind("striped wool socks"), Some("sock"));
        assert_eq!(kind("pencil case"), Some("pencil case"));
        assert_eq!(kind("crayon tin"), Some("tin"));
        assert_eq!(kind("bar of soap"), Some("soap"));
        assert_eq!(kind("decks of cards"), Some("playing card"));
        assert_eq!(kind("deck of cards"), Some("playing card"));
        assert_eq!(kind("boxes of birthday cards"), Some("greeting card"));
        assert_eq!(kind("notebook with stickers"), Some("notebook"));
        assert_eq!(kind("ball for the dog"), Some("ball"));
        assert_eq!(kind("scarves"), Some("scarf"));
        assert_eq!(kind("dominoes"), Some("domino"));
        assert_eq!(kind("wow"), None);
        assert_eq!(kind(""), None);
    }

    #[test]
    fn a_learned_kind_is_found_too() {
        let mut catalogue = Catalogue::built_in();
        let learned = Kind { name: "sundial".into(), also: vec![], category: Category::Wow, set: false };
        catalogue.add(learned.clone());
        assert_eq!(catalogue.kind_of("brass sundials"), Some(&learned));
    }
}
