//! Names of colours, read from `colours.toml`.

use std::collections::HashMap;

use serde::Deserialize;

const BUILT_IN: &str = include_str!("colours.toml");

/// What any of the words for many colours is given back as.
const MANY: &str = "multicolour";

/// A colour's name as the lists write it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColourName {
    /// With its inner spaces: `forest green`.
    pub name: String,
    /// First of all a thing (chocolate, brick): a colour only where it stands apart.
    pub thing: bool,
}

/// The names of colours, found with or without inner spaces.
#[derive(Debug, Clone, Default)]
pub struct Colours {
    by_letters: HashMap<String, ColourName>,
    longest: usize,
}

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    css: Vec<String>,
    xkcd: Vec<String>,
    things: Vec<String>,
    many: Vec<String>,
}

impl Colours {
    /// The names that come with the program.
    pub fn built_in() -> Colours {
        // A test reads the same file and fails if it can't be read.
        Colours::from_written(toml::from_str(BUILT_IN).unwrap_or_default())
    }

    fn from_written(written: Written) -> Colours {
        let mut colours = Colours::default();
        let Written { css, xkcd, things, many } = written;
        for name in css.into_iter().chain(xkcd) {
            let thing = things.contains(&name);
            colours.longest = colours.longest.max(name.split(' ').count());
            colours.by_letters.insert(name.replace(' ', ""), ColourName { name, thing });
        }
        for word in many {
            let name = ColourName { name: MANY.to_owned(), thing: false };
            colours.by_letters.insert(word.replace(' ', ""), name);
        }
        colours
    }

    /// The colour that these letters name; spaces and hyphens left out, lower case.
    pub fn named(&self, letters: &str) -> Option<&ColourName> {
        self.by_letters.get(letters)
    }

    /// How many words the longest name has.
    pub fn longest(&self) -> usize {
        self.longest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_reads_and_names_are_clean() {
        let written: Written = toml::from_str(BUILT_IN).unwrap();
        assert_eq!(written.css.len(), 148);
        for name in written.css.iter().chain(&written.xkcd) {
            assert!(name.chars().all(|c| c.is_ascii_lowercase() || c == ' '), "{name}");
        }
        for thing in &written.things {
            assert!(written.css.contains(thing) || written.xkcd.contains(thing), "{thing}");
        }
    }

    #[test]
    fn names_are_found_without_their_spaces() {
        let colours = Colours::built_in();
        let name = |letters: &str| colours.named(letters).map(|colour| colour.name.as_str());
        assert_eq!(name("forestgreen"), Some("forest green"));
        assert_eq!(name("darkteal"), Some("dark teal"));
        assert_eq!(name("navyblue"), Some("navy blue"));
        assert_eq!(name("multicoloured"), Some("multicolour"));
        assert_eq!(name("comb"), None);
        for known in ["babyblue", "cream", "lilac", "burgundy", "darkgreen"] {
            assert!(colours.named(known).is_some_and(|colour| !colour.thing), "{known}");
        }
        for thing in ["chocolate", "tomato", "snow", "linen", "rose", "peach", "wheat", "sand", "brick", "cherry"] {
            assert!(colours.named(thing).is_some_and(|colour| colour.thing), "{thing}");
        }
        assert_eq!(colours.longest(), 3);
    }
}
