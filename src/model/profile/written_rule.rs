//! A drive's own rule as a person writes it.
//!
//! ```toml
//! [[rule]]
//! words = ["slime"]
//! level = "forbidden"
//! reason = "it dries out on the way"
//! ```

use serde::{Deserialize, Serialize};

use super::{ProfileError, senseless};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::rules::{DriveRule, Ruling};
use crate::model::text::{clean, normal};

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WrittenRule {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    about: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    words: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    kinds: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    categories: Vec<Category>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    flags: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ages: Option<[u8; 2]>,
    level: Ruling,
    reason: String,
}

impl WrittenRule {
    pub(super) fn understood(self) -> Result<DriveRule, ProfileError> {
        let ages = self.ages.map(ages).transpose()?;
        let reason = clean(self.reason.trim());
        if reason.is_empty() {
            return Err(senseless("rule.reason", "say why in a few words; people will ask"));
        }
        let rule = DriveRule {
            about: self.about.map(|id| normal(&clean(&id))).filter(|id| !id.is_empty()),
            words: names(&self.words),
            kinds: names(&self.kinds),
            categories: self.categories,
            flags: names(&self.flags),
            ages,
            level: self.level,
            reason,
        };
        if rule.about.is_none() {
            if rule.level == Ruling::Allow {
                return Err(senseless("rule.about", "to allow something, name the caution that isn't needed"));
            }
            if !rule.names_things() {
                return Err(senseless("rule", "say what it is about: words, kinds, categories, flags or a caution"));
            }
        }
        Ok(rule)
    }
}

fn ages([from, to]: [u8; 2]) -> Result<Ages, ProfileError> {
    let wrong = || senseless("rule.ages", format!("[{from}, {to}] runs backwards or past 99; write the younger first"));
    Ages::new(from, Some(to)).ok_or_else(wrong)
}

fn names(written: &[String]) -> Vec<String> {
    written.iter().map(|name| normal(&clean(name))).filter(|name| !name.is_empty()).collect()
}

impl From<&DriveRule> for WrittenRule {
    fn from(rule: &DriveRule) -> WrittenRule {
        WrittenRule {
            about: rule.about.clone(),
            words: rule.words.clone(),
            kinds: rule.kinds.clone(),
            categories: rule.categories.clone(),
            flags: rule.flags.clone(),
            ages: rule.ages.map(|ages| [ages.from(), ages.to().unwrap_or(Ages::OLDEST)]),
            level: rule.level,
            reason: rule.reason.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::model::age::Ages;
    use crate::model::category::Category;
    use crate::model::profile::Profile;
    use crate::model::rules::Ruling;

    const DRIVE: &str = "name = \"Test\"\ncurrency = \"USD\"\ntravel_days = 60\n[[band]]\nages = [3, 5]\n";

    fn with(rule: &str) -> Result<Profile, String> {
        Profile::from_toml(&format!("{DRIVE}[[rule]]\n{rule}\n")).map_err(|error| error.to_string())
    }

    #[test]
    fn a_rule_is_read_and_written_back() {
        let words =
            "words = [\"Slime\", \" magic  sand \"]\nages = [0, 8]\nlevel = \"forbidden\"\nreason = \"dries out\"";
        let about = "about = \"liquid\"\ncategories = [\"hygiene\"]\nkinds = [\"toothpaste\"]\nflags = [\"sealed\"]\n\
                     level = \"allow\"\nreason = \"sealed tubes travel well\"";
        let profile = with(&format!("{words}\n[[rule]]\n{about}")).unwrap();
        let [slime, liquid] = &profile.rules[..] else { panic!("two rules") };
        assert_eq!(slime.words, ["slime", "magic sand"]);
        assert_eq!((slime.ages, slime.level), (Ages::new(0, Some(8)), Ruling::Forbidden));
        assert_eq!((liquid.about.as_deref(), liquid.level), (Some("liquid"), Ruling::Allow));
        assert_eq!(liquid.categories, [Category::Hygiene]);
        assert_eq!(profile.travel_days, Some(60));
        assert_eq!(Profile::from_toml(&profile.to_toml()).unwrap(), profile);
    }

    #[test]
    fn a_rule_that_says_too_little_is_told() {
        for (rule, why) in [
            ("words = [\"slime\"]\nlevel = \"forbidden\"\nreason = \" \"", "rule.reason: say why"),
            ("level = \"forbidden\"\nreason = \"no\"", "rule: say what it is about"),
            ("words = [\" \"]\nlevel = \"forbidden\"\nreason = \"no\"", "rule: say what it is about"),
            ("words = [\"slime\"]\nlevel = \"allow\"\nreason = \"fine\"", "rule.about: to allow something"),
            ("words = [\"slime\"]\nages = [8, 3]\nlevel = \"look-twice\"\nreason = \"no\"", "rule.ages: [8, 3] runs"),
            ("words = [\"slime\"]\nlevel = \"banned\"\nreason = \"no\"", "unknown variant `banned`"),
            ("word = [\"slime\"]\nlevel = \"forbidden\"\nreason = \"no\"", "unknown field `word`"),
        ] {
            let error = with(rule).unwrap_err();
            assert!(error.contains(why), "{rule}: {error}");
        }
    }
}
