//! `plan` and `buy`: which boxes can be finished, and what to buy for the others.

use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::mend::{ages, amount};
use super::shell::{Failure, Shell, read_file};
use super::{Answer, out};
use crate::model::stop::Stop;
use crate::season::{PlanWish, Report, answer_instance, read_instance};

/// Which boxes can be finished, and what to buy for the others. Exit code 1 unless all can be finished.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful plan
  brimful plan --band 6-8 --budget 40
  brimful plan --apply
  brimful plan --problem drive.json")]
pub struct Args {
    #[command(flatten)]
    wish: WishArgs,
    #[command(flatten)]
    also: AlsoArgs,
    /// Set aside what the boxes still need that can be finished
    #[arg(long, conflicts_with_all = ["boxes", "budget", "problem"])]
    apply: bool,
    /// As JSON
    #[arg(long)]
    json: bool,
    /// A problem written as JSON (- for standard input); the answers are printed as JSON, money in whole cents
    #[arg(long, value_name = "FILE", conflicts_with_all = ["boxes", "budget", "band", "json"])]
    problem: Option<PathBuf>,
    /// How long the search may take at most; with --problem, for each question
    #[arg(long, value_name = "SECONDS", default_value_t = 5.0)]
    seconds: f64,
}

/// What else is told of the boxes that can be finished.
#[derive(Debug, clap::Args)]
struct AlsoArgs {
    /// How many of the boxes have room for what they get, by the sizes of things
    #[arg(long, conflicts_with_all = ["apply", "problem"])]
    room: bool,
    /// How even the boxes are in the number of their things, and which extras from what is left over would help
    #[arg(long, conflicts_with_all = ["apply", "problem"])]
    even: bool,
}

/// Which boxes are looked at.
#[derive(Debug, clap::Args)]
struct WishArgs {
    /// What so many finished boxes take
    #[arg(long, value_name = "COUNT")]
    boxes: Option<u32>,
    /// How many boxes so much money finishes
    #[arg(long, value_name = "AMOUNT")]
    budget: Option<String>,
    /// Only boxes of this age group
    #[arg(long, value_name = "AGES")]
    band: Option<String>,
}

/// What to buy for the open boxes, for whom and at which price to stay under; narrow enough for a phone.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful buy
  brimful buy --budget 40
  brimful buy --as html > shopping.html")]
pub struct BuyArgs {
    #[command(flatten)]
    wish: WishArgs,
    /// As text for a terminal or a slip of paper, or as a page for a phone
    #[arg(long = "as", value_name = "FORM", value_parser = ["text", "html"], default_value = "text")]
    form: String,
    /// As JSON
    #[arg(long, conflicts_with = "form")]
    json: bool,
    /// How long the search may take at most
    #[arg(long, value_name = "SECONDS", default_value_t = 5.0)]
    seconds: f64,
}

impl WishArgs {
    fn read(&self) -> Result<PlanWish, Failure> {
        let budget = self.budget.as_deref().map(amount).transpose()?;
        Ok(PlanWish {
            boxes: self.boxes,
            budget,
            band: self.band.as_deref().map(ages).transpose()?,
            ..PlanWish::default()
        })
    }
}

/// A moment after which a search ends with the best it has.
struct Deadline(Instant);

impl Deadline {
    fn after(time: Duration) -> Deadline {
        let now = Instant::now();
        // A moment that the clock can't tell is as good as a year away.
        Deadline(now.checked_add(time).unwrap_or(now + Duration::from_secs(365 * 24 * 3600)))
    }
}

impl Stop for Deadline {
    fn stopped(&self) -> bool {
        Instant::now() >= self.0
    }
}

pub fn run(args: &Args, shell: &Shell) -> Answer {
    let time = time(args.seconds)?;
    if let Some(problem) = &args.problem {
        return answers(problem, time);
    }
    let wish = PlanWish { room: args.also.room, even: args.also.even, ..args.wish.read()? };
    let stop = Deadline::after(time);
    if args.apply {
        let mut season = shell.to_write()?;
        let applied = season.apply_plan(&wish, &stop).map_err(|error| shell.placed(error))?;
        print(&applied, args.json)?;
        return Ok(u8::from(!applied.all));
    }
    let plan = shell.answer(args.json, |season| season.plan_boxes(&wish, &stop))?;
    Ok(u8::from(plan.can_finish < plan.open))
}

pub fn buy(args: &BuyArgs, shell: &Shell) -> Answer {
    let wish = args.wish.read()?;
    let stop = Deadline::after(time(args.seconds)?);
    let page = shell.to_read()?.to_buy(&wish, &stop).map_err(|error| shell.placed(error))?;
    if args.form == "html" {
        out::print(&page.html())?;
    } else {
        print(&page, args.json)?;
    }
    Ok(0)
}

fn print(report: &impl Report, json: bool) -> Result<(), Failure> {
    out::print(&if json { report.json() + "\n" } else { report.text() })
}

fn time(seconds: f64) -> Result<Duration, Failure> {
    Duration::try_from_secs_f64(seconds)
        .map_err(|_| Failure::Call(format!("--seconds {seconds}: say a number of seconds, such as 5")))
}

/// The answers to a written problem.
fn answers(problem: &Path, time: Duration) -> Answer {
    let bad = |why: String| Failure::Call(format!("{}: {why}", problem.display()));
    let instance = read_instance(&text_of(problem)?).map_err(|why| bad(why.to_string()))?;
    let answers = answer_instance(&instance, || Box::new(Deadline::after(time)));
    let written = serde_json::to_string(&answers).map_err(|error| bad(error.to_string()))?;
    out::print(&(written + "\n"))?;
    Ok(0)
}

fn text_of(path: &Path) -> Result<String, Failure> {
    if path != Path::new("-") {
        return read_file(path);
    }
    let mut text = String::new();
    let read = std::io::stdin().read_to_string(&mut text);
    read.map_err(|error| Failure::Call(format!("standard input can't be read: {error}")))?;
    Ok(text)
}
