//! What is offered under the open line: what is at hand at once, and what a search is to find.

use std::sync::Arc;

use super::action::Action;
use super::line::{Line, Offered, Purpose, count_and_words};
use super::screen::Face;
use super::seen::Seen;
use super::table::{On, TABLE};
use crate::season::{BoxLine, Entry, Offer, Outcome, Reading, Ware, What, find_names};
use crate::tui::back::Hunt;

/// How many things a search brings.
pub const MOST: usize = 60;

/// Reads words about a haul as they are written.
pub fn read(line: &mut Line, seen: &Seen, priced: bool) {
    line.entry = match line.purpose {
        Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_) => {
            seen.reader.as_ref().and_then(|reader| reader.entry(line.words(), priced)).map(Arc::new)
        }
        _ => None,
    };
}

/// What reading and searching depend on: as long as this stays, so does what is offered.
pub fn key(line: &Line, seen: &Seen, top: Option<&dyn Face>, opening: bool) -> String {
    let place = top.map(Face::gap_key).unwrap_or_default();
    format!("{:?}\u{0}{opening}\u{0}{}\u{0}{}\u{0}{place}", line.purpose, line.words(), seen.age)
}

/// The search that the words call for.
pub fn hunt(line: &Line, seen: &Seen, top: Option<&dyn Face>) -> Option<Hunt> {
    match &line.purpose {
        Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_) => {
            let reading = reading(line)?;
            (!reading.name.is_empty()).then(|| Hunt::Called(reading.name.clone()))
        }
        Purpose::Find => (!line.words().trim().is_empty()).then(|| Hunt::Called(line.words().trim().to_owned())),
        Purpose::PutIn { .. } => {
            let (card, wanted) = top?.gap(seen)?;
            let profile = Arc::new(seen.profile()?.clone());
            let words = count_and_words(line.words()).1.to_owned();
            Some(Hunt::For { card, profile, line: wanted, words })
        }
        _ => None,
    }
}

/// The purchase that the words say, if they say one.
pub fn reading(line: &Line) -> Option<&Reading> {
    match line.entry.as_deref()? {
        Entry::Line(Outcome::Read(reading)) => Some(reading),
        _ => None,
    }
}

/// What can be offered without a search.
pub fn at_hand(line: &Line, seen: &Seen, top: Option<&dyn Face>) -> Vec<Offered> {
    let words = line.words().trim();
    match line.purpose {
        Purpose::Find if words.is_empty() => Vec::new(),
        Purpose::Find => {
            let mut offers = boxes(seen, words);
            offers.extend(totes(seen, words));
            offers
        }
        // Into a closed box nothing goes.
        Purpose::ToBox(_) => boxes(seen, words).into_iter().filter(|offered| is_open(offered, seen)).collect(),
        Purpose::Tote(_) => totes(seen, if line.caret() == line.words().len() { words } else { "" }),
        Purpose::Actions => actions(words, top),
        _ => Vec::new(),
    }
}

/// How a box is told in a row: `12 girl 6–8 ocean`.
pub fn box_words(line: &BoxLine) -> String {
    format!("{} {} {} {}", line.label, line.for_whom, line.ages, line.theme).trim_end().to_owned()
}

/// Things in the order in which they are offered: to be set aside, what is not yet so for this box.
pub fn in_order(mut offers: Vec<Offer>, purpose: &Purpose) -> Vec<Offer> {
    if matches!(purpose, Purpose::PutIn { aside: true, .. }) {
        offers.retain(|offer| offer.ware.free() > 0);
        offers.sort_by_key(|offer| offer.aside_here > 0);
    }
    offers
}

/// Whether the words are the very name of a box or a tote, which then stands first.
pub fn is_exact(line: &Line, seen: &Seen) -> bool {
    let words = line.words().trim().to_lowercase();
    match (&line.purpose, line.offers.first()) {
        (Purpose::Find, Some(Offered::Box(id, _))) => {
            seen.giftbox(*id).is_some_and(|giftbox| giftbox.label == label_of(&words))
        }
        (Purpose::Find, Some(Offered::Tote(tote, _))) => *tote == words,
        _ => false,
    }
}

fn is_open(offered: &Offered, seen: &Seen) -> bool {
    matches!(offered, Offered::Box(id, _) if seen.state_of(*id).is_open())
}

/// The label in `12` or `box 12`.
fn label_of(words: &str) -> &str {
    words.strip_prefix("box ").unwrap_or(words).trim()
}

fn boxes(seen: &Seen, words: &str) -> Vec<Offered> {
    let offered = |line: &BoxLine| Offered::Box(line.giftbox, box_words(line));
    let lower = words.to_lowercase();
    if let Some(exact) = seen.boxes().iter().find(|line| line.label == label_of(&lower)) {
        return vec![offered(exact)];
    }
    if words.is_empty() {
        return seen.boxes().iter().map(offered).collect();
    }
    let told: Vec<String> = seen.boxes().iter().map(box_words).collect();
    find_names(words, &told, 5).into_iter().map(|at| offered(&seen.boxes()[at])).collect()
}

fn totes(seen: &Seen, words: &str) -> Vec<Offered> {
    let totes = seen.totes();
    let names: Vec<String> = totes.iter().map(|(tote, _)| tote.clone()).collect();
    let offered = |at: usize| Offered::Tote(totes[at].0.clone(), totes[at].1);
    if let Some(exact) = names.iter().position(|name| *name == words.to_lowercase()) {
        return vec![offered(exact)];
    }
    find_names(words, &names, 4).into_iter().map(offered).collect()
}

/// All actions that can be done here, by name.
fn actions(words: &str, top: Option<&dyn Face>) -> Vec<Offered> {
    let here = |row: &&super::table::Row| top.is_none_or(|face| row.is_on(face.kind()));
    let mut rows: Vec<_> = TABLE.iter().filter(here).filter(|row| can_be_named(row.action)).collect();
    rows.sort_by_key(|row| matches!(row.on, On::All));
    if words.is_empty() {
        return rows.iter().map(|row| Offered::Action(row.action)).collect();
    }
    let names: Vec<String> = rows.iter().map(|row| format!("{} {}", row.label, row.help)).collect();
    let labels: Vec<String> = rows.iter().map(|row| row.label.to_owned()).collect();
    let mut found = find_names(words, &labels, MOST);
    found.extend(find_names(words, &names, MOST).into_iter().filter(|at| !found.contains(at)).collect::<Vec<_>>());
    found.into_iter().map(|at| Offered::Action(rows[at].action)).collect()
}

/// Moving and editing need their key; everything else can be done by name.
fn can_be_named(action: Action) -> bool {
    !matches!(
        action,
        Action::MoveRow
            | Action::MoveCol
            | Action::MoveEnds
            | Action::MovePage
            | Action::Choose
            | Action::ChooseAll
            | Action::LineDo
            | Action::LineTake
            | Action::LineCaret
            | Action::LineErase
            | Action::Actions
    )
}

/// The line with a known thing in place of the letters that were meant for it.
pub fn with_known(line: &Line, ware: &Ware) -> String {
    let known = ware.words();
    let Some(reading) = reading(line) else { return known + " " };
    let mut names = reading.taken.iter().filter(|taken| taken.what == What::Name).map(|taken| taken.span.clone());
    let (Some(first), rest) = (names.next(), names.collect::<Vec<_>>()) else { return known + " " };
    let mut words = reading.line.clone();
    for span in rest.into_iter().rev() {
        words.replace_range(span, "");
    }
    words.replace_range(first, &known);
    words.split_whitespace().collect::<Vec<_>>().join(" ") + " "
}
