//! What is left is the name; what is left and can be none asks.

use super::draft::Scope;
use super::line::Line;
use super::number::number;
use super::outright::Field;
use super::question::About;
use super::taken::What;
use super::token::Shape;

/// Dropped from both ends of a name.
const EDGES: [&str; 18] = [
    "a", "an", "some", "the", "of", "and", "or", "for", "in", "into", "at", "with", "from", "as", "on", "to", "my",
    "by",
];
/// Left over, these would have changed the price.
const PRICE_WORDS: [&str; 9] = ["off", "was", "per", "bogo", "discount", "discounted", "rebate", "saved", "apiece"];

/// Gathers the name, and asks about numbers and price words that no rule explained.
pub(super) fn name(line: &mut Line<'_>) {
    line.scan(number_behind_hash);
    line.scan(leftover_number);
    line.scan(second_thing);
    line.scan(|line, at| {
        let added = at.checked_sub(1).is_some_and(|before| line.is(before, &["plus", "+", "before"]));
        let speaks = line.is(at, &PRICE_WORDS) || (added && line.is(at, &["tax"]));
        let stray = speaks && !line.hangs(at, at + 1) && !line.draft.prices.is_empty();
        stray.then(|| {
            line.doubt(at..at + 1, About::Paid, "what does this say about the price?");
            at + 1
        })
    });
    let kept = kept(line);
    let mut name = String::new();
    for &at in &kept {
        let Some(token) = line.tokens.get(at) else { continue };
        let follows = at.checked_sub(1).is_some_and(|before| kept.contains(&before));
        let hangs_on = name.is_empty() || (token.glued && follows);
        if !hangs_on {
            name.push(' ');
        }
        name.push_str(&token.text);
    }
    for at in kept {
        line.take(at..at + 1, What::Name);
    }
    let rest = line.tokens.len();
    line.take(0..rest, What::Filler);
    let outright = line.draft.outright.of(Field::Name).map(str::to_lowercase);
    line.draft.name = outright.unwrap_or(name);
}

/// The tokens of the name, without small words at either end.
fn kept(line: &Line<'_>) -> Vec<usize> {
    let belongs = |&at: &usize| match line.tokens.get(at) {
        Some(token) if token.took == Some(What::Name) => true,
        Some(token) if token.took.is_none() => token.shape != Shape::Sign || inner_sign(line, at),
        _ => false,
    };
    let mut kept: Vec<usize> = (0..line.tokens.len()).filter(belongs).collect();
    let edge = |at: Option<&usize>| {
        at.is_some_and(|&at| line.is(at, &EDGES) && !line.hangs(at, at + 1))
            || at.is_some_and(|&at| line.open(at).is_some_and(|token| token.shape == Shape::Sign && token.text != "#"))
    };
    while edge(kept.last()) {
        kept.pop();
    }
    let lead = (0..kept.len()).take_while(|&i| edge(kept.get(i))).count();
    kept.split_off(lead)
}

/// A sign inside a word (t-shirt, 100%), or one that stands for *and*.
fn inner_sign(line: &Line<'_>, at: usize) -> bool {
    let between = line.glued(at) && line.glued(at + 1) && line.open(at + 1).is_some();
    let after_number = at > 0 && line.number(at - 1).is_some() && line.glued(at);
    match line.open(at).map(|token| token.text.as_str()) {
        Some("-" | "'" | "/") => between,
        Some("&") => true,
        Some("#") => line.glued(at + 1),
        Some("%") => after_number,
        _ => false,
    }
}

/// `#2 pencils`: a grade, where the count was said elsewhere.
fn number_behind_hash(line: &mut Line<'_>, at: usize) -> Option<usize> {
    if !counted(line) || !line.is(at, &["#"]) || line.whole(at + 1).is_none() || !line.glued(at + 1) {
        return None;
    }
    line.take(at..at + 2, What::Name);
    Some(at + 2)
}

/// A number that nothing explains may be a count, or a price.
fn leftover_number(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let in_digits = line.number(at).is_some();
    let end = match number(line, at).filter(|number| !number.article) {
        Some(number) => number.end,
        None if in_digits => at + 1,
        None => return None,
    };
    if line.is(at, &["one"]) || line.is(end, &["%"]) || part_of_a_word(line, at, end) || in_known_name(line, at, end) {
        return None;
    }
    if may_be_cents(line, at) {
        line.ask(About::Paid, format!("\"{}\": is it a part of the price?", line.typed(at..end)));
    }
    if follows_price(line, at) {
        line.doubt(at..end, About::Paid, "how often is that the price?");
        if !counted(line) {
            line.ask(About::Units, "a number stands by the price; how many are there?".to_owned());
        }
        return Some(end);
    }
    let fraction = line.number(at).is_some_and(|token| token.decimals() > 0);
    let about = if fraction && line.draft.prices.is_empty() { About::Paid } else { About::Units };
    line.doubt(at..end, about, "what does this number count?");
    Some(end)
}

/// `$2 for 3`, `5.00 a hundred`: not a count of its own, but a part of the price before it.
fn follows_price(line: &Line<'_>, at: usize) -> bool {
    let price = |at: Option<usize>| at.is_some_and(|at| line.took(at) == Some(What::Price));
    let before = at.checked_sub(1);
    let led = before.filter(|&before| line.is(before, &["for", "per", "/"]));
    led.is_some_and(|led| price(led.checked_sub(1))) || (price(before) && line.phrase(at, "a hundred").is_some())
}

/// `$1 50`, `1 dollar 50`: two digits right behind a whole amount.
fn may_be_cents(line: &Line<'_>, at: usize) -> bool {
    let end = (0..=at).rev().find(|&end| end == 0 || !line.is(end - 1, &["."])).filter(|&end| end > 0);
    let Some(price) = line.draft.prices.iter().find(|price| Some(price.to) == end) else { return false };
    let pointed = line.tokens.iter().take(price.to).skip(price.from).any(|token| token.decimals() > 0);
    price.amount.is_integer() && !pointed && line.number(at).is_some_and(|token| token.text.len() == 2)
}

fn counted(line: &Line<'_>) -> bool {
    line.draft.pack.named || line.draft.counts.iter().any(|count| !count.article)
}

/// Two combs and a brush are how many of what?
fn second_thing(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let several = line.draft.counts.iter().any(|count| count.value > 1);
    if !several || !line.is(at, &["and", "&", "+", "plus"]) || !line.is(at + 1, &["a", "an"]) {
        return None;
    }
    line.word(at + 2)?;
    let why = format!("\"{}\": is it counted with the others?", line.typed(at..at + 3));
    line.ask(About::Units, why);
    Some(at + 3)
}

/// `3d`, `4-colour`, `b2`: but not `12combs`, and not `2x4`.
fn part_of_a_word(line: &Line<'_>, at: usize, end: usize) -> bool {
    let by = |x: usize, number: usize| line.is(x, &["x"]) && line.number(number).is_some();
    if by(end, end + 1) || (at > 1 && by(at - 1, at - 2)) || line.is(end, &["k"]) {
        return false;
    }
    if line.hangs_before(at) {
        let before = at.checked_sub(1).and_then(|before| line.tokens.get(before));
        return before.is_some_and(|token| token.shape != Shape::Number) && !line.is(end, &["-"]);
    }
    let letters = line.word(end).filter(|_| line.glued(end));
    // Pencils 12s are twelve in a pack, or a size.
    let short = letters
        .is_some_and(|word| (word.chars().count() == 1 && word != "s") || ["st", "nd", "rd", "th"].contains(&word));
    let hyphen = line.is(end, &["-"]) && line.hangs_behind(end) && line.word(end + 1).is_some();
    short || hyphen
}

fn in_known_name(line: &Line<'_>, at: usize, end: usize) -> bool {
    (end + 1..end + 4)
        .any(|to| (at..to).all(|i| line.open(i).is_some()) && line.ctx.catalogue.named(&line.typed(at..to)).is_some())
}

/// "50c a bag": with no other name the word of the price is the thing itself.
pub(super) fn priced_noun(line: &mut Line<'_>) {
    let draft = &mut line.draft;
    if let ("", [price]) = (draft.name.as_str(), draft.prices.as_mut_slice())
        && let Scope::Pack(noun) | Scope::Per(noun) = &price.scope
    {
        draft.name = noun.clone();
        price.scope = Scope::Each;
    }
}
