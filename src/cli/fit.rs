//! `fit`: whether things go into a box, and where each goes.

use std::path::{Path, PathBuf};
use std::time::Duration;

use serde::{Deserialize, Serialize};

use super::cpu::CpuLimit;
use super::fit_box::{self, BoxArgs};
use super::shell::{Failure, Shell, lines_or_stdin, read_file};
use super::{Answer, out};
use crate::season::fit;

/// The longest side that is taken, in millimetres.
const LONGEST: i64 = 30_000;
/// The most pieces that are taken in all.
const MOST: u64 = 10_000;

/// Whether the lid closes over a box, and where each thing goes. Exit code 1 if no way was found
/// or it weighs more than the drive allows.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful fit 12
  brimful fit 12 --closes
  brimful fit --problem sizes.json
  brimful fit --problem - < sizes.json

A file of sizes is JSON, in whole millimetres, heights last:
  {\"container\": [330, 200, 120],
   \"things\": [{\"name\": \"book\", \"size\": [240, 170, 12], \"count\": 1, \"upright\": [false, false, true]}],
   \"seconds\": 1, \"all_or_most\": \"all\"}
upright says of each side whether it may be the vertical one (left out: all may); a size that nobody knows is null.
Answers: fits, tight, not_found, impossible, sizes_unknown.")]
pub struct Args {
    /// The box's number
    #[arg(value_name = "BOX", required_unless_present = "problem")]
    giftbox: Option<String>,
    #[command(flatten)]
    how: BoxArgs,
    /// A file with a box and the sizes of things; - is standard input
    #[arg(long, value_name = "FILE", conflicts_with = "giftbox")]
    problem: Option<PathBuf>,
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    match (&args.giftbox, &args.problem) {
        (Some(giftbox), _) => fit_box::run(giftbox, &args.how, shell),
        (None, Some(file)) => answer_file(file),
        (None, None) => Err(Failure::Call("which box? `brimful fit 12`".to_owned())),
    }
}

fn answer_file(file: &Path) -> Answer {
    let bad = |why: String| Failure::Call(format!("{}: {why}", file.display()));
    let text = if file == Path::new("-") { lines_or_stdin(&[])? } else { read_file(file)? };
    let posed: Posed = serde_json::from_str(&text).map_err(|error| bad(error.to_string()))?;
    let problem = posed.problem().map_err(bad)?;
    let limit = CpuLimit::new(Duration::try_from_secs_f64(posed.seconds).map_err(|error| bad(error.to_string()))?);
    let goal = match posed.all_or_most {
        Wish::All => fit::Goal::All,
        Wish::Most => fit::Goal::Most,
    };
    let mut engine = fit::Engine::towards(problem, goal, 0);
    engine.run(&limit, u64::MAX);
    let told = Told::of(engine.problem(), &engine.best(), posed.container, limit.spent());
    let json = serde_json::to_string(&told).map_err(|error| bad(error.to_string()))?;
    out::print(&(json + "\n")).map(|()| 0)
}

/// A problem as it is written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Posed {
    container: [i64; 3],
    things: Vec<PosedThing>,
    #[serde(default = "one_second")]
    seconds: f64,
    #[serde(default)]
    all_or_most: Wish,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct PosedThing {
    #[serde(default)]
    name: String,
    #[serde(default)]
    size: Option<[i64; 3]>,
    #[serde(default = "one")]
    count: u64,
    #[serde(default = "any_way")]
    upright: [bool; 3],
}

#[derive(Debug, Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Wish {
    #[default]
    All,
    Most,
}

fn one_second() -> f64 {
    1.0
}

fn one() -> u64 {
    1
}

fn any_way() -> [bool; 3] {
    [true; 3]
}

impl Posed {
    /// The problem, or what is wrong with it, where, and what to do.
    fn problem(&self) -> Result<fit::Problem, String> {
        if !(0.0..=86_400.0).contains(&self.seconds) {
            return Err(format!("seconds: {} is no time to search; give 0 to 86400", self.seconds));
        }
        let pieces: u64 = self.things.iter().map(|thing| thing.count).fold(0, u64::saturating_add);
        if pieces > MOST {
            return Err(format!("things: {pieces} pieces are too many; give at most {MOST}"));
        }
        let space = fit::Space::bare(sides(self.container, "container")?);
        let things = self.things.iter().enumerate().map(|(at, thing)| thing.thing(at)).collect::<Result<_, _>>()?;
        Ok(fit::Problem { space, things })
    }
}

impl PosedThing {
    fn thing(&self, at: usize) -> Result<fit::Thing, String> {
        let place = |what: &str| match self.name.as_str() {
            "" => format!("things[{at}].{what}"),
            name => format!("things[{at}].{what} ({name})"),
        };
        if self.upright == [false; 3] {
            return Err(format!("{}: no side may be upright; let at least one be true", place("upright")));
        }
        let shape = |size| sides(size, &place("size")).map(|size| fit::Shape { size, up: self.upright });
        let shapes = self.size.map(shape).transpose()?.into_iter().collect();
        let count = u16::try_from(self.count).map_err(|_| format!("{}: too many", place("count")))?;
        Ok(fit::Thing { name: self.name.clone(), shapes, count, ..fit::Thing::default() })
    }
}

fn sides(size: [i64; 3], place: &str) -> Result<[i32; 3], String> {
    if let Some(side) = size.iter().find(|side| !(1..=LONGEST).contains(*side)) {
        return Err(format!("{place}: {side} is no length; give 1 to {LONGEST} millimetres"));
    }
    Ok(size.map(|side| i32::try_from(side).unwrap_or(i32::MAX)))
}

/// An answer as it is written.
#[derive(Debug, Serialize)]
struct Told {
    version: u32,
    verdict: &'static str,
    /// Why, in words.
    why: String,
    placed: Vec<ToldPlace>,
    volume_share: f64,
    cpu_seconds: f64,
}

#[derive(Debug, Serialize)]
struct ToldPlace {
    thing: usize,
    at: [i32; 3],
    size: [i32; 3],
}

#[expect(clippy::cast_precision_loss, reason = "a share to a dozen digits is enough")]
impl Told {
    fn of(problem: &fit::Problem, answer: &fit::Answer, container: [i64; 3], spent: Duration) -> Told {
        let plan = answer.plan();
        let place = |placed: &fit::Placed| {
            placed.solids.first().map(|solid| ToldPlace { thing: placed.thing, at: solid.lo, size: solid.size() })
        };
        let whole: i64 = container.iter().product();
        Told {
            version: 1,
            verdict: answer.key(),
            why: fit::say::answer(problem, answer),
            placed: plan.into_iter().flat_map(|plan| &plan.placed).filter_map(place).collect(),
            volume_share: plan.map_or(0, fit::Plan::volume) as f64 / whole as f64,
            cpu_seconds: spent.as_secs_f64(),
        }
    }
}
