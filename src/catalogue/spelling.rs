//! British and American spelling, and hyphens, made one.

use crate::model::text::normal;

/// Ends of words, British and American.
const ENDS: [(&str, &str); 8] = [
    ("our", "or"),
    ("oured", "ored"),
    ("ouring", "oring"),
    ("ise", "ize"),
    ("ising", "izing"),
    ("iser", "izer"),
    ("tre", "ter"),
    ("elling", "eling"),
];
/// Words that no rule covers.
const WORDS: [(&str, &str); 9] = [
    ("grey", "gray"),
    ("moustache", "mustache"),
    ("pyjama", "pajama"),
    ("pyjamas", "pajamas"),
    ("jewellery", "jewelry"),
    ("aeroplane", "airplane"),
    ("tyre", "tire"),
    ("mould", "mold"),
    ("plough", "plow"),
];

/// A name in one spelling, with spaces for hyphens; only good to be held against another one.
pub fn folded(name: &str) -> String {
    let plain = normal(name).replace('-', " ");
    let words = plain.split(' ').map(|word| {
        if let Some((_, american)) = WORDS.iter().find(|(british, _)| *british == word) {
            return (*american).to_owned();
        }
        // Four and hour are spelt so everywhere.
        let end = ENDS.iter().find(|(british, _)| word.len() >= british.len() + 2 && word.ends_with(british));
        end.map_or_else(
            || word.to_owned(),
            |(british, american)| format!("{}{american}", word.trim_end_matches(british)),
        )
    });
    words.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::folded;

    #[test]
    fn both_sides_of_the_ocean_are_one() {
        for (british, american) in [
            ("coloured pencil", "colored pencil"),
            ("colouring book", "coloring-book"),
            ("grey scarf", "gray scarf"),
            ("modelling clay", "modeling clay"),
            ("hand sanitiser", "hand sanitizer"),
            ("metre stick", "meter stick"),
            ("toy aeroplane", "toy airplane"),
            ("t-shirt", "t shirt"),
        ] {
            assert_eq!(folded(british), folded(american));
        }
        assert_eq!(folded("four hour rise"), "four hour rise");
    }
}
