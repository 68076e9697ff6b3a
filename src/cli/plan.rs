//! `plan`: which boxes can be finished, and what to buy.

use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use super::shell::{Failure, read_file};
use super::{Answer, out};
use crate::model::stop::Stop;
use crate::season::{answer_instance, read_instance};

/// Which boxes can be finished, and what to buy for the others.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful plan --problem drive.json
  brimful plan --problem - --seconds 20 < drive.json")]
pub struct Args {
    /// A problem written as JSON (- for standard input); the answers are printed as JSON, money in whole cents
    #[arg(long, value_name = "FILE")]
    problem: PathBuf,
    /// How long each question may take at most
    #[arg(long, value_name = "SECONDS", default_value_t = 5.0, requires = "problem")]
    seconds: f64,
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

pub fn run(args: &Args) -> Answer {
    let time = Duration::try_from_secs_f64(args.seconds)
        .map_err(|_| Failure::Call(format!("--seconds {}: say a number of seconds, such as 5", args.seconds)))?;
    let bad = |why: String| Failure::Call(format!("{}: {why}", args.problem.display()));
    let instance = read_instance(&text_of(&args.problem)?).map_err(|why| bad(why.to_string()))?;
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
