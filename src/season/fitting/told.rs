//! What a search came to, in plain values.

use super::pictured::{Pictured, name, pictured};
use super::search::Found;
use super::{Fitting, Measured, Origin};
use crate::fit::{Answer, Gauge, Lid, Plan, Problem, Thing, gauge, lid, room_left, say, what_else};
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::report::fit::{FitCount, FitFill, FitReport, FitWeight, listed};

/// Only what drops in without packing all of it anew is asked for.
struct AtOnce;

impl Stop for AtOnce {
    fn stopped(&self) -> bool {
        true
    }
}

/// The answer with all that follows from it.
pub(super) fn report(fitting: &Fitting, found: &Found, tried: u64) -> FitReport {
    let (problem, answer) = (&found.problem, &found.answer);
    let plan = answer.plan().filter(|plan| !plan.placed.is_empty());
    let whole = answer.plan().filter(|plan| plan.is_whole());
    let unknown = names(&fitting.things, |it| it.origin == Origin::Unknown);
    let said = fitting.lid.as_ref().filter(|_| fitting.aside() == 0);
    let lid = whole.and(plan).map(|plan| lid(problem, plan));
    let room = whole.and(plan).map(|plan| room_left(problem, plan));
    let weight = weight(fitting);
    let Pictured { layers, stages, order, places } = pictured(fitting, problem, plan);
    FitReport {
        label: fitting.label.clone(),
        heading: fitting.heading.clone(),
        fits: said.is_some() || (whole.is_some() && unknown.is_empty()),
        answer: key(fitting, answer, &unknown),
        why: why(fitting, found, lid.as_ref(), &unknown),
        lid_said: said.map(super::LidSaid::words).unwrap_or_default(),
        hard_push: matches!(lid, Some(Lid::HardPush { .. })),
        lid: lid.as_ref().map(say::lid).unwrap_or_default(),
        too_heavy: weight.too_heavy(),
        notes: notes(fitting, found),
        sizes_typical: names(&fitting.things, |it| it.origin == Origin::Typical),
        left_out: plan.map(|plan| left_out(problem, plan)).unwrap_or_default(),
        order,
        layers,
        stages,
        places,
        filled: plan.map(|plan| fill(&gauge(problem, plan))),
        weight,
        room: room.as_ref().map(say::room).unwrap_or_default(),
        largest_mm: room.and_then(|room| room.largest),
        drops_in: whole.map(|plan| drops_in(fitting, problem, plan)).unwrap_or_default(),
        repacked: Vec::new(),
        sizes_unknown: unknown,
        tried,
    }
}

/// What of the stock the box still needs, and would go in once all of it is packed anew.
pub(super) fn repacked(fitting: &Fitting, found: &Found, stop: &dyn Stop) -> Vec<String> {
    let whole = found.answer.plan().filter(|plan| plan.is_whole() && !plan.placed.is_empty());
    let Some(plan) = whole else { return Vec::new() };
    let more: Vec<Thing> = fitting.needed.iter().map(Measured::unwished).collect();
    let left = what_else(&found.problem, plan, &more, stop);
    left.repacked.iter().filter_map(|at| more.get(*at)).map(|thing| thing.name.clone()).collect()
}

fn key(fitting: &Fitting, answer: &Answer, unknown: &[String]) -> &'static str {
    match answer {
        _ if fitting.things.is_empty() => "empty",
        _ if !unknown.is_empty() => "sizes_unknown",
        answer => answer.key(),
    }
}

fn why(fitting: &Fitting, found: &Found, lid: Option<&Lid>, unknown: &[String]) -> String {
    if fitting.things.is_empty() {
        return "Nothing is in it or set aside for it yet.".to_owned();
    }
    let rest = say::answer_under(&found.problem, &found.answer, lid);
    if unknown.is_empty() {
        return rest;
    }
    let without = if unknown.len() == 1 { "Without it" } else { "Without them" };
    let open = format!("Nobody can tell yet: the size isn't known of {}.", listed(unknown));
    if found.problem.things.is_empty() { open } else { format!("{open} {without}: {rest}") }
}

/// What of it is not as one would wish, and what is still to be done.
fn notes(fitting: &Fitting, found: &Found) -> Vec<String> {
    let mut notes = Vec::new();
    if !found.as_wished && found.answer.plan().is_some_and(Plan::is_whole) {
        notes.push("That takes turning flat or upright things, or laying something on the wow item.".to_owned());
    }
    let typical = fitting.things.iter().any(|it| it.origin == Origin::Typical);
    if typical && found.answer.plan().is_some_and(|plan| !plan.is_whole()) {
        notes.push("Some of these sizes are only typical: `brimful size` takes yours.".to_owned());
    }
    if fitting.aside() > 0 {
        let things = counted(u64::from(fitting.aside()), "thing is", "things are");
        let said = fitting.lid.as_ref().map(|said| format!(" Without what is set aside: {}", said.words()));
        notes.push(format!("{things} only set aside for it.{}", said.unwrap_or_default()));
    }
    notes
}

fn names(things: &[Measured], of: impl Fn(&Measured) -> bool) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for measured in things.iter().filter(|measured| of(measured)) {
        if !names.contains(&measured.thing.name) {
            names.push(measured.thing.name.clone());
        }
    }
    names
}

fn left_out(problem: &Problem, plan: &Plan) -> Vec<FitCount> {
    let left = plan.left_out.iter().enumerate().filter(|(_, count)| **count > 0);
    left.map(|(thing, count)| FitCount { thing: name(problem, thing), count: *count }).collect()
}

fn fill(gauge: &Gauge) -> FitFill {
    let Gauge { stiff, soft, free, pressed_to, .. } = *gauge;
    FitFill { stiff, soft, free, soft_pressed_to: pressed_to }
}

/// What all of it weighs, whether it goes in or not.
fn weight(fitting: &Fitting) -> FitWeight {
    let each = |it: &Measured| it.thing.weight.saturating_mul(u32::from(it.thing.count));
    let all = fitting.things.iter().map(each).fold(0, u32::saturating_add);
    FitWeight::new(all, fitting.limit, names(&fitting.things, |it| !it.weighed))
}

fn drops_in(fitting: &Fitting, problem: &Problem, plan: &Plan) -> Vec<String> {
    let more: Vec<Thing> = fitting.needed.iter().map(Measured::unwished).collect();
    let left = what_else(problem, plan, &more, &AtOnce);
    left.drops_in.iter().filter_map(|at| more.get(*at)).map(|thing| thing.name.clone()).collect()
}
