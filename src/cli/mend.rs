//! `mend`: correcting a batch.

use rust_decimal::Decimal;

use super::shell::{Failure, Shell};
use super::{Answer, out};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::measure::Units;
use crate::model::whom::ForWhom;
use crate::season::{Mend, Repriced};

/// Correct a batch as it was logged; what it cost is worked out anew wherever its units are.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful mend comb --units 12
  brimful mend \"soap dish, teal\" --paid 2.40 --tote \"tote 4\"
  brimful mend k3f9x --paid unknown")]
pub struct Args {
    /// What it is called, or its five letters (`brimful stock --batches`)
    thing: String,
    /// Its name
    #[arg(long)]
    name: Option<String>,
    /// How many came
    #[arg(long)]
    units: Option<u32>,
    /// What was paid for all of it, or `unknown`
    #[arg(long, value_name = "AMOUNT")]
    paid: Option<String>,
    /// Its category
    #[arg(long)]
    category: Option<String>,
    /// Where it lies, or `none`
    #[arg(long)]
    tote: Option<String>,
    /// Who it is for: girl, boy or either
    #[arg(long = "for", value_name = "WHOM")]
    for_whom: Option<String>,
    /// The ages it is for: 6-8, 4-, or any
    #[arg(long)]
    ages: Option<String>,
    /// Its size, or `none`
    #[arg(long)]
    size: Option<String>,
    /// Its colours, with commas; `none` for none
    #[arg(long)]
    colours: Option<String>,
    /// Only say which boxes would cost more or less; keep nothing
    #[arg(long = "try")]
    only_try: bool,
}

pub fn run(args: Args, shell: &Shell) -> Answer {
    let thing = args.thing.clone();
    let only_try = args.only_try;
    let mend = understood(args)?;
    if only_try {
        let mut season = shell.to_read()?;
        let boxes = season.mend_effect(&thing, &mend).map_err(|error| shell.placed(error))?;
        let told = Repriced::told(&boxes);
        let told = if told.is_empty() { "No box would cost more or less." } else { &told };
        return out::print(&format!("{told} Nothing was saved.\n")).map(|()| 0);
    }
    shell.act(|season| season.mend(&thing, &mend))
}

fn understood(args: Args) -> Result<Mend, Failure> {
    let units = args.units.map(|count| {
        let units = Units::new(count).filter(|units| !units.is_zero());
        units.ok_or_else(|| Failure::Call(format!("{count} is no number of things; from 1 to a million")))
    });
    Ok(Mend {
        name: args.name,
        units: units.transpose()?,
        paid: args.paid.map(|text| unless("unknown", &text, amount)).transpose()?,
        category: args.category.map(Category::from),
        tote: args.tote.map(|text| unless("none", &text, |text| Ok(text.to_owned()))).transpose()?,
        for_whom: args.for_whom.map(|text| whom(&text)).transpose()?,
        ages: args.ages.map(|text| unless("any", &text, ages)).transpose()?,
        size: args.size.map(|text| unless("none", &text, |text| Ok(text.to_owned()))).transpose()?,
        colours: args.colours.map(|text| colours(&text)),
    })
}

fn unless<T>(nothing: &str, text: &str, read: impl FnOnce(&str) -> Result<T, Failure>) -> Result<Option<T>, Failure> {
    if text == nothing { Ok(None) } else { read(text).map(Some) }
}

/// An amount of money as a decimal.
pub fn amount(text: &str) -> Result<Decimal, Failure> {
    text.parse().map_err(|_| Failure::Call(format!("\"{text}\" is no amount; write it as 1.25")))
}

/// Girl, boy, or either.
pub fn whom(text: &str) -> Result<Option<ForWhom>, Failure> {
    match text {
        "girl" => Ok(Some(ForWhom::Girl)),
        "boy" => Ok(Some(ForWhom::Boy)),
        "either" => Ok(None),
        other => Err(Failure::Call(format!("\"{other}\": say girl, boy or either"))),
    }
}

/// `6-8`, `7`, or `4-` for "and up".
pub fn ages(text: &str) -> Result<Ages, Failure> {
    let read = match text.split_once(['-', '–']) {
        Some((from, "")) => from.parse().ok().and_then(|from| Ages::new(from, None)),
        Some((from, to)) => from.parse().ok().zip(to.parse().ok()).and_then(|(from, to)| Ages::new(from, Some(to))),
        None => text.parse().ok().and_then(|age| Ages::new(age, Some(age))),
    };
    read.ok_or_else(|| Failure::Call(format!("\"{text}\" are no ages; write them as 6-8")))
}

fn colours(text: &str) -> Vec<String> {
    let colours = text.split(',').map(|colour| crate::model::text::normal(&crate::model::text::clean(colour)));
    colours.filter(|colour| !colour.is_empty() && colour != "none").collect()
}
