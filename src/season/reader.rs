//! Reading without a season: what an entry line shows while it is being written.

use std::sync::Arc;

use jiff::civil::Date;

use crate::catalogue::Catalogue;
use crate::model::habit::{Habits, Lesson};
use crate::model::money::Money;
use crate::model::profile::Profile;
use crate::reading::{Context, Entry, Head, read_haul, split};

/// Reads plain words by the drive's rules; it asks no store, so that any thread may hold one.
#[derive(Debug, Clone)]
pub struct Reader {
    profile: Arc<Profile>,
    catalogue: Arc<Catalogue>,
    habits: Arc<Habits>,
    shop: Option<String>,
    today: Date,
}

impl Reader {
    /// A reader by these rules and kinds on this day.
    pub fn new(profile: Profile, catalogue: Arc<Catalogue>, habits: Arc<Habits>, today: Date) -> Reader {
        Reader { profile: Arc::new(profile), catalogue, habits, shop: None, today }
    }

    /// The same for the lines of a haul from this shop.
    #[must_use]
    pub fn at(&self, shop: &str) -> Reader {
        Reader { shop: Some(shop.to_owned()).filter(|shop| !shop.is_empty()), ..self.clone() }
    }

    /// The same with an answer remembered that is not kept yet.
    #[must_use]
    pub fn learning(&self, lesson: &Lesson) -> Reader {
        let mut habits = Habits::clone(&self.habits);
        habits.learn(lesson);
        Reader { habits: Arc::new(habits), ..self.clone() }
    }

    /// What one line is: a heading or a purchase; `None` where nothing is written.
    pub fn entry(&self, line: &str, price_asked: bool) -> Option<Entry> {
        self.entries(line, price_asked).into_iter().next().map(|(_, entry)| entry)
    }

    /// The pieces of a line that says several things, parted by `;`.
    pub fn pieces(&self, line: &str) -> Vec<String> {
        split(line).into_iter().map(|piece| piece.trim().to_owned()).filter(|piece| !piece.is_empty()).collect()
    }

    /// What every line of a text is, each with its number from 1; after an opening count no price is asked.
    pub fn entries(&self, text: &str, price_asked: bool) -> Vec<(usize, Entry)> {
        let Reader { profile, catalogue, habits, today, .. } = self;
        let context = Context { profile, catalogue, habits, shop: self.shop.as_deref(), today: *today, price_asked };
        read_haul(text, &context)
    }

    /// A heading told in a sentence: `Haul of Wed 13 Oct at Mill Lane Market.`
    pub fn head_words(&self, head: &Head) -> String {
        let plain = |amount: &Money| amount.plain(self.profile.currency);
        match head {
            Head::At { shop, date } => {
                let date = date.map(|date| format!(" of {}", self.day(date))).unwrap_or_default();
                let shop = shop.as_ref().map(|shop| format!(" at {shop}")).unwrap_or_default();
                format!("Haul{date}{shop}.")
            }
            Head::Tax(amount) => format!("Tax {} on the whole haul.", plain(amount)),
            Head::Postage(amount) => format!("Postage {} on the whole haul.", plain(amount)),
            Head::Coupon(amount) => format!("Coupon {} off the whole haul.", plain(amount)),
            Head::Receipt(amount) => format!("The receipt says {}.", plain(amount)),
            Head::Opening { place, date } => {
                let date = date.map(|date| format!(" of {}", self.day(date))).unwrap_or_default();
                let place = place.as_ref().map(|place| format!(", {place}")).unwrap_or_default();
                format!("Opening count{date}{place}: no price is asked.")
            }
            Head::Place(place) => format!("What follows goes into {place}."),
        }
    }

    /// `Wed 13 Oct`, with its year where that isn't this one.
    fn day(&self, date: Date) -> String {
        let form = if date.year() == self.today.year() { "%a %-d %b" } else { "%a %-d %b %Y" };
        date.strftime(form).to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reader() -> Reader {
        Reader::new(Profile::default(), Catalogue::shared(), Arc::default(), jiff::civil::date(2027, 10, 14))
    }

    fn told(line: &str) -> String {
        match reader().entry(line, true) {
            Some(Entry::Head(head)) => reader().head_words(&head),
            other => format!("{other:?}"),
        }
    }

    #[test]
    fn headings_are_told_in_a_sentence() {
        assert_eq!(told("at Mill Lane Market, yesterday"), "Haul of Wed 13 Oct at Mill Lane Market.");
        assert_eq!(told("at Green Gate"), "Haul at Green Gate.");
        assert_eq!(told("2026-11-25"), "Haul of Wed 25 Nov 2026.");
        assert_eq!(told("tax 0.60"), "Tax 0.60 on the whole haul.");
        assert_eq!(told("postage 4.95"), "Postage 4.95 on the whole haul.");
        assert_eq!(told("coupon $1"), "Coupon 1.00 off the whole haul.");
        assert_eq!(told("receipt 14.62"), "The receipt says 14.62.");
        assert_eq!(told("opening count, tote 7"), "Opening count, tote 7: no price is asked.");
        assert_eq!(told("tote 7"), "What follows goes into tote 7.");
    }

    #[test]
    fn a_line_is_read_as_it_stands() {
        let reader = reader();
        assert!(reader.entry("  ", true).is_none());
        let about = |line: &str, price_asked| match reader.entry(line, price_asked) {
            Some(Entry::Line(outcome)) => outcome.reading().unwrap().questions.len(),
            other => panic!("{other:?}"),
        };
        assert_eq!((about("9 combs", true), about("9 combs", false)), (1, 0));
        let entries = reader.entries("opening count\n\n9 combs", true);
        assert_eq!(entries.iter().map(|(n, _)| *n).collect::<Vec<_>>(), [1, 3]);
    }

    #[test]
    fn it_can_be_handed_to_another_thread() {
        fn sendable<T: Send + Sync + Clone>(_: &T) {}
        sendable(&reader());
    }
}
