//! Rule 10: colours.

use super::line::Line;
use super::taken::What;
use crate::catalogue::colours::ColourName;

const JOINERS: [&str; 6] = ["and", "&", ",", "/", "-", "+"];
const LABELS: [&str; 4] = ["colour", "color", "colours", "colors"];

/// Finds names of colours, longest first, except in names that the catalogue knows (hand cream).
pub(super) fn colours(line: &mut Line<'_>) {
    let known = in_known_names(line);
    line.scan(|line, at| {
        let label = usize::from(line.is(at, &LABELS));
        let colon = usize::from(label == 1 && line.is(at + 1, &[":"]));
        let apart = label == 1 || at.checked_sub(1).is_some_and(|before| line.is(before, &[","]));
        let (colour, end) = longest(line, at + label + colon, apart, &known)?;
        line.take(at..end, What::Colour);
        if !line.draft.colours.contains(&colour.name) {
            line.draft.colours.push(colour.name);
        }
        Some(end)
    });
    line.scan(joiners);
}

/// *and*, a comma or a slash between two colours.
fn joiners(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let colour = |at: usize| line.took(at) == Some(What::Colour);
    let mut end = at;
    while line.is(end, &JOINERS) {
        end += 1;
    }
    let between = end > at && at.checked_sub(1).is_some_and(colour) && colour(end);
    between.then(|| {
        line.take(at..end, What::Colour);
        end
    })
}

/// The longest colour that begins here.
fn longest(line: &Line<'_>, at: usize, apart: bool, known: &[bool]) -> Option<(ColourName, usize)> {
    if line.hangs_before(at) && !follows_colour(line, at) {
        return None;
    }
    let mut letters = String::new();
    let mut end = at;
    let mut best = None;
    for _ in 0..=line.ctx.catalogue.colours().longest() {
        let Some(word) = line.word(end) else { break };
        if known.get(end).copied().unwrap_or(false) {
            break;
        }
        letters.push_str(word);
        end += 1;
        let colour = line.ctx.catalogue.colours().named(&letters).filter(|colour| apart || !colour.thing);
        if let Some(colour) = colour.filter(|_| !hangs_on_word(line, end)) {
            best = Some((colour.clone(), end));
        }
        if line.is(end, &["-"]) && line.glued(end) && line.glued(end + 1) {
            end += 1;
        }
    }
    best
}

/// `black-and-white` parts, `pink-faced` does not.
fn hangs_on_word(line: &Line<'_>, end: usize) -> bool {
    let after = line.word(end + 1);
    let joins = after.is_some_and(|word| word == "and" || line.ctx.catalogue.colours().named(word).is_some());
    line.hangs_behind(end) && !joins
}

/// Whether a colour stands before the hyphen: black-white, black-and-white.
fn follows_colour(line: &Line<'_>, at: usize) -> bool {
    let before =
        at.checked_sub(2).map(|before| if line.is(before, &["and"]) { before.saturating_sub(2) } else { before });
    before.is_some_and(|before| line.took(before) == Some(What::Colour))
}

/// Which tokens stand in a name of several words that the catalogue knows.
fn in_known_names(line: &Line<'_>) -> Vec<bool> {
    let mut known = vec![false; line.tokens.len()];
    for from in 0..line.tokens.len() {
        for end in from + 2..=(from + 4).min(line.tokens.len()) {
            let words = (from..end).all(|i| line.word(i).is_some() || (i > from && line.is(i, &["-"])));
            if words && line.ctx.catalogue.named(&line.typed(from..end)).is_some() {
                known.get_mut(from..end).into_iter().flatten().for_each(|known| *known = true);
            }
        }
    }
    known
}

#[cfg(test)]
mod tests {
    use crate::reading::testing::{about, name, read};

    #[test]
    fn colours_are_taken_out_of_the_name() {
        for (line, colours) in [
            ("pink comb 1.00", vec!["pink"]),
            ("comb navy 1.00", vec!["navy"]),
            ("comb navy blue 1.00", vec!["navy blue"]),
            ("comb forestgreen 1.00", vec!["forest green"]),
            ("comb Forest Green 1.00", vec!["forest green"]),
            ("dark teal comb 1.00", vec!["dark teal"]),
            ("red and blue comb 1.00", vec!["red", "blue"]),
            ("comb red, blue & green 1.00", vec!["red", "blue", "green"]),
            ("comb pink/purple 1.00", vec!["pink", "purple"]),
            ("black-and-white comb 1.00", vec!["black", "white"]),
            ("multi-coloured comb 1.00", vec!["multicolour"]),
            ("rainbow comb 1.00", vec!["multicolour"]),
            ("comb, peach 1.00", vec!["peach"]),
            ("comb colour rose 1.00", vec!["rose"]),
            ("comb color: cherry 1.00", vec!["cherry"]),
            ("comb grey 1.00", vec!["grey"]),
            ("comb light slate gray 1.00", vec!["light slate gray"]),
        ] {
            assert_eq!(read(line).colours, colours, "{line}");
            assert_eq!(name(line), "comb", "{line}");
            assert!(about(line).is_empty(), "{line}");
        }
    }

    #[test]
    fn things_are_no_colours() {
        for (line, thing) in [
            ("chocolate coins 1.00", "chocolate coins"),
            ("brick eraser 1.00", "brick eraser"),
            ("hand cream 1.00", "hand cream"),
            ("white board 1.00", "white board"),
            ("rose soap 1.00", "rose soap"),
            ("pink-faced doll 1.00", "pink-faced doll"),
            ("redwood car 1.00", "redwood car"),
        ] {
            assert!(read(line).colours.is_empty(), "{line}");
            assert_eq!(name(line), thing, "{line}");
        }
        assert_eq!(read("pink hand cream 1.00").colours, ["pink"]);
    }
}
