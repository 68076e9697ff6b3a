//! The drive's rules: what a drive asks of a box, written down as TOML.

use jiff::civil::Date;
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::age::Ages;
use super::category::Category;
use super::currency::Currency;
use super::measure::{Decigrams, Dims, Millimetres};
use super::money::Money;

/// A drive's rules as the program uses them; amounts in minor units.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Profile {
    /// The drive's name.
    pub name: String,
    /// The currency all amounts are in.
    pub currency: Currency,
    /// Age groups, youngest first.
    pub bands: Vec<Band>,
    /// The box, inside, where the drive gives one.
    pub inside: Option<Dims>,
    /// The most a packed box may weigh.
    pub weight_limit: Option<Decigrams>,
    /// What a box should cost at the most.
    pub wish: Option<Money>,
    /// What the drive asks for each box handed in.
    pub fee: Option<Money>,
    /// Days on which boxes are taken in.
    pub drop_off: Vec<Date>,
}

/// One age group and what its boxes must hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Whole years, both ends included.
    pub ages: Ages,
    /// What a box of this group must hold.
    pub checklist: Vec<Line>,
}

/// A line of a checklist: how many of a category or of a kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// What is asked for.
    pub of: Wanted,
    /// How many of it.
    pub count: u32,
}

/// What a checklist line asks for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wanted {
    /// Anything of a category.
    Category(Category),
    /// One kind of thing; it counts within its category's number too.
    Kind(String),
}

impl Wanted {
    /// The words on screen.
    pub fn words(&self) -> &str {
        match self {
            Wanted::Category(category) => category.words(),
            Wanted::Kind(kind) => kind,
        }
    }
}

impl Profile {
    /// The age group with exactly these ages.
    pub fn band(&self, ages: Ages) -> Option<&Band> {
        self.bands.iter().find(|band| band.ages == ages)
    }

    /// Every category that some checklist names, in its order.
    pub fn categories(&self) -> Vec<Category> {
        let mut seen = Vec::new();
        for line in self.bands.iter().flat_map(|band| &band.checklist) {
            if let Wanted::Category(category) = &line.of
                && !seen.contains(category)
            {
                seen.push(category.clone());
            }
        }
        seen
    }

    /// Reads a drive's rules from TOML.
    pub fn from_toml(text: &str) -> Result<Profile, ProfileError> {
        let written: Written = toml::from_str(text).map_err(|e| ProfileError::Toml(e.to_string()))?;
        written.understood()
    }

    /// The rules as TOML that [`Profile::from_toml`] reads back to the same rules.
    pub fn to_toml(&self) -> String {
        // Strings, numbers and lists of them can always be written.
        toml::to_string_pretty(&Written::from(self)).unwrap_or_default()
    }
}

impl Default for Profile {
    /// Neutral rules for a season without a drive: one of each core category, no box size.
    fn default() -> Profile {
        let checklist: Vec<Line> =
            Category::CORE.into_iter().map(|category| Line { of: Wanted::Category(category), count: 1 }).collect();
        let bands = [(3, 5), (6, 8), (9, 12)]
            .into_iter()
            .filter_map(|(from, to)| Ages::new(from, Some(to)))
            .map(|ages| Band { ages, checklist: checklist.clone() })
            .collect();
        Profile {
            name: "A gift box drive".to_owned(),
            currency: Currency::default(),
            bands,
            inside: None,
            weight_limit: None,
            wish: None,
            fee: None,
            drop_off: Vec::new(),
        }
    }
}

/// Why a drive's rules can't be used.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum ProfileError {
    /// The text is no TOML of this shape; says the line and column.
    #[error("{0}")]
    Toml(String),
    /// The text is well formed but says something impossible.
    #[error("{field}: {why}")]
    Sense {
        /// The key it stands under.
        field: &'static str,
        /// What is wrong and what would do.
        why: String,
    },
}

fn senseless(field: &'static str, why: impl Into<String>) -> ProfileError {
    ProfileError::Sense { field, why: why.into() }
}

/// The rules as a person writes them: amounts with decimals, sizes in whole units.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    currency: Currency,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wish_per_box: Option<Decimal>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fee_per_box: Option<Decimal>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    drop_off: Vec<Date>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    checklist: Vec<WrittenLine>,
    #[serde(default, rename = "box", skip_serializing_if = "Option::is_none")]
    giftbox: Option<WrittenBox>,
    band: Vec<WrittenBand>,
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
    fn understood(self) -> Result<Profile, ProfileError> {
        let bands = self.bands()?;
        let amount = |field, amount: Option<Decimal>| amount.map(|a| exact(field, a, self.currency)).transpose();
        let wish = amount("wish_per_box", self.wish_per_box)?;
        let fee = amount("fee_per_box", self.fee_per_box)?;
        let (inside, weight_limit) = match self.giftbox {
            Some(giftbox) => (giftbox.inside()?, giftbox.weight_limit()?),
            None => (None, None),
        };
        let name = super::text::clean(self.name.trim());
        Ok(Profile { name, currency: self.currency, bands, inside, weight_limit, wish, fee, drop_off: self.drop_off })
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
        (None, Some(kind)) => Wanted::Kind(super::text::normal(kind)),
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

#[cfg(test)]
mod tests {
    use super::*;

    const SMALL: &str = "name = \"Test\"\ncurrency = \"USD\"\nwish_per_box = \"8.00\"\n\
                         checklist = [{ category = \"hygiene\", count = 3 }, { kind = \"Toothbrush\", count = 1 }]\n\
                         [box]\ninside_mm = [120, 330, 200]\nweight_limit_g = 3000\n\
                         [[band]]\nages = [6, 8]\n[[band]]\nages = [3, 5]\n";

    #[test]
    fn toml_there_and_back_is_the_same() {
        let read = Profile::from_toml(SMALL).unwrap();
        assert_eq!(read.bands[0].ages, Ages::new(3, Some(5)).unwrap());
        assert_eq!(read.bands[1].checklist[1].of, Wanted::Kind("toothbrush".to_owned()));
        assert_eq!(read.wish.unwrap().minor(), 800);
        assert_eq!(Profile::from_toml(&read.to_toml()).unwrap(), read);
        let standard = Profile::default();
        assert_eq!(Profile::from_toml(&standard.to_toml()).unwrap(), standard);
    }

    #[test]
    fn an_unknown_key_is_an_error_with_line_and_column() {
        let text = SMALL.replace("weight_limit_g", "wait_limit_g");
        let error = Profile::from_toml(&text).unwrap_err().to_string();
        assert!(error.contains("line 7, column 1"), "{error}");
        assert!(error.contains("wait_limit_g"), "{error}");
    }

    #[test]
    fn what_makes_no_sense_is_named() {
        let wrong = |from: &str, to: &str| Profile::from_toml(&SMALL.replace(from, to)).unwrap_err().to_string();
        assert!(wrong("[6, 8]", "[8, 6]").contains("backwards"));
        assert!(wrong("[6, 8]", "[5, 8]").contains("overlap"));
        assert!(wrong("\"8.00\"", "\"8.005\"").contains("wish_per_box"));
        assert!(wrong("count = 3", "count = 0").contains("checklist.count"));
        assert!(wrong("USD", "QQQ").contains("ISO 4217"));
    }
}
