//! A thing as one looks at it: what was said of it, and what is typical of its kind.

use crate::catalogue::same_word;
use crate::model::category::Category;
use crate::model::kind::{Hazard, Kind, Typical};
use crate::model::lot::LotFacts;
use crate::model::measure::Dims;
use crate::model::text::normal;

/// All that is known of a thing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Looked<'a> {
    /// What it is called.
    pub name: &'a str,
    /// What it is; none where nobody knows.
    pub kind: Option<&'a str>,
    /// What part of a checklist it serves.
    pub category: Option<&'a Category>,
    /// The category of its kind, whatever it serves in this season: a doll that is a wow item is a toy.
    pub kind_category: Option<&'a Category>,
    /// What is typical of its kind, where that is known.
    pub typical: Option<&'a Typical>,
    /// What was said of it: small-parts, used, sealed.
    pub flags: Vec<&'a str>,
    /// What else was said, in plain words.
    pub notes: Vec<&'a str>,
    /// What was taken out of it.
    pub lacks: Vec<&'a str>,
    /// How big one is, as said.
    pub dims: Option<&'a Dims>,
    /// The size to wear, as said.
    pub size: Option<&'a str>,
    /// A day or a month as ISO text.
    pub expires: Option<&'a str>,
    /// Pieces in one, where said.
    pub pieces: Option<u32>,
    /// What is in it: the parts of a kit, what is tucked into a holder.
    pub holds: Vec<Looked<'a>>,
}

/// How sure a remark is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sure {
    /// It is typical of the kind.
    Usually,
    /// A line said so of this thing.
    Said,
}

impl Sure {
    /// `This has`, or `This usually has`.
    pub(super) fn has(self) -> &'static str {
        match self {
            Sure::Usually => "This usually has",
            Sure::Said => "This has",
        }
    }

    /// `There is`, or `There is usually`.
    pub(super) fn there_is(self) -> &'static str {
        match self {
            Sure::Usually => "There is usually",
            Sure::Said => "There is",
        }
    }

    /// `This is`, or `This is usually`.
    pub(super) fn is(self) -> &'static str {
        match self {
            Sure::Usually => "This is usually",
            Sure::Said => "This is",
        }
    }
}

/// A ball, or what comes with one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ball {
    /// Its diameter in whole millimetres.
    pub across: u32,
    /// The thing is the ball, and not a game with one.
    pub itself: bool,
    pub sure: Sure,
}

/// Words that tell of a part being gone.
const GONE: [&str; 6] = ["taken out", "taken off", "removed", "cut off", "cut out", "pulled out"];
/// Words that take that back.
const BUT: [&str; 5] = ["not", "never", "still", "yet", "to be"];

impl<'a> Looked<'a> {
    /// A batch as it was logged, with its kind where that is known.
    pub fn of(facts: &'a LotFacts, kind: Option<&'a Kind>) -> Looked<'a> {
        Looked {
            name: &facts.name,
            kind: kind.map(|kind| kind.name.as_str()).or(facts.kind.as_deref()),
            category: facts.category.as_ref().or(kind.map(|kind| &kind.category)),
            kind_category: kind.map(|kind| &kind.category),
            typical: kind.and_then(|kind| kind.typical.as_ref()),
            flags: facts.flags.iter().map(String::as_str).collect(),
            notes: facts.notes.iter().map(String::as_str).collect(),
            lacks: facts.lacks.iter().map(String::as_str).collect(),
            dims: facts.dims.as_ref(),
            size: facts.size.as_deref(),
            expires: facts.expires.as_deref(),
            pieces: facts.pieces,
            holds: Vec::new(),
        }
    }

    /// Whether a hazard is there, and how sure that is; what was said, and what was taken out, outranks what is usual.
    pub(super) fn has(&self, word: &str, is: impl Fn(&Hazard) -> bool) -> Option<Sure> {
        let sure = if self.says(word) { Some(Sure::Said) } else { self.usual(is).map(|_| Sure::Usually) };
        sure.filter(|_| !self.is_without(word))
    }

    /// Whether a line said this of it.
    pub(super) fn says(&self, flag: &str) -> bool {
        self.flags.contains(&flag)
    }

    /// A hazard that is typical of the kind.
    pub(super) fn usual(&self, is: impl Fn(&Hazard) -> bool) -> Option<Hazard> {
        self.typical?.careful.iter().copied().find(|hazard| is(hazard))
    }

    /// Whether the kind is one of these.
    pub(super) fn is_one_of(&self, kinds: &[&str]) -> bool {
        self.kind.is_some_and(|kind| kinds.contains(&kind))
    }

    /// Whether it is there to be played with, as far as is known.
    pub(super) fn is_toy(&self) -> bool {
        matches!(self.sort(), Some(Category::Toy | Category::Wow) | None)
    }

    /// What sort of thing it is: the category of its kind, else the one it serves.
    pub(super) fn sort(&self) -> Option<&'a Category> {
        self.kind_category.or(self.category)
    }

    /// Whether its name holds these words, whole and next to each other, in the singular or plural.
    pub(super) fn is_called(&self, words: &str) -> bool {
        holds(self.name, words)
    }

    /// How big one is, and how sure that is.
    pub(super) fn measured(&self) -> Option<(&'a Dims, Sure)> {
        let said = self.dims.map(|dims| (dims, Sure::Said));
        said.or_else(|| self.typical.map(|typical| (&typical.size, Sure::Usually)))
    }

    /// Whether it comes in pieces, so that its size as packed tells nothing of them.
    pub(super) fn comes_in_pieces(&self) -> bool {
        self.pieces.is_some_and(|pieces| pieces > 1) || self.typical.is_some_and(|typical| typical.several)
    }

    /// The ball that it is or has. A size that was said of a ball is the ball's.
    pub(super) fn ball(&self) -> Option<Ball> {
        let Hazard::Ball(usual) = self.usual(|hazard| matches!(hazard, Hazard::Ball(_)))? else { return None };
        let largest = |dims: &Dims| dims.0.iter().map(|side| side.0).max();
        let itself = self.typical.and_then(|typical| largest(&typical.size)) == Some(usual);
        let said = self.dims.filter(|_| itself).and_then(largest);
        let sure = if said.is_some() { Sure::Said } else { Sure::Usually };
        Some(Ball { across: said.unwrap_or(usual), itself, sure })
    }

    /// A cord: its length in millimetres where that is known, and how sure that is.
    pub(super) fn cord(&self) -> Option<(Option<u32>, Sure)> {
        let sure = self.has("cord", |hazard| matches!(hazard, Hazard::Cord(_)))?;
        match self.usual(|hazard| matches!(hazard, Hazard::Cord(_))) {
            Some(Hazard::Cord(length)) => Some((Some(length), Sure::Usually)),
            _ => Some((None, sure)),
        }
    }

    /// Whether somebody said that this part is gone: `cord taken out of the hood`, `no cord`.
    pub(super) fn is_without(&self, part: &str) -> bool {
        let denied = |text: &str| ["no", "without"].iter().any(|no| holds(text, &format!("{no} {part}")));
        let gone = |note: &str| {
            let low = normal(note);
            let out = GONE.iter().any(|gone| low.contains(gone)) || holds(note, "took") && holds(note, "out");
            let doubted = BUT.iter().any(|but| holds(note, but)) || low.contains("n't");
            denied(note) || holds(note, part) && out && !doubted
        };
        denied(self.name) || self.lacks.iter().any(|lack| holds(lack, part)) || self.notes.iter().any(|note| gone(note))
    }
}

/// Whether a text holds these words, whole and next to each other, in the singular or plural.
fn holds(text: &str, words: &str) -> bool {
    let (text, words) = (in_words(text), in_words(words));
    let same = |part: &[String]| part.iter().zip(&words).all(|(a, b)| same_word(a, b));
    !words.is_empty() && text.windows(words.len()).any(same)
}

fn in_words(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cautions::testing::of_kind;
    use crate::model::measure::Millimetres;

    const CORD: fn(&Hazard) -> bool = |hazard| matches!(hazard, Hazard::Cord(_));

    #[test]
    fn what_was_said_outranks_what_is_usual() {
        let mut rope = of_kind("jump rope");
        assert_eq!(rope.has("cord", CORD), Some(Sure::Usually));
        rope.flags = vec!["cord"];
        assert_eq!(rope.has("cord", CORD), Some(Sure::Said));
        rope.lacks = vec!["cords"];
        assert_eq!(rope.has("cord", CORD), None);
    }

    #[test]
    fn a_part_that_is_gone_is_gone_unless_it_is_not() {
        for (note, gone) in [
            ("cord taken out of the hood", true),
            ("took the cord out, card front now", true),
            ("The Cord is cut off", true),
            ("cord not taken out yet", false),
            ("cord to be removed", false),
            ("no cords", true),
            ("zip removed", false),
            ("accord removed", false),
            ("a cord in the hood", false),
            ("couldn't get the cord pulled out", false),
        ] {
            let mut rope = of_kind("jump rope");
            rope.notes = vec![note];
            assert_eq!(rope.has("cord", CORD).is_none(), gone, "{note}");
        }
        let mut rope = of_kind("jump rope");
        rope.name = "rope without cord";
        assert_eq!(rope.has("cord", CORD), None);
    }

    #[test]
    fn a_size_said_of_a_ball_is_the_balls() {
        let size = Dims(vec![Millimetres(38); 3]);
        let mut ball = of_kind("ball");
        assert_eq!(ball.ball(), Some(Ball { across: 90, itself: true, sure: Sure::Usually }));
        ball.dims = Some(&size);
        assert_eq!(ball.ball(), Some(Ball { across: 38, itself: true, sure: Sure::Said }));
        let mut game = of_kind("paddle ball");
        game.dims = Some(&size);
        assert_eq!(game.ball(), Some(Ball { across: 60, itself: false, sure: Sure::Usually }));
        assert_eq!(of_kind("notebook").ball(), None);
    }
}
