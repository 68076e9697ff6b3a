//! Logging a haul: plain words in, batches out, or the doubts that must be settled first.

use jiff::civil::Date;

use super::draft::{Draft, headings_alone, receipt};
use super::hauls::counted_first;
use super::returning::Back;
use super::twice::Twin;
use super::{ActError, Done, Season};
use crate::model::commit::Refusal;
use crate::model::fact::{AnswerKept, Fact, HaulLogged, HaulMended, KindLearned, LotAdded, Placing, Returned};
use crate::model::habit::{Habits, Lesson};
use crate::model::haul::{HaulFacts, HaulField};
use crate::model::id::HaulId;
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::Units;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::text::counted;
use crate::reading::{About, Context, Entry, Head, Outcome, Question, Reading, Said, read_haul, read_said};
use crate::store::Store;

/// What is said of a haul beside its lines.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
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
    /// What answers to the doubts of its lines taught.
    pub lessons: Vec<Lesson>,
    /// It is another haul, though it looks like one that was logged before.
    pub again: bool,
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
    /// It looks like a haul that was logged before.
    Twice(Twin),
    /// It can't be kept.
    Act(ActError),
}

impl From<ActError> for NotLogged {
    fn from(error: ActError) -> NotLogged {
        NotLogged::Act(error)
    }
}

impl<S: Store> Season<S> {
    /// Reads lines and keeps nothing.
    pub fn read(&self, text: &str) -> Result<Vec<Said>, ActError> {
        let profile = self.profile()?;
        Ok(read_said(text, &self.context(&profile, None, true)))
    }

    /// Logs a haul: all of its lines as one act, or none.
    pub fn log(&mut self, text: &str, how: &LogHow) -> Result<Logged, NotLogged> {
        let profile = self.profile()?;
        let first = self.first_draft(how)?;
        let shop = Some(first.facts.shop.as_str()).filter(|shop| !shop.is_empty());
        // What an answer taught holds for the other lines of the same haul.
        let mut habits = Habits::clone(&self.habits);
        how.lessons.iter().for_each(|lesson| habits.learn(lesson));
        let context = Context { habits: &habits, ..self.context(&profile, shop, !first.opening) };
        let entries = read_haul(text, &context);
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
                    self.line(&mut drafts, &reading)?;
                    lines.push(*reading);
                }
                Entry::Line(Outcome::Refused(_)) => {}
            }
        }
        if lines.is_empty() {
            headings_alone(&mut drafts);
        }
        drafts.retain(|draft| !draft.is_empty() || draft.known.is_some());
        let twin = self.twin(&drafts)?;
        if let Some(twin) = twin.as_ref().filter(|_| how.onto.is_none() && !how.again) {
            return Err(NotLogged::Twice(twin.clone()));
        }
        let haul = drafts.last().map(|draft| draft.haul);
        let mut done = self.keep_hauls(&mut drafts, &how.lessons)?;
        done.notes.extend(remarks(&lines, &drafts, &profile));
        done.notes.extend(twin.filter(|_| !how.again).map(|twin| twin.words()));
        Ok(Logged { done, lines, haul })
    }

    /// The haul that the lines go to unless they say otherwise: a new one, or one logged before.
    fn first_draft(&mut self, how: &LogHow) -> Result<Draft, ActError> {
        let draft = self.draft(how);
        let Some(haul) = how.onto else { return Ok(draft) };
        let row = self.store.haul(haul)?.ok_or(ActError::Refused(Refusal::Unknown("that haul")))?;
        let lots = self.lots_in(haul)?;
        let opening = how.opening || counted_first(&lots);
        let before = lots.into_iter().map(|lot| lot.facts).collect();
        let (known, refunds) = (Some(row.facts.clone()), row.refunds);
        Ok(Draft { haul, known, facts: row.facts, before, refunds, opening, ..draft })
    }

    pub(super) fn context<'a>(&'a self, profile: &'a Profile, shop: Option<&'a str>, price_asked: bool) -> Context<'a> {
        let (catalogue, habits) = (&*self.catalogue, &*self.habits);
        Context { profile, catalogue, habits, shop, today: self.moment.today, price_asked }
    }

    fn draft(&mut self, how: &LogHow) -> Draft {
        let mut facts = HaulFacts::on(how.date.unwrap_or(self.moment.today));
        facts.shop = how.shop.clone().unwrap_or_default();
        self.draft_of(facts, how.opening, how.tote.clone())
    }

    fn draft_of(&mut self, facts: HaulFacts, opening: bool, tote: Option<String>) -> Draft {
        let haul = self.ids.haul();
        let (said, before, lots, for_boxes, backs) = Default::default();
        Draft { haul, known: None, facts, said, before, refunds: Money::ZERO, opening, tote, lots, for_boxes, backs }
    }

    fn heading(&mut self, drafts: &mut Vec<Draft>, head: Head, how: &LogHow) {
        if drafts.last().is_some_and(|draft| draft.ends_at(&head)) {
            let next = self.draft(how);
            drafts.push(next);
        }
        let Some(draft) = drafts.last_mut() else { return };
        match head {
            Head::At { shop, date } => {
                if draft.known.is_none() {
                    draft.facts.shop.clear();
                }
                draft.say(shop.map(HaulField::Shop));
                draft.say(date.map(HaulField::Date));
            }
            Head::Tax(amount) => draft.say([HaulField::Tax(amount)]),
            Head::Postage(amount) => draft.say([HaulField::Postage(amount)]),
            Head::Coupon(amount) => draft.say([HaulField::Coupon(amount)]),
            Head::Receipt(amount) => draft.say([HaulField::Receipt(Some(amount))]),
            Head::Opening { place, date } => {
                draft.opening = true;
                draft.say(date.map(HaulField::Date));
                draft.tote = place.or(draft.tote.take());
            }
            Head::Place(place) => draft.tote = Some(place),
        }
    }

    /// Adds a line to its haul; a line that names another shop or day is a haul of its own.
    fn line(&mut self, drafts: &mut Vec<Draft>, reading: &Reading) -> Result<(), ActError> {
        let Some(last) = drafts.last() else { return Ok(()) };
        let date = reading.date.unwrap_or(last.facts.date);
        // What somebody gave is a haul of its own, from them.
        let from = reading.shop.clone().or_else(|| reading.giver.clone().filter(|_| reading.source == Source::Given));
        let shop = from.unwrap_or_else(|| last.facts.shop.clone());
        let (opening, tote) = (last.opening, last.tote.clone());
        let fits = |draft: &Draft| draft.facts.date == date && draft.facts.shop == shop;
        let at = if let Some(at) = drafts.iter().rposition(fits) {
            at
        } else {
            let facts = HaulFacts { shop, ..HaulFacts::on(date) };
            let aside = self.draft_of(facts, opening, tote.clone());
            // Before the haul being written, which goes on.
            drafts.insert(drafts.len() - 1, aside);
            drafts.len() - 2
        };
        if reading.returned {
            let backs = self.backs(reading, &drafts[at].facts.shop)?;
            drafts[at].backs.extend(backs);
            return Ok(());
        }
        let giftbox = reading.for_box.as_ref().map(|label| self.box_called(label)).transpose()?.map(|row| row.giftbox);
        let draft = &mut drafts[at];
        draft.for_boxes.extend(giftbox.map(|giftbox| (draft.lots.len(), giftbox)));
        draft.lots.push(lot_facts(reading, opening, tote.as_ref()));
        Ok(())
    }

    fn keep_hauls(&mut self, drafts: &mut [Draft], answers: &[Lesson]) -> Result<Done, ActError> {
        let lessons = self.lessons_in(drafts);
        let mut facts: Vec<Fact> = Vec::new();
        for draft in drafts {
            let (haul, set) = (draft.haul, draft.mended());
            if draft.known.is_none() {
                facts.push(Fact::HaulLogged(HaulLogged { haul, facts: draft.facts.clone() }));
            } else if !set.is_empty() {
                facts.push(Fact::HaulMended(HaulMended { haul, set }));
            }
            for (at, arrived) in draft.lots.iter().enumerate() {
                let (lot, units) = (self.ids.lot(), arrived.units);
                facts.push(Fact::LotAdded(LotAdded { lot, haul: Some(haul), facts: arrived.clone() }));
                for (_, giftbox) in draft.for_boxes.iter().filter(|(of, _)| *of == at) {
                    let placement = self.ids.placement();
                    facts.push(Fact::SetAside(Placing { placement, lot, giftbox: *giftbox, units }));
                }
            }
            let back = |back: &Back| Returned { lot: back.lot, units: back.units, haul, refund: back.refund };
            facts.extend(draft.backs.iter().map(back).map(Fact::Returned));
        }
        if facts.is_empty() {
            return Err(ActError::Nothing("Nothing to log: no line names a thing.".to_owned()));
        }
        let learned: Vec<String> = lessons.iter().map(remembered).collect();
        facts.extend(lessons.into_iter().map(Fact::KindLearned));
        let left_out = self.leave_out_stopped(&mut facts)?;
        let new = answers.iter().filter(|lesson| !self.habits.knows(lesson));
        facts.extend(new.map(|lesson| Fact::AnswerKept(AnswerKept { lesson: lesson.clone() })));
        let done = self.act(&facts)?;
        Ok(Done { notes: [learned, left_out, done.notes].concat(), ..done })
    }

    /// The earlier haul that one of these looks like.
    fn twin(&self, drafts: &[Draft]) -> Result<Option<Twin>, ActError> {
        for draft in drafts.iter().filter(|draft| !draft.lots.is_empty()) {
            let lines: Vec<&LotFacts> = draft.all_lots().collect();
            if let Some(twin) = self.twin_of(&lines, draft.haul)? {
                return Ok(Some(twin));
            }
        }
        Ok(None)
    }

    /// What the lines teach of things that nobody knew; each such batch is of that kind from now on.
    fn lessons_in(&self, drafts: &mut [Draft]) -> Vec<KindLearned> {
        let mut lessons: Vec<KindLearned> = Vec::new();
        for lot in drafts.iter_mut().flat_map(|draft| &mut draft.lots).filter(|lot| lot.kind.is_none()) {
            if let Some(lesson) = self.lesson_of(&lot.name, lot.category.as_ref()) {
                lot.kind = Some(lesson.name.clone());
                lessons.retain(|known| known.name != lesson.name);
                lessons.push(lesson);
            }
        }
        lessons
    }
}

fn remembered(lesson: &KindLearned) -> String {
    format!("Remembered: {} counts for {}.", lesson.name, lesson.category.words())
}

/// What a reading comes to as a batch.
pub fn lot_facts(reading: &Reading, opening: bool, tote: Option<&String>) -> LotFacts {
    let free = reading.paid == Some(Money::ZERO);
    let source = match (opening, free, reading.source) {
        (true, ..) => Source::OpeningCount,
        (false, _, Source::Made) => Source::Made,
        (false, true, _) => Source::Given,
        (false, false, _) => Source::Bought,
    };
    LotFacts {
        name: reading.name.clone(),
        source,
        units: reading.units.unwrap_or(Units::ZERO),
        pieces: reading.pieces,
        packs: reading.per_pack.map(|_| reading.packs),
        paid: reading.paid,
        about: reading.about.contains(&About::Paid),
        level: None,
        lacks: Vec::new(),
        giver: reading.giver.clone(),
        rough: reading.about.contains(&About::Units),
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
        remarks.push(format!("What do they count for? {names}. `brimful kind NAME toy` says it once for all."));
    }
    remarks.extend(drafts.iter().filter_map(|draft| receipt(draft, profile)));
    remarks
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::model::id::{CountedIds, Ids, SeasonId};
    use crate::season::{Desk, Moment};
    use crate::store::Memory;

    fn season() -> Season<Memory> {
        let mut ids = CountedIds::new(0x31);
        let store = Memory::new(SeasonId::new(ids.fresh()));
        let desk = Desk::Fixed { device: ids.device(), by: "ann".to_owned() };
        let moment = Moment { now_millis: 1_800_000_000_000, today: date(2027, 1, 15) };
        Season::new(store, Box::new(ids), desk, moment)
    }

    fn onto(haul: Option<HaulId>) -> LogHow {
        LogHow { onto: haul, ..LogHow::default() }
    }

    /// Each haul as a line: day, shop, how many lines, what was paid.
    fn hauls(season: &Season<Memory>) -> Vec<String> {
        let told = |haul: crate::report::hauls::HaulLine| {
            format!("{} {} {} {}", haul.date, haul.shop, haul.lines, haul.paid.words())
        };
        season.hauls().unwrap().hauls.into_iter().map(told).collect()
    }

    #[test]
    fn line_after_line_goes_onto_one_haul() {
        let mut season = season();
        let first = season.log("at Mill Lane Market, yesterday\n6 combs .60", &LogHow::default()).unwrap();
        let second = season.log("3 rulers .30 each", &onto(first.haul)).unwrap();
        assert_eq!(second.haul, first.haul);
        assert_eq!(second.done.said, "Added 3 rulers.");
        assert_eq!(hauls(&season), ["2027-01-14 Mill Lane Market 2 1.50"]);
        season.undo().unwrap();
        assert_eq!(hauls(&season), ["2027-01-14 Mill Lane Market 1 0.60"]);
    }

    #[test]
    fn a_line_from_elsewhere_is_a_haul_of_its_own_and_the_haul_goes_on() {
        let mut season = season();
        let first = season.log("at Mill Lane Market\n6 combs .60", &LogHow::default()).unwrap();
        let other = season.log("a doll from neighbour free", &onto(first.haul)).unwrap();
        assert_eq!(other.haul, first.haul, "the next line goes on with the haul that is being written");
        season.log("2 combs .20 yesterday", &onto(first.haul)).unwrap();
        season.log("at Green Gate\n4 pens .40", &onto(first.haul)).unwrap();
        let all = hauls(&season);
        assert_eq!(
            all,
            [
                "2027-01-14 Mill Lane Market 1 0.20",
                "2027-01-15 Mill Lane Market 1 0.60",
                "2027-01-15 neighbour 1 0.00",
                "2027-01-15 Green Gate 1 0.40"
            ]
        );
    }

    #[test]
    fn headings_of_an_old_haul_mend_it() {
        let mut season = season();
        let haul = season.log("6 combs .60", &LogHow::default()).unwrap().haul;
        let tax = season.log("tax 0.06", &onto(haul)).unwrap();
        assert_eq!((tax.done.said.as_str(), tax.haul), ("Corrected the haul.", haul));
        season.log("at Green Gate, yesterday\nreceipt 1.00", &onto(haul)).unwrap();
        assert_eq!(hauls(&season), ["2027-01-14 Green Gate 1 0.66"]);
        // A day by itself leaves the shop as it was.
        season.log("2027-01-12", &onto(haul)).unwrap();
        assert_eq!(hauls(&season), ["2027-01-12 Green Gate 1 0.66"]);
        let both = season.log("postage 1.00\n2 pens .20", &onto(haul)).unwrap();
        assert_eq!(both.done.notes, ["The receipt says 0.86 less than the lines."]);
        assert_eq!(hauls(&season), ["2027-01-12 Green Gate 2 1.86"]);
        season.log("at Green Gate\n1 pen .10", &onto(haul)).unwrap();
        assert_eq!(hauls(&season), ["2027-01-12 Green Gate 3 1.96"], "its own shop said again is no other haul");
    }

    #[test]
    fn what_changes_nothing_is_no_act() {
        let mut season = season();
        let haul = season.log("at Green Gate\n6 combs .60", &LogHow::default()).unwrap().haul;
        for text in ["", "at Green Gate", "tote 4", "opening count, 2027-01-02", "tax 0.00"] {
            let error = season.log(text, &onto(haul)).unwrap_err();
            assert!(matches!(error, NotLogged::Act(ActError::Nothing(_))), "{text}: {error:?}");
        }
        assert!(season.log("at Green Gate, yesterday", &LogHow::default()).is_err(), "there is no haul yet");
        let gone = season.log("2 pens .20", &onto(Some(CountedIds::new(0x77).haul())));
        assert!(matches!(gone, Err(NotLogged::Act(ActError::Refused(_)))));
    }

    #[test]
    fn a_line_for_a_box_is_set_aside_for_it() {
        let mut season = season();
        season.plan("girl 6-8 ocean").unwrap();
        let logged = season.log("3 dolls 6.00 for box 1\n2 combs .20", &LogHow::default()).unwrap();
        assert_eq!(logged.done.said, "Logged 2 lines, 6.20 paid, 2027-01-15. Set aside 3 dolls for box 1.");
        let aside: Vec<u32> = season.store().lots().unwrap().iter().map(|lot| lot.standing.aside.count()).collect();
        assert_eq!(aside, [3, 0]);
        let unknown = season.log("a kite 1.00 for box 7", &LogHow::default());
        assert!(matches!(unknown, Err(NotLogged::Act(ActError::NoSuchBox(_)))), "{unknown:?}");
    }

    #[test]
    fn how_it_came_is_kept_with_it() {
        let mut season = season();
        let text = "3 hats made by Aunt Willow\n2 scarves given by the choir\nabout 12 combs about 1.20";
        season.log(text, &LogHow::default()).unwrap();
        let told = |lot: crate::model::rows::LotRow| {
            let facts = lot.facts;
            (facts.source, facts.giver.unwrap_or_default(), facts.paid.unwrap().minor(), facts.about, facts.rough)
        };
        assert_eq!(
            season.store().lots().unwrap().into_iter().map(told).collect::<Vec<_>>(),
            [
                (Source::Given, "the choir".to_owned(), 0, false, false),
                (Source::Made, "Aunt Willow".to_owned(), 0, false, false),
                (Source::Bought, String::new(), 120, true, true),
            ]
        );
        assert_eq!(hauls(&season), ["2027-01-15 the choir 1 0.00", "2027-01-15  2 ~1.20"]);
    }

    #[test]
    fn an_opening_count_goes_on_as_one() {
        let mut season = season();
        let haul = season.log("opening count, tote 7\n9 combs", &LogHow::default()).unwrap().haul;
        season.log("4 pens", &onto(haul)).unwrap();
        let card = season.haul_card(haul.unwrap()).unwrap();
        assert!(card.opening);
        assert_eq!(card.lines.iter().map(|line| line.title.as_str()).collect::<Vec<_>>(), ["combs", "pens"]);
        let bought = season.log("6 rulers .60", &LogHow::default()).unwrap().haul;
        assert!(season.log("4 pens", &onto(bought)).is_err(), "a price is asked");
        season.log("opening count\n4 mugs", &onto(bought)).unwrap();
        assert_eq!(hauls(&season).len(), 3, "an opening count is no part of a trip to a shop");
    }
}
