//! All known kinds of things, and which of them a name means.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock};

use super::colours::Colours;
use super::heads::Heads;
use super::singular::singulars;
use super::spelling::folded;
use super::written::{self, Slip};
use crate::model::category::Category;
use crate::model::kind::Kind;
use crate::model::text::normal;

/// The kinds that come with the program, a file for each category.
const FILES: [(&str, &str, Category); 6] = [
    ("hygiene.txt", include_str!("kinds/hygiene.txt"), Category::Hygiene),
    ("school.txt", include_str!("kinds/school.txt"), Category::School),
    ("clothing.txt", include_str!("kinds/clothing.txt"), Category::Clothing),
    ("toy.txt", include_str!("kinds/toy.txt"), Category::Toy),
    ("wow.txt", include_str!("kinds/wow.txt"), Category::Wow),
    ("extras.txt", include_str!("kinds/extras.txt"), Category::Extras),
];

/// Words after which a name only says more about the thing before them.
const TRAILERS: [&str; 8] = ["with", "for", "in", "without", "and", "like", "from", "about"];
/// Of a `sticker sheet` and a `comb pack` it is the word before that tells what it is.
const WRAPPINGS: [&str; 22] = [
    "set",
    "sets",
    "pack",
    "packs",
    "kit",
    "kits",
    "sheet",
    "sheets",
    "bundle",
    "bundles",
    "assortment",
    "collection",
    "box",
    "boxes",
    "bag",
    "bags",
    "pair",
    "pairs",
    "roll",
    "rolls",
    "strip",
    "tube",
];

/// All known kinds, found by any of their names.
#[derive(Debug, Clone, Default)]
pub struct Catalogue {
    kinds: Vec<Kind>,
    by_name: HashMap<String, usize>,
    /// The same in one spelling, hyphens as spaces.
    by_spelling: HashMap<String, usize>,
    colours: Colours,
    pub(super) heads: Heads,
}

impl Catalogue {
    /// The kinds that come with the program.
    pub fn built_in() -> Catalogue {
        // A test reads the same files and fails if they can't be read.
        Catalogue::from_files().unwrap_or_default()
    }

    /// The kinds that come with the program, read once for all that need them.
    pub fn shared() -> Arc<Catalogue> {
        static SHARED: LazyLock<Arc<Catalogue>> = LazyLock::new(|| Arc::new(Catalogue::built_in()));
        Arc::clone(&SHARED)
    }

    fn from_files() -> Result<Catalogue, Slip> {
        let mut catalogue =
            Catalogue { colours: Colours::built_in(), heads: Heads::built_in(), ..Catalogue::default() };
        for (file, text, category) in FILES {
            for kind in written::kinds(file, text, &category)? {
                catalogue.add(kind);
            }
        }
        Ok(catalogue)
    }

    /// Learns what a thing counts for; it is found by this name and by its likely singulars.
    pub fn learn(&mut self, name: &str, category: Category) {
        let also = singulars(name).into_iter().skip(1).collect();
        self.add(Kind { name: name.to_owned(), also, category, set: false, typical: None });
    }

    /// Adds a kind, or replaces the one of the same name.
    pub fn add(&mut self, kind: Kind) {
        let at = match self.kinds.iter().position(|known| known.name == kind.name) {
            Some(at) => at,
            None => self.kinds.len(),
        };
        self.by_name.insert(normal(&kind.name), at);
        self.by_spelling.entry(folded(&kind.name)).or_insert(at);
        for other in &kind.also {
            self.by_name.entry(normal(other)).or_insert(at);
            self.by_spelling.entry(folded(other)).or_insert(at);
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

    /// The kind that goes by exactly this name, in the singular or plural, British or American;
    /// `decks of cards` is a plural of its first word.
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
        let wholes = || {
            let forms = singulars(last).into_iter();
            forms.map(|last| before.map_or_else(|| last.clone(), |before| format!("{before} {last}")))
        };
        let exactly = wholes().find_map(|whole| self.by_name.get(&whole));
        let found = exactly.or_else(|| wholes().find_map(|whole| self.by_spelling.get(&folded(&whole))));
        found.and_then(|&at| self.kinds.get(at))
    }

    /// What kind of thing a name means: the whole name if it is known, else its head.
    ///
    /// The head is the end of the name ("red wool socks" are socks), but nothing behind
    /// *with* or *for* counts, of "a box of soap" it is the soap, and of a "sticker sheet" the sticker.
    pub fn kind_of(&self, name: &str) -> Option<&Kind> {
        if let Some(kind) = self.named(name) {
            return Some(kind);
        }
        let name = normal(name);
        let words: Vec<&str> = name.split(' ').collect();
        let head = head(&words);
        if let Some(of) = head.iter().position(|&word| word == "of") {
            let inner = head.get(of + 1..).unwrap_or_default();
            let outer = head.get(..of).unwrap_or_default();
            return self.by_end(inner).or_else(|| self.by_end(outer));
        }
        self.by_end(head).or_else(|| self.unwrapped(head))
    }

    /// A marker set is markers, and a glow star sticker sheet is stickers.
    pub(super) fn unwrapped(&self, words: &[&str]) -> Option<&Kind> {
        let (last, before) = words.split_last()?;
        WRAPPINGS.contains(last).then(|| self.by_end(before).or_else(|| self.unwrapped(before))).flatten()
    }

    /// The longest end of these words that is a known name.
    pub(super) fn by_end(&self, words: &[&str]) -> Option<&Kind> {
        (0..words.len()).find_map(|from| self.named(&words.get(from..)?.join(" ")))
    }
}

/// The words of a name up to one that only says more of them.
pub(super) fn head<'w>(words: &'w [&'w str]) -> &'w [&'w str] {
    let end = words.iter().skip(1).position(|word| TRAILERS.contains(word)).map_or(words.len(), |at| at + 1);
    words.get(..end).unwrap_or(words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::kind::{Hazard, Typical};

    /// Each built-in kind with what is typical of it.
    fn typical(catalogue: &Catalogue) -> impl Iterator<Item = (&Kind, &Typical)> {
        catalogue.kinds().iter().map(|kind| (kind, kind.typical.as_ref().unwrap()))
    }

    #[test]
    fn the_files_read_and_no_name_stands_twice() {
        let catalogue = Catalogue::from_files().unwrap();
        assert!(catalogue.kinds().len() >= 500, "{}", catalogue.kinds().len());
        let (mut seen, mut wrong) = (HashMap::new(), Vec::new());
        for kind in catalogue.kinds() {
            for name in std::iter::once(&kind.name).chain(&kind.also) {
                assert_eq!(*name, normal(name), "not lower case with single spaces");
                assert!(name.chars().all(|c| c.is_ascii_alphanumeric() || " -".contains(c)), "{name}");
                assert!((3..=30).contains(&name.len()), "{name}");
                if let Some(other) = seen.insert(name.clone(), &kind.name) {
                    wrong.push(format!("{name}: {other} and {}", kind.name));
                }
            }
        }
        assert!(wrong.is_empty(), "these names stand twice:\n{}", wrong.join("\n"));
    }

    #[test]
    fn each_category_has_kinds() {
        let catalogue = Catalogue::built_in();
        let count = |category| catalogue.kinds().iter().filter(|kind| kind.category == category).count();
        for (category, least) in [
            (Category::Hygiene, 80),
            (Category::School, 100),
            (Category::Clothing, 60),
            (Category::Toy, 100),
            (Category::Wow, 25),
            (Category::Extras, 70),
        ] {
            assert!(count(category.clone()) >= least, "{category}");
        }
    }

    #[test]
    fn two_spellings_of_one_name_are_one_kind() {
        let catalogue = Catalogue::built_in();
        for kind in catalogue.kinds() {
            for name in std::iter::once(&kind.name).chain(&kind.also) {
                let found = catalogue.by_spelling.get(&folded(name)).map(|at| &catalogue.kinds[*at].name);
                assert_eq!(found, Some(&kind.name), "{name}");
            }
        }
    }

    #[test]
    fn sizes_and_weights_are_sane() {
        let mut wrong = Vec::new();
        for (kind, typical) in typical(&Catalogue::built_in()) {
            let [a, b, c] = typical.size.0[..] else { panic!("{}", kind.name) };
            let litres = f64::from(a.0) * f64::from(b.0) * f64::from(c.0) / 1e6;
            let density = typical.weight.grams() / 1000.0 / litres;
            if !(a >= b && b >= c && c.0 >= 1 && a.0 <= 1000) {
                wrong.push(format!("{}: size", kind.name));
            }
            // Kilograms a litre of the box round it: feathers to iron.
            if !(0.01..=3.5).contains(&density) {
                wrong.push(format!("{}: {density:.3} kg a litre", kind.name));
            }
            if let Some(room) = &typical.room
                && !room.swells
                && room.size.0.iter().zip(&typical.size.0).any(|(inner, outer)| inner >= outer)
            {
                wrong.push(format!("{}: more room than size", kind.name));
            }
            for hazard in &typical.careful {
                if let Hazard::Ball(mm) = hazard
                    && !(*mm >= 5 && *mm <= 250)
                {
                    wrong.push(format!("{}: a ball of {mm} mm", kind.name));
                }
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    #[test]
    fn what_a_kind_needs_or_goes_with_is_a_kind() {
        let catalogue = Catalogue::built_in();
        for (kind, typical) in typical(&catalogue) {
            for other in typical.needs.iter().chain(&typical.with) {
                assert!(catalogue.kinds().iter().any(|known| known.name == *other), "{}: {other}", kind.name);
                assert_ne!(*other, kind.name);
            }
        }
    }

    #[test]
    fn names_find_their_kind() {
        let catalogue = Catalogue::built_in();
        let kind = |name: &str| catalogue.kind_of(name).map(|kind| kind.name.as_str());
        for (name, expected) in [
            ("Tooth  Brushes", "toothbrush"),
            ("colored pencils", "coloured pencil"),
            ("striped wool socks", "sock"),
            ("pencil case", "pencil case"),
            ("crayon tin", "tin"),
            ("bar of soap", "soap"),
            ("decks of cards", "playing card"),
            ("deck of cards", "playing card"),
            ("boxes of birthday cards", "greeting card"),
            ("notebook with stickers", "notebook"),
            ("ball for the dog", "ball"),
            ("scarves", "scarf"),
            ("dominoes", "domino"),
            ("glow star sticker sheet", "sticker"),
            ("marker set", "marker"),
            ("colouring books", "colouring book"),
            ("coloring books", "colouring book"),
            ("toy aeroplanes", "toy plane"),
            ("grey t shirts", "t-shirt"),
            ("doll dress", "doll clothes"),
            ("toy car", "toy car"),
            ("soap dish", "soap dish"),
            ("wash cloths", "face cloth"),
        ] {
            assert_eq!(kind(name), Some(expected), "{name}");
        }
        assert_eq!(kind("wow"), None);
        assert_eq!(kind(""), None);
        assert_eq!(kind("thingamajig set"), None);
    }

    #[test]
    fn a_head_noun_tells_the_category_at_least() {
        let catalogue = Catalogue::built_in();
        for (name, category) in [
            ("brass sousaphone", Some(Category::Toy)),
            ("tweed knickerbockers", Some(Category::Clothing)),
            ("toy thingamajig", Some(Category::Toy)),
            ("hand cream", Some(Category::Hygiene)),
            ("thingamajig", None),
        ] {
            assert_eq!(catalogue.category_of(name), category, "{name}");
        }
    }

    #[test]
    fn a_learned_kind_is_found_too() {
        let mut catalogue = Catalogue::built_in();
        catalogue.learn("sundial", Category::Wow);
        assert_eq!(catalogue.kind_of("brass sundials").map(|kind| &kind.category), Some(&Category::Wow));
    }
}
