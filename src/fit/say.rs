//! Answers, orders and pictures in plain words, line by line.

use super::cuboid::Size;
use super::gauge::Gauge;
use super::layers::Layer;
use super::lid::Lid;
use super::order::Step;
use super::plan::{Answer, Plan, Tight};
use super::proof::Proof;
use super::room::RoomLeft;
use super::thing::Problem;

/// Cubic millimetres in a cubic centimetre.
const CUBIC_CM: i64 = 1000;

/// Whether it fits, in a sentence or two.
pub fn answer(problem: &Problem, answer: &Answer) -> String {
    match answer {
        Answer::Fits(_) => "It all fits.".to_owned(),
        Answer::FitsTight { why: Tight::NoSpare { axis }, .. } => {
            let along = ["in length", "in width", "in height"][*axis % 3];
            format!("It all fits, but tightly: less than 1 mm is left {along}.")
        }
        Answer::FitsTight { why: Tight::Pressed { to }, .. } => {
            format!("It all fits, but tightly: something soft is pressed to {to} of 100.")
        }
        Answer::NotFound { tried, best } => {
            let ways = if *tried == 1 { "1 way was tried".to_owned() } else { format!("{tried} ways were tried") };
            format!(
                "Couldn't make it fit: {ways}. The best leaves out {}. There may be a way.",
                left_out(problem, best)
            )
        }
        Answer::Impossible { proof: reason, .. } => proof(problem, reason),
        Answer::SizesUnknown { which } => {
            let names: Vec<String> = which.iter().map(|thing| name(problem, *thing)).collect();
            format!("Nobody can tell yet: the size isn't known of {}.", list(&names))
        }
    }
}

/// The same where the lid lies on it: what goes in but holds the lid up is not said to fit without a word of that.
pub fn answer_under(problem: &Problem, told: &Answer, lid: Option<&Lid>) -> String {
    match lid {
        Some(Lid::HardPush { .. }) => "It all goes in, but the lid closes only with a hard push.".to_owned(),
        _ => answer(problem, told),
    }
}

/// Why there is no way.
pub fn proof(problem: &Problem, proof: &Proof) -> String {
    match proof {
        Proof::Volume { needs, has } => {
            let (needs, has) = (needs.div_euclid(CUBIC_CM), has / CUBIC_CM);
            format!("It can't fit: all of it takes at least {needs} cm³, and the box has {has} cm³.")
        }
        Proof::TooLong { thing, slanting } => {
            let way = if *slanting { " It goes in only slanting, laid in by hand." } else { "" };
            format!("It can't fit: {} is longer than the box, whichever way it lies.{way}", name(problem, *thing))
        }
        Proof::Exclude { things: [one, other] } if one == other => {
            format!("It can't fit: two of {} never go in together.", name(problem, *one))
        }
        Proof::Exclude { things: [one, other] } => {
            let (one, other) = (name(problem, *one), name(problem, *other));
            format!("It can't fit: {one} and {other} each go in, but never both.")
        }
        Proof::Sides { thousandths } => {
            let share = format!("{}.{}", thousandths / 10, thousandths % 10);
            format!("It can't fit: side by side they take at least {share} of the box's 100 parts.")
        }
    }
}

/// What is put where, a line for each step.
pub fn order(problem: &Problem, steps: &[Step]) -> Vec<String> {
    let line = |(number, step): (usize, &Step)| {
        let what = counted(problem, step.thing, step.count);
        match step.into {
            Some(holder) => format!("{number}. Put {what} into {}.", name(problem, holder)),
            None if step.soft => format!("{number}. Stuff in {what}, {}.", step.place),
            None => format!("{number}. Lay in {what}, {}.", step.place),
        }
    };
    (1..).zip(steps).map(line).collect()
}

/// One layer from above: the picture framed, and beside it what the letters are.
pub fn layer(problem: &Problem, layer: &Layer) -> Vec<String> {
    let width = layer.rows.first().map_or(0, |row| row.chars().count());
    let frame = format!("+{}+", "-".repeat(width));
    let legend = layer.legend.iter().map(|entry| {
        let soft = if entry.soft { ", soft" } else { "" };
        let through = if entry.from_below { ", comes up from below" } else { "" };
        let heights = format!("{} to {} mm high", entry.from, entry.to);
        format!("{}  {}, {heights}{soft}{through}", entry.letter, counted(problem, entry.thing, entry.count))
    });
    let picture = std::iter::once(frame.clone()).chain(layer.rows.iter().map(|row| format!("|{row}|"))).chain([frame]);
    let (picture, legend): (Vec<String>, Vec<String>) = (picture.collect(), legend.collect());
    let mut lines = vec![format!("From {} to {} mm above the bottom:", layer.from, layer.to)];
    for at in 0..picture.len().max(legend.len()) {
        let left = picture.get(at).map_or("", String::as_str);
        let right = legend.get(at).map_or("", String::as_str);
        lines.push(format!("{left:<wide$}  {right}", wide = width + 2).trim_end().to_owned());
    }
    lines
}

/// How full the box is, how soft things are pressed, and what it weighs.
pub fn gauge(gauge: &Gauge) -> String {
    let tenths = |thousandths: i64| format!("{}.{} %", thousandths / 10, thousandths % 10);
    let press = gauge.pressed_to.map_or(String::new(), |to| format!(" Soft things are pressed to {to} %."));
    let (stiff, soft, free) = (tenths(gauge.stiff), tenths(gauge.soft), tenths(gauge.free));
    let (kilos, grams) = (gauge.weight / 10_000, gauge.weight % 10_000 / 10);
    format!("Stiff {stiff}, soft {soft}, free {free}.{press} It weighs {kilos}.{grams:03} kg.")
}

/// Whether the lid closes.
pub fn lid(lid: &Lid) -> String {
    match lid {
        Lid::Closes { spare } => format!("The lid closes, with {spare} mm to spare."),
        Lid::LightPush { by, .. } => format!("The lid closes with a light push: soft things stand {by} mm proud."),
        Lid::HardPush { by, at: [x, y] } => {
            format!("Soft things stand {by} mm proud, {x} mm from the left and {y} mm from the front.")
        }
    }
}

/// What room is left.
pub fn room(room: &RoomLeft) -> String {
    let free = room.free / CUBIC_CM;
    match room.largest {
        Some([x, y, z]) => format!("Room is left for one more of {x} × {y} × {z} mm; {free} cm³ are free in all."),
        None => format!("No room is left for anything more from above; {free} cm³ are free in all."),
    }
}

/// Extents in words.
pub fn size([x, y, z]: Size) -> String {
    format!("{x} × {y} × {z} mm")
}

fn left_out(problem: &Problem, plan: &Plan) -> String {
    let left = plan.left_out.iter().enumerate().filter(|(_, count)| **count > 0);
    let names: Vec<String> = left.map(|(thing, count)| counted(problem, thing, *count)).collect();
    list(&names)
}

fn counted(problem: &Problem, thing: usize, count: u16) -> String {
    if count == 1 { name(problem, thing) } else { format!("{count} × {}", name(problem, thing)) }
}

fn name(problem: &Problem, thing: usize) -> String {
    match problem.things.get(thing).map(|thing| thing.name.as_str()) {
        Some(name) if !name.is_empty() => name.to_owned(),
        _ => format!("thing {}", thing + 1),
    }
}

/// `a`, `a and b`, `a, b and c`; a long list is cut.
fn list(names: &[String]) -> String {
    match names {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [first @ .., last] if names.len() <= 6 => format!("{} and {last}", first.join(", ")),
        _ => format!("{} and {} more", names[..5].join(", "), names.len() - 5),
    }
}
