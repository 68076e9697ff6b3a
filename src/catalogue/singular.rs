//! From a plural to the singulars it may come from.

/// The words that `word` may be the plural of, itself first.
///
/// English plurals can't be undone by rule alone (`boxes`, `axes`), so every likely singular is
/// given and the catalogue decides which it knows.
pub(crate) fn singulars(word: &str) -> Vec<String> {
    let mut found = vec![word.to_owned()];
    let mut add = |stem: &str, end: &str| {
        if stem.chars().count() > 1 {
            found.push(format!("{stem}{end}"));
        }
    };
    if let Some(stem) = word.strip_suffix("ies") {
        add(stem, "y");
        add(stem, "ie");
    }
    if let Some(stem) = word.strip_suffix("ves") {
        add(stem, "f");
        add(stem, "fe");
    }
    // Clothes are not the plural of cloth.
    if let Some(stem) = word.strip_suffix("es").filter(|stem| !stem.ends_with("th")) {
        add(stem, "");
    }
    if let Some(stem) = word.strip_suffix('s')
        && !stem.ends_with('s')
    {
        add(stem, "");
    }
    found
}

/// The likeliest singular of a name's last word, where nothing is known but its letters.
pub fn likely_singular(name: &str) -> String {
    let (stem, end) = if let Some(stem) = name.strip_suffix("ies").filter(|stem| stem.chars().count() > 2) {
        (stem, "y")
    } else if let Some(stem) = name.strip_suffix("es").filter(|stem| hisses(stem)) {
        (stem, "")
    } else if let Some(stem) = name.strip_suffix('s').filter(|stem| !stem.ends_with(['s', 'u', 'i'])) {
        (stem, "")
    } else {
        (name, "")
    };
    format!("{stem}{end}")
}

/// Whether a plural of this needs *es* to be spoken.
fn hisses(stem: &str) -> bool {
    ["ch", "sh", "ss", "x", "zz"].iter().any(|end| stem.ends_with(end))
}

/// Whether `a` and `b` are one word, either of them perhaps in the plural.
pub fn same_word(a: &str, b: &str) -> bool {
    // Words that don't even begin alike are no forms of each other; most pairs end here.
    let alike = |a: &str, b: &str| a.chars().take(2).eq(b.chars().take(2));
    if a == b || !alike(a, b) {
        return a == b;
    }
    let forms = singulars(b);
    singulars(a).iter().any(|form| forms.contains(form))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_likeliest_singular_of_an_unknown_word() {
        for (name, one) in [
            ("brass sundials", "brass sundial"),
            ("torches", "torch"),
            ("puppies", "puppy"),
            ("pies", "pie"),
            ("lenses", "lense"),
            ("compass", "compass"),
            ("abacus", "abacus"),
            ("die", "die"),
            ("foxes", "fox"),
            ("", ""),
        ] {
            assert_eq!(likely_singular(name), one, "{name}");
        }
    }

    #[test]
    fn every_likely_singular_is_offered() {
        let has = |plural: &str, singular: &str| singulars(plural).contains(&singular.to_owned());
        assert!(has("toothbrushes", "toothbrush"));
        assert!(has("puppies", "puppy"));
        assert!(has("scarves", "scarf"));
        assert!(has("dominoes", "domino"));
        assert!(has("pens", "pen"));
        assert!(has("cloths", "cloth") && !has("clothes", "cloth"));
        assert!(has("dress", "dress") && !has("dress", "dres"));
        assert!(same_word("boxes", "box") && !same_word("box", "bag"));
    }
}
