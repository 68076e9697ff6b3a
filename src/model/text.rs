//! Words that come from outside: cleaning, and one form for comparing.

use super::measure::Units;

/// Drops what must never reach a terminal (escape sequences, control characters, text-direction
/// overrides) and makes every kind of white space a plain space.
pub fn clean(typed: &str) -> String {
    let mut out = String::with_capacity(typed.len());
    let mut chars = typed.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '\u{1b}' => skip_escape(&mut chars),
            '\u{9b}' => skip_control_sequence(&mut chars),
            '\u{90}' | '\u{98}' | '\u{9d}'..='\u{9f}' => skip_string(&mut chars),
            '\t' | '\r' | '\n' | '\u{b}' | '\u{c}' | '\u{85}' => out.push(' '),
            c if c.is_control() || is_direction(c) => {}
            c => out.push(c),
        }
    }
    out
}

type Chars<'a> = std::iter::Peekable<std::str::Chars<'a>>;

/// After ESC: a control sequence, a string command, or one more character.
fn skip_escape(chars: &mut Chars<'_>) {
    match chars.peek() {
        Some('[') => {
            chars.next();
            skip_control_sequence(chars);
        }
        Some(']' | 'P' | 'X' | '^' | '_') => {
            chars.next();
            skip_string(chars);
        }
        Some(' '..='/') => {
            while chars.next_if(|c| (' '..='/').contains(c)).is_some() {}
            chars.next_if(|c| ('0'..='~').contains(c));
        }
        Some('0'..='~') => {
            chars.next();
        }
        _ => {}
    }
}

/// Parameters and intermediates, then one final character (ECMA-48, section 5.4).
fn skip_control_sequence(chars: &mut Chars<'_>) {
    while chars.next_if(|c| (' '..='?').contains(c)).is_some() {}
    chars.next_if(|c| ('@'..='~').contains(c));
}

/// Up to the string terminator, a bell, or the end of the line.
fn skip_string(chars: &mut Chars<'_>) {
    while let Some(c) = chars.next_if(|&c| c != '\n') {
        match c {
            '\u{7}' | '\u{9c}' => return,
            '\u{1b}' => {
                chars.next_if_eq(&'\\');
                return;
            }
            _ => {}
        }
    }
}

/// Marks that turn the direction of text (Unicode Standard Annex 9).
fn is_direction(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// One form for comparing names: lower case, single spaces, nothing around it.
pub fn normal(name: &str) -> String {
    name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Names in a sentence: `a`, `a and b`, `a; b, blue and c`.
pub fn listed(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [before @ .., last] => format!("{} and {last}", before.join(joint(names))),
    }
}

/// Where names have commas of their own, semicolons part them.
fn joint(names: &[String]) -> &'static str {
    if names.iter().any(|name| name.contains(',')) { "; " } else { ", " }
}

/// The same; of more than `most` names only the first `shown`, and how many more: `a, b and 5 more`.
pub fn listed_up_to(names: &[String], most: usize, shown: usize) -> String {
    if names.len() <= most {
        return listed(names);
    }
    let rest = names.len().saturating_sub(shown);
    format!("{} and {rest} more", names[..names.len() - rest].join(joint(names)))
}

/// A word with a number, `s` added where it is not one: `1 box`, `3 boxes`.
pub fn counted(count: u64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

/// Things that come in pairs, or have no singular: one of them is called what many are.
const ALWAYS_MANY: &[&str] = &[
    "socks",
    "shoes",
    "sandals",
    "slippers",
    "boots",
    "flops",
    "sneakers",
    "trainers",
    "gloves",
    "mittens",
    "scissors",
    "shorts",
    "pants",
    "trousers",
    "leggings",
    "tights",
    "jeans",
    "pyjamas",
    "pajamas",
    "glasses",
    "sunglasses",
    "goggles",
    "clothes",
    "underpants",
    "binoculars",
    "headphones",
    "tweezers",
    "dominoes",
    "paints",
    "chess",
];

/// How many of what: `1 comb, green`, `3 combs, green`, `1 socks, striped`.
pub fn things_of(units: Units, title: &str) -> String {
    if units == Units::ONE { format!("1 {}", one_of(title)) } else { format!("{units} {title}") }
}

/// The title for one thing, where it was typed for many: its head noun in the singular.
pub fn one_of(title: &str) -> String {
    let ends = [",", " with ", " of ", " for ", " in ", " and "];
    let head = ends.iter().filter_map(|end| title.find(end)).min().unwrap_or(title.len());
    let start = title[..head].rfind(' ').map_or(0, |space| space + 1);
    let noun = &title[start..head];
    if ALWAYS_MANY.contains(&noun) {
        return title.to_owned();
    }
    let stem = |ending: &str| noun.strip_suffix(ending).filter(|stem| stem.chars().count() > 2);
    let one = if let Some(stem) = stem("ies") {
        format!("{stem}y")
    } else if ["shes", "ches", "xes", "sses"].iter().any(|ending| noun.ends_with(ending)) {
        noun[..noun.len() - 2].to_owned()
    } else {
        let plain = stem("s").filter(|stem| !stem.ends_with(['s', 'u', 'i']));
        plain.unwrap_or(noun).to_owned()
    };
    format!("{}{one}{}", &title[..start], &title[head..])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_of_many() {
        for (many, one) in [
            ("combs, green", "1 comb, green"),
            ("toothbrushes with covers", "1 toothbrush with covers"),
            ("socks, striped", "1 socks, striped"),
            ("jump ropes, red", "1 jump rope, red"),
            ("pouches", "1 pouch"),
            ("toy bus", "1 toy bus"),
            ("puppies", "1 puppy"),
            ("dress", "1 dress"),
            ("pencils, a bundle", "1 pencil, a bundle"),
            ("櫛", "1 櫛"),
        ] {
            assert_eq!(things_of(Units::ONE, many), one);
        }
        assert_eq!(things_of(Units::new(3).unwrap(), "combs"), "3 combs");
    }

    #[test]
    fn nothing_that_moves_a_terminal_gets_through() {
        assert_eq!(clean("\u{1b}[31mred\u{1b}[0m comb"), "red comb");
        assert_eq!(clean("\u{9b}2Jcomb"), "comb");
        assert_eq!(clean("a\u{1b}]0;title\u{7}b"), "ab");
        assert_eq!(clean("a\u{1b}]0;title\u{1b}\\b"), "ab");
        assert_eq!(clean("co\u{202e}mb\u{0}\u{7f}"), "comb");
        assert_eq!(clean("2\tcombs\u{b}.50\r"), "2 combs .50 ");
        assert_eq!(clean("\u{1b}"), "");
        assert_eq!(clean("\u{1b}(Bcomb"), "comb");
    }
}
