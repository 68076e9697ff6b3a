//! Rule 13, first part: the category that a line names.

use super::line::Line;
use super::taken::What;
use crate::model::category::Category;

const CORE: [(&str, &str); 12] = [
    ("hygiene", "hygiene"),
    ("school", "school"),
    ("clothing", "clothing"),
    ("clothes", "clothing"),
    ("toys", "toy"),
    ("toy", "toy"),
    ("wow item", "wow"),
    ("wow", "wow"),
    ("extras", "extras"),
    ("extra", "extras"),
    ("a toy", "toy"),
    ("a wow item", "wow"),
];

/// Finds `as hygiene`, and *wow* by itself.
pub(super) fn categories(line: &mut Line<'_>) {
    line.scan(|line, at| {
        let (category, end) = if line.is(at, &["as"]) { named(line, at + 1)? } else { wow(line, at)? };
        line.take(at..end, What::Category);
        line.draft.categories.push(category);
        Some(end)
    });
}

fn named(line: &Line<'_>, at: usize) -> Option<(Category, usize)> {
    let own = line.ctx.profile.categories().into_iter().find_map(|category| {
        let end = line.phrase(at, category.word())?;
        Some((category, end))
    });
    own.or_else(|| CORE.iter().find_map(|&(words, word)| line.phrase(at, words).map(|end| (Category::from(word), end))))
}

fn wow(line: &Line<'_>, at: usize) -> Option<(Category, usize)> {
    let end = line.any_phrase(at, &["wow item", "wow"])?;
    (!line.hangs(at, end)).then_some((Category::Wow, end))
}

#[cfg(test)]
mod tests {
    use crate::model::category::Category;
    use crate::reading::testing::{about, name, read};

    #[test]
    fn the_line_overrules_the_catalogue() {
        for (line, category) in [
            ("comb 1.00", Some(Category::Hygiene)),
            ("comb as toy 1.00", Some(Category::Toy)),
            ("comb wow 1.00", Some(Category::Wow)),
            ("comb as a wow item 1.00", Some(Category::Wow)),
            ("comb as clothes 1.00", Some(Category::Clothing)),
            ("thingamajig 1.00", None),
        ] {
            assert_eq!(read(line).category, category, "{line}");
            assert!(about(line).is_empty(), "{line}");
        }
        assert_eq!(name("comb as toy 1.00"), "comb");
        assert_eq!(name("bow-wow puppet 1.00"), "bow-wow puppet");
        assert_eq!(about("comb as toy as school 1.00"), ["category"]);
    }
}
