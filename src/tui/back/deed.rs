//! Everything that screens can have done, as plain values.

use crate::model::id::{BoxId, HaulId, LotId, PlacementId};
use crate::model::measure::Units;
use crate::model::profile::Wanted;
use crate::season::{
    ActError, BoxChange, Done, Explains, Level, LogHow, NotLogged, Planned, PutHow, Remake, Repriced, Season, Shelf,
    Store, Way,
};

use super::Outcome;

/// One act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Deed {
    /// Log lines of a haul.
    Log {
        /// The lines.
        text: String,
        /// What is said beside them.
        how: LogHow,
    },
    /// Say what explains that a haul's receipt differs from its lines.
    Settle(HaulId, Explains),
    /// Change a line by its words.
    MendLine {
        /// The batch.
        lot: LotId,
        /// Its new words.
        words: String,
        /// Though boxes cost more or less by it.
        sure: bool,
    },
    /// Plan boxes.
    Plan(String),
    /// Change what is said of a box.
    Edit {
        /// The box.
        label: String,
        /// The new words.
        words: String,
    },
    /// A step in a box's life.
    Step(String, BoxChange),
    /// Plan another box like this one.
    Copy(String),
    /// Take all out of a box.
    Unpack(String),
    /// Put things into a box, or set them aside for it.
    Put {
        /// The box.
        label: String,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// How many.
        units: Units,
        /// How.
        how: PutHow,
        /// It was looked at twice.
        sure: bool,
    },
    /// Set things aside as a plan has it.
    AsidePlanned(Vec<Planned>),
    /// One of a thing into each box.
    Each {
        /// The boxes.
        boxes: Vec<BoxId>,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// Only set aside.
        aside: bool,
        /// It was looked at twice.
        sure: bool,
    },
    /// Into each box one of what suits this line of its checklist best.
    Best {
        /// The boxes.
        boxes: Vec<BoxId>,
        /// The line; none: the first that needs something.
        line: Option<Wanted>,
        /// Only set aside.
        aside: bool,
    },
    /// Take things out of a box.
    Take {
        /// The box.
        label: String,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// How many.
        units: Units,
    },
    /// Move things to another box.
    Carry {
        /// From this box.
        from: String,
        /// To this one.
        to: String,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// How many.
        units: Units,
    },
    /// Note why something was chosen.
    Note {
        /// The box.
        label: String,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// Why.
        why: String,
    },
    /// Make something the wow item of its box, or no longer.
    Wow(PlacementId, LotId, BoxId, bool),
    /// Count a thing.
    Count {
        /// Its batches.
        lots: Vec<LotId>,
        /// How many there are.
        found: Units,
    },
    /// Say where a thing lies.
    ToTote {
        /// Its batches.
        lots: Vec<LotId>,
        /// Where.
        tote: String,
    },
    /// Give loose, or take off what was lost.
    Gone {
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// How many.
        units: Units,
        /// To whom, or how.
        words: String,
        /// Lost, not given.
        lost: bool,
    },
    /// Make something else of a thing.
    Remake {
        /// How.
        way: Remake,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// What is said of it.
        words: String,
    },
    /// Make the batches of a thing one.
    Combine(Vec<LotId>),
    /// Allow a thing in a box, or no longer.
    Allow {
        /// The box.
        label: String,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// Why; empty: no longer.
        why: String,
    },
    /// Do what one act can do about a caution.
    Remedy {
        /// The box that it is in.
        giftbox: Option<BoxId>,
        /// The batches of the thing.
        lots: Vec<LotId>,
        /// What.
        way: Way,
    },
    /// Say how much there is of what nobody counts; none: it is counted again.
    Level(Vec<LotId>, Option<Level>),
    /// Put in what is set aside in these places.
    Fetch(Vec<PlacementId>),
    /// Change a rule of the drive.
    Rule {
        /// Which.
        what: String,
        /// Its new words.
        words: String,
    },
    /// Note that the lid of a box was seen to close.
    LidCloses(String),
    /// Remember how large one of a kind is.
    Measure {
        /// What it is called.
        name: String,
        /// Its three sides.
        sides: String,
    },
    /// Take back the latest act.
    Undo,
    /// Bring it again.
    Redo,
}

impl Deed {
    /// Does it.
    pub fn run<S: Store>(self, season: &mut Season<S>, shelf: &Shelf) -> Outcome {
        let planned = matches!(self, Deed::Plan(_) | Deed::Copy(_));
        let done = match self {
            Deed::Log { text, how } => return logged(season, &text, &how),
            Deed::Put { sure: false, .. } | Deed::Each { sure: false, .. } => return looked_at(season, self, shelf),
            Deed::Put { label, lots, units, how, .. } => return put(season, label, lots, units, how),
            Deed::MendLine { lot, words, sure } => return mended(season, lot, &words, sure),
            Deed::Plan(words) => season.plan(&words),
            Deed::Edit { label, words } => season.edit(&label, &words),
            Deed::Step(label, change) => season.step(&label, change),
            Deed::Copy(label) => season.copy(&label),
            Deed::Unpack(label) => season.unpack(&label),
            Deed::Each { boxes, lots, aside, .. } => season.each_of(&boxes, lots.as_slice(), aside),
            Deed::AsidePlanned(boxes) => season.aside_planned(&boxes),
            Deed::Best { boxes, line, aside } => season.best(shelf, &boxes, line.as_ref(), aside),
            Deed::Take { label, lots, units } => season.take(&label, units, lots.as_slice()),
            Deed::Carry { from, to, lots, units } => season.carry(&from, &to, units, lots.as_slice()),
            Deed::Note { label, lots, why } => season.note(&label, lots.as_slice(), &why),
            Deed::Wow(placement, lot, giftbox, wow) => season.wow(placement, lot, giftbox, wow),
            Deed::Count { lots, found } => season.count_of(found, lots.as_slice()),
            Deed::ToTote { lots, tote } => season.to_tote(&lots, &tote),
            Deed::Gone { lots, units, words, lost: true } => season.lose(units, lots.as_slice(), &words),
            Deed::Gone { lots, units, words, lost: false } => season.loose(units, lots.as_slice(), &words),
            Deed::Remake { way, lots, words } => season.remake(way, lots.as_slice(), &words),
            Deed::Allow { label, lots, why } => season.allow(&label, lots.as_slice(), &why),
            Deed::Remedy { giftbox, lots, way } => season.remedy(giftbox, &lots, &way),
            Deed::Combine(lots) => season.combine(lots.as_slice(), false),
            Deed::Level(lots, level) => season.level(lots.as_slice(), level),
            Deed::Fetch(placements) => season.fetch(&placements),
            Deed::Settle(haul, way) => season.settle_haul(haul, way),
            Deed::Rule { what, words } => season.mend_rule(&what, &words),
            Deed::LidCloses(label) => season.lid_closes(&label),
            Deed::Measure { name, sides } => season.measure_kind(&name, &sides),
            Deed::Undo => season.undo(),
            Deed::Redo => season.redo(),
        };
        let planned = planned && done.is_ok();
        Outcome { planned, ..outcome(done) }
    }
}

fn outcome(done: Result<Done, ActError>) -> Outcome {
    match done {
        Ok(done) => {
            Outcome { said: Ok(done.said), notes: done.notes, haul: None, planned: false, again: None, allow: None }
        }
        // On the screen one key tells the rest.
        Err(ActError::Careful(stopped)) => refused_as(stopped.brief()),
        Err(error) => refused_as(error.to_string()),
    }
}

fn refused(error: NotLogged) -> Outcome {
    let why = match error {
        NotLogged::Doubts(doubts) => {
            // Where there is only one line, its number says nothing.
            let plain = |doubt: &String| doubt.strip_prefix("line 1: ").unwrap_or(doubt).to_owned();
            doubts.iter().map(plain).collect::<Vec<_>>().join(" ")
        }
        NotLogged::Twice(twin) => twin.words(),
        NotLogged::Act(error) => error.to_string(),
    };
    refused_as(why)
}

fn refused_as(why: String) -> Outcome {
    Outcome { said: Err(why), notes: Vec::new(), haul: None, planned: false, again: None, allow: None }
}

/// What wants a second look is asked once for each box; what it has already was looked at.
fn looked_at<S: Store>(season: &mut Season<S>, deed: Deed, shelf: &Shelf) -> Outcome {
    let (boxes, sure) = match deed {
        Deed::Put { label, lots, units, how, .. } => {
            let giftbox = season.box_id(&label).ok().filter(|_| how.allow.is_none());
            (giftbox.into_iter().collect(), Deed::Put { label, lots, units, how, sure: true })
        }
        Deed::Each { boxes, lots, aside, .. } => (boxes.clone(), Deed::Each { boxes, lots, aside, sure: true }),
        other => (Vec::new(), other),
    };
    let lots = match &sure {
        Deed::Put { lots, .. } | Deed::Each { lots, .. } => lots.as_slice(),
        _ => &[],
    };
    // What can't be looked up now is said by the act itself.
    let found = season.to_look_at(&boxes, lots).unwrap_or_default();
    match found.first() {
        None => sure.run(season, shelf),
        Some(first) => {
            let question = format!("Look twice: {}. {}", first.caution.thing, first.caution.text);
            Outcome { again: Some(("I have looked: put it in", Box::new(sure))), ..refused_as(question) }
        }
    }
}

/// What may not go in can be allowed by whoever gives a reason.
fn put<S: Store>(season: &mut Season<S>, label: String, lots: Vec<LotId>, units: Units, how: PutHow) -> Outcome {
    match season.put(&label, units, lots.as_slice(), &how) {
        Err(ActError::Careful(stopped)) => {
            let allow = Some(Box::new(Deed::Put { label, lots, units, how, sure: true }));
            Outcome { allow, ..refused_as(stopped.brief()) }
        }
        done => outcome(done),
    }
}

fn logged<S: Store>(season: &mut Season<S>, text: &str, how: &LogHow) -> Outcome {
    match season.log(text, how) {
        Ok(logged) => {
            // What the shell would say by a command is a key here.
            let notes = logged.done.notes.into_iter().map(|note| match note.split_once(" `brimful kind") {
                Some((asked, _)) => format!("{asked} e on its line says it."),
                None => note,
            });
            let done = Done { said: logged.done.said, notes: notes.collect() };
            Outcome { haul: logged.haul, ..outcome(Ok(done)) }
        }
        Err(NotLogged::Twice(twin)) => {
            let all_the_same = LogHow { again: true, ..how.clone() };
            let deed = Deed::Log { text: text.to_owned(), how: all_the_same };
            let again = Some(("it is another one: save it", Box::new(deed)));
            Outcome { again, ..refused(NotLogged::Twice(twin)) }
        }
        Err(error) => refused(error),
    }
}

fn mended<S: Store>(season: &mut Season<S>, lot: LotId, words: &str, sure: bool) -> Outcome {
    let boxes = season.mend_line_effect(lot, words).map(|boxes| Repriced::told(&boxes)).unwrap_or_default();
    if !sure && !boxes.is_empty() {
        let deed = Deed::MendLine { lot, words: words.to_owned(), sure: true };
        return Outcome { again: Some(("mend it so", Box::new(deed))), ..refused_as(boxes) };
    }
    match season.mend_line(lot, words) {
        Ok(done) => outcome(Ok(done)),
        Err(error) => refused(error),
    }
}
