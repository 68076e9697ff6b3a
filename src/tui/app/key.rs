//! Keys and whatever else comes in from outside, free of any terminal library.

use std::fmt;

use crate::tui::back::Reply;

/// A key, as far as this program tells keys apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Key {
    /// A letter, digit or sign, with Shift already in it.
    Char(char),
    /// Ctrl with a letter.
    Ctrl(char),
    /// A function key.
    F(u8),
    /// Enter.
    Enter,
    /// Esc.
    Esc,
    /// Tab.
    Tab,
    /// Shift with Tab.
    BackTab,
    /// ↑
    Up,
    /// ↓
    Down,
    /// ←
    Left,
    /// →
    Right,
    /// Home.
    Home,
    /// End.
    End,
    /// A page up.
    PageUp,
    /// A page down.
    PageDown,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
}

const NAMES: &[(Key, &str)] = &[
    (Key::Enter, "Enter"),
    (Key::Esc, "Esc"),
    (Key::Tab, "Tab"),
    (Key::BackTab, "Shift-Tab"),
    (Key::Up, "↑"),
    (Key::Down, "↓"),
    (Key::Left, "←"),
    (Key::Right, "→"),
    (Key::Home, "Home"),
    (Key::End, "End"),
    (Key::PageUp, "PgUp"),
    (Key::PageDown, "PgDn"),
    (Key::Backspace, "Backspace"),
    (Key::Delete, "Delete"),
    (Key::Char(' '), "Space"),
    (Key::Char('-'), "−"),
];

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((_, name)) = NAMES.iter().find(|(key, _)| key == self) {
            return f.write_str(name);
        }
        match self {
            Key::Char(c) => write!(f, "{c}"),
            Key::Ctrl(c) => write!(f, "Ctrl-{}", c.to_ascii_uppercase()),
            Key::F(n) => write!(f, "F{n}"),
            // All others have a name in the list.
            _ => Ok(()),
        }
    }
}

impl Key {
    /// The key of this name, as [`Key`] tells it; a plain minus and small letters in longer names will do.
    pub fn of_name(name: &str) -> Option<Key> {
        let mut chars = name.chars();
        if let (Some(c), None) = (chars.next(), chars.next()) {
            let named = NAMES.iter().find(|(_, told)| *told == name);
            return named.map(|(key, _)| *key).or_else(|| (!c.is_control()).then_some(Key::Char(c)));
        }
        if let Some((key, _)) = NAMES.iter().find(|(_, told)| told.eq_ignore_ascii_case(name)) {
            return Some(*key);
        }
        let lower = name.to_lowercase();
        if let Some(number) = lower.strip_prefix('f') {
            return number.parse().ok().filter(|n| (1..=12).contains(n)).map(Key::F);
        }
        let letter = lower.strip_prefix("ctrl-").filter(|letter| letter.len() == 1)?.chars().next()?;
        letter.is_ascii_lowercase().then_some(Key::Ctrl(letter))
    }

    /// The key for which a terminal sends the same; it can't be told from this one.
    pub fn comes_as(self) -> Option<Key> {
        match self {
            Key::Ctrl('h') => Some(Key::Backspace),
            Key::Ctrl('i') => Some(Key::Tab),
            Key::Ctrl('m') => Some(Key::Enter),
            _ => None,
        }
    }

    /// Whether it means the same for everybody: arrows, digits, Enter, Esc.
    pub fn is_fixed(self) -> bool {
        let arrow = matches!(self, Key::Up | Key::Down | Key::Left | Key::Right);
        arrow || matches!(self, Key::Enter | Key::Esc) || matches!(self, Key::Char('0'..='9'))
    }
}

/// What a spot on the screen stands for, so that a mouse can do what keys do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hit {
    /// A row of a part of the screen.
    Row {
        /// Which part, from the left.
        part: usize,
        /// Which row, from the top of the list.
        row: usize,
    },
    /// A row offered under the open line.
    Offer(usize),
    /// A key shown at the foot.
    Press(Key),
    /// The closed line.
    Line,
}

/// Whatever comes in.
#[derive(Debug)]
pub enum Input {
    /// A key was pressed.
    Key(Key),
    /// A text was pasted.
    Paste(String),
    /// What an editor made of the words it was given, or why there is none.
    Edited(Result<String, String>),
    /// The mouse was clicked on something.
    Click(Hit),
    /// The wheel was turned by so many rows.
    Wheel(isize),
    /// The terminal has another size now: columns, rows.
    Resize(u16, u16),
    /// The season, or the search, answers.
    Told(Box<Reply>),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_named_as_people_name_them() {
        let names = [Key::Char('a'), Key::Char(' '), Key::Ctrl('r'), Key::F(5), Key::BackTab, Key::Char('-')];
        let names: Vec<String> = names.iter().map(ToString::to_string).collect();
        assert_eq!(names, ["a", "Space", "Ctrl-R", "F5", "Shift-Tab", "−"]);
    }

    #[test]
    fn every_key_is_found_by_its_name() {
        let plain =
            [Key::Char('a'), Key::Char('Z'), Key::Char('*'), Key::Char('é'), Key::F(1), Key::F(12), Key::Ctrl('r')];
        for key in NAMES.iter().map(|(key, _)| *key).chain(plain) {
            assert_eq!(Key::of_name(&key.to_string()), Some(key), "{key}");
        }
        assert_eq!(Key::of_name("-"), Some(Key::Char('-')));
        assert_eq!(Key::of_name("ctrl-R"), Some(Key::Ctrl('r')));
        assert_eq!(Key::of_name("pgup"), Some(Key::PageUp));
        for none in ["", "F0", "F13", "Ctrl-", "Ctrl-5", "Ctrl-ab", "Alt-a", "ab", "\u{7}", "Hyper"] {
            assert_eq!(Key::of_name(none), None, "{none}");
        }
    }
}
