//! What a search came to, in plain values.

use super::{Fitting, Found, Measured, Origin};
use crate::fit::{
    Answer, Gauge, Layer, Legend, Plan, Problem, Step, Thing, gauge, layers, lid, order, room_left, say, what_else,
};
use crate::model::stop::Stop;
use crate::model::text::counted;
use crate::report::fit::{FitCount, FitFill, FitLayer, FitLetter, FitReport, FitStep, FitWeight, listed};

/// Only what drops in without packing all of it anew is asked for.
struct AtOnce;

impl Stop for AtOnce {
    fn stopped(&self) -> bool {
        true
    }
}

/// The answer with all that follows from it.
pub(super) fn report(fitting: &Fitting, found: &Found) -> FitReport {
    let (problem, answer) = (&found.problem, &found.answer);
    let plan = answer.plan().filter(|plan| !plan.placed.is_empty());
    let whole = answer.plan().filter(|plan| plan.is_whole());
    let unknown = names(&fitting.things, |it| it.origin == Origin::Unknown);
    let said = fitting.lid.as_ref().filter(|_| fitting.aside == 0);
    FitReport {
        label: fitting.label.clone(),
        heading: fitting.heading.clone(),
        fits: said.is_some() || (whole.is_some() && unknown.is_empty()),
        answer: key(fitting, answer, &unknown),
        why: why(fitting, found, &unknown),
        lid_said: said.map(super::LidSaid::words).unwrap_or_default(),
        lid: whole.and(plan).map(|plan| say::lid(&lid(problem, plan))).unwrap_or_default(),
        notes: notes(fitting, found),
        sizes_typical: names(&fitting.things, |it| it.origin == Origin::Typical),
        left_out: plan.map(|plan| left_out(problem, plan)).unwrap_or_default(),
        order: plan.map(|plan| steps(problem, &order(problem, plan))).unwrap_or_default(),
        layers: plan.map(|plan| pictures(problem, &layers(problem, plan))).unwrap_or_default(),
        filled: plan.map(|plan| fill(&gauge(problem, plan))),
        weight: weight(fitting),
        room: whole.and(plan).map(|plan| say::room(&room_left(problem, plan))).unwrap_or_default(),
        drops_in: whole.map(|plan| drops_in(fitting, problem, plan)).unwrap_or_default(),
        sizes_unknown: unknown,
    }
}

fn key(fitting: &Fitting, answer: &Answer, unknown: &[String]) -> &'static str {
    match answer {
        _ if fitting.things.is_empty() => "empty",
        _ if !unknown.is_empty() => "sizes_unknown",
        answer => answer.key(),
    }
}

fn why(fitting: &Fitting, found: &Found, unknown: &[String]) -> String {
    if fitting.things.is_empty() {
        return "Nothing is in it or set aside for it yet.".to_owned();
    }
    let rest = say::answer(&found.problem, &found.answer);
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
    if fitting.aside > 0 {
        let things = counted(u64::from(fitting.aside), "thing is", "things are");
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

fn name(problem: &Problem, thing: usize) -> String {
    problem.things.get(thing).map(|thing| thing.name.clone()).unwrap_or_default()
}

fn left_out(problem: &Problem, plan: &Plan) -> Vec<FitCount> {
    let left = plan.left_out.iter().enumerate().filter(|(_, count)| **count > 0);
    left.map(|(thing, count)| FitCount { thing: name(problem, thing), count: *count }).collect()
}

fn steps(problem: &Problem, steps: &[Step]) -> Vec<FitStep> {
    let step = |(step, words): (&Step, String)| FitStep {
        thing: name(problem, step.thing),
        count: step.count,
        into: step.into.map(|holder| name(problem, holder)).unwrap_or_default(),
        place: step.place.clone(),
        words,
    };
    steps.iter().zip(say::order(problem, steps)).map(step).collect()
}

fn pictures(problem: &Problem, layers: &[Layer]) -> Vec<FitLayer> {
    let letter =
        |entry: &Legend| FitLetter { letter: entry.letter, thing: name(problem, entry.thing), count: entry.count };
    let picture = |layer: &Layer| FitLayer {
        from_mm: layer.from,
        to_mm: layer.to,
        rows: layer.rows.clone(),
        legend: layer.legend.iter().map(letter).collect(),
        lines: say::layer(problem, layer),
    };
    layers.iter().map(picture).collect()
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
