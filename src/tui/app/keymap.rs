//! From a key to what it does, in each of the three gestures: the keys of the table, and those that
//! were moved on this computer.

use super::action::Action;
use super::key::Key;
use super::table::{self, Bound, Group, Kind, Row, TABLE};

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

/// What a name in the settings stands for: an action or, where it goes two ways, one of them.
#[derive(Debug, Clone, Copy)]
pub struct Way {
    row: &'static Row,
    n: i8,
}

/// Which keys do what. Only keys while one looks can be moved: while one writes and while a question
/// stands, all keys are where the table has them.
#[derive(Debug, Clone, Default)]
pub struct Keymap {
    moved: Vec<(Action, Vec<Bound>)>,
}

impl Keymap {
    /// The keys of an action in a gesture.
    pub fn bound(&self, row: &'static Row, gesture: Gesture) -> &[Bound] {
        match gesture {
            Gesture::Looking => {
                let moved = self.moved.iter().find(|(action, _)| *action == row.action);
                moved.map_or(row.looking, |(_, keys)| keys)
            }
            Gesture::Writing => row.writing,
            Gesture::Asked => row.asked,
        }
    }

    /// What a key means; none where it is text, or nothing at all.
    pub fn press(&self, key: Key, gesture: Gesture) -> Option<Press> {
        TABLE.iter().find_map(|row| {
            let (_, n) = self.bound(row, gesture).iter().find(|(of, _)| *of == key)?;
            Some(Press { action: row.action, n: *n })
        })
    }

    /// The first key of an action in a gesture.
    pub fn first(&self, action: Action, gesture: Gesture) -> Option<Key> {
        self.bound(table::row(action), gesture).first().map(|(key, _)| *key)
    }

    /// All keys of an action as people read them: `a F2`.
    pub fn names(&self, row: &'static Row) -> String {
        let mut names: Vec<String> = Vec::new();
        let looking = self.bound(row, Gesture::Looking);
        for (key, _) in looking.iter().chain(row.writing) {
            let name = key.to_string();
            if !names.contains(&name) {
                names.push(name);
            }
        }
        // Nine digits are told as a range.
        if names.first().is_some_and(|name| name == "1") {
            return "1–9".to_owned();
        }
        names.join(" ")
    }

    /// How an action is done while one looks, in a sentence: its key, or `: "its name"`.
    pub fn told(&self, action: Action) -> String {
        match self.first(action, Gesture::Looking) {
            Some(key) => key.to_string(),
            None => self.by_name(action),
        }
    }

    /// How an action is done by its name: `: "came back"`.
    pub fn by_name(&self, action: Action) -> String {
        let colon = self.first(Action::Actions, Gesture::Looking).unwrap_or(Key::Char(':'));
        format!("{colon} \"{}\"", table::row(action).label)
    }

    /// Gives an action these keys in place of those it has while one looks. What everybody finds in
    /// one place (arrows, digits, Enter, Esc) stays there.
    pub fn give(&mut self, way: Way, keys: &[Key]) {
        let Way { row, n } = way;
        let mut bound = self.bound(row, Gesture::Looking).to_vec();
        bound.retain(|(key, old)| key.is_fixed() || old.signum() != n.signum());
        for key in keys {
            if !bound.contains(&(*key, n)) {
                bound.push((*key, n));
            }
        }
        self.moved.retain(|(action, _)| *action != row.action);
        self.moved.push((row.action, bound));
    }

    /// What else one of its keys means; to be asked when all keys are given.
    pub fn clash(&self, way: Way) -> Option<(Key, &'static Row)> {
        let own = self.bound(way.row, Gesture::Looking);
        own.iter().find_map(|(key, n)| {
            let twice = own.iter().any(|(other, m)| other == key && m != n).then_some(way.row);
            let others = || TABLE.iter().filter(|row| row.action != way.row.action);
            let looks = || others().find(|row| has(self.bound(row, Gesture::Looking), *key));
            // A function key is the same whether one looks or writes; Tab or Home never was.
            let shared = matches!(key, Key::F(_) | Key::Ctrl(_));
            let writes = || others().find(|row| shared && has(row.writing, *key));
            twice.or_else(looks).or_else(writes).map(|row| (*key, row))
        })
    }
}

fn has(bound: &[Bound], key: Key) -> bool {
    bound.iter().any(|(other, _)| *other == key)
}

/// What is put behind the name of an action for its way back.
const BACK: &str = "-back";

impl Way {
    /// What a name in the settings stands for: `undo`, `next-waiting`, `next-waiting-back`. None
    /// where nothing is called so.
    pub fn of_name(name: &str) -> Option<Way> {
        let row = |name: &str| TABLE.iter().find(|row| row.action.name() == name);
        let way = |row: &Row, sign: i8| row.looking.iter().map(|(_, n)| *n).find(|n| n.signum() == sign);
        match (row(name), name.strip_suffix(BACK).and_then(row)) {
            (Some(row), _) => Some(Way { row, n: way(row, 1).unwrap_or(0) }),
            (None, Some(row)) => way(row, -1).map(|n| Way { row, n }),
            (None, None) => None,
        }
    }

    /// Why its keys can't be moved, where they can't.
    pub fn stays(self) -> Option<&'static str> {
        match self.row.group {
            _ if self.row.action == Action::Choose => Some("digits stay where they are"),
            Group::Line => Some("it works on the open line, where keys stay as they are"),
            _ => None,
        }
    }

    /// Whether it can do without a key: whatever has none is done by its name, for which one key is needed.
    pub fn needs_a_key(self) -> bool {
        self.row.action == Action::Actions
    }
}

/// All names that the settings may give keys to.
pub fn names() -> impl Iterator<Item = String> {
    let both = TABLE.iter().flat_map(|row| [row.action.name(), row.action.name() + BACK]);
    both.filter(|name| Way::of_name(name).is_some_and(|way| way.stays().is_none()))
}

/// Why an action can't be done on a screen at all.
pub fn not_here(row: &Row, kind: Kind, keys: &Keymap) -> Option<String> {
    if row.is_on(kind) {
        return None;
    }
    Some(match row.action {
        Action::Leave => format!("{} leaves from home; Esc goes back there.", keys.told(Action::Leave)),
        _ => format!("{}: not on this screen. {} shows what can be done here.", row.label, keys.told(Action::Help)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pressed(keys: &Keymap, key: Key, gesture: Gesture) -> Option<(Action, i8)> {
        keys.press(key, gesture).map(|press| (press.action, press.n))
    }

    fn given(name: &str, keys: &[Key]) -> Keymap {
        let mut map = Keymap::default();
        map.give(Way::of_name(name).unwrap(), keys);
        map
    }

    #[test]
    fn a_letter_acts_only_while_one_looks() {
        let keys = Keymap::default();
        assert_eq!(pressed(&keys, Key::Char('u'), Gesture::Looking), Some((Action::Undo, 0)));
        assert_eq!(pressed(&keys, Key::Char('u'), Gesture::Writing), None);
        assert_eq!(pressed(&keys, Key::F(5), Gesture::Writing), Some((Action::Undo, 0)));
        assert_eq!(pressed(&keys, Key::Char('3'), Gesture::Asked), Some((Action::Choose, 3)));
        assert_eq!(pressed(&keys, Key::Char('3'), Gesture::Writing), None);
    }

    #[test]
    fn a_moved_key_works_and_the_old_one_does_not() {
        let keys = given("undo", &[Key::Char('ö'), Key::F(8)]);
        assert_eq!(pressed(&keys, Key::Char('ö'), Gesture::Looking), Some((Action::Undo, 0)));
        assert_eq!(pressed(&keys, Key::F(8), Gesture::Looking), Some((Action::Undo, 0)));
        assert_eq!(pressed(&keys, Key::Char('u'), Gesture::Looking), None);
        assert_eq!(pressed(&keys, Key::Char('ö'), Gesture::Writing), None, "a letter is text");
        assert_eq!(pressed(&keys, Key::F(5), Gesture::Writing), Some((Action::Undo, 0)));
        assert_eq!(keys.names(table::row(Action::Undo)), "ö F8 F5");
    }

    #[test]
    fn each_way_of_a_two_way_action_has_keys_of_its_own_and_arrows_stay() {
        let keys = given("move-row-back", &[Key::Char('o')]);
        assert_eq!(pressed(&keys, Key::Char('o'), Gesture::Looking), Some((Action::MoveRow, -1)));
        assert_eq!(pressed(&keys, Key::Up, Gesture::Looking), Some((Action::MoveRow, -1)));
        assert_eq!(pressed(&keys, Key::Char('j'), Gesture::Looking), Some((Action::MoveRow, 1)));
        assert_eq!(pressed(&keys, Key::Char('k'), Gesture::Looking), None);
        assert!(Way::of_name("undo-back").is_none(), "undo goes one way");
        assert_eq!(Way::of_name("box-back").unwrap().row.action, Action::BoxBack);
    }

    #[test]
    fn a_key_that_means_two_things_is_found() {
        let other = |name: &str, key| given(name, &[key]).clash(Way::of_name(name).unwrap()).map(|(_, row)| row.action);
        assert_eq!(other("undo", Key::Char('r')), Some(Action::Review));
        assert_eq!(other("undo", Key::F(1)), Some(Action::Help));
        assert_eq!(other("redraw", Key::Ctrl('w')), Some(Action::LineErase), "it rubs out while one writes");
        assert_eq!(other("next-waiting-back", Key::Char('n')), Some(Action::NextWaiting), "the other way");
        assert_eq!(other("undo", Key::Char('o')), None);
        assert_eq!(other("undo", Key::Home), Some(Action::MoveEnds));
        let mut swapped = given("undo", &[Key::Char('r')]);
        swapped.give(Way::of_name("review").unwrap(), &[Key::Char('u')]);
        assert!(swapped.clash(Way::of_name("undo").unwrap()).is_none());
        assert!(swapped.clash(Way::of_name("review").unwrap()).is_none());
    }

    #[test]
    fn what_has_no_key_is_told_by_name() {
        let keys = given("bought", &[]);
        assert_eq!(keys.told(Action::Bought), ": \"bought\"");
        assert_eq!(given("actions", &[Key::Char('!')]).by_name(Action::BoxBack), "! \"came back\"");
        assert_eq!(Keymap::default().told(Action::TakeOne), "−");
    }
}
