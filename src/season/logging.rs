//! Logging a haul: plain words in, batches out, or the doubts that must be settled first.

use jiff::civil::Date;

use super::hauls::counted_first;
use super::{ActError, Done, Season};
use crate::model::commit::Refusal;
use crate::model::fact::{Fact, HaulLogged, HaulMended, LotAdded};
use crate::model::haul::{HaulFacts, HaulField};
use crate::model::id::HaulId;
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::text::counted;
use crate::reading::{About, Context, Entry, Head, Outcome, Question, Reading, read_haul, read_text};
use crate::store::Store;

/// What is said of a haul beside its lines.
#[derive(Debug, Clone, Default)]
pub struct LogHow {
    /// The day; today, if nobody says.
    pub date: Option<Date>,
    /// The shop or giver.
    pub shop: Option<String>,
    /// Where the things lie, unless a line says otherwise.
    pub tote: Option<String>,
    /// The first day's count: no prices asked.
    pub opening: bool,
    /// Things without a price are saved with their price open.
    pub open_price: bool,
    /// The haul, logged before, that the lines are added to.
    pub onto: Option<HaulId>,
}

/// A haul that was logged.
#[derive(Debug)]
pub struct Logged {
    /// What was done.
    pub done: Done,
    /// What was understood, line by line.
    pub lines: Vec<Reading>,
    /// The haul that the next line goes on with.
    pub haul: Option<HaulId>,
}

/// Why a haul was not logged. Nothing of it was saved.
#[derive(Debug)]
pub enum NotLogged {
    /// Lines leave open how many, how much or what.
    Doubts(Vec<String>),
    /// It can't be kept.
    Act(ActError),
}

impl From<ActError> for NotLogged {
    fn from(error: ActError) -> NotLogged {
        NotLogged::Act(error)
    }
}

/// A haul on its way.
struct Draft {
    haul: HaulId,
    /// What is kept of it already, if it was logged before.
    known: Option<HaulFacts>,
    facts: HaulFacts,
    /// What its headings said.
    said: Vec<HaulField>,
    /// What its earlier lines come to.
    before: Money,
    opening: bool,
    tote: Option<String>,
    lots: Vec<LotFacts>,
}

impl Draft {
    fn say(&mut self, field: HaulField) {
        self.facts.set(field.clone());
        self.said.push(field);
    }

    fn total(&self) -> Money {
        let lines = self.lots.iter().filter_map(|lot| lot.paid).sum::<Money>() + self.before;
        lines + self.facts.on_top(lines)
    }

    /// What a haul that was logged before becomes: the fields in which it differs now.
    fn mended(&self) -> Vec<HaulField> {
        self.known.as_ref().map(|known| known.changes_to(&self.facts)).unwrap_or_default()
    }
}

impl<S: Store> Season<S> {
    /// Reads lines and keeps nothing.
    pub fn read(&self, text: &str) -> Result<Vec<Outcome>, ActError> {
        let profile = self.profile()?;
        Ok(read_text(text, &self.context(&profile, true)))
    }

    /// Logs a haul: all of its lines as one act, or none.
    pub fn log(&mut self, text: &str, how: &LogHow) -> Result<Logged, NotLogged> {
        let profile = self.profile()?;
        let first = self.first_draft(how)?;
        let entries = read_haul(text, &self.context(&profile, !first.opening));
        let doubts = doubts(&entries, how.open_price);
        if !doubts.is_empty() {
            return Err(NotLogged::Doubts(doubts));
        }
        let mut lines = Vec::new();
        let mut drafts = vec![first];
        for (_, entry) in entries {
            match entry {
                Entry::Head(head) => self.heading(&mut drafts, head, how),
                Entry::Line(Outcome::Read(reading)) => {
                    self.line(&mut drafts, &reading);
                    lines.push(*reading);
                }
                Entry::Line(Outcome::Refused(_)) => {}
            }
        }
        if lines.is_empty() {
            headings_alone(&mut drafts);
        }
        drafts.retain(|draft| !draft.lots.is_empty() || draft.known.is_some());
        let haul = drafts.last().map(|draft| draft.haul);
        let done = self.keep_hauls(&drafts)?;
        Ok(Logged { done: Done { notes: remarks(&lines, &drafts, &profile), ..done }, lines, haul })
    }

    /// The haul that the lines go to unless they say otherwise: a new one, or one logged before.
    fn first_draft(&mut self, how: &LogHow) -> Result<Draft, ActError> {
        let draft = self.draft(how);
        let Some(haul) = how.onto else { return Ok(draft) };
        let row = self.store.haul(haul)?.ok_or(ActError::Refused(Refusal::Unknown("that haul")))?;
        let lots = self.lots_in(haul)?;
        let opening = how.opening || counted_first(&lots);
        let before = lots.iter().filter_map(|lot| lot.facts.paid).sum();
        Ok(Draft { haul, known: Some(row.facts.clone()), facts: row.facts, before, opening, ..draft })
    }

    fn context<'a>(&'a self, profile: &'a Profile, price_asked: bool) -> Context<'a> {
        Context { profile, catalogue: &self.catalogue, today: self.moment.today, price_asked }
    }

    fn draft(&mut self, how: &LogHow) -> Draft {
        let mut facts = HaulFacts::on(how.date.unwrap_or(self.moment.today));
        facts.shop = how.shop.clone().unwrap_or_default();
        self.draft_of(facts, how.opening, how.tote.clone())
    }

    fn draft_of(&mut self, facts: HaulFacts, opening: bool, tote: Option<String>) -> Draft {
        let (haul, before) = (self.ids.haul(), Money::ZERO);
        Draft { haul, known: None, facts, said: Vec::new(), before, opening, tote, lots: Vec::new() }
    }

    fn heading(&mut self, drafts: &mut Vec<Draft>, head: Head, how: &LogHow) {
        if let Head::At { .. } = &head
            && drafts.last().is_some_and(|draft| !draft.lots.is_empty() || draft.known.is_some())
        {
            let next = self.draft(how);
            drafts.push(next);
        }
        let Some(draft) = drafts.last_mut() else { return };
        match head {
            Head::At { shop, date } => {
                draft.say(HaulField::Shop(shop.unwrap_or_default()));
                date.into_iter().for_each(|date| draft.say(HaulField::Date(date)));
            }
            Head::Tax(amount) => draft.say(HaulField::Tax(amount)),
            Head::Postage(amount) => draft.say(HaulField::Postage(amount)),
            Head::Coupon(amount) => draft.say(HaulField::Coupon(amount)),
            Head::Receipt(amount) => draft.say(HaulField::Receipt(Some(amount))),
            Head::Opening { place, date } => {
                draft.opening = true;
                date.into_iter().for_each(|date| draft.say(HaulField::Date(date)));
                draft.tote = place.or(draft.tote.take());
            }
            Head::Place(place) => draft.tote = Some(place),
        }
    }

    /// Adds a line to its haul; a line that names another shop or day is a haul of its own.
    fn line(&mut self, drafts: &mut Vec<Draft>, reading: &Reading) {
        let Some(last) = drafts.last() else { return };
        let date = reading.date.unwrap_or(last.facts.date);
        let shop = reading.shop.clone().unwrap_or_else(|| last.facts.shop.clone());
        let (opening, tote) = (last.opening, last.tote.clone());
        let lot = lot_facts(reading, opening, tote.as_ref());
        let fits = |draft: &Draft| draft.facts.date == date && draft.facts.shop == shop;
        if let Some(draft) = drafts.iter_mut().rev().find(|draft| fits(draft)) {
            draft.lots.push(lot);
            return;
        }
        let facts = HaulFacts { shop, ..HaulFacts::on(date) };
        let aside = Draft { lots: vec![lot], ..self.draft_of(facts, opening, tote) };
        // Before the haul being written, which goes on.
        drafts.insert(drafts.len() - 1, aside);
    }

    fn keep_hauls(&mut self, drafts: &[Draft]) -> Result<Done, ActError> {
        let mut facts = Vec::new();
        for draft in drafts {
            let (haul, set) = (draft.haul, draft.mended());
            if draft.known.is_none() {
                facts.push(Fact::HaulLogged(HaulLogged { haul, facts: draft.facts.clone() }));
            } else if !set.is_empty() {
                facts.push(Fact::HaulMended(HaulMended { haul, set }));
            }
            for lot in &draft.lots {
                facts.push(Fact::LotAdded(LotAdded { lot: self.ids.lot(), haul: Some(haul), facts: lot.clone() }));
            }
        }
        if facts.is_empty() {
            return Err(ActError::Nothing("Nothing to log: no line names a thing.".to_owned()));
        }
        self.act(&facts)
    }
}

/// Headings without any line speak of the haul that was logged before, not of one to come.
fn headings_alone(drafts: &mut Vec<Draft>) {
    let said: Vec<HaulField> = drafts.iter_mut().skip(1).flat_map(|draft| std::mem::take(&mut draft.said)).collect();
    drafts.truncate(1);
    if let Some(draft) = drafts.first_mut().filter(|draft| draft.known.is_some()) {
        said.into_iter().for_each(|field| draft.say(field));
    }
}

/// What a reading comes to as a batch.
pub fn lot_facts(reading: &Reading, opening: bool, tote: Option<&String>) -> LotFacts {
    let free = reading.paid == Some(Money::ZERO);
    let source = match (opening, free) {
        (true, _) => Source::OpeningCount,
        (false, true) => Source::Given,
        (false, false) => Source::Bought,
    };
    LotFacts {
        name: reading.name.clone(),
        source,
        units: reading.units.unwrap_or(Units::ZERO),
        pieces: reading.pieces,
        packs: reading.per_pack.map(|_| reading.packs),
        paid: reading.paid,
        about: false,
        regular: reading.regular,
        kind: reading.kind.clone(),
        category: reading.category.clone(),
        for_whom: reading.for_whom,
        ages: reading.ages,
        size: reading.size.clone(),
        colours: reading.colours.clone(),
        theme: reading.theme.clone(),
        tote: reading.place.clone().or(tote.cloned()),
        expires: reading.expires.clone(),
        dims: reading.dims.clone(),
        weight: reading.weight,
        flags: reading.flags.clone(),
        notes: reading.notes.clone(),
    }
}

/// What keeps the lines from being saved, a sentence each.
pub fn doubts(entries: &[(usize, Entry)], open_price: bool) -> Vec<String> {
    let mut doubts = Vec::new();
    for (_, entry) in entries {
        match entry {
            Entry::Line(Outcome::Refused(refused)) => doubts.push(format!("line {}: {}", refused.n, refused.error)),
            Entry::Line(Outcome::Read(reading)) => {
                let holds_up = |question: &&Question| match question.about {
                    About::Units | About::Name => true,
                    About::Paid => !(open_price && reading.paid.is_none()),
                    _ => false,
                };
                let questions = reading.questions.iter().filter(holds_up);
                doubts.extend(questions.map(|question| {
                    // A reason that shows the words already need not show them twice.
                    let words =
                        if question.why.starts_with('"') { String::new() } else { format!(" \"{}\":", reading.line) };
                    format!("line {}:{words} {}", reading.n, question.why)
                }));
            }
            Entry::Head(_) => {}
        }
    }
    doubts
}

/// What the person should know about what was saved.
fn remarks(lines: &[Reading], drafts: &[Draft], profile: &Profile) -> Vec<String> {
    let mut remarks = Vec::new();
    for reading in lines {
        let open = reading.questions.iter().filter(|question| question.about != About::Paid);
        remarks.extend(open.map(|question| format!("Line {}, left open: {}", reading.n, question.why)));
    }
    let unpriced = drafts.iter().filter(|draft| !draft.opening).flat_map(|draft| &draft.lots);
    let unpriced = unpriced.filter(|lot| lot.paid.is_none()).count() as u64;
    if unpriced > 0 {
        remarks.push(format!("{} saved with the price open.", counted(unpriced, "line", "lines")));
    }
    let homeless: Vec<&str> = (drafts.iter().flat_map(|draft| &draft.lots))
        .filter(|lot| lot.category.is_none())
        .map(|lot| lot.name.as_str())
        .collect();
    if !homeless.is_empty() {
        let names = homeless.join(", ");
        remarks.push(format!("Of what category? {names}. `brimful mend NAME --category toy` says it."));
    }
    remarks.extend(drafts.iter().filter_map(|draft| receipt(draft, profile)));
    remarks
}

/// Whether the lines add up to what the receipt says.
fn receipt(draft: &Draft, profile: &Profile) -> Option<String> {
    let receipt = draft.facts.receipt?;
    let over = receipt - draft.total();
    Some(match over.minor() {
        0 => "It adds up to the receipt.".to_owned(),
        1.. => format!("The receipt says {} more than the lines.", over.plain(profile.currency)),
        _ => format!("The receipt says {} less than the lines.", (-over).plain(profile.currency)),
    })
}
