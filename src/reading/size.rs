//! Rule 9: sizes of clothes and shoes.

use super::line::Line;
use super::taken::What;
use super::token::Shape;

const WORDS: [(&str, &str); 20] = [
    ("extra small", "XS"),
    ("x small", "XS"),
    ("extra large", "XL"),
    ("x large", "XL"),
    ("xx large", "XXL"),
    ("small", "S"),
    ("medium", "M"),
    ("med", "M"),
    ("large", "L"),
    ("xsmall", "XS"),
    ("xlarge", "XL"),
    ("xs", "XS"),
    ("s", "S"),
    ("m", "M"),
    ("l", "L"),
    ("xl", "XL"),
    ("xxl", "XXL"),
    ("smalls", "S"),
    ("mediums", "M"),
    ("larges", "L"),
];

/// Finds `size 10-12`, `sz M`, `shoe size 1`, and `2T` anywhere.
pub(super) fn labelled(line: &mut Line<'_>) {
    line.scan(|line, at| {
        if let Some(end) = line.any_phrase(at, &["one size fits all", "one size fits most", "one size"]) {
            line.take(at..end, What::Filler);
            return Some(end);
        }
        if let Some(label) = line.any_phrase(at, &["shoe size", "size", "sz"]) {
            let start = if line.is(label, &[":", ".", "-"]) { label + 1 } else { label };
            let (size, end) = size(line, start)?;
            return Some(keep(line, at..end, size));
        }
        let (size, end) = toddler(line, at)?;
        Some(keep(line, at..end, size))
    });
}

/// A size right after *girls* or *boys*.
pub(super) fn after_whom(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let before = at.checked_sub(1)?;
        if line.took(before) != Some(What::Whom) {
            return None;
        }
        let (size, end) = in_words(line, at)?;
        Some(keep(line, at..end, size))
    });
}

fn keep(line: &mut Line<'_>, range: std::ops::Range<usize>, size: String) -> usize {
    let end = range.end;
    line.take(range, What::Size);
    line.draft.sizes.push(size);
    end
}

/// One size, or two with a hyphen or a slash between.
fn size(line: &Line<'_>, at: usize) -> Option<(String, usize)> {
    let (from, end) = single(line, at)?;
    let to_word = line.is(end, &["to"]) && line.number(end + 1).is_some();
    let joined = line.is(end, &["-", "/"]) && line.glued(end) && line.glued(end + 1);
    if (joined || to_word)
        && let Some((to, end)) = single(line, end + 1)
    {
        return Some((format!("{from}-{to}"), end));
    }
    Some((from, end))
}

fn single(line: &Line<'_>, at: usize) -> Option<(String, usize)> {
    let Some(number) = line.number(at) else { return in_words(line, at) };
    let letters = line.word(at + 1).filter(|word| word.len() <= 3 && line.glued(at + 1));
    Some(match letters {
        Some(letters) => (format!("{}{}", number.text, letters.to_uppercase()), at + 2),
        None => (number.text.clone(), at + 1),
    })
}

fn in_words(line: &Line<'_>, at: usize) -> Option<(String, usize)> {
    WORDS.iter().find_map(|&(words, size)| {
        let end = line.phrase(at, words)?;
        let hangs = line.hangs_behind(end) && !line.tokens.get(end).is_some_and(|token| token.shape == Shape::Sign);
        let letter_hangs = words.len() == 1 && line.hangs_behind(end);
        (!hangs && !letter_hangs).then(|| (size.to_owned(), end))
    })
}

/// `2T`, `3T-4T`.
fn toddler(line: &Line<'_>, at: usize) -> Option<(String, usize)> {
    let one = |at: usize| {
        let number = line.whole(at).filter(|number| (1..=7).contains(number))?;
        (line.is(at + 1, &["t"]) && line.glued(at + 1)).then(|| (format!("{number}T"), at + 2))
    };
    let (from, end) = one(at).filter(|_| !line.hangs_before(at))?;
    if line.is(end, &["-", "/"]) && line.glued(end) {
        let (to, end) = one(end + 1)?;
        return Some((format!("{from}-{to}"), end));
    }
    Some((from, end))
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{name, read};

    #[test]
    fn sizes_as_said() {
        for (line, size) in [
            ("cardigan size 10-12 1.00", "10-12"),
            ("cardigan size 10/12 1.00", "10-12"),
            ("cardigan size 10 to 12 1.00", "10-12"),
            ("cardigan sz M 1.00", "M"),
            ("cardigan sz. medium 1.00", "M"),
            ("girls medium cardigan 1.00", "M"),
            ("boys x-large cardigan 1.00", "XL"),
            ("boys' L cardigan 1.00", "L"),
            ("cardigan girls extra large 1.00", "XL"),
            ("cardigan 2T 1.00", "2T"),
            ("3t cardigan 1.00", "3T"),
            ("cardigan size 6X 1.00", "6X"),
            ("cardigan shoe size 1 1.00", "1"),
            ("cardigan size 13.5 1.00", "13.5"),
            ("cardigan size s/m 1.00", "S-M"),
        ] {
            let reading = read(line);
            assert_eq!(reading.size.as_deref(), Some(size), "{line}");
            assert_eq!(name(line), "cardigan", "{line}");
            assert_eq!(reading.ages, None, "{line}");
            assert!(reading.questions.is_empty(), "{line}: {:?}", reading.questions);
        }
    }

    #[test]
    fn other_uses_of_the_words() {
        assert_eq!(read("large ball 1.00").size, None);
        assert_eq!(name("large ball 1.00"), "large ball");
        assert_eq!(name("travel size toothpaste 1.00"), "travel size toothpaste");
        assert_eq!(name("4 t-shirts 1.00"), "t-shirts");
        assert_eq!(read("tee size M size L 1.00").questions.len(), 1);
    }
}
