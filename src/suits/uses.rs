//! What kinds are for, so that a box gets something to write with before a third thing to write on.

/// What a child does with it, and the kinds that serve it. The words end the sentence "nothing … in it yet".
const USES: &[(&str, &[&str])] = &[
    ("for the teeth", &["toothbrush", "toothpaste", "dental floss", "toothbrush cover"]),
    ("to wash with", &["soap", "body wash", "face cloth", "wash mitt", "sponge", "shampoo", "hand wipe", "towel"]),
    ("for the hair", &["comb", "hair brush", "hair tie", "hair clip", "headband", "hair conditioner"]),
    ("for the nails", &["nail clipper", "nail file", "nail brush"]),
    ("for the skin", &["lotion", "sun cream", "lip balm", "plaster"]),
    ("to write with", &["pencil", "mechanical pencil", "pen", "gel pen"]),
    ("to colour with", &["coloured pencil", "marker", "crayon", "oil pastel", "paint", "chalk", "highlighter"]),
    ("to write on", &["notebook", "notepad", "sketchbook", "paper", "writing slate", "whiteboard"]),
    ("to look into", &["story book", "colouring book", "flash card"]),
    ("to measure with", &["ruler", "set square", "protractor", "compass", "geometry set", "calculator"]),
    ("to cut or stick with", &["scissors", "glue stick", "sticky tape", "stapler", "sticky note"]),
    ("for its pencils", &["eraser", "sharpener", "pencil case", "pencil topper", "pencil grip"]),
    ("for the feet", &["sock", "shoe", "sandal", "flip-flop", "slipper", "boot", "tights"]),
    ("for the head", &["hat", "cap", "beanie", "bandana"]),
    ("for above the waist", &["vest", "t-shirt", "shirt", "tank top", "sweater", "cardigan", "sweatshirt", "hoodie"]),
    ("for below the waist", &["trousers", "leggings", "shorts", "skirt", "underpants"]),
    ("to throw or kick", &["ball", "football", "flying disc", "paddle ball", "ring toss"]),
    ("to hold close", &["doll", "soft toy", "puppet"]),
    ("to drive or sail", &["toy car", "toy boat", "toy plane"]),
    ("to build or solve", &["building brick", "jigsaw", "slide puzzle", "modelling clay"]),
    ("to play with others", &["playing card", "card game", "board game", "domino", "dice", "marble", "jacks"]),
    ("to make music with", &["whistle", "harmonica", "recorder", "tambourine", "maraca"]),
    ("to make things with", &["craft kit", "sewing kit", "bead", "yarn", "pipe cleaner", "needle and thread"]),
    ("to wear for show", &["bracelet", "necklace", "ring", "brooch", "sunglasses", "watch", "tiara"]),
    ("to carry things in", &["purse", "handbag", "pouch", "wallet", "backpack", "wash bag"]),
    ("to eat or drink from", &["cup", "water bottle", "bowl", "plate", "spoon", "lunch box"]),
];

/// What a kind is for, where that is said.
pub(super) fn use_of(kind: &str) -> Option<&'static str> {
    USES.iter().find(|(_, kinds)| kinds.contains(&kind)).map(|(of, _)| *of)
}

/// Every kind that serves a use which one of these kinds serves.
pub(super) fn served_beside(kinds: &[&str]) -> Vec<&'static str> {
    let served = USES.iter().filter(|(_, of)| of.iter().any(|kind| kinds.contains(kind)));
    served.flat_map(|(_, of)| of.iter().copied()).collect()
}

/// Every kind that has a use: each is one that a catalogue knows.
#[cfg(test)]
pub(crate) fn kinds() -> impl Iterator<Item = &'static str> {
    USES.iter().flat_map(|(_, kinds)| kinds.iter().copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_kind_has_one_use() {
        let mut kinds: Vec<&str> = super::kinds().collect();
        let all = kinds.len();
        kinds.sort_unstable();
        kinds.dedup();
        assert_eq!(kinds.len(), all, "a kind stands twice");
        assert_eq!((use_of("pen"), use_of("blanket")), (Some("to write with"), None));
    }
}
