//! The drive's rules as a person writes them: amounts with decimals, sizes in whole units.

use jiff::civil::Date;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::written_rule::WrittenRule;
use super::{Band, Line, Profile, ProfileError, Wanted, senseless};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::currency::Currency;
use crate::model::measure::{Decigrams, Dims, Millimetres};
use crate::model::money::Money;
use crate::model::text::{clean, normal};

/// The rules as a person writes them: amounts with decimals, sizes in whole units.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Written {
    name: String,
    currency: Currency,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wish_per_box: Option<Decimal>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fee_per_box: Option<Decimal>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    drop_off: Vec<Date>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    travel_days: Option<u16>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    checklist: Vec<WrittenLine>,
    #[serde(default, rename = "box", skip_serializing_if = "Option::is_none")]
    giftbox: Option<WrittenBox>,
    band: Vec<WrittenBand>,
    #[serde(default, rename = "rule", skip_serializing_if = "Vec::is_empty")]
    rules: Vec<WrittenRule>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenBox {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    inside_mm: Option<[u32; 3]>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    weight_limit_g: Option<u32>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenBand {
    ages: [u8; 2],
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    checklist: Vec<WrittenLine>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenLine {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    category: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    kind: Option<String>,
    count: u32,
}

impl Written {
    pub(super) fn understood(self) -> Result<Profile, ProfileError> {
        let bands = self.bands()?;
        let amount = |field, amount: Option<Decimal>| amount.map(|a| exact(field, a, self.currency)).transpose();
        let wish = amount("wish_per_box", self.wish_per_box)?;
        let fee = amount("fee_per_box", self.fee_per_box)?;
        let (inside, weight_limit) = match self.giftbox {
            Some(giftbox) => (giftbox.inside()?, giftbox.weight_limit()?),
            None => (None, None),
        };
        let name = clean(self.name.trim());
        let rules = self.rules.into_iter().map(WrittenRule::understood).collect::<Result<_, _>>()?;
        let Written { currency, drop_off, travel_days, .. } = self;
        Ok(Profile { name, currency, bands, inside, weight_limit, wish, fee, drop_off, travel_days, rules })
    }

    fn bands(&self) -> Result<Vec<Band>, ProfileError> {
        let common = lines(&self.checklist)?;
        let mut bands = Vec::new();
        for written in &self.band {
            let [from, to] = written.ages;
            let ages = Ages::new(from, Some(to)).ok_or_else(|| {
                senseless("band.ages", format!("[{from}, {to}] runs backwards or past 99; write the younger first"))
            })?;
            let own = lines(&written.checklist)?;
            bands.push(Band { ages, checklist: if own.is_empty() { common.clone() } else { own } });
        }
        bands.sort_by_key(|band| band.ages.from());
        if bands.is_empty() {
            return Err(senseless("band", "a drive has at least one age group; write [[band]] with ages = [3, 5]"));
        }
        for pair in bands.windows(2) {
            if pair[0].ages.to() >= Some(pair[1].ages.from()) {
                let why = format!("{} and {} overlap; each age belongs to one group", pair[0].ages, pair[1].ages);
                return Err(senseless("band.ages", why));
            }
        }
        Ok(bands)
    }
}

impl WrittenBox {
    fn inside(&self) -> Result<Option<Dims>, ProfileError> {
        let Some(mut sizes) = self.inside_mm else { return Ok(None) };
        sizes.sort_unstable_by(|a, b| b.cmp(a));
        if sizes.iter().any(|size| !(1..=2000).contains(size)) {
            return Err(senseless("box.inside_mm", "each side is between 1 and 2000 millimetres"));
        }
        Ok(Some(Dims(sizes.into_iter().map(Millimetres).collect())))
    }

    fn weight_limit(&self) -> Result<Option<Decigrams>, ProfileError> {
        let Some(grams) = self.weight_limit_g else { return Ok(None) };
        match grams.checked_mul(10) {
            Some(tenths) if grams <= 100_000 => Ok(Some(Decigrams(tenths))),
            _ => Err(senseless("box.weight_limit_g", "a box weighs at most 100000 grams")),
        }
    }
}

fn lines(written: &[WrittenLine]) -> Result<Vec<Line>, ProfileError> {
    written.iter().map(line).collect()
}

fn line(written: &WrittenLine) -> Result<Line, ProfileError> {
    let of = match (&written.category, &written.kind) {
        (Some(category), None) => Wanted::Category(Category::from(category.as_str())),
        (None, Some(kind)) => Wanted::Kind(normal(kind)),
        _ => return Err(senseless("checklist", "each line names either a category or a kind")),
    };
    if !(1..=99).contains(&written.count) {
        return Err(senseless("checklist.count", format!("{} is not between 1 and 99", written.count)));
    }
    Ok(Line { of, count: written.count })
}

fn exact(field: &'static str, amount: Decimal, currency: Currency) -> Result<Money, ProfileError> {
    let wrong = || senseless(field, format!("{amount} is no amount of {}", currency.code()));
    let money = Money::from_decimal(amount, currency).ok_or_else(wrong)?;
    if money.is_negative() || money.to_decimal(currency).normalize() != amount.normalize() {
        return Err(wrong());
    }
    Ok(money)
}

impl From<&Profile> for Written {
    fn from(profile: &Profile) -> Written {
        let common = profile.bands.first().map(|band| &band.checklist);
        let shared = profile.bands.iter().all(|band| Some(&band.checklist) == common);
        let decimal = |amount: Option<Money>| amount.map(|money| money.to_decimal(profile.currency));
        Written {
            name: profile.name.clone(),
            currency: profile.currency,
            wish_per_box: decimal(profile.wish),
            fee_per_box: decimal(profile.fee),
            drop_off: profile.drop_off.clone(),
            travel_days: profile.travel_days,
            checklist: common.filter(|_| shared).map(|lines| write_lines(lines)).unwrap_or_default(),
            giftbox: write_box(profile),
            band: profile
                .bands
                .iter()
                .map(|band| WrittenBand {
                    ages: [band.ages.from(), band.ages.to().unwrap_or(Ages::OLDEST)],
                    checklist: if shared { Vec::new() } else { write_lines(&band.checklist) },
                })
                .collect(),
            rules: profile.rules.iter().map(WrittenRule::from).collect(),
        }
    }
}

fn write_box(profile: &Profile) -> Option<WrittenBox> {
    let inside_mm = profile.inside.as_ref().and_then(|dims| {
        let sides: Vec<u32> = dims.0.iter().map(|side| side.0).collect();
        <[u32; 3]>::try_from(sides).ok()
    });
    let weight_limit_g = profile.weight_limit.map(|weight| weight.0 / 10);
    (inside_mm.is_some() || weight_limit_g.is_some()).then_some(WrittenBox { inside_mm, weight_limit_g })
}

fn write_lines(lines: &[Line]) -> Vec<WrittenLine> {
    let write = |line: &Line| match &line.of {
        Wanted::Category(category) => {
            WrittenLine { category: Some(category.word().to_owned()), kind: None, count: line.count }
        }
        Wanted::Kind(kind) => WrittenLine { category: None, kind: Some(kind.clone()), count: line.count },
    };
    lines.iter().map(write).collect()
}
