//! How it came, other than bought: made at home, or given by somebody.

use super::line::Line;
use super::shop::phrase_end;
use super::taken::What;

/// Before who gave it.
const GIVEN_BY: [&str; 11] = [
    "was given to us by",
    "given to us by",
    "given by",
    "a gift from",
    "gift from",
    "gifts from",
    "gifted by",
    "donated by",
    "a donation from",
    "donation from",
    "passed on by",
];
/// Made by one of these it was made at home.
const OURSELVES: [&str; 9] = ["me", "us", "myself", "ourselves", "hand", "mum", "mom", "dad", "our own hands"];
const MADE: [&str; 6] = ["home made", "homemade", "made at home", "self made", "i made", "we made"];
/// Behind *made* these say what of or where, which is the name's affair.
const NOT_MADE: [&str; 8] = ["of", "in", "with", "from", "out", "to", "for", "up"];

/// How a thing came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Came {
    Given,
    Made,
}

/// Finds `given by X`, `a gift from X`, *made*, `made by X`.
pub(super) fn sources(line: &mut Line<'_>) {
    line.scan(|line, at| given(line, at).or_else(|| made(line, at)));
}

fn given(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let who = line.any_phrase(at, &GIVEN_BY).filter(|_| !line.hangs_before(at))?;
    let end = phrase_end(line, who)?;
    line.take(at..end, What::Source);
    line.draft.came.push(Came::Given);
    line.draft.free = true;
    let giver = line.typed(who..end);
    if who.checked_sub(1).is_some_and(|last| line.tokens.get(last).is_some_and(|token| token.text == "from")) {
        line.draft.shops.push(giver.clone());
    }
    line.draft.givers.push(giver);
    Some(end)
}

fn made(line: &mut Line<'_>, at: usize) -> Option<usize> {
    let end = line.any_phrase(at, &MADE).or_else(|| bare_made(line, at)).filter(|&end| !line.hangs(at, end))?;
    line.draft.came.push(Came::Made);
    if !line.is(end, &["by"]) {
        line.take(at..end, What::Source);
        return Some(end);
    }
    let ours = line.any_phrase(end + 1, &OURSELVES).filter(|&ours| !line.hangs_behind(ours));
    let behind = ours.or_else(|| phrase_end(line, end + 1)).unwrap_or(end + 1);
    line.take(at..behind, What::Source);
    if ours.is_none() && behind > end + 1 {
        let maker = line.typed(end + 1..behind);
        line.draft.givers.push(maker);
    }
    Some(behind)
}

/// *made* by itself: at either end of the line, beside a comma, or before *by* or a count.
fn bare_made(line: &Line<'_>, at: usize) -> Option<usize> {
    if !line.is(at, &["made"]) || line.is(at + 1, &NOT_MADE) {
        return None;
    }
    let edge = |at: Option<usize>| at.is_none_or(|at| line.tokens.get(at).is_none_or(|token| token.text == ","));
    let led = edge(at.checked_sub(1));
    let followed = edge(Some(at + 1)) || line.is(at + 1, &["by"]) || line.took(at + 1).is_some();
    (led || followed).then_some(at + 1)
}

#[cfg(test)]
mod tests {
    use crate::model::lot::Source;
    use crate::reading::testing::{name, paid, questions, read, units};

    #[test]
    fn what_was_given_cost_nothing_and_says_by_whom() {
        for (line, giver) in [
            ("3 combs given by the Smithy choir", "the Smithy choir"),
            ("3 combs, a gift from Aunt Willow, tote 4", "Aunt Willow"),
            ("3 combs donated by the corner library", "the corner library"),
            ("gift from neighbour: 3 combs", "neighbour"),
        ] {
            let reading = read(line);
            assert_eq!(reading.giver.as_deref(), Some(giver), "{line}");
            assert_eq!((reading.source, paid(line).as_deref()), (Source::Given, Some("0.00")), "{line}");
            assert_eq!((name(line).as_str(), units(line)), ("combs", Some(3)), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        let free = read("plush otter free from neighbour");
        assert_eq!((free.giver.as_deref(), free.shop.as_deref()), (Some("neighbour"), Some("neighbour")));
        assert_eq!(read("comb free at Green Gate").giver, None);
        assert_eq!(read("comb 1.00 from neighbour").giver, None);
    }

    #[test]
    fn what_was_made_costs_what_it_says_or_nothing() {
        for (line, amount) in [
            ("made 3 bead bracelets", "0.00"),
            ("3 bead bracelets, made", "0.00"),
            ("3 homemade bead bracelets", "0.00"),
            ("3 bead bracelets made by me 1.50", "1.50"),
            ("3 bead bracelets, home-made, tote 4", "0.00"),
            ("we made 3 bead bracelets", "0.00"),
        ] {
            assert_eq!((read(line).source, paid(line).as_deref()), (Source::Made, Some(amount)), "{line}");
            assert_eq!((name(line).as_str(), units(line)), ("bead bracelets", Some(3)), "{line}");
            assert!(questions(line).is_empty(), "{line}: {:?}", questions(line));
        }
        assert_eq!(read("2 hats made by Aunt Willow").giver.as_deref(), Some("Aunt Willow"));
    }

    #[test]
    fn made_of_something_is_a_name() {
        for (line, thing) in [
            ("box made of wood 1.00", "box made of wood"),
            ("handmade card 1.00", "handmade card"),
            ("ready made bow 1.00", "ready made bow"),
        ] {
            assert_eq!((read(line).source, name(line).as_str()), (Source::Bought, thing), "{line}");
        }
    }
}
