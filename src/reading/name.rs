//! What is left is the name; what is left and can be none asks.

use super::draft::Scope;
use super::number::number;
use super::question::About;
use super::taken::What;
use super::token::Shape;
use super::work::Work;

/// Dropped from both ends of a name.
const EDGES: [&str; 18] = [
    "a", "an", "some", "the", "of", "and", "or", "for", "in", "into", "at", "with", "from", "as", "on", "to", "my",
    "by",
];
/// Left over, these would have changed the price.
const PRICE_WORDS: [&str; 3] = ["off", "was", "per"];

/// Gathers the name, and asks about numbers and price words that no rule explained.
pub(super) fn name(work: &mut Work<'_>) {
    work.scan(number_behind_hash);
    work.scan(leftover_number);
    work.scan(|work, at| {
        let stray = work.is(at, &PRICE_WORDS) && !work.hangs(at, at + 1) && !work.draft.prices.is_empty();
        stray.then(|| {
            work.doubt(at..at + 1, About::Paid, "what does this say about the price?");
            at + 1
        })
    });
    let kept = kept(work);
    let mut name = String::new();
    for &at in &kept {
        let Some(token) = work.tokens.get(at) else { continue };
        let follows = at.checked_sub(1).is_some_and(|before| kept.contains(&before));
        let joined = token.glued && follows;
        if !name.is_empty() && !joined {
            name.push(' ');
        }
        name.push_str(&token.text);
    }
    for at in kept {
        work.take(at..at + 1, What::Name);
    }
    let rest = work.tokens.len();
    work.take(0..rest, What::Filler);
    work.draft.name = name;
}

/// The tokens of the name, without small words at either end.
fn kept(work: &Work<'_>) -> Vec<usize> {
    let belongs = |&at: &usize| match work.tokens.get(at) {
        Some(token) if token.took == Some(What::Name) => true,
        Some(token) if token.took.is_none() => token.shape != Shape::Sign || inner_sign(work, at),
        _ => false,
    };
    let mut kept: Vec<usize> = (0..work.tokens.len()).filter(belongs).collect();
    let edge = |at: Option<&usize>| {
        at.is_some_and(|&at| work.is(at, &EDGES) && !work.hangs(at, at + 1))
            || at.is_some_and(|&at| work.open(at).is_some_and(|token| token.shape == Shape::Sign && token.text != "#"))
    };
    while edge(kept.last()) {
        kept.pop();
    }
    let lead = (0..kept.len()).take_while(|&i| edge(kept.get(i))).count();
    kept.split_off(lead)
}

/// A sign inside a word (t-shirt, 100%), or one that stands for *and*.
fn inner_sign(work: &Work<'_>, at: usize) -> bool {
    let between = work.glued(at) && work.glued(at + 1) && work.open(at + 1).is_some();
    let after_number = at > 0 && work.number(at - 1).is_some() && work.glued(at);
    match work.open(at).map(|token| token.text.as_str()) {
        Some("-" | "'" | "/") => between,
        Some("&") => true,
        Some("#") => work.glued(at + 1),
        Some("%") => after_number,
        _ => false,
    }
}

/// `#2 pencils`: a grade, where the count was said elsewhere.
fn number_behind_hash(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let counted = work.draft.pack.named || work.draft.counts.iter().any(|count| !count.article);
    if !counted || !work.is(at, &["#"]) || work.whole(at + 1).is_none() || !work.glued(at + 1) {
        return None;
    }
    work.take(at..at + 2, What::Name);
    Some(at + 2)
}

/// A number that nothing explains may be a count, or a price.
fn leftover_number(work: &mut Work<'_>, at: usize) -> Option<usize> {
    let in_digits = work.number(at).is_some();
    let end = match number(work, at).filter(|number| !number.article) {
        Some(number) => number.end,
        None if in_digits => at + 1,
        None => return None,
    };
    if work.is(at, &["one"]) || work.is(end, &["%"]) || part_of_a_word(work, at, end) || in_known_name(work, at, end) {
        return None;
    }
    let fraction = work.number(at).is_some_and(|token| token.decimals() > 0);
    let about = if fraction && work.draft.prices.is_empty() { About::Paid } else { About::Units };
    work.doubt(at..end, about, "what does this number count?");
    Some(end)
}

/// `3d`, `4-colour`, `b2`: but not `12combs`.
fn part_of_a_word(work: &Work<'_>, at: usize, end: usize) -> bool {
    if work.hangs_before(at) {
        let before = at.checked_sub(1).and_then(|before| work.tokens.get(before));
        return before.is_some_and(|token| token.shape != Shape::Number) && !work.is(end, &["-"]);
    }
    let letters = work.word(end).filter(|_| work.glued(end));
    let short = letters.is_some_and(|word| word.chars().count() <= 2);
    let hyphen = work.is(end, &["-"]) && work.hangs_behind(end) && work.word(end + 1).is_some();
    short || hyphen
}

fn in_known_name(work: &Work<'_>, at: usize, end: usize) -> bool {
    (end + 1..end + 4)
        .any(|to| (at..to).all(|i| work.open(i).is_some()) && work.ctx.catalogue.named(&work.typed(at..to)).is_some())
}

/// "50c a bag": with no other name the word of the price is the thing itself.
pub(super) fn priced_noun(work: &mut Work<'_>) {
    let draft = &mut work.draft;
    if let ("", [price]) = (draft.name.as_str(), draft.prices.as_mut_slice())
        && let Scope::Pack(noun) | Scope::Per(noun) = &price.scope
    {
        draft.name = noun.clone();
        price.scope = Scope::Each;
    }
}
