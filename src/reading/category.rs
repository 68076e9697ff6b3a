//! Rule 13, first part: the category that a line names.

use super::taken::What;
use super::work::Work;
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
pub(super) fn categories(work: &mut Work<'_>) {
    work.scan(|work, at| {
        let (category, end) = if work.is(at, &["as"]) { named(work, at + 1)? } else { wow(work, at)? };
        work.take(at..end, What::Category);
        work.draft.categories.push(category);
        Some(end)
    });
}

fn named(work: &Work<'_>, at: usize) -> Option<(Category, usize)> {
    let own = work.ctx.profile.categories().into_iter().find_map(|category| {
        let end = work.phrase(at, category.word())?;
        Some((category, end))
    });
    own.or_else(|| CORE.iter().find_map(|&(words, word)| work.phrase(at, words).map(|end| (Category::from(word), end))))
}

fn wow(work: &Work<'_>, at: usize) -> Option<(Category, usize)> {
    let end = work.any_phrase(at, &["wow item", "wow"])?;
    (!work.hangs(at, end)).then_some((Category::Wow, end))
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
