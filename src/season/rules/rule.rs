//! Each rule of a drive: what it is called, how one would type it, and how that is read.

use jiff::civil::Date;
use rust_decimal::Decimal;

use super::{checklist, groups, measures};
use crate::catalogue::Catalogue;
use crate::model::age::Ages;
use crate::model::currency::Currency;
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::model::text::clean;

/// One rule of a drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// What the drive is called.
    Name,
    /// The currency.
    Currency,
    /// The age groups.
    Groups,
    /// What a box of an age group must hold.
    Checklist(Ages),
    /// The box, inside.
    Inside,
    /// The most a packed box may weigh.
    Weight,
    /// What a box should cost at the most.
    Wish,
    /// What the drive asks for each box.
    Fee,
    /// When boxes are taken in.
    DropOff,
}

/// What could be read, or why not and what would do.
pub type Read<T> = Result<T, String>;

/// How days may be written, beside 2027-11-18.
const DAYS: [&str; 4] = ["%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y"];

impl Rule {
    /// Every rule, in the order in which they are shown.
    pub fn all(profile: &Profile) -> Vec<Rule> {
        let lists = profile.bands.iter().map(|band| Rule::Checklist(band.ages));
        let before = [Rule::Name, Rule::Groups];
        let after = [Rule::Inside, Rule::Weight, Rule::Wish, Rule::Fee, Rule::DropOff, Rule::Currency];
        before.into_iter().chain(lists).chain(after).collect()
    }

    /// What it is called: `age groups`, `checklist, 6–8`.
    pub fn what(self) -> String {
        match self {
            Rule::Name => "name".to_owned(),
            Rule::Currency => "currency".to_owned(),
            Rule::Groups => "age groups".to_owned(),
            Rule::Checklist(ages) => format!("checklist, {ages}"),
            Rule::Inside => "box, inside".to_owned(),
            Rule::Weight => "box, weight".to_owned(),
            Rule::Wish => "wish per box".to_owned(),
            Rule::Fee => "fee per box".to_owned(),
            Rule::DropOff => "drop-off".to_owned(),
        }
    }

    /// The rule as one would type it; empty where nothing is said.
    pub fn words(self, profile: &Profile, catalogue: &Catalogue) -> String {
        let amount = |money: Option<Money>| money.map(|money| money.plain(profile.currency)).unwrap_or_default();
        match self {
            Rule::Name => profile.name.clone(),
            Rule::Currency => profile.currency.code().to_owned(),
            Rule::Groups => groups::words(&profile.bands),
            Rule::Checklist(ages) => {
                profile.band(ages).map(|band| checklist::words(&band.checklist, profile, catalogue)).unwrap_or_default()
            }
            Rule::Inside => profile.inside.as_ref().map(measures::sides_words).unwrap_or_default(),
            Rule::Weight => profile.weight_limit.map(measures::weight_words).unwrap_or_default(),
            Rule::Wish => amount(profile.wish),
            Rule::Fee => amount(profile.fee),
            Rule::DropOff => profile.drop_off.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
        }
    }

    /// The rules with this one as the words say it.
    pub fn read(self, words: &str, before: &Profile, catalogue: &Catalogue) -> Read<Profile> {
        let words = clean(words);
        let words = words.trim();
        let mut profile = before.clone();
        let unsaid = words.is_empty();
        match self {
            Rule::Name => words.clone_into(&mut profile.name),
            Rule::Currency => profile = in_currency(words, profile)?,
            Rule::Groups => profile.bands = groups::read(words, &before.bands)?,
            Rule::Checklist(ages) => {
                let list = checklist::read(words, before, catalogue)?;
                if let Some(band) = profile.bands.iter_mut().find(|band| band.ages == ages) {
                    band.checklist = list;
                }
            }
            Rule::Inside if unsaid => profile.inside = None,
            Rule::Inside => profile.inside = Some(measures::sides(words)?),
            Rule::Weight if unsaid => profile.weight_limit = None,
            Rule::Weight => profile.weight_limit = Some(measures::weight(words)?),
            Rule::Wish if unsaid => profile.wish = None,
            Rule::Wish => profile.wish = Some(amount(words, profile.currency)?),
            Rule::Fee if unsaid => profile.fee = None,
            Rule::Fee => profile.fee = Some(amount(words, profile.currency)?),
            Rule::DropOff => profile.drop_off = days(words)?,
        }
        match self {
            Rule::Name if unsaid => Err("a drive has a name; write it".to_owned()),
            _ => Ok(profile),
        }
    }
}

fn amount(words: &str, currency: Currency) -> Read<Money> {
    let wrong = || format!("\"{words}\" is no amount of {}; write for example {}", currency.code(), example(currency));
    let bare = words.trim_start_matches(currency.sign()).trim_end_matches(currency.sign()).trim();
    let amount: Decimal = bare.parse().map_err(|_| wrong())?;
    exact(amount, currency).ok_or_else(wrong)
}

fn example(currency: Currency) -> String {
    Money::from_decimal(Decimal::from(9), currency).unwrap_or_default().plain(currency)
}

/// The amount, unless it is below nothing or the currency has no such small part.
fn exact(amount: Decimal, currency: Currency) -> Option<Money> {
    let money = Money::from_decimal(amount, currency).filter(|money| !money.is_negative())?;
    (money.to_decimal(currency).normalize() == amount.normalize()).then_some(money)
}

/// The rules in another currency; amounts keep their figures.
fn in_currency(words: &str, mut profile: Profile) -> Read<Profile> {
    let currency = Currency::by_code(words)
        .ok_or_else(|| format!("\"{words}\" is no currency that is known; write its three letters of ISO 4217: USD"))?;
    let again = |money: Option<Money>, what: &str| {
        let anew = |money: Money| {
            let figures = money.to_decimal(profile.currency);
            exact(figures, currency)
                .ok_or_else(|| format!("{} has no {figures}; mend the {what} first", currency.code()))
        };
        money.map(anew).transpose()
    };
    let (wish, fee) = (again(profile.wish, "wish per box")?, again(profile.fee, "fee per box")?);
    (profile.wish, profile.fee, profile.currency) = (wish, fee, currency);
    Ok(profile)
}

fn days(words: &str) -> Read<Vec<Date>> {
    let mut days = Vec::new();
    for part in words.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()) {
        let written = || DAYS.iter().find_map(|form| Date::strptime(form, part).ok());
        let day = part.parse().ok().or_else(written);
        let day: Date = day.ok_or_else(|| format!("\"{part}\" is no day; write 2027-11-18 or 18 Nov 2027"))?;
        if days.contains(&day) {
            return Err(format!("{day} stands there twice"));
        }
        days.push(day);
    }
    Ok(days)
}
