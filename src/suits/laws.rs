//! Suggestions tried by hand, and what holds for all of them.

use std::sync::Arc;

use proptest::prelude::*;

use super::{Candidate, In, Suggestion, Wish, misfit, suggest};
use crate::model::age::Ages;
use crate::model::category::Category;
use crate::model::checklist::Gap;
use crate::model::giftbox::BoxFacts;
use crate::model::profile::{Line, Wanted};
use crate::model::whom::ForWhom;

pub(super) fn ages(from: u8, to: u8) -> Ages {
    Ages::new(from, Some(to)).unwrap()
}

pub(super) fn box_for(for_whom: Option<ForWhom>, ages: Ages) -> BoxFacts {
    BoxFacts { number: 12, for_whom, ages, theme: String::new(), palette: Vec::new() }
}

/// A thing of which nothing is known but its name, three of it free.
pub(super) fn plain(title: &str) -> Candidate<'_> {
    Candidate {
        title,
        kind: None,
        category: None,
        for_whom: None,
        ages: None,
        colours: &[],
        theme: None,
        size: None,
        free: 3,
        aside_here: 0,
        flags: &[],
    }
}

fn of<'a>(category: &'a Category, kind: &'a str, title: &'a str) -> Candidate<'a> {
    Candidate { kind: Some(kind), category: Some(category), ..plain(title) }
}

fn inside<'a>(category: &'a Category, kind: &'a str, title: &'a str) -> In<'a> {
    In { title, kind: Some(kind), category: Some(category) }
}

fn gap(of: Wanted, count: u32, inside: u32) -> Gap {
    Gap { line: Line { of, count }, inside, aside: 0 }
}

/// An ocean box in teal and coral for a girl of 6–8, with a notebook and an eraser in it.
fn ocean() -> BoxFacts {
    let palette = vec!["teal".to_owned(), "coral".to_owned()];
    BoxFacts { theme: "ocean".to_owned(), palette, ..box_for(Some(ForWhom::Girl), ages(6, 8)) }
}

const SCHOOL: Category = Category::School;
const TOY: Category = Category::Toy;
const WOW: Category = Category::Wow;
const EXTRAS: Category = Category::Extras;

fn school() -> Wanted {
    Wanted::Category(SCHOOL)
}

fn titles(wish: &Wish<'_>, candidates: &[Candidate<'_>]) -> Vec<String> {
    let found = suggest(wish, candidates.iter().copied().enumerate(), 20);
    found.iter().map(|found| candidates[found.index].title.to_owned()).collect()
}

fn told(wish: &Wish<'_>, candidate: Candidate<'_>) -> (String, Vec<String>) {
    let Suggestion { remark, reasons, .. } = suggest(wish, [(0, candidate)].into_iter(), 1).remove(0);
    (remark, reasons)
}

#[test]
fn the_first_wish_that_differs_decides() {
    let (facts, line) = (ocean(), school());
    let there = [inside(&SCHOOL, "notebook", "notebook, teal"), inside(&SCHOOL, "eraser", "eraser, fish")];
    let gaps = [gap(school(), 4, 2), gap(Wanted::Kind("ruler".to_owned()), 1, 0)];
    let wish = Wish { facts: &facts, line: Some(&line), inside: &there, gaps: &gaps };
    let (coral, red): ([Arc<str>; 1], [Arc<str>; 1]) = (["coral".into()], ["red".into()]);
    let candidates = [
        of(&SCHOOL, "notebook", "notebook, teal"),
        of(&SCHOOL, "notebook", "notebook, red"),
        of(&SCHOOL, "sketchbook", "sketchbook"),
        Candidate { free: 9, ..of(&SCHOOL, "glue stick", "glue stick") },
        of(&SCHOOL, "crayon", "crayons, 16s"),
        Candidate { for_whom: Some(ForWhom::Girl), ..of(&SCHOOL, "backpack", "backpack") },
        Candidate { colours: &red, free: 80, ..of(&SCHOOL, "scissors", "scissors, red") },
        Candidate { colours: &coral, ..of(&SCHOOL, "pen", "pen, coral") },
        Candidate { theme: Some("ocean"), ..of(&SCHOOL, "bookmark", "bookmark") },
        of(&SCHOOL, "ruler", "ruler, clear"),
        Candidate { aside_here: 1, free: 0, ..of(&SCHOOL, "notebook", "notebook, coral") },
    ];
    let order = [
        "notebook, coral", // set aside for it
        "ruler, clear",    // a line of the checklist names it
        "bookmark",        // ocean
        "pen, coral",      // a colour of the box
        "backpack",        // for girls alone
        "scissors, red",   // 80 left
        "glue stick",      // 9 left
        "crayons, 16s",
        "sketchbook",     // there is something to write on
        "notebook, red",  // there is a notebook
        "notebook, teal", // there is this one
    ];
    assert_eq!(titles(&wish, &candidates), order);
}

#[test]
fn remarks_and_reasons_in_words() {
    let (facts, line) = (ocean(), school());
    let there = [inside(&SCHOOL, "notebook", "notebook, teal")];
    let gaps = [gap(school(), 4, 1), gap(Wanted::Kind("ruler".to_owned()), 1, 0)];
    let wish = Wish { facts: &facts, line: Some(&line), inside: &there, gaps: &gaps };
    let (coral, used): ([Arc<str>; 1], [Arc<str>; 1]) = (["coral".into()], ["small-parts".into()]);
    let pen = Candidate { colours: &coral, ages: Ages::new(6, None), ..of(&SCHOOL, "pen", "pen, coral") };
    let words = |remark: &str, reasons: &[&str]| (remark.to_owned(), reasons.iter().map(ToString::to_string).collect());
    let reasons = ["nothing to write with in it yet", "coral, a colour of this box", "6 and up"];
    assert_eq!(told(&wish, pen), words("", &reasons));
    assert_eq!(told(&wish, of(&SCHOOL, "notebook", "notebook, red")), words("has a notebook", &[]));
    assert_eq!(told(&wish, of(&SCHOOL, "notebook", "notebook, teal")), words("has this already", &[]));
    assert_eq!(told(&wish, of(&SCHOOL, "ruler", "ruler")), words("", &["the checklist asks for a ruler"]));
    let girl = Candidate { for_whom: Some(ForWhom::Girl), ages: Some(ages(6, 8)), ..of(&SCHOOL, "folder", "folder") };
    assert_eq!(told(&wish, girl), words("for a girl", &["no folder in it yet", "for a girl", "made for 6–8"]));
    let careful = Candidate { flags: &used, ..of(&SCHOOL, "sketchbook", "sketchbook") };
    assert_eq!(told(&wish, careful), words("small parts", &["no sketchbook in it yet"]));
    let aside = Candidate { aside_here: 2, theme: Some("ocean"), ..of(&SCHOOL, "eraser", "eraser, fish") };
    let reasons = ["2 set aside for this box", "nothing for its pencils in it yet", "ocean, the theme of this box"];
    assert_eq!(told(&wish, aside), words("set aside for it", &reasons));
}

#[test]
fn wow_items_come_before_toys_that_could_be_one() {
    let (facts, line) = (ocean(), Wanted::Category(WOW));
    let wish = Wish { facts: &facts, line: Some(&line), inside: &[], gaps: &[] };
    let kite = Candidate { theme: Some("ocean"), free: 90, ..of(&TOY, "kite", "kite, fish") };
    let candidates = [kite, of(&WOW, "doll", "doll"), of(&SCHOOL, "pen", "pen")];
    assert_eq!(titles(&wish, &candidates), ["doll", "kite, fish"]);
    let found = suggest(&wish, candidates.iter().copied().enumerate(), 9);
    assert_eq!(found.iter().map(|found| found.as_wow).collect::<Vec<_>>(), [false, true]);
    assert_eq!(found[1].remark, "a toy, as its wow item");
}

#[test]
fn anything_else_is_first_what_no_line_waits_for() {
    let facts = ocean();
    let there = [inside(&WOW, "doll", "doll")];
    let gaps = [gap(school(), 4, 3), gap(Wanted::Category(TOY), 1, 1), gap(Wanted::Category(WOW), 1, 1)];
    let wish = Wish { facts: &facts, line: None, inside: &there, gaps: &gaps };
    let candidates = [
        Candidate { free: 50, ..of(&SCHOOL, "pen", "pen") },
        Candidate { free: 40, ..of(&WOW, "kite", "kite") },
        of(&TOY, "ball", "ball"),
        of(&EXTRAS, "sticker", "stickers"),
    ];
    assert_eq!(titles(&wish, &candidates), ["ball", "stickers", "pen", "kite"]);
    assert_eq!(told(&wish, candidates[0]).0, "school needs it");
    assert_eq!(told(&wish, candidates[1]).0, "has a wow item");
}

#[test]
fn a_theme_is_met_by_one_of_its_words() {
    let facts = BoxFacts { theme: "outer space".to_owned(), ..ocean() };
    let wish = Wish { facts: &facts, line: None, inside: &[], gaps: &[] };
    let themed = |title, theme| Candidate { theme: Some(theme), ..plain(title) };
    let candidates = [plain("aa"), themed("ab", "spaceship"), themed("zz", "space")];
    assert_eq!(titles(&wish, &candidates), ["zz", "aa", "ab"]);
}

/// A candidate that owns what it is made of.
#[derive(Debug, Clone)]
struct Thing {
    title: String,
    kind: Option<&'static str>,
    category: Option<Category>,
    for_whom: Option<ForWhom>,
    ages: Option<Ages>,
    colours: Vec<Arc<str>>,
    theme: Option<&'static str>,
    free: u32,
    aside_here: u32,
}

impl Thing {
    fn seen(&self) -> Candidate<'_> {
        Candidate {
            kind: self.kind,
            category: self.category.as_ref(),
            for_whom: self.for_whom,
            ages: self.ages,
            colours: &self.colours,
            theme: self.theme,
            free: self.free,
            aside_here: self.aside_here,
            ..plain(&self.title)
        }
    }
}

fn whom() -> impl Strategy<Value = Option<ForWhom>> {
    prop_oneof![Just(None), Just(Some(ForWhom::Girl)), Just(Some(ForWhom::Boy))]
}

fn some_ages() -> impl Strategy<Value = Ages> {
    prop_oneof![Just(ages(3, 5)), Just(ages(6, 8)), Just(ages(9, 12)), Just(Ages::new(3, None).unwrap())]
}

fn thing() -> impl Strategy<Value = Thing> {
    let kind = prop_oneof![Just(None), Just(Some("pen")), Just(Some("pencil")), Just(Some("ball"))];
    let category = prop_oneof![Just(None), Just(Some(SCHOOL)), Just(Some(TOY)), Just(Some(WOW)), Just(Some(EXTRAS))];
    let colours = prop::collection::vec(prop_oneof![Just("teal".into()), Just("red".into())], 0..2);
    let theme = prop_oneof![Just(None), Just(Some("ocean")), Just(Some("farm"))];
    let counts = (0_u32..4, 0_u32..2);
    let facts = ("[a-c]{1,2}", kind, category, whom(), prop::option::of(some_ages()), colours, theme, counts);
    facts.prop_map(|(title, kind, category, for_whom, ages, colours, theme, (free, aside_here))| Thing {
        title,
        kind,
        category,
        for_whom,
        ages,
        colours,
        theme,
        free,
        aside_here,
    })
}

fn line() -> impl Strategy<Value = Option<Wanted>> {
    let category = |category| Just(Some(Wanted::Category(category)));
    prop_oneof![Just(None), category(SCHOOL), category(TOY), category(WOW), Just(Some(Wanted::Kind("pen".to_owned())))]
}

/// Whether it may be suggested, told a second time and slowly, year by year.
fn suits(facts: &BoxFacts, line: Option<&Wanted>, thing: &Thing) -> bool {
    let last = |ages: Ages| ages.to().unwrap_or(Ages::OLDEST);
    let covered = |year| thing.ages.is_none_or(|ages| (ages.from()..=last(ages)).contains(&year));
    let every_year = (facts.ages.from()..=last(facts.ages)).all(covered);
    let whom = match (thing.for_whom, facts.for_whom) {
        (None, _) => true,
        (Some(thing), giftbox) => giftbox == Some(thing),
    };
    let meets = match line {
        None => true,
        Some(Wanted::Category(Category::Wow)) => [Some(WOW), Some(TOY)].contains(&thing.category),
        Some(Wanted::Category(category)) => thing.category.as_ref() == Some(category),
        Some(Wanted::Kind(kind)) => thing.kind == Some(kind),
    };
    every_year && whom && meets && thing.free + thing.aside_here > 0
}

proptest! {
    #[test]
    fn only_what_suits_and_all_of_it(
        things in prop::collection::vec(thing(), 0..30), line in line(), whom in whom(), ages in some_ages(),
    ) {
        let facts = BoxFacts { for_whom: whom, ages, ..ocean() };
        let wish = Wish { facts: &facts, line: line.as_ref(), inside: &[], gaps: &[] };
        let found = suggest(&wish, things.iter().map(Thing::seen).enumerate(), 100);
        let mut indices: Vec<usize> = found.iter().map(|found| found.index).collect();
        indices.sort_unstable();
        let fitting = |(_, thing): &(usize, &Thing)| suits(&facts, line.as_ref(), thing);
        let expected: Vec<usize> = things.iter().enumerate().filter(fitting).map(|(index, _)| index).collect();
        prop_assert_eq!(indices, expected);
        for (index, thing) in things.iter().enumerate() {
            let suggested = found.iter().any(|found| found.index == index);
            prop_assert_eq!(misfit(&wish, &thing.seen()).is_none(), suggested);
        }
    }

    #[test]
    fn neither_order_nor_strangers_nor_a_limit_change_what_comes_first(
        things in prop::collection::vec(thing(), 0..30), line in line(), turn in 0_usize..30, limit in 0_usize..8,
    ) {
        let facts = ocean();
        let there = [inside(&SCHOOL, "pencil", "pencil")];
        let gaps = [gap(school(), 2, 1)];
        let wish = Wish { facts: &facts, line: line.as_ref(), inside: &there, gaps: &gaps };
        let all = suggest(&wish, things.iter().map(Thing::seen).enumerate(), 100);
        let mut turned: Vec<(usize, &Thing)> = things.iter().enumerate().rev().collect();
        turned.rotate_left(turn.min(things.len()));
        turned.retain(|(_, thing)| suits(&facts, line.as_ref(), thing));
        let again = suggest(&wish, turned.iter().map(|(index, thing)| (*index, thing.seen())), limit);
        prop_assert_eq!(&again[..], &all[..limit.min(all.len())]);
    }
}
