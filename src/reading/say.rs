//! A reading told to a person: one sentence, then its doubts.

use std::fmt;

use super::question::About;
use super::report::{Outcome, Reading};
use crate::model::lot::{LotFacts, Source};
use crate::model::money::each;

impl fmt::Display for Outcome {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Outcome::Read(reading) => reading.fmt(f),
            Outcome::Refused(refused) => write!(f, "line {}: {}", refused.n, refused.error),
        }
    }
}

impl fmt::Display for Reading {
    /// `2 leggings · clothing · 2.00 paid, 1.00 each · navy · tote 3`, then a line for each doubt.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.sentence())?;
        for phrase in &self.remembered {
            write!(f, "\n  {phrase}")?;
        }
        for question in &self.questions {
            write!(f, "\n  ? {}", question.why)?;
        }
        Ok(())
    }
}

impl Reading {
    /// All that was understood, in one sentence, without the doubts.
    pub fn sentence(&self) -> String {
        let parts: Vec<String> = self.parts().into_iter().filter(|part| !part.is_empty()).collect();
        parts.join(" · ")
    }

    /// What the batch will be called in lists: `notebook, teal`.
    pub fn title(&self) -> String {
        let (name, colours, size) = (self.name.clone(), self.colours.clone(), self.size.clone());
        LotFacts { name, size, colours, ..LotFacts::default() }.title()
    }

    fn parts(&self) -> Vec<String> {
        let words = |word: &Option<String>, before: &str| match word {
            Some(word) => format!("{before}{word}"),
            None => String::new(),
        };
        let mut parts = vec![
            self.what(),
            self.category.as_ref().map(ToString::to_string).unwrap_or_default(),
            self.price(),
            self.for_whom.map(|whom| format!("for a {whom}")).unwrap_or_default(),
            self.ages.map(|ages| format!("ages {ages}")).unwrap_or_default(),
            words(&self.size, "size "),
            self.colours.join(" and "),
            words(&self.theme, "theme "),
            words(&self.place, ""),
            words(&self.shop.clone().filter(|shop| self.giver.as_ref() != Some(shop)), "from "),
            self.came(),
            words(&self.for_box, "for box "),
            self.date.map(|date| date.to_string()).unwrap_or_default(),
            words(&self.expires, "expires "),
            self.flags.join(", "),
        ];
        parts.extend(self.notes.iter().map(|note| format!("({note})")));
        parts.extend(self.remembered.first().map(|_| "as last time".to_owned()));
        parts
    }

    fn came(&self) -> String {
        match (self.source, &self.giver) {
            (Source::Made, None) => "made".to_owned(),
            (Source::Made, Some(maker)) => format!("made by {maker}"),
            (_, Some(giver)) => format!("given by {giver}"),
            _ => String::new(),
        }
    }

    fn what(&self) -> String {
        let name = if self.name.is_empty() { "something" } else { &self.name };
        let name = if self.returned { format!("{name} returned") } else { name.to_owned() };
        let pieces = self.pieces.map(|pieces| format!(", {pieces} pieces each")).unwrap_or_default();
        match self.units {
            Some(units) if self.about.contains(&About::Units) => format!("about {units} {name}{pieces}"),
            Some(units) => format!("{units} {name}{pieces}"),
            None => format!("some {name}{pieces}"),
        }
    }

    fn price(&self) -> String {
        let Some(paid) = self.paid else { return String::new() };
        if paid.is_zero() {
            return if self.source == Source::Made { String::new() } else { "free".to_owned() };
        }
        let about = if self.about.contains(&About::Paid) { "about " } else { "" };
        let what = if self.returned { "given back" } else { "paid" };
        let mut price = format!("{about}{} {what}", paid.plain(self.currency));
        if let Some(units) = self.units.filter(|units| units.count() > 1) {
            price.push_str(&format!(", {} each", each(paid, units.count(), self.currency)));
        }
        if let Some(regular) = self.regular {
            price.push_str(&format!(", regular {}", regular.plain(self.currency)));
        }
        price
    }
}
