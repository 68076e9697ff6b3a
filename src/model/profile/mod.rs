//! The drive's rules: what a drive asks of a box, written down as TOML.

mod written;
mod written_rule;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::currency::Currency;
use crate::model::measure::{Decigrams, Dims};
use crate::model::money::Money;
use crate::model::rules::DriveRule;
use written::Written;

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
    /// Days from the drop-off until a child opens the box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub travel_days: Option<u16>,
    /// What the drive adds to the built-in cautions, makes stricter, or allows.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<DriveRule>,
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
            travel_days: None,
            rules: Vec::new(),
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

    /// What a body kept before there were rules of the drive's own says under `profile`, byte for byte.
    const KEPT: &str = r#"{"bands":[{"ages":[3,5],"checklist":[{"count":3,"of":{"category":"hygiene"}}]}],"currency":"USD","drop_off":["2027-11-18"],"fee":null,"inside":[330,200,120],"name":"Test","weight_limit":30000,"wish":900}"#;

    #[test]
    fn rules_kept_before_there_were_cautions_are_read_and_written_alike() {
        let profile: Profile = serde_json::from_str(KEPT).unwrap();
        assert_eq!((profile.travel_days, profile.rules.len()), (None, 0));
        // Bodies are written by way of a value, which sorts the keys.
        assert_eq!(serde_json::to_value(&profile).unwrap().to_string(), KEPT);
    }
}
