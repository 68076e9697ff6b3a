//! Sizes of clothes that are named after ages: which of them are plainly wrong for a box.

use crate::model::age::Ages;
use crate::model::category::Category;

/// The largest size that is named after an age.
const LAST: u8 = 16;
/// Children of one age differ: a size next to theirs may still fit.
const NEXT: u8 = 1;
/// Words for what is worn on feet and hands, whose sizes are no ages.
const NO_AGES: &[&str] = &["shoe", "sneaker", "boot", "sandal", "slipper", "flip", "sock", "glove", "mitten", "skate"];

/// Whether clothes of this size are for children plainly younger or older than those of a box.
///
/// Common practice: children's clothes up to size 16 are numbered by age in years (`4T`, `6`, `7-8`, `9/10`). Sizes by
/// letter or by height say nothing here, and so do those of shoes, socks and gloves.
pub fn is_wrong_size(category: Option<&Category>, kind: Option<&str>, size: Option<&str>, ages: Ages) -> bool {
    let Some((from, to)) = named_ages(category, kind, size) else { return false };
    to + NEXT < ages.from() || ages.to().is_some_and(|last| from > last.saturating_add(NEXT))
}

/// Whether clothes of this size are named after ages of a box.
pub fn is_their_size(category: Option<&Category>, kind: Option<&str>, size: Option<&str>, ages: Ages) -> bool {
    named_ages(category, kind, size)
        .is_some_and(|(from, to)| to >= ages.from() && ages.to().is_none_or(|last| from <= last))
}

/// The ages that clothes of this size are named after; none where it is no age.
fn named_ages(category: Option<&Category>, kind: Option<&str>, size: Option<&str>) -> Option<(u8, u8)> {
    let by_age = category == Some(&Category::Clothing)
        && !NO_AGES.iter().any(|word| kind.is_some_and(|kind| kind.to_lowercase().contains(word)));
    size.filter(|_| by_age).and_then(years)
}

/// The years that a size is named after, first and last.
fn years(size: &str) -> Option<(u8, u8)> {
    let number = |text: &str| text.trim().trim_end_matches(['T', 't', 'Y', 'y']).parse::<u8>().ok();
    let mut parts = size.split(['-', '–', '/']);
    let from = number(parts.next()?)?;
    let to = parts.next().map_or(Some(from), number)?;
    (parts.next().is_none() && (1..=to).contains(&from) && to <= LAST).then_some((from, to))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::suits::laws::ages;

    #[test]
    fn a_size_is_named_after_ages_or_not() {
        for (size, named) in [("7-8", (7, 8)), ("4T", (4, 4)), ("6", (6, 6)), ("9/10", (9, 10)), ("2-3Y", (2, 3))] {
            assert_eq!(years(size), Some(named), "{size}");
        }
        for size in ["M", "104", "8-7", "", "-", "5-6-7", "0", "18", "S/M", "300"] {
            assert_eq!(years(size), None, "{size}");
        }
    }

    #[test]
    fn only_what_is_plainly_wrong_is_left_out() {
        let wrong =
            |size, from, to| is_wrong_size(Some(&Category::Clothing), Some("t-shirt"), Some(size), ages(from, to));
        assert!(wrong("7-8", 3, 5) && wrong("4", 6, 8) && wrong("14", 9, 12) && wrong("6-7", 9, 12));
        assert!(!wrong("6", 3, 5) && !wrong("5", 6, 8) && !wrong("7-8", 6, 8) && !wrong("8", 9, 12));
        let other = |category, kind, size| is_wrong_size(Some(category), kind, size, ages(3, 5));
        assert!(!other(&Category::Clothing, Some("rain boots"), Some("10")));
        assert!(!other(&Category::Clothing, Some("t-shirt"), Some("L")) && !other(&Category::Clothing, None, None));
        assert!(!other(&Category::Toy, Some("ball"), Some("10")));
        let theirs = |size| is_their_size(Some(&Category::Clothing), Some("t-shirt"), Some(size), ages(6, 8));
        assert!(theirs("7-8") && theirs("8-9") && theirs("6") && !theirs("5") && !theirs("9") && !theirs("M"));
    }
}
