//! From a key to what it does, in each of the three gestures.

use super::action::Action;
use super::key::Key;
use super::table::{Bound, Kind, Row, TABLE};

/// How keys are taken at the moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gesture {
    /// A letter acts.
    Looking,
    /// The line is open: letters and digits are text.
    Writing,
    /// A question stands: a digit answers.
    Asked,
}

/// An action with the number its key means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Press {
    /// What to do.
    pub action: Action,
    /// A direction, or which one; 0 where that says nothing.
    pub n: i8,
}

impl Press {
    /// An action by name, without a key.
    pub fn named(action: Action) -> Press {
        Press { action, n: 0 }
    }
}

/// What a key means; none where it is text, or nothing at all.
pub fn press(key: Key, gesture: Gesture) -> Option<Press> {
    let bound = |row: &Row| -> &'static [Bound] {
        match gesture {
            Gesture::Looking => row.looking,
            Gesture::Writing => row.writing,
            Gesture::Asked => row.asked,
        }
    };
    TABLE.iter().find_map(|row| {
        let (_, n) = bound(row).iter().find(|(of, _)| *of == key)?;
        Some(Press { action: row.action, n: *n })
    })
}

/// Why an action can't be done on a screen at all.
pub fn not_here(row: &Row, kind: Kind) -> Option<String> {
    if row.is_on(kind) {
        return None;
    }
    Some(match row.action {
        Action::Leave => "q leaves from home; Esc goes back there.".to_owned(),
        _ => format!("{}: not on this screen. ? shows what can be done here.", row.label),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_acts_only_while_one_looks() {
        assert_eq!(press(Key::Char('u'), Gesture::Looking), Some(Press { action: Action::Undo, n: 0 }));
        assert_eq!(press(Key::Char('u'), Gesture::Writing), None);
        assert_eq!(press(Key::F(5), Gesture::Writing), Some(Press { action: Action::Undo, n: 0 }));
        assert_eq!(press(Key::Char('3'), Gesture::Asked), Some(Press { action: Action::Choose, n: 3 }));
        assert_eq!(press(Key::Char('3'), Gesture::Writing), None);
    }
}
