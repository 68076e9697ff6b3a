//! What a thing counts for, by its kind or by the words of its name.

use super::heads::{Heads, is_part};
use super::kinds::{Catalogue, head};
use super::singular::same_word;
use crate::model::category::Category;
use crate::model::text::normal;

/// Garments that are gear of a sport where one is named: a batting glove.
const GEAR: [&str; 11] =
    ["glove", "mitt", "tee", "trainer", "jumper", "suspenders", "vest", "guard", "helmet", "protector", "tank"];

/// How many words of a name are looked at, from its end: no name of a thing has more that tell, and each is tried
/// with each.
const MOST: usize = 5;

/// No thing has a name of more letters.
const LONGEST: usize = 90;

impl Catalogue {
    /// What a thing counts for: as its kind, or at least as the words of its name do.
    pub fn category_of(&self, name: &str) -> Option<Category> {
        let name = normal(name);
        if name.chars().count() > LONGEST {
            return None;
        }
        if let Some(kind) = self.named(&name) {
            return Some(kind.category.clone());
        }
        let words: Vec<&str> = name.split(' ').collect();
        if Heads::is_toy(&words) {
            return Some(Category::Toy);
        }
        let parts = parts(&words).map(last_words);
        let told = parts.iter().find_map(|part| self.told_by(part));
        told.or_else(|| parts.iter().find_map(|part| self.told_before(part)))
    }

    /// What these words are if all of them are known; else, of a case or a part, what it belongs to; then a word
    /// such as *hockey* or *hair* among them, though a garment stays one; then what they end in.
    fn told_by(&self, words: &[&str]) -> Option<Category> {
        let (from, ending) = self.ending(words).unzip();
        if from == Some(0) {
            return ending;
        }
        let last_alone = from.is_none_or(|from| from + 1 == words.len());
        if let Some(whole) = Heads::whole(words).filter(|_| last_alone) {
            let of = self.told_by(whole).or_else(|| self.told_before(whole));
            return of.or_else(|| self.kind_alone(words));
        }
        let gear = words.last().is_some_and(|last| GEAR.iter().any(|gear| same_word(gear, last)));
        let garment = ending == Some(Category::Clothing) && !gear;
        let topic = self.heads.topic(words).filter(|topic| !garment || *topic == Category::Hygiene);
        topic.or(ending).or_else(|| self.heads.by_letters(words.last()?))
    }

    /// What the kind of the last word counts for: a bag is one, whatever it is for.
    fn kind_alone(&self, words: &[&str]) -> Option<Category> {
        words.last().and_then(|last| self.named(last)).map(|kind| kind.category.clone())
    }

    /// The longest end of these words that is a kind or a noun: where it begins, and what it counts for.
    fn ending(&self, words: &[&str]) -> Option<(usize, Category)> {
        (0..words.len()).find_map(|from| {
            let end = words.get(from..)?.join(" ");
            let kind = self.named(&end).map(|kind| kind.category.clone());
            kind.or_else(|| self.heads.noun(&end)).map(|category| (from, category))
        })
    }

    /// Where nobody knows the last word, those before it tell what the thing is for: a shuffleboard rest.
    fn told_before(&self, words: &[&str]) -> Option<Category> {
        let (_, before) = words.split_last()?;
        self.told_by(before).or_else(|| self.told_before(before))
    }
}

/// The parts of a name that may tell, the likeliest first.
///
/// Of "a box of soap" it is the soap, of a "game of skill" the game. A "coat and hat rack" is a rack, for what
/// stands before *and* in the singular shares the last word; "gloves and a hat rack" are gloves.
fn parts<'w>(words: &'w [&'w str]) -> [&'w [&'w str]; 3] {
    let first = head(words);
    let behind = match words.get(first.len()..) {
        Some(["and", behind @ ..]) => head(behind),
        _ => &[],
    };
    let (outer, inner) = match first.iter().position(|&word| word == "of") {
        Some(of) => (first.get(..of).unwrap_or_default(), first.get(of + 1..).unwrap_or_default()),
        None => (first, [].as_slice()),
    };
    let shares = behind.len() > 1 && first.last().is_some_and(|last| !last.ends_with('s'));
    match (shares, outer.last().is_some_and(|last| is_part(last))) {
        (true, _) => [behind, outer, inner],
        (false, true) => [inner, outer, behind],
        (false, false) => [outer, inner, behind],
    }
}

fn last_words<'w>(words: &'w [&'w str]) -> &'w [&'w str] {
    words.get(words.len().saturating_sub(MOST)..).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each name with what it counts for, or nothing.
    fn hold(names: &[(&str, Option<Category>)]) {
        let catalogue = Catalogue::built_in();
        for (name, category) in names {
            assert_eq!(catalogue.category_of(name), *category, "{name}");
        }
    }

    #[test]
    fn the_longest_known_end_tells() {
        hold(&[
            ("tweed knickerbockers", Some(Category::Clothing)),
            ("brass sousaphone", Some(Category::Toy)),
            ("polymer clay", Some(Category::School)),
            ("soft hand cream", Some(Category::Hygiene)),
            ("baby clothes", Some(Category::Clothing)),
            ("thingamajig", None),
        ]);
    }

    #[test]
    fn of_a_part_what_it_belongs_to_tells() {
        hold(&[
            ("trombone case", Some(Category::Toy)),
            ("blue trombone stands", Some(Category::Toy)),
            ("toothpaste squeezer holder", Some(Category::Hygiene)),
            ("thingamajig holder", None),
            ("thingamajig bag", Some(Category::Extras)),
        ]);
    }

    #[test]
    fn a_garment_stays_one_unless_it_is_gear() {
        hold(&[
            ("golf trousers", Some(Category::Clothing)),
            ("hockey gloves", Some(Category::Toy)),
            ("winter gloves", Some(Category::Clothing)),
            ("toy glove", Some(Category::Toy)),
        ]);
    }

    #[test]
    fn of_two_things_the_first_tells_unless_they_share_a_last_word() {
        hold(&[
            ("gloves and a hat rack", Some(Category::Clothing)),
            ("coat and hat rack", Some(Category::Extras)),
            ("thingamajig and cummerbund", Some(Category::Clothing)),
            ("box of crayons", Some(Category::School)),
            ("set of kazoos", Some(Category::Toy)),
        ]);
    }

    #[test]
    fn words_before_one_that_nobody_knows_tell() {
        hold(&[("trombone thingamajig", Some(Category::Toy)), ("toothpaste thingamajig", Some(Category::Hygiene))]);
    }
}
