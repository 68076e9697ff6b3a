//! How many there may be: the counts and packs of a line, in the ways they can go together.

use super::price::{self, Bought};
use super::rewrite::Rewrite;
use crate::model::lot::LotFacts;
use crate::model::measure::Units;
use crate::reading::count::OF_ONE;
use crate::reading::line::Line;
use crate::reading::number::number;
use crate::reading::question::About;
use crate::reading::report::Reading;
use crate::reading::taken::What;
use crate::reading::units::{LEAVES, MOST_NOTEBOOKS, kind_of};
use crate::reading::write::words;

/// What packs hold as a rule.
const USUAL: [u32; 3] = [12, 6, 10];

/// What a number behind a place is.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
enum Label {
    #[default]
    Undecided,
    /// Its label.
    Place,
    /// How many there are.
    Count,
}

/// A number of units and the words that say it.
#[derive(Debug, Clone, Default)]
struct Try {
    /// Before the name.
    lead: String,
    /// At the end.
    tail: String,
    bought: Bought,
    /// What is struck out is kept as a note.
    noted: bool,
    label: Label,
    bundled: bool,
}

impl Try {
    fn units(units: u32) -> Try {
        let bought = Bought { units: Some(units), packs: None };
        Try { lead: units.to_string(), bought, ..Try::default() }
    }

    fn packs(packs: u32, size: u32) -> Try {
        let bought = Bought { units: Some(packs.saturating_mul(size)), packs: Some(packs) };
        let lead = if packs == 1 { format!("pack of {size}") } else { format!("{packs} packs of {size}") };
        Try { lead, bought, ..Try::default() }
    }

    /// One thing; the words that said otherwise are kept as a note.
    fn one() -> Try {
        Try { noted: true, ..Try::units(1) }
    }
}

/// Ways to write a line that say how many there are.
pub(super) fn ways(line: &Line<'_>, reading: &Reading) -> Vec<String> {
    let priced = reading.questions.iter().any(|question| question.about == About::Paid);
    tries(line).iter().flat_map(|attempt| written(line, attempt, priced)).collect()
}

/// The same for a line whose words are too tangled to be mended: all that is understood, written plainly.
pub(super) fn plain_ways(line: &Line<'_>, reading: &Reading) -> Vec<String> {
    tries(line).iter().map(|attempt| plainly(line, reading, attempt)).collect()
}

/// A line with another count, and with each price that it may have then.
fn written(line: &Line<'_>, attempt: &Try, priced: bool) -> Vec<String> {
    let mut whats = vec![What::Count, What::Pack];
    whats.extend((!attempt.bundled).then_some(What::Bundle));
    whats.extend((attempt.label == Label::Count).then_some(What::Place));
    let mut struck = Rewrite::of(line).strike_all(&whats);
    for (range, _) in line.draft.doubts.iter().filter(|(_, about)| *about == About::Units) {
        let hash = range.start.checked_sub(1).filter(|&at| line.tokens.get(at).is_some_and(|token| token.text == "#"));
        struck = struck.strike(hash.unwrap_or(range.start)..range.end);
    }
    let note = struck.struck_words();
    let note = if attempt.noted && !note.is_empty() { format!("({note})") } else { String::new() };
    let mut ways = Vec::new();
    // A comma keeps the count from what stands before it.
    let (plain, apart) = (attempt.lead.clone(), format!(", {}", attempt.lead));
    for lead in if attempt.label == Label::Place { [apart, plain] } else { [plain, apart] } {
        let counted = struck.clone().without_filler().lead(&lead).end(&attempt.tail).end(&note);
        if priced {
            let prices = price::paid(line, attempt.bought);
            let write = |paid| price::write(counted.clone(), line, attempt.bought, paid);
            let written: Vec<String> = prices.iter().filter_map(write).collect();
            if !written.is_empty() {
                ways.extend(written);
                continue;
            }
        }
        ways.push(counted.write());
    }
    ways
}

fn plainly(line: &Line<'_>, reading: &Reading, attempt: &Try) -> String {
    let facts = LotFacts {
        name: reading.name.clone(),
        units: attempt.bought.units.and_then(Units::new).unwrap_or(Units::ONE),
        paid: reading.paid,
        regular: reading.regular,
        category: reading.category.clone(),
        for_whom: reading.for_whom,
        ages: reading.ages,
        size: reading.size.clone(),
        colours: reading.colours.clone(),
        theme: reading.theme.clone(),
        tote: reading.place.clone(),
        expires: reading.expires.clone(),
        dims: reading.dims.clone(),
        weight: reading.weight,
        flags: reading.flags.clone(),
        notes: reading.notes.clone(),
        ..LotFacts::default()
    };
    let mut plain = words(&facts, line.ctx.profile.currency, true);
    plain.extend(reading.shop.iter().map(|shop| format!(", from {shop}")));
    plain.extend(reading.date.map(|date| format!(", {date}")));
    plain
}

/// What the line may count, most likely first.
fn tries(line: &Line<'_>) -> Vec<Try> {
    let (kind, clothing) = kind_of(&line.draft, line.ctx.catalogue);
    let said = Said::of(line);
    if line.draft.pack.named {
        let leaves = kind.is_some_and(|kind| LEAVES.contains(&kind.name.as_str()));
        return packed(line, &said, leaves);
    }
    let mut tries = Vec::new();
    if clothing && line.draft.counts.iter().any(|count| count.maybe_size) {
        let size = said.all.first().map(|value| format!("size {value}")).unwrap_or_default();
        tries.push(Try { tail: size, ..Try::units(1) });
    }
    if let Some(bundle) = &line.draft.bundle {
        tries.extend(bundles(&said, bundle.size, bundle.count));
    }
    tries.extend(said.labels.iter().flat_map(|&label| labelled(&said, label)));
    if line.draft.name.ends_with("set") || line.draft.name.ends_with("kit") {
        tries.extend(said.all.iter().flat_map(|&value| one_set(value)));
    } else if kind.is_some_and(|kind| kind.set) {
        tries.extend(said.all.iter().flat_map(|&value| sets(value)));
    }
    if price::has_cents(line) {
        tries.push(Try::units(1));
    }
    if said.fractions || said.of_one {
        tries.push(Try::one());
    }
    tries.extend(said.all.iter().map(|&value| counted(line, value)));
    if let [first, second, ..] = said.all.as_slice() {
        tries.extend([first.saturating_add(*second), first.saturating_mul(*second)].map(Try::units));
    }
    tries.push(Try::one());
    tries
}

/// So many, by the unit that the line names.
fn counted(line: &Line<'_>, value: u32) -> Try {
    let unit = line.draft.counts.iter().find_map(|count| count.unit.as_ref());
    let lead = unit.filter(|_| value > 1).map_or(value.to_string(), |unit| format!("{value} {unit}s of"));
    Try { lead, ..Try::units(value) }
}

/// The number behind a place: its label, or how many there are.
fn labelled(said: &Said, label: u32) -> Vec<Try> {
    let others = said.all.iter().copied().filter(|value| *value != label);
    let mut tries: Vec<Try> = others.map(|value| Try { label: Label::Place, ..Try::units(value) }).collect();
    tries.push(Try { label: Label::Count, ..Try::units(label) });
    tries.push(Try { label: Label::Place, ..Try::units(1) });
    tries
}

/// Pieces of one thing, or so many things.
fn sets(value: u32) -> Vec<Try> {
    let one =
        Try { lead: format!("pack of {value}"), bought: Bought { units: Some(1), packs: Some(1) }, ..Try::default() };
    let bought = Bought { units: Some(value), packs: Some(value) };
    vec![one, Try { lead: format!("{value} packs of"), bought, ..Try::default() }]
}

/// One set of so many pieces, or so many sets.
fn one_set(value: u32) -> [Try; 2] {
    let pieces = Try { lead: format!("{value} piece"), ..Try::units(1) };
    [pieces, Try { lead: format!("x{value}"), ..Try::units(value) }]
}

/// Bundles as many as come out even, and no bundles at all.
fn bundles(said: &Said, size: u32, count: Option<u32>) -> Vec<Try> {
    let bundled = |pieces: u32, size: u32| Try {
        lead: pieces.to_string(),
        tail: format!("in bundles of {size}"),
        bought: Bought { units: pieces.checked_div(size), packs: None },
        ..Try::default()
    };
    let mut tries = Vec::new();
    for &pieces in &said.all {
        tries.extend((pieces >= size).then(|| bundled(pieces - pieces % size.max(1), size)));
        tries.extend(count.and_then(|count| pieces.checked_div(count)).map(|size| bundled(pieces, size)));
    }
    let whole = count.unwrap_or(1).saturating_mul(size);
    tries.push(bundled(whole, size));
    tries
}

/// Where a pack is named.
fn packed(line: &Line<'_>, said: &Said, leaves: bool) -> Vec<Try> {
    let pack = &line.draft.pack;
    let packs = pack.counts.first().copied().or(said.times).unwrap_or(1);
    if pack.sizes.is_empty() && !pack.pieces.is_empty() {
        return pieces(&pack.pieces);
    }
    let sizes: Vec<u32> = pack.sizes.iter().copied().filter(|size| *size > 0).collect();
    let mut tries = Vec::new();
    if leaves && pack.sizes.iter().any(|size| *size > MOST_NOTEBOOKS) {
        tries.push(Try::one());
    }
    tries.extend(said.labels.iter().flat_map(|&label| {
        let size = sizes.first().copied();
        let placed = size.map_or_else(|| Try::units(packs), |size| Try::packs(packs, size));
        let unplaced = size.map_or_else(|| Try::units(label), |size| Try::packs(label, size));
        [Try { label: Label::Place, ..placed }, Try { label: Label::Count, ..unplaced }]
    }));
    for &size in &sizes {
        let counts = said.all.iter().copied().filter(|count| *count > 0);
        tries.extend(
            counts.clone().filter(|count| count.is_multiple_of(size)).map(|count| Try::packs(count / size, size)),
        );
        tries.extend(counts.map(|count| Try::packs(count, size)));
        tries.push(Try::packs(packs, size));
    }
    if sizes.is_empty() {
        let shared = said.all.iter().filter(|count| packs > 0 && count.is_multiple_of(packs));
        tries.extend(shared.map(|count| Try::packs(packs, count / packs)));
        tries.extend(said.all.iter().map(|&count| Try::units(count)));
        tries.extend(USUAL.map(|size| Try::packs(packs, size)));
    }
    tries.extend(sizes.iter().map(|&size| Try::units(size)));
    tries.push(Try::one());
    tries
}

/// Where only pieces are told: of one thing, or things by themselves.
fn pieces(told: &[u32]) -> Vec<Try> {
    let of_one = told.iter().map(|pieces| Try { lead: format!("{pieces} piece"), ..Try::units(1) });
    of_one.chain(told.iter().map(|&pieces| Try::units(pieces))).chain([Try::one()]).collect()
}

/// The numbers of a line that may count something.
#[derive(Debug, Default)]
struct Said {
    /// All of them, those that were understood as counts first.
    all: Vec<u32>,
    /// `x3`.
    times: Option<u32>,
    /// Behind the name of a place.
    labels: Vec<u32>,
    /// A part of a thing.
    fractions: bool,
    /// Words beside a number may say something of one thing.
    of_one: bool,
}

impl Said {
    fn of(line: &Line<'_>) -> Said {
        let counts = line.draft.counts.iter().filter(|count| !count.article);
        let mut said = Said { all: counts.clone().map(|count| count.value).collect(), ..Said::default() };
        said.of_one = counts.clone().any(|count| count.unit.as_deref() == Some("sheet"));
        said.times = counts.clone().find(|count| count.times).map(|count| count.value);
        let doubts = |about: About| line.draft.doubts.iter().filter(move |(_, doubt)| *doubt == about);
        for (range, _) in doubts(About::Units) {
            let words = line.typed(range.clone()).to_lowercase();
            let (values, fraction) = numbers(line, &words);
            said.fractions |= fraction || words.contains("half");
            said.of_one |=
                words.split(' ').any(|word| OF_ONE.contains(&word) || ["row", "kind", "star"].contains(&word));
            if words.split(' ').any(|word| crate::reading::words::PLACES.contains(&word)) {
                said.labels.extend(&values);
            }
            said.all.extend(if values.is_empty() { vague(&words) } else { values });
        }
        if said.all.is_empty() {
            let paid = doubts(About::Paid).map(|(range, _)| line.typed(range.clone()).to_lowercase());
            said.all.extend(paid.flat_map(|words| numbers(line, &words).0));
        }
        if line.draft.places.is_empty() {
            let placed = line.tokens.iter().filter(|token| token.took == Some(What::Place));
            said.labels.extend(placed.filter_map(crate::reading::token::Token::whole));
        }
        said.all.retain(|value| *value > 0);
        said
    }
}

/// The whole numbers in these words, and whether a fraction is among them; of one, its neighbours.
fn numbers(line: &Line<'_>, words: &str) -> (Vec<u32>, bool) {
    let fresh = Line::new(words, line.ctx);
    let (mut found, mut fraction) = (Vec::new(), false);
    let mut at = 0;
    while at < fresh.tokens.len() {
        let token = fresh.number(at).filter(|token| token.decimals() > 0);
        if let Some(whole) = token.and_then(|token| token.text.split('.').next()?.parse::<u32>().ok()) {
            fraction = true;
            found.extend([whole, whole.saturating_add(1)]);
        }
        match number(&fresh, at).filter(|number| !number.article) {
            Some(number) => {
                found.push(number.value);
                at = number.end.max(at + 1);
            }
            None => at += 1,
        }
    }
    (found, fraction)
}

/// What such words mean as a rule.
fn vague(words: &str) -> Vec<u32> {
    let is = |known: &[&str]| known.iter().any(|known| words.contains(known));
    if is(&["dozens"]) {
        vec![24, 36, 48]
    } else if is(&["hundreds"]) {
        vec![200, 300]
    } else if is(&["handful", "bunch", "several"]) {
        vec![5, 6, 4]
    } else if is(&["few", "some"]) {
        vec![3, 4, 5]
    } else if is(&["lot", "load", "many", "various"]) {
        vec![10, 20, 12]
    } else {
        Vec::new()
    }
}
