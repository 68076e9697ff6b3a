//! The one table of actions: dispatch, footer, help, the list of all actions and the README's
//! table of keys are made from it.

use super::action::Action;
use super::key::Key;
use super::line::Purpose;

/// Which screen it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Items, boxes, checklist.
    Home,
    /// A haul being written.
    Haul,
    /// Many lines to look through before they are saved.
    Pasted,
    /// One box being packed.
    Packing,
    /// Boxes by what they lack.
    Review,
    /// One thing with all that is known of it.
    Card,
    /// What lies in one tote.
    Tote,
    /// What to fetch from which tote.
    Pull,
    /// What was done.
    History,
    /// All hauls.
    Hauls,
    /// The last night's list.
    DropOff,
    /// What can be finished, and what to buy.
    Plan,
    /// What to be careful of.
    Careful,
    /// Whether all of a box goes in.
    Fit,
    /// The drive's rules.
    Drive,
    /// The keys.
    Help,
}

/// Where an action can be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// On every screen.
    All,
    /// On these alone.
    Only(&'static [Kind]),
}

/// Which column of the help an action stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Leads somewhere.
    Go,
    /// Does something.
    Do,
    /// Moves the selection.
    Move,
    /// Works on the open line.
    Line,
}

/// A key and the number that it means to its action: a direction, or which one.
pub type Bound = (Key, i8);

/// What the table says of an action.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// Which.
    pub action: Action,
    /// Its keys while one looks.
    pub looking: &'static [Bound],
    /// Its keys while the line is open: never a letter or a digit.
    pub writing: &'static [Bound],
    /// Its keys while a question stands.
    pub asked: &'static [Bound],
    /// Where it can be done.
    pub on: On,
    /// Its group in the help.
    pub group: Group,
    /// One to four words.
    pub label: &'static str,
    /// A sentence.
    pub help: &'static str,
}

use Action as A;
use Group::{Do, Go, Line, Move};
use Key::{
    BackTab, Backspace, Char, Ctrl, Delete, Down, End, Enter, Esc, F, Home, Left, PageDown, PageUp, Right, Tab, Up,
};
use Kind as K;
use On::{All, Only};

const NONE: &[Bound] = &[];
const DIGITS: &[Bound] = &[
    (Char('1'), 1),
    (Char('2'), 2),
    (Char('3'), 3),
    (Char('4'), 4),
    (Char('5'), 5),
    (Char('6'), 6),
    (Char('7'), 7),
    (Char('8'), 8),
    (Char('9'), 9),
];
/// Screens that show boxes or their things.
const BOXES: On = Only(&[K::Home, K::Packing, K::Review, K::Card, K::DropOff]);
const THINGS: On = Only(&[K::Home, K::Packing, K::Card, K::Tote, K::Haul]);

macro_rules! row {
    ($action:ident, $group:ident, $on:expr, $looking:expr, $writing:expr, $asked:expr, $label:expr, $help:expr) => {
        Row {
            action: A::$action,
            looking: $looking,
            writing: $writing,
            asked: $asked,
            on: $on,
            group: $group,
            label: $label,
            help: $help,
        }
    };
}

/// Every action with its keys and words, in the order in which help tells them.
#[rustfmt::skip]
pub const TABLE: &[Row] = &[
    row!(Open, Go, All, &[(Enter, 0)], NONE, NONE, "open", "Open what is selected; where there is one thing to do next, do it."),
    row!(Back, Go, All, &[(Esc, 0)], &[(Esc, 0)], &[(Esc, 0)], "back", "One step back; what was half written is kept."),
    row!(Bought, Go, All, &[(Char('a'), 0), (F(2), 0)], &[(F(2), 0)], NONE, "bought", "Open the line for a haul; it goes on with today's."),
    row!(Find, Go, All, &[(Char('/'), 0), (F(3), 0)], &[(F(3), 0)], NONE, "find", "Find a thing, a box or a tote; a slip of the finger does no harm."),
    row!(Actions, Go, All, &[(Char(':'), 0), (F(4), 0)], &[(F(4), 0)], NONE, "all actions", "Every action by name, with its key."),
    row!(Review, Go, All, &[(Char('r'), 0)], NONE, NONE, "lacks what", "Boxes and categories; 1–9 shows who lacks one."),
    row!(Fit, Go, Only(&[K::Home, K::Packing, K::Review, K::Fit]), &[(Char('f'), 0)], NONE, NONE, "does it fit", "See where each thing of a box goes and whether the lid closes; there: try more ways."),
    row!(Pull, Go, All, &[(Char('T'), 0)], NONE, NONE, "pull list", "What to fetch from which tote; a tick puts it in its box."),
    row!(DropOff, Go, All, &[(Char('d'), 0)], NONE, NONE, "last night", "What stops each box before the drop-off, and its fix."),
    row!(Plan, Go, All, &[(Char('p'), 0)], NONE, NONE, "plan", "What can be finished, what is short, what to buy."),
    row!(History, Go, All, &[(Char('U'), 0)], NONE, NONE, "what was done", "Everything done, newest first."),
    row!(Hauls, Go, All, &[(Char('H'), 0)], NONE, NONE, "hauls", "Every haul, and whether it adds up to its receipt."),
    row!(Drive, Go, All, NONE, NONE, NONE, "the drive", "How your drive does it: ages, checklist, box size, dates."),
    row!(Help, Go, All, &[(Char('?'), 0), (F(1), 0)], &[(F(1), 0)], &[(F(1), 0)], "help", "The keys of this screen."),
    row!(Leave, Go, Only(&[K::Home]), &[(Char('q'), 0)], NONE, NONE, "leave", "Leave Brimful; everything is kept already."),
    row!(LeaveNow, Go, All, &[(Ctrl('c'), 0)], &[(Ctrl('c'), 0)], &[(Ctrl('c'), 0)], "leave now", "Leave from anywhere; a half-written line waits for you."),
    row!(Suspend, Go, All, &[(Ctrl('z'), 0)], &[(Ctrl('z'), 0)], &[(Ctrl('z'), 0)], "put aside", "Put Brimful aside; fg brings it back."),
    row!(Redraw, Go, All, &[(Ctrl('l'), 0)], &[(Ctrl('l'), 0)], &[(Ctrl('l'), 0)], "draw again", "Draw the screen afresh."),
    row!(MoveRow, Move, All, &[(Down, 1), (Char('j'), 1), (Up, -1), (Char('k'), -1)], &[(Down, 1), (Up, -1)], NONE, "row", "To the next row or the one before; while writing, through what is offered."),
    row!(MoveCol, Move, All, &[(Right, 1), (Char('l'), 1), (Left, -1), (Char('h'), -1)], NONE, NONE, "column", "To the column beside it."),
    row!(MoveEnds, Move, All, &[(Char('g'), -1), (Home, -1), (Char('G'), 1), (End, 1)], NONE, NONE, "first, last", "To the first or last row."),
    row!(MovePage, Move, All, &[(PageDown, 1), (PageUp, -1)], &[(PageDown, 1), (PageUp, -1)], NONE, "a page", "A page on or back."),
    row!(NextPart, Move, All, &[(Tab, 1), (BackTab, -1)], NONE, NONE, "next pane", "To the next part of this screen, or the one before."),
    row!(NextWaiting, Move, All, &[(Char('n'), 1), (Char('N'), -1)], NONE, NONE, "next waiting", "To the next found, gap or doubt, or the one before."),
    row!(Choose, Move, All, DIGITS, NONE, DIGITS, "that number", "Take what has this number on the screen."),
    row!(ChooseAll, Move, All, &[(Char('0'), 0)], NONE, &[(Char('0'), 0)], "all", "All of them; to a question that can wait: don't know."),
    row!(Undo, Do, All, &[(Char('u'), 0), (F(5), 0)], &[(F(5), 0)], NONE, "undo", "Take back the last thing done, as far back as the first day."),
    row!(Redo, Do, All, &[(Ctrl('r'), 0), (Ctrl('y'), 0)], &[(Ctrl('r'), 0), (Ctrl('y'), 0)], NONE, "redo", "Do again what was taken back."),
    row!(PlanBox, Do, All, &[(Char('b'), 0)], NONE, NONE, "plan a box", "Plan one or several boxes in words: 3 girl 6-8 ocean, teal."),
    row!(Mend, Do, Only(&[K::Home, K::Haul, K::Pasted, K::Packing, K::Review, K::Card, K::Tote, K::DropOff, K::Drive, K::Fit]), &[(Char('e'), 0)], NONE, NONE, "mend", "Put its words into the line, to change them: a line, a box, a thing, its size, the drive."),
    row!(PutOne, Do, Only(&[K::Home, K::Packing, K::Review, K::Card, K::DropOff, K::Plan]), &[(Char('+'), 0)], NONE, NONE, "one in", "Put one in (the best, where none is chosen), or one into each ticked box; in a plan: what if you buy one more."),
    row!(TakeOne, Do, Only(&[K::Home, K::Packing, K::Card, K::Plan]), &[(Char('-'), 0), (Char('−'), 0)], NONE, NONE, "one out", "Take one back out; in a plan: what if you buy one fewer."),
    row!(PlanAll, Do, Only(&[K::Plan]), NONE, NONE, NONE, "set aside all that can be", "The whole plan as one list to look through, set aside by one Enter, taken back by one undo."),
    row!(Paper, Do, Only(&[K::Plan, K::Fit]), &[(Char('s'), 0)], NONE, NONE, "on paper", "What is on screen as a page: the shopping list of a plan, the order of packing a box."),
    row!(SetAside, Do, BOXES, &[(Char('z'), 0)], NONE, NONE, "set aside", "Hold it for the box, still in its tote."),
    row!(MoveBox, Do, Only(&[K::Packing]), &[(Char('>'), 0)], NONE, NONE, "to another box", "Move it to another box; it says which gap opens."),
    row!(Inside, Do, Only(&[K::Packing]), &[(Char('i'), 0)], NONE, NONE, "inside", "On a holder: what is put in now goes inside it, until Esc."),
    row!(Settle, Do, Only(&[K::Haul, K::Hauls]), &[(Char('S'), 0)], NONE, NONE, "settle", "Say what explains that the receipt and the lines differ."),
    row!(Wow, Do, Only(&[K::Packing, K::Fit]), &[(Char('v'), 0)], NONE, NONE, "wow item, on top", "Make it this box's wow item, seen first; again: no longer. Where one looks whether it fits: try it on top."),
    row!(Tick, Do, All, &[(Char(' '), 0)], NONE, NONE, "tick", "Tick this row: boxes for the next act, things fetched."),
    row!(TickAll, Do, All, &[(Char('*'), 0)], NONE, NONE, "tick all", "Tick all rows shown; again: none."),
    row!(CloseBox, Do, BOXES, &[(Char('c'), 0)], NONE, NONE, "close, open", "Look the box over a last time and close it; again: open it."),
    row!(Count, Do, Only(&[K::Home, K::Packing, K::Card, K::Tote, K::Haul, K::Fit]), &[(Char('='), 0)], NONE, NONE, "how it really is", "Say how many there really are, or that the lid of a box was seen to close."),
    row!(MoveTote, Do, THINGS, &[(Char('t'), 0)], NONE, NONE, "tote", "Say which tote it lies in now."),
    row!(Away, Do, All, &[(Char('x'), 0)], NONE, NONE, "take away", "A thing: given loose, lost, or back to the shop; a box: off the plan; a pasted line: left out; where one looks whether it fits: left out to try."),
    row!(Whom, Do, Only(&[K::Home, K::Review]), &[(Char('w'), 0)], NONE, NONE, "for whom", "Only girls, boys, either, one age group, or open boxes only."),
    row!(Why, Do, Only(&[K::Packing, K::Careful, K::Plan, K::Fit]), &[(Char('y'), 0)], NONE, NONE, "why", "Why this was chosen, or note why in a few words; in a plan, and where it fits: the reasons in full."),
    row!(Careful, Go, Only(&[K::Home, K::Packing, K::Review, K::Card, K::DropOff, K::Plan]), &[(Char('!'), 0)], NONE, NONE, "careful", "What to be careful of: in this thing, this box or, from a list of boxes, all of them."),
    row!(LineDo, Line, All, NONE, &[(Enter, 0)], NONE, "do it", "Save it, put it in, go there; a doubt is asked first."),
    row!(LineTake, Line, All, NONE, &[(Tab, 0)], NONE, "its words", "Take the words of the offered row into the line; nothing is saved."),
    row!(LineCaret, Line, All, NONE, &[(Left, -1), (Right, 1), (Home, -2), (End, 2), (Ctrl('a'), -2), (Ctrl('e'), 2)], NONE, "caret", "Move within the line."),
    row!(LineErase, Line, All, NONE, &[(Backspace, -1), (Delete, 1), (Ctrl('w'), -2), (Ctrl('u'), -3)], NONE, "rub out", "A letter, a word, all of it."),
    row!(BoxSame, Do, BOXES, NONE, NONE, NONE, "another like it", "Plan a box like this one, with the same things set aside."),
    row!(BoxHandIn, Do, BOXES, NONE, NONE, NONE, "handed in", "The box was given to the drive today."),
    row!(BoxBack, Do, BOXES, NONE, NONE, NONE, "came back", "A box came back from the drive today."),
    row!(BoxUnpack, Do, BOXES, NONE, NONE, NONE, "unpack", "Take all of a box back to its totes."),
    row!(Kit, Do, All, NONE, NONE, NONE, "make a kit", "Several things put together ahead and given as one; its cost is theirs."),
    row!(Split, Do, THINGS, NONE, NONE, NONE, "split into bundles", "Break up a pack: 24 into bundles of 8."),
    row!(PartOut, Do, THINGS, NONE, NONE, NONE, "take parts out", "Parts of a set become a thing of their own, with a share of the cost."),
    row!(Apart, Do, THINGS, NONE, NONE, NONE, "take a kit apart", "Its parts come back, each with the cost that it brought."),
    row!(Combine, Do, THINGS, NONE, NONE, NONE, "put together", "All batches of the same thing become one batch."),
    row!(Level, Do, THINGS, NONE, NONE, NONE, "plenty or low", "For what nobody counts: plenty, low or gone, instead of a number."),
    row!(Allow, Do, Only(&[K::Packing, K::Careful]), NONE, NONE, NONE, "allow anyway", "Overrule what keeps a thing out of this box, with a reason that is kept."),
    row!(Opening, Do, All, NONE, NONE, NONE, "opening count", "Full totes on the first day: the tote said once, no prices asked."),
    row!(Editor, Do, All, NONE, NONE, NONE, "write in your editor", "A long note, or many lines, in $EDITOR; what comes back is taken like a paste."),
    row!(Where, Go, All, NONE, NONE, NONE, "where is the file", "Where the file and what belongs to it are."),
    row!(Sample, Go, Only(&[K::Home]), NONE, NONE, NONE, "made-up drive", "Look around in an invented drive; yours waits."),
];

/// What stands at the foot of each screen, in order of importance; empty words: the table's label.
#[rustfmt::skip]
const FOOT: &[(Kind, &[(Action, &str)])] = &[
    (K::Home, &[(A::Open, "open"), (A::Bought, ""), (A::Find, ""), (A::Review, ""), (A::Plan, ""), (A::PlanBox, "plan a box"), (A::Help, ""), (A::Undo, "")]),
    (K::Haul, &[(A::Bought, "go on"), (A::Mend, ""), (A::MoveTote, ""), (A::Settle, ""), (A::Undo, ""), (A::Back, ""), (A::Help, "")]),
    (K::Pasted, &[(A::Open, "go on"), (A::Mend, "mend"), (A::Away, "leave out"), (A::NextWaiting, "next doubt"), (A::Back, ""), (A::Help, "")]),
    (K::Packing, &[(A::Open, "on hand"), (A::SetAside, ""), (A::CloseBox, ""), (A::Fit, "fits?"), (A::NextPart, "in the box"), (A::Undo, ""), (A::Back, ""), (A::Help, "")]),
    (K::Review, &[(A::Open, "fill it"), (A::PutOne, "the best in"), (A::TickAll, ""), (A::Choose, "lacks"), (A::ChooseAll, "all"), (A::Back, ""), (A::Help, "")]),
    (K::Card, &[(A::PutOne, "one in"), (A::Mend, ""), (A::MoveTote, ""), (A::Count, ""), (A::Away, ""), (A::Back, ""), (A::Help, "")]),
    (K::Tote, &[(A::Open, "all about it"), (A::Count, ""), (A::MoveTote, ""), (A::Back, ""), (A::Help, "")]),
    (K::Pull, &[(A::Tick, "tick it in"), (A::TickAll, "all of it"), (A::Undo, ""), (A::Back, ""), (A::Help, "")]),
    (K::Hauls, &[(A::Open, "open it"), (A::Settle, "settle its receipt"), (A::NextWaiting, "next open one"), (A::Back, ""), (A::Help, "")]),
    (K::History, &[(A::Undo, "take back the last"), (A::Redo, ""), (A::Back, ""), (A::Help, "")]),
    (K::DropOff, &[(A::Open, "to this box"), (A::PutOne, "the best in"), (A::CloseBox, ""), (A::NextWaiting, "next"), (A::Back, ""), (A::Help, "")]),
    (K::Fit, &[(A::MoveRow, "layer"), (A::NextPart, "its things"), (A::Paper, "order"), (A::Count, "it closes"), (A::Why, ""), (A::Back, ""), (A::Help, "")]),
    (K::Plan, &[(A::Open, "open"), (A::PutOne, "what if"), (A::TakeOne, "fewer"), (A::Paper, "shopping page"), (A::Why, ""), (A::Back, ""), (A::Help, "")]),
    (K::Careful, &[(A::Open, "do something about it"), (A::Undo, ""), (A::Back, ""), (A::Help, "")]),
    (K::Drive, &[(A::Mend, ""), (A::Undo, ""), (A::Back, ""), (A::Help, "")]),
    (K::Help, &[(A::Back, "close"), (A::MoveRow, "more"), (A::Find, "find a key"), (A::Actions, "")]),
];

impl Row {
    /// Whether it can be done on this screen.
    pub fn is_on(&self, kind: Kind) -> bool {
        match self.on {
            On::All => true,
            On::Only(kinds) => kinds.contains(&kind),
        }
    }
}

type Foot = &'static [(Action, &'static str)];

#[rustfmt::skip]
const BUYING: Foot = &[
    (A::LineDo, "save, or ask"), (A::LineTake, ""), (A::MoveRow, "next"), (A::Undo, ""), (A::Back, "keep for later"), (A::Help, ""),
];
#[rustfmt::skip]
const PLANNING: Foot = &[(A::LineDo, "plan"), (A::Undo, ""), (A::Back, "keep for later"), (A::Help, "")];
#[rustfmt::skip]
const PUTTING: Foot = &[
    (A::LineDo, "put in"), (A::MoveRow, "next"), (A::LineTake, ""), (A::Undo, ""), (A::Back, "done choosing"), (A::Help, ""),
];
#[rustfmt::skip]
const ASIDE: Foot = &[
    (A::LineDo, "set aside"), (A::MoveRow, "next"), (A::LineTake, ""), (A::Undo, ""), (A::Back, "done choosing"), (A::Help, ""),
];
#[rustfmt::skip]
const GOING: Foot = &[(A::LineDo, "go there"), (A::MoveRow, "next"), (A::LineTake, ""), (A::Back, ""), (A::Help, "")];
#[rustfmt::skip]
const NAMING: Foot = &[(A::LineDo, "do it"), (A::MoveRow, "next"), (A::LineTake, ""), (A::Back, ""), (A::Help, "")];
#[rustfmt::skip]
const MENDING: Foot = &[(A::LineDo, "mend it so"), (A::Undo, ""), (A::Back, "leave it as it is"), (A::Help, "")];
#[rustfmt::skip]
const MAKING: Foot = &[(A::LineDo, "make it so"), (A::Undo, ""), (A::Back, "leave it as it is"), (A::Help, "")];
#[rustfmt::skip]
const ALLOWING: Foot = &[(A::LineDo, "allow it"), (A::Back, "leave it out"), (A::Help, "")];
#[rustfmt::skip]
const SAYING: Foot = &[(A::LineDo, "say it so"), (A::Undo, ""), (A::Back, "leave it as it is"), (A::Help, "")];

/// What stands at the foot while the line is open, by what it is for.
pub fn writing(purpose: Option<&Purpose>) -> &'static [(Action, &'static str)] {
    match purpose {
        None | Some(Purpose::Bought) => BUYING,
        Some(Purpose::Plan) => PLANNING,
        Some(Purpose::PutIn { aside: true, .. }) => ASIDE,
        Some(Purpose::PutIn { .. }) => PUTTING,
        Some(Purpose::Find) => GOING,
        Some(Purpose::Actions | Purpose::ToBox(_) | Purpose::Tote(_)) => NAMING,
        Some(Purpose::MendLine(_) | Purpose::MendPasted(_) | Purpose::MendBox(_) | Purpose::MendRule(_)) => MENDING,
        Some(Purpose::Count(_) | Purpose::Gone(..) | Purpose::Why(_) | Purpose::Size(_)) => SAYING,
        Some(Purpose::Remake(..)) => MAKING,
        Some(Purpose::Allow(_)) => ALLOWING,
    }
}

/// What the table says of an action.
pub fn row(action: Action) -> &'static Row {
    // Each action has a row: a test goes through all of them.
    TABLE.iter().find(|row| row.action == action).unwrap_or(&TABLE[0])
}

/// The part that the greeting of an empty season stands for.
pub const GREETING: usize = 9;

/// What stands at the foot of a part that has keys of its own.
#[rustfmt::skip]
const PARTS: &[(Kind, usize, Foot)] = &[
    (K::Plan, 1, &[(A::Open, "set aside, go on"), (A::NextWaiting, "pass"), (A::Careful, ""), (A::Undo, ""), (A::Pull, ""), (A::Back, "to the plan"), (A::Help, "")]),
    (K::Plan, 2, &[(A::Open, "set all of it aside"), (A::Back, "to the plan"), (A::Help, "")]),
    (K::Plan, 3, &[(A::Open, "to this box"), (A::Back, "to the plan"), (A::Help, "")]),
    (K::Plan, 4, &[(A::MoveRow, "more"), (A::Back, "to the plan"), (A::Help, "")]),
    (K::Packing, 1, &[(A::TakeOne, "out"), (A::MoveBox, "to box"), (A::Inside, "inside"), (A::Wow, "wow"), (A::Why, "why"), (A::NextPart, "checklist"), (A::Back, ""), (A::Help, "")]),
    (K::Fit, 1, &[(A::Open, "try"), (A::Away, "leave out"), (A::Wow, "on top"), (A::Mend, "its size"), (A::Paper, "order"), (A::NextPart, "layers"), (A::Back, ""), (A::Help, "")]),
    (K::Fit, 2, &[(A::MoveRow, "go on"), (A::Paper, "order"), (A::Why, ""), (A::Back, "to the picture"), (A::Help, "")]),
    (K::Home, GREETING, &[(A::Bought, ""), (A::PlanBox, "plan a box"), (A::Mend, "the drive"), (A::Help, ""), (A::Leave, "")]),
    (K::Home, 0, &[(A::Open, "all about it"), (A::PutOne, "into the box"), (A::Bought, ""), (A::Find, ""), (A::NextPart, "boxes"), (A::Help, ""), (A::Undo, "")]),
];

/// The foot of a screen.
pub fn foot(kind: Kind, part: usize) -> impl Iterator<Item = (&'static Row, &'static str)> {
    let whole = FOOT.iter().find(|(of, _)| *of == kind).map(|(_, rows)| *rows).unwrap_or_default();
    let rows = PARTS.iter().find(|(of, own, _)| (*of, *own) == (kind, part)).map_or(whole, |(_, _, rows)| *rows);
    rows.iter().map(|(action, words)| {
        let row = row(*action);
        (row, if words.is_empty() { row.label } else { *words })
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn no_key_means_two_things() {
        type Gesture = fn(&Row) -> &'static [Bound];
        let gestures: [Gesture; 3] = [|row| row.looking, |row| row.writing, |row| row.asked];
        for gesture in gestures {
            let mut seen = BTreeSet::new();
            for (key, _) in TABLE.iter().flat_map(gesture) {
                assert!(seen.insert(*key), "{key} is bound twice");
            }
        }
    }

    #[test]
    fn no_letter_acts_while_one_writes() {
        for (key, _) in TABLE.iter().flat_map(|row| row.writing) {
            assert!(!matches!(key, Char(_)), "{key}");
        }
    }

    #[test]
    fn each_action_has_one_row_with_words_for_people() {
        let mut seen = BTreeSet::new();
        for row in TABLE {
            assert!(seen.insert(row.action), "{:?} has two rows", row.action);
            assert!(row.help.ends_with('.') && !row.label.is_empty(), "{:?}", row.action);
            assert_eq!(super::row(row.action).action, row.action);
        }
    }

    #[test]
    fn each_foot_shows_keys_that_work_there() {
        for (kind, rows) in FOOT {
            assert!((3..=8).contains(&rows.len()), "{kind:?}");
            for (row, _) in foot(*kind, 0).chain(foot(*kind, 1)) {
                assert!(row.is_on(*kind) && !row.looking.is_empty(), "{kind:?} {:?}", row.action);
            }
        }
    }
}
