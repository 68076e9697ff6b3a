//! `hauls` and `mend-haul`.

use jiff::civil::Date;

use super::Answer;
use super::mend::amount;
use super::shell::{Shell, day};
use crate::season::{HaulMend, Season};

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
