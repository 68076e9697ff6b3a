//! From what was said to what is understood.

use std::ops::Range;

use super::Context;
use super::age::ages;
use super::draft::{Draft, RangeSaid, Scope, WhomSaid};
use super::line::Line;
use super::outright::overrule;
use super::paid::{Sums, sums};
use super::question::{About, Question};
use super::report::Reading;
use super::source::Came;
use super::taken::{Taken, What};
use super::token::Token;
use super::units::{kind_of, tally};
use crate::catalogue::same_word;
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::habit::RangeMeans;
use crate::model::kind::Kind;
use crate::model::lot::Source;
use crate::model::measure::Units;
use crate::model::whom::ForWhom;

/// Works out a reading from a finished draft.
pub(super) fn resolve(n: usize, line: Line<'_>) -> Reading {
    let Line { source: typed, ctx, mut tokens, mut draft } = line;
    let (kind, clothing) = kind_of(&draft, ctx.catalogue);
    decide_ranges(&mut draft, ctx, kind.filter(|_| clothing).map(|kind| kind.name.as_str()), clothing);
    sized(&mut draft, &mut tokens);
    name_pack_by_its_price(&mut draft);
    let tally = tally(&mut draft, kind, clothing, ctx);
    let currency = ctx.profile.currency;
    let source = source(&draft);
    let sums = sums(&mut draft, &tally, source, ctx);
    if draft.name.is_empty() {
        draft.ask(Question::new(About::Name, format!("\"{typed}\": what is it?")));
    }
    draft.flags.sort_unstable();
    draft.flags.dedup();
    let known = category(kind, &draft.name, ctx);
    let about = doubtful(&draft, &sums);
    let giver = giver(&draft, source);
    let mut open = draft.questions;
    let said = one_of(&mut open, About::Category, draft.categories);
    let places = draft.places.into_iter().map(|said| said.place).collect();
    let mut reading = Reading {
        n,
        line: typed.to_owned(),
        name: draft.name,
        packs: tally.packs,
        per_pack: tally.per_pack,
        units: tally.units.and_then(Units::new),
        pieces: tally.pieces,
        paid: sums.paid,
        regular: sums.regular,
        currency,
        category: said.or(known),
        kind: kind.map(|kind| kind.name.clone()),
        for_whom: whom(&draft.whom),
        ages: one_of(&mut open, About::Ages, draft.ages),
        size: one_of(&mut open, About::Size, draft.sizes),
        colours: draft.colours,
        source,
        giver,
        for_box: one_of(&mut open, About::Box, draft.boxes),
        returned: draft.returned,
        about,
        remembered: std::mem::take(&mut draft.remembered),
        theme: one_of(&mut open, About::Theme, draft.themes),
        shop: one_of(&mut open, About::Shop, draft.shops),
        place: one_of(&mut open, About::Place, places),
        date: one_of(&mut open, About::Date, draft.dates),
        expires: one_of(&mut open, About::Expires, draft.expiries),
        dims: one_of(&mut open, About::Measure, draft.dims),
        weight: one_of(&mut open, About::Measure, draft.weights),
        flags: draft.flags.into_iter().map(str::to_owned).collect(),
        notes: draft.notes,
        questions: Vec::new(),
        taken: tokens.into_iter().filter_map(|token| token.took.map(|what| Taken { span: token.span, what })).collect(),
    };
    reading.questions = open.into_iter().map(|question| quoting(typed, question)).collect();
    overrule(&mut reading, &draft.outright, ctx);
    reading
}

/// Ranges that were decided to be sizes are shown as such.
fn sized(draft: &mut Draft, tokens: &mut [Token]) {
    for range in std::mem::take(&mut draft.sized) {
        tokens.get_mut(range).into_iter().flatten().for_each(|token| token.took = Some(What::Size));
    }
}

/// What a thing counts for: as its kind does, or as its words tell. Whether one that nobody knows
/// counts for anything is better asked.
fn category(kind: Option<&Kind>, name: &str, ctx: &Context<'_>) -> Option<Category> {
    let by_words = || ctx.catalogue.category_of(name).filter(|category| *category != Category::Extras);
    kind.map(|kind| kind.category.clone()).or_else(by_words)
}

/// How it came: what cost nothing was given, unless it was made.
fn source(draft: &Draft) -> Source {
    if draft.came.contains(&Came::Made) {
        Source::Made
    } else if draft.free {
        Source::Given
    } else {
        Source::Bought
    }
}

/// Who gave it: who was said to, or whom a free thing is from.
fn giver(draft: &Draft, source: Source) -> Option<String> {
    let from = draft.from.as_ref().filter(|_| source == Source::Given);
    draft.givers.first().or(from).cloned()
}

/// What is kept as said though it is not sure; what is asked anyway needs no mark.
fn doubtful(draft: &Draft, sums: &Sums) -> Vec<About> {
    let mut about = draft.about.clone();
    about.retain(|about| !draft.asks(*about) && (*about != About::Paid || sums.paid.is_some()));
    about.sort_unstable_by_key(|about| about.word());
    about.dedup();
    about
}

/// A question that names the words it is about: its own, or the line's if that is short enough.
fn quoting(source: &str, question: Question) -> Question {
    if question.why.starts_with('"') || source.chars().count() > 60 {
        return question;
    }
    Question { why: format!("\"{source}\": {}", question.why), ..question }
}

/// The one thing that was said; where two differ, a question.
fn one_of<T: PartialEq>(open: &mut Vec<Question>, about: About, said: Vec<T>) -> Option<T> {
    let differ = said.iter().any(|one| Some(one) != said.first());
    if !differ {
        return said.into_iter().next();
    }
    if open.iter().all(|question| question.about != about) {
        open.push(Question::new(about, format!("the line says two of this: {}", about.word())));
    }
    None
}

fn whom(said: &[WhomSaid]) -> Option<ForWhom> {
    let only = |whom| said.contains(&WhomSaid::Only(whom));
    match (only(ForWhom::Girl), only(ForWhom::Boy), said.contains(&WhomSaid::Either)) {
        (true, false, false) => Some(ForWhom::Girl),
        (false, true, false) => Some(ForWhom::Boy),
        _ => None,
    }
}

/// A bare range is ages beside *girl* or *boy*, or where it is one of the drive's age groups; on
/// clothing it is never guessed.
fn decide_ranges(draft: &mut Draft, ctx: &Context<'_>, kind: Option<&str>, clothing: bool) {
    for RangeSaid { from, to, beside, words, tokens } in std::mem::take(&mut draft.ranges) {
        let years = ages(from, Some(to));
        let decided = years.filter(|&years| !clothing && (beside || ctx.profile.band(years).is_some()));
        let habit = kind.and_then(|kind| Some((kind, ctx.habits.range(kind)?)));
        match decided {
            Some(years) => draft.ages.push(years),
            None if habit.is_some() => as_ever(draft, habit, years, &words, tokens),
            None if clothing => {
                draft.ask(Question::new(About::Size, format!("\"{words}\": is it a size, or ages?")));
            }
            None => draft.ask(Question::new(About::Ages, format!("\"{words}\": is it ages?"))),
        }
    }
}

/// A range on a kind for which it was said before what it means.
fn as_ever(
    draft: &mut Draft,
    habit: Option<(&str, RangeMeans)>,
    years: Option<Ages>,
    words: &str,
    tokens: Range<usize>,
) {
    let Some((kind, means)) = habit else { return };
    let what = if let (RangeMeans::Ages, Some(years)) = (means, years) {
        draft.ages.push(years);
        "ages"
    } else {
        draft.sizes.push(words.replace(' ', "").to_uppercase());
        draft.sized.push(tokens);
        "a size"
    };
    draft.remembered.push(format!("{words} read as {what}, as last time for {kind}"));
}

/// "pens 1.00 a pack" names a pack, though without saying what it holds.
pub(super) fn name_pack_by_its_price(draft: &mut Draft) {
    let counted = draft.counts.iter().any(|count| !count.article);
    let by_pack = |scope: &Scope| match scope {
        Scope::Pack(word) => !draft.name.split([' ', '-']).any(|part| same_word(part, word)),
        _ => false,
    };
    if !counted && draft.prices.iter().any(|price| by_pack(&price.scope)) {
        draft.pack.named = true;
    }
}
