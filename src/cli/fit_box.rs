//! `fit BOX`: whether the lid closes over a box of the season.

use std::time::Duration;

use super::Answer;
use super::cpu::CpuLimit;
use super::shell::{Failure, Shell};
use crate::model::stop::Stop;

/// How long to look, and how to tell what was found.
#[derive(Debug, clap::Args)]
pub struct BoxArgs {
    /// Say that the lid closes: it counts for more than any search, until something more goes in
    #[arg(long, requires = "giftbox", conflicts_with_all = ["seconds", "tries", "json"])]
    closes: bool,
    /// How long to look for a way at most [default: 1]
    #[arg(long, value_name = "SECONDS", requires = "giftbox")]
    seconds: Option<f64>,
    /// How many ways to try at most; without --seconds however long it takes
    #[arg(long, value_name = "COUNT", requires = "giftbox")]
    tries: Option<u64>,
    /// As JSON
    #[arg(long, requires = "giftbox")]
    json: bool,
}

/// Goes on until all tries are made.
struct Patience;

impl Stop for Patience {
    fn stopped(&self) -> bool {
        false
    }
}

pub fn run(giftbox: &str, args: &BoxArgs, shell: &Shell) -> Answer {
    if args.closes {
        return shell.act(|season| season.lid_closes(giftbox));
    }
    let (tries, stop) = (args.tries.unwrap_or(u64::MAX), limit(args)?);
    let report = shell.answer(args.json, |season| season.fit_box(giftbox, tries, stop.as_ref()))?;
    Ok(u8::from(!report.fits || !report.too_heavy.is_empty()))
}

fn limit(args: &BoxArgs) -> Result<Box<dyn Stop>, Failure> {
    if args.seconds.is_none() && args.tries.is_some() {
        return Ok(Box::new(Patience));
    }
    let seconds = args.seconds.unwrap_or(1.0);
    let limit = Duration::try_from_secs_f64(seconds)
        .map_err(|_| Failure::Call(format!("--seconds {seconds}: say a number of seconds, such as 5")))?;
    Ok(Box::new(CpuLimit::new(limit)))
}
