//! What the small-parts test leaves out.
//!
//! 16 CFR 1501.3 (a) to (j): balloons; books and paper; writing materials; children's clothing and accessories;
//! grooming, feeding and hygiene products; phonograph records; modelling clay; finger paints, watercolours and paint
//! sets; rattles; pacifiers. Balloons have a rule of their own, and stricter.

use super::Looked;
use crate::model::category::Category;

/// Kinds outside hygiene and clothing that are left out, by the letters of the section.
const KINDS: &[(&str, &[&str])] = &[
    ("(a) balloons", &["balloon", "punch ball"]),
    (
        "(b) books and paper",
        &[
            "notebook",
            "notepad",
            "diary",
            "sketchbook",
            "graph paper",
            "paper",
            "card stock",
            "sticky note",
            "index card",
            "flash card",
            "playing card",
            "card game",
            "envelope",
            "stationery set",
            "colouring book",
            "workbook",
            "story book",
            "dictionary",
            "atlas",
            "bookmark",
            "map",
            "poster",
            "tracing book",
            "sticker",
            "temporary tattoo",
            "greeting card",
            "photo",
            "wrapping paper",
        ],
    ),
    (
        "(c) writing materials",
        &[
            "pencil",
            "coloured pencil",
            "jumbo pencil",
            "mechanical pencil",
            "pencil set",
            "pen",
            "gel pen",
            "multicolour pen",
            "fountain pen",
            "fineliner",
            "brush pen",
            "marker",
            "permanent marker",
            "dry-erase marker",
            "paint marker",
            "highlighter",
            "crayon",
            "oil pastel",
            "charcoal",
            "chalk",
        ],
    ),
    ("(e) feeding", &["cup", "water bottle", "drinking straw", "bowl", "plate", "spoon", "lunch box"]),
    ("(g) modelling clay", &["modelling clay"]),
    ("(h) paints", &["paint"]),
];

/// Whether the small-parts test leaves it out. (d) and the rest of (e) are whole categories here.
pub(super) fn is_exempt(thing: &Looked<'_>) -> bool {
    matches!(thing.sort(), Some(Category::Hygiene | Category::Clothing))
        || KINDS.iter().any(|(_, kinds)| thing.is_one_of(kinds))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cautions::testing::of_kind;

    #[test]
    fn every_exempt_kind_is_in_the_catalogue() {
        for kind in KINDS.iter().flat_map(|(_, kinds)| kinds.iter()) {
            assert!(is_exempt(&of_kind(kind)), "{kind}");
        }
    }

    #[test]
    fn an_exempt_thing_that_is_a_wow_item_stays_exempt() {
        let mut hat = of_kind("hat");
        hat.category = Some(&Category::Wow);
        assert!(is_exempt(&hat));
    }

    #[test]
    fn the_sections_own_examples() {
        for kind in ["crayon", "chalk", "pencil", "pen", "story book", "hair clip", "toothbrush", "paint", "balloon"] {
            assert!(is_exempt(&of_kind(kind)), "{kind}");
        }
        for kind in ["dice", "toy car", "key ring", "eraser"] {
            assert!(!is_exempt(&of_kind(kind)), "{kind}");
        }
    }
}
