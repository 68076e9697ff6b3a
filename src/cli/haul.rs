//! `hauls` and `mend-haul`.

use jiff::civil::Date;

use super::mend::amount;
use super::shell::{Shell, day};
use super::{Answer, out};
use crate::season::{Explains, HaulMend, Report, Season};

/// The hauls as they were logged, and whether each adds up to its receipt.
#[derive(Debug, clap::Args)]
pub struct ListArgs {
    /// As JSON
    #[arg(long)]
    json: bool,
}

/// Correct what is about a whole haul; its lines' costs are worked out anew.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:
  brimful mend-haul \"Corner Bazaar 2027-03-02\" --tax 0.60 --receipt 14.62")]
pub struct MendArgs {
    /// Its shop and day, or its five letters (`brimful hauls`)
    haul: String,
    /// The day
    #[arg(long, value_name = "DAY", value_parser = day)]
    on: Option<Date>,
    /// The shop or giver
    #[arg(long, value_name = "SHOP")]
    at: Option<String>,
    /// Tax over all lines
    #[arg(long)]
    tax: Option<String>,
    /// Postage over all lines
    #[arg(long)]
    postage: Option<String>,
    /// Coupon off all lines
    #[arg(long)]
    coupon: Option<String>,
    /// The receipt's total
    #[arg(long)]
    receipt: Option<String>,
}

/// The hauls whose lines don't add up to their receipt; with a haul: say what explains it.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:
  brimful settle
  brimful settle \"Corner Bazaar 2027-03-02\" --as tax")]
pub struct SettleArgs {
    /// Its shop and day, or its five letters (`brimful hauls`)
    #[arg(requires = "explains")]
    haul: Option<String>,
    /// What explains the difference; `nothing` spreads it over the lines, `receipt` takes the lines' word
    #[arg(long = "as", value_name = "WHAT", requires = "haul")]
    explains: Option<WhatExplains>,
    /// As JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum WhatExplains {
    Tax,
    Postage,
    Coupon,
    Nothing,
    Receipt,
}

pub fn settle(args: SettleArgs, shell: &Shell) -> Answer {
    if let (Some(haul), Some(explains)) = (args.haul, args.explains) {
        let way = match explains {
            WhatExplains::Tax => Explains::Tax,
            WhatExplains::Postage => Explains::Postage,
            WhatExplains::Coupon => Explains::Coupon,
            WhatExplains::Nothing => Explains::Nothing,
            WhatExplains::Receipt => Explains::Receipt,
        };
        return shell.act(|season| season.settle_haul_called(&haul, way));
    }
    let hauls = shell.to_read()?.unsettled().map_err(|error| shell.placed(error))?;
    if hauls.hauls.is_empty() && !args.json {
        return out::print("Every haul with a receipt adds up to it.\n").map(|()| 0);
    }
    out::print(&if args.json { hauls.json() + "\n" } else { hauls.text() })?;
    Ok(u8::from(!hauls.hauls.is_empty()))
}

pub fn list(args: &ListArgs, shell: &Shell) -> Answer {
    shell.answer(args.json, Season::hauls).map(|_| 0)
}

pub fn mend(args: MendArgs, shell: &Shell) -> Answer {
    let decimal = |text: &Option<String>| text.as_deref().map(amount).transpose();
    let mend = HaulMend {
        tax: decimal(&args.tax)?,
        postage: decimal(&args.postage)?,
        coupon: decimal(&args.coupon)?,
        receipt: decimal(&args.receipt)?,
        date: args.on,
        shop: args.at,
    };
    shell.act(|season| season.mend_haul(&args.haul, &mend))
}
