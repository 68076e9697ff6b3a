//! Short hands for the tests of this floor.

use super::line::Line;
use super::{Context, Outcome, Reading, read_line};
use crate::catalogue::Catalogue;
use crate::model::currency::Currency;
use crate::model::habit::Habits;
use crate::model::money::Money;
use crate::model::profile::Profile;

thread_local! {
    static CATALOGUE: Catalogue = Catalogue::built_in();
}

/// A context on 2026-11-25 with the neutral rules.
pub fn with_context<T>(test: impl FnOnce(&Context<'_>) -> T) -> T {
    with_profile(&Profile::default(), test)
}

fn with_profile<T>(profile: &Profile, test: impl FnOnce(&Context<'_>) -> T) -> T {
    let today = jiff::civil::date(2026, 11, 25);
    let habits = Habits::default();
    CATALOGUE
        .with(|catalogue| test(&Context { profile, catalogue, habits: &habits, shop: None, today, price_asked: true }))
}

pub fn with_line<T>(line: &str, test: impl FnOnce(&Line<'_>) -> T) -> T {
    with_context(|ctx| test(&Line::new(line, ctx)))
}

pub fn read(line: &str) -> Reading {
    with_context(|ctx| match read_line(1, line, ctx) {
        Outcome::Read(reading) => *reading,
        Outcome::Refused(refused) => panic!("{}", refused.error),
    })
}

pub fn read_in(code: &str, line: &str) -> Reading {
    let profile = Profile { currency: Currency::by_code(code).unwrap(), ..Profile::default() };
    with_profile(&profile, |ctx| match read_line(1, line, ctx) {
        Outcome::Read(reading) => *reading,
        Outcome::Refused(refused) => panic!("{}", refused.error),
    })
}

fn plain(reading: &Reading, money: Option<Money>) -> Option<String> {
    money.map(|money| money.plain(reading.currency))
}

pub fn paid(line: &str) -> Option<String> {
    let reading = read(line);
    plain(&reading, reading.paid)
}

pub fn regular(line: &str) -> Option<String> {
    let reading = read(line);
    plain(&reading, reading.regular)
}

pub fn paid_in(code: &str, line: &str) -> Option<String> {
    let reading = read_in(code, line);
    plain(&reading, reading.paid)
}

pub fn units(line: &str) -> Option<u32> {
    read(line).units.map(crate::model::measure::Units::count)
}

pub fn pieces(line: &str) -> Option<u32> {
    read(line).pieces
}

pub fn packs(line: &str) -> (u32, Option<u32>) {
    let reading = read(line);
    (reading.packs, reading.per_pack)
}

pub fn name(line: &str) -> String {
    read(line).name
}

pub fn about(line: &str) -> Vec<&'static str> {
    read(line).questions.iter().map(|question| question.about.word()).collect()
}

pub fn questions(line: &str) -> Vec<&'static str> {
    about(line)
}
