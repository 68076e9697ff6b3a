//! Finding among very many things while somebody types.
//!
//! Each thing has a few marks, which say without a look at its words what it can't answer. Only
//! what they let pass is read.

use std::cell::RefCell;
use std::cmp::Reverse;
use std::collections::HashMap;

use fuzzy_matcher::skim::SkimMatcherV2;

use super::{Closeness, parts, slip, slips, words};
use crate::catalogue::same_word;

/// A thing that can be searched for. Its words are in lower case but for Latin letters of a size.
pub trait Sought {
    /// What it is called.
    fn title(&self) -> &str;
    /// More words by which it may be asked for.
    fn more(&self) -> impl Iterator<Item = &str>;
    /// Whether it comes before others that answer as well.
    fn first(&self) -> bool;
}

/// What can be told of a thing without reading its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Marks {
    /// The first two letters of each word, hashed.
    pairs: u64,
    /// The letters that its words begin with.
    initials: u32,
    /// The letters that words of its title begin with.
    title_initials: u32,
    /// The letters in its title.
    letters: u32,
    /// Letters of its title.
    length: u16,
    /// Whether it comes before others that answer as well.
    first: bool,
}

impl Marks {
    /// The marks of a thing.
    pub fn of(sought: &impl Sought) -> Marks {
        let length = u16::try_from(sought.title().len()).unwrap_or(u16::MAX);
        let first = sought.first();
        let mut marks = Marks { pairs: 0, letters: 0, initials: 0, title_initials: 0, length, first };
        for print in parts(sought.title()).map(Print::of) {
            marks.pairs |= print.pair;
            marks.title_initials |= print.initial;
            marks.letters |= print.letters;
        }
        marks.initials = marks.title_initials;
        for print in sought.more().flat_map(parts).map(Print::of) {
            marks.pairs |= print.pair;
            marks.initials |= print.initial;
        }
        marks
    }
}

/// What a word sets among the marks.
#[derive(Debug, Clone, Copy, Default)]
struct Print {
    pair: u64,
    letters: u32,
    initial: u32,
    second: u32,
}

impl Print {
    fn of(word: &str) -> Print {
        let mut letters = word.chars();
        let (one, two) = (letters.next(), letters.next());
        Print {
            pair: one.zip(two).map(|(one, two)| pair(one, two)).unwrap_or_default(),
            letters: word.chars().map(letter).fold(0, |all, one| all | one),
            initial: one.map(letter).unwrap_or_default(),
            second: two.map(letter).unwrap_or_default(),
        }
    }
}

/// A word of a query.
#[derive(Debug)]
struct Asked {
    text: String,
    length: usize,
    print: Print,
    /// Words that were compared with it, and whether it may be a slip of them: many things share their words.
    compared: RefCell<HashMap<String, bool>>,
}

impl Asked {
    fn new(text: String) -> Asked {
        Asked { length: text.chars().count(), print: Print::of(&text), text, compared: RefCell::default() }
    }

    /// Whether it is one letter from a to z, of which marks tell all.
    fn is_a_letter(&self) -> bool {
        matches!(self.text.as_bytes(), [b'a'..=b'z'])
    }

    /// Whether a word of it may begin with this one.
    fn may_begin(&self, marks: &Marks) -> bool {
        marks.initials & self.print.initial == self.print.initial && marks.pairs & self.print.pair == self.print.pair
    }

    /// Whether the title may have all letters, the first one where a word begins.
    fn may_spell(&self, marks: &Marks) -> bool {
        self.length > 2 && marks.title_initials & self.print.initial != 0 && self.may_hold(marks)
    }

    fn may_hold(&self, marks: &Marks) -> bool {
        self.length > 1 && marks.letters & self.print.letters == self.print.letters
    }

    /// Whether a word of the title may be this one but for a slip, which seldom is in the first two letters both.
    fn may_slip(&self, marks: &Marks) -> bool {
        let missing = (self.print.letters & !marks.letters).count_ones() as usize;
        missing <= slips(&self.text) && marks.title_initials & (self.print.initial | self.print.second) != 0
    }

    /// Whether a word is this one but for a slip; what differs too much for that is told apart at once.
    fn slipped(&self, word: &str) -> bool {
        let begins = word.chars().next().map(letter).unwrap_or_default();
        let near = begins & (self.print.initial | self.print.second) != 0
            && self.length.abs_diff(word.chars().count()) <= slips(&self.text);
        if !near {
            return false;
        }
        let mut compared = self.compared.borrow_mut();
        if let Some(known) = compared.get(word) {
            return *known;
        }
        let slipped = slip(&self.text, word);
        compared.insert(word.to_owned(), slipped);
        slipped
    }

    /// Over how many letters of the text its own are spread, in order, from where a word begins.
    fn spread(&self, text: &str) -> Option<usize> {
        // The first beginning leaves the most letters behind it.
        let begin = parts(text).find(|word| word.chars().next() == self.text.chars().next())?;
        let mut rest = text.get(text.find(begin)?..)?.chars();
        let all = rest.clone().count();
        let in_order = self.text.chars().all(|c| rest.any(|other| other == c));
        in_order.then(|| all - rest.count())
    }
}

/// A bit for a letter: one each from a to z, the digits by twos, the rest together.
fn letter(c: char) -> u32 {
    match c.to_ascii_lowercase() {
        c @ 'a'..='z' => 1 << (u32::from(c) - u32::from('a')),
        c @ '0'..='9' => 1 << (26 + (u32::from(c) - u32::from('0')) / 2),
        _ => 1 << 31,
    }
}

fn pair(one: char, two: char) -> u64 {
    let [one, two] = [one, two].map(|c| u64::from(u32::from(c.to_ascii_lowercase())));
    1 << (one.wrapping_mul(31).wrapping_add(two).wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 58)
}

/// An answer; the least is the best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Answer {
    closeness: Closeness,
    /// Letters inside a word stand before letters here and there.
    scattered: Option<Reverse<i64>>,
    later: bool,
    length: u16,
    place: u32,
}

/// The places of the things that answer to all words, best first. The grades are those of
/// [`super::find`]; of equal ones what comes first, then what is shorter, then what stands before.
///
/// Letters inside words are looked for when words alone don't fill the list; letters here and
/// there, and slips, only when nothing else answers. Both are looked for in titles alone.
pub fn best<T: Sought>(query: &str, marks: &[Marks], thing: impl Fn(usize) -> Option<T>, limit: usize) -> Vec<usize> {
    let asked: Vec<Asked> = words(query).into_iter().map(Asked::new).collect();
    if asked.is_empty() || limit == 0 {
        return Vec::new();
    }
    let mut search = Search { asked: &asked, marks, thing, text: String::new(), answers: Vec::new() };
    if let [one] = asked.as_slice()
        && one.is_a_letter()
    {
        return search.by_a_letter(one, limit);
    }
    search.by_words();
    if search.answers.is_empty() || (search.answers.len() < limit && asked.iter().all(|asked| asked.length > 2)) {
        search.inside_words();
    }
    if search.answers.is_empty() {
        search.by_letters();
    }
    search.first(limit)
}

struct Search<'a, F> {
    asked: &'a [Asked],
    marks: &'a [Marks],
    thing: F,
    /// Words of the thing being looked at, in lower case.
    text: String,
    answers: Vec<Answer>,
}

impl<T: Sought, F: Fn(usize) -> Option<T>> Search<'_, F> {
    fn each(
        &mut self,
        may: impl Fn(&Asked, &Marks) -> bool,
        grade: impl Fn(&[Asked], &mut String, &T) -> Option<(Closeness, Option<Reverse<i64>>)>,
    ) {
        for (place, marks) in (0_u32..).zip(self.marks) {
            if !self.asked.iter().all(|asked| may(asked, marks)) {
                continue;
            }
            let Some(thing) = (self.thing)(place as usize) else { continue };
            spell(&mut self.text, thing.title());
            if let Some((closeness, scattered)) = grade(self.asked, &mut self.text, &thing) {
                let (later, length) = (!marks.first, marks.length);
                self.answers.push(Answer { closeness, scattered, later, length, place });
            }
        }
    }

    /// One letter: the marks alone say what begins so.
    fn by_a_letter(&self, asked: &Asked, limit: usize) -> Vec<usize> {
        let begins = (0_u32..).zip(self.marks).filter(|(_, marks)| asked.may_begin(marks));
        let mut order: Vec<(bool, u16, u32)> =
            begins.map(|(place, marks)| (!marks.first, marks.length, place)).collect();
        // Mostly the first few of them are let through, and the rest need not be sorted.
        let some = limit.saturating_mul(4);
        if some < order.len() {
            order.select_nth_unstable(some);
        }
        let middle = some.min(order.len());
        let (first, rest) = order.split_at_mut(middle);
        first.sort_unstable();
        let place = |(_, _, place): &(bool, u16, u32)| *place as usize;
        let there = |place: &usize| (self.thing)(*place).is_some();
        let mut places: Vec<usize> = first.iter().map(place).filter(there).take(limit).collect();
        if places.len() < limit {
            rest.sort_unstable();
            places.extend(rest.iter().map(place).filter(there).take(limit - places.len()));
        }
        places
    }

    fn by_words(&mut self) {
        self.each(Asked::may_begin, |asked, text, thing| {
            let title = text.len();
            thing.more().for_each(|more| spell_on(text, more));
            by_words(asked, text, title).map(|grade| (grade, None))
        });
    }

    fn inside_words(&mut self) {
        let before = self.answers.len();
        self.each(Asked::may_hold, |asked, title, _| {
            asked.iter().all(|asked| title.contains(&asked.text)).then_some((Closeness::Letters, None))
        });
        self.keep_first(before);
    }

    fn by_letters(&mut self) {
        self.each(Asked::may_spell, |asked, title, _| {
            let spread: Option<usize> = asked.iter().map(|asked| asked.spread(title)).sum();
            Some((Closeness::Letters, Some(Reverse(-i64::try_from(spread?).unwrap_or(i64::MAX)))))
        });
        self.score_the_closest();
        let before = self.answers.len();
        // Most slips leave the first two letters as they are.
        self.by_slips(|asked, marks| asked.may_begin(marks) && asked.may_slip(marks));
        self.keep_first(before);
        if self.answers.is_empty() {
            self.by_slips(Asked::may_slip);
        }
    }

    /// Scores those whose letters are close together, as the rest would hardly score enough; scoring takes its time.
    fn score_the_closest(&mut self) {
        const SCORED: usize = 500;
        if self.answers.len() > SCORED {
            self.answers.select_nth_unstable(SCORED);
            self.answers.truncate(SCORED);
        }
        let matcher = SkimMatcherV2::default();
        let mut answers = std::mem::take(&mut self.answers);
        answers.retain_mut(|answer| {
            let Some(thing) = (self.thing)(answer.place as usize) else { return false };
            spell(&mut self.text, thing.title());
            let score = scattered(self.asked, &self.text, &matcher);
            answer.scattered = score.map(Reverse);
            score.is_some()
        });
        answers.sort_unstable_by_key(|answer| answer.place);
        self.answers = answers;
    }

    fn by_slips(&mut self, may: impl Fn(&Asked, &Marks) -> bool) {
        self.each(may, |asked, title, _| {
            let all = asked.iter().all(|asked| parts(title).any(|word| asked.slipped(word)));
            all.then_some((Closeness::Slip, None))
        });
    }

    /// Drops later answers of things that answered `before`. Each pass goes over the things in their order.
    fn keep_first(&mut self, before: usize) {
        let mut later = self.answers.split_off(before);
        later.retain(|answer| self.answers.binary_search_by_key(&answer.place, |earlier| earlier.place).is_err());
        self.answers.append(&mut later);
    }

    fn first(mut self, limit: usize) -> Vec<usize> {
        if limit < self.answers.len() {
            self.answers.select_nth_unstable(limit);
            self.answers.truncate(limit);
        }
        self.answers.sort_unstable();
        self.answers.iter().map(|answer| answer.place as usize).collect()
    }
}

/// Writes a text in lower case in place of another one.
fn spell(text: &mut String, words: &str) {
    text.clear();
    text.push_str(words);
    text.make_ascii_lowercase();
}

/// Writes more words behind a text, in lower case.
fn spell_on(text: &mut String, words: &str) {
    text.push(' ');
    let from = text.len();
    text.push_str(words);
    if let Some(new) = text.get_mut(from..) {
        new.make_ascii_lowercase();
    }
}

fn by_words(asked: &[Asked], text: &str, title: usize) -> Option<Closeness> {
    let mut whole = true;
    for asked in asked {
        let mut begins = false;
        let mut same = false;
        for word in parts(text) {
            same |= same_form(&asked.text, word);
            begins |= same || word.starts_with(&asked.text);
        }
        if !begins {
            return None;
        }
        whole &= same;
    }
    if !whole {
        return Some(Closeness::Beginnings);
    }
    let mut named = text.get(..title).map(parts).into_iter().flatten();
    let same = asked.iter().all(|asked| named.next().is_some_and(|word| same_form(&asked.text, word)));
    Some(if same && named.next().is_none() { Closeness::Same } else { Closeness::Words })
}

/// [`same_word`], with what can't be forms of one word told apart at once.
fn same_form(asked: &str, word: &str) -> bool {
    let near = asked.len().abs_diff(word.len()) <= 3 && (asked.ends_with('s') || word.ends_with('s'));
    asked == word || (near && same_word(asked, word))
}

/// The summed score of all words, if each scores well for its length: scattered letters are no answer.
fn scattered(asked: &[Asked], text: &str, matcher: &SkimMatcherV2) -> Option<i64> {
    let one = |asked: &Asked| super::letters_score(&asked.text, text, matcher);
    asked.iter().map(one).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::find::{Name, find};

    struct Thing(&'static str, &'static str, bool);

    impl Sought for &Thing {
        fn title(&self) -> &str {
            self.0
        }

        fn more(&self) -> impl Iterator<Item = &str> {
            std::iter::once(self.1)
        }

        fn first(&self) -> bool {
            self.2
        }
    }

    const THINGS: [Thing; 10] = [
        Thing("brush", "brush shelf 2", false),
        Thing("comb, teal", "comb tote 4", true),
        Thing("comb, teal and coral", "comb tote 4", true),
        Thing("glue stick", "glue", true),
        Thing("notebook", "notebook ocean girl", true),
        Thing("notebook, teal", "notebook tote 4", false),
        Thing("t-shirt, size M", "t-shirt boy", true),
        Thing("toothbrush", "toothbrush tote 4", true),
        Thing("toothbrush holder", "tote 4", true),
        Thing("櫛", "comb", true),
    ];

    fn found(query: &str) -> Vec<&'static str> {
        let marks: Vec<Marks> = THINGS.iter().map(|thing| Marks::of(&thing)).collect();
        let places = best(query, &marks, |place| THINGS.get(place), 50);
        places.into_iter().map(|place| THINGS[place].0).collect()
    }

    #[test]
    fn what_is_called_so_stands_before_what_begins_so_and_what_holds_it() {
        assert_eq!(found("toothbrushes"), ["toothbrush", "toothbrush holder"]);
        assert_eq!(found("brush"), ["brush", "toothbrush", "toothbrush holder"]);
        assert_eq!(found("tooth hold"), ["toothbrush holder"]);
        assert_eq!(found("teal comb"), ["comb, teal", "comb, teal and coral"]);
        assert_eq!(found("ocean notebooks"), ["notebook"]);
        assert_eq!(found("size m"), ["t-shirt, size M"]);
        assert_eq!(found("櫛"), ["櫛"]);
        assert!(found("").is_empty() && found(" , ").is_empty() && found("zebra").is_empty());
    }

    #[test]
    fn what_is_on_hand_stands_before_what_is_not_and_short_before_long() {
        assert_eq!(found("teal"), ["comb, teal", "comb, teal and coral", "notebook, teal"]);
        assert_eq!(found("n"), ["notebook", "notebook, teal"]);
        let marks: Vec<Marks> = THINGS.iter().map(|thing| Marks::of(&thing)).collect();
        assert_eq!(best("t", &marks, |place| THINGS.get(place).filter(|thing| !thing.2), 1), [5]);
    }

    #[test]
    fn letters_and_slips_are_found_where_nothing_else_is() {
        assert_eq!(found("tbrsh"), ["toothbrush", "toothbrush holder"]);
        assert_eq!(found("tootbhrush"), ["toothbrush", "toothbrush holder"]);
        assert_eq!(found("glux"), ["glue stick"]);
        assert_eq!(found("notebok teal"), ["notebook, teal"]);
    }

    #[test]
    fn a_limit_keeps_the_best() {
        let marks: Vec<Marks> = THINGS.iter().map(|thing| Marks::of(&thing)).collect();
        assert_eq!(best("comb", &marks, |place| THINGS.get(place), 2), [9, 1]);
        assert!(best("comb", &marks, |place| THINGS.get(place), 0).is_empty());
        let kept = best("comb", &marks, |place| THINGS.get(place).filter(|thing| thing.2 && thing.0.len() > 12), 9);
        assert_eq!(kept, [2]);
    }

    /// What the slow search grades by whole words and beginnings, the marks let pass and grade alike.
    #[test]
    fn the_slow_search_agrees_on_words() {
        let names: Vec<Name> = THINGS.iter().map(|thing| Name::new(thing.0, thing.1)).collect();
        let words: Vec<String> = THINGS.iter().flat_map(|thing| words(&format!("{} {}", thing.0, thing.1))).collect();
        for word in &words {
            for end in word.char_indices().map(|(at, c)| at + c.len_utf8()) {
                for query in [word[..end].to_owned(), format!("{} {}", &word[..end], words[0])] {
                    let slow = find(&query, &names);
                    let mut slow: Vec<_> = slow.iter().filter(|hit| hit.closeness < Closeness::Letters).collect();
                    slow.sort_by_key(|hit| hit.index);
                    let quick = found(&query);
                    for hit in &slow {
                        assert!(quick.contains(&THINGS[hit.index].0), "{query}: {}", THINGS[hit.index].0);
                    }
                    let first = slow.iter().map(|hit| hit.closeness).min();
                    let best = quick.first().map(|name| THINGS.iter().position(|thing| thing.0 == *name).unwrap());
                    if let Some(first) = first {
                        let best = slow.iter().find(|hit| Some(hit.index) == best).map(|hit| hit.closeness);
                        assert_eq!(best, Some(first), "{query}");
                    }
                }
            }
        }
    }
}
