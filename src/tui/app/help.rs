//! The keys, made from the table, for the screen one came from.

use super::asked::Asked;
use super::desk::Desk;
use super::keymap::Press;
use super::line::Line;
use super::list::{List, Rows};
use super::screen::{Face, No, one_list};
use super::table::{Group, Kind, Row, TABLE};

/// The rows below the keys for the sentence of the chosen one.
pub const SENTENCE: u16 = 3;

/// The keys of a screen.
pub struct Help {
    /// The screen one came from.
    pub of: Kind,
    list: List,
    /// The line and the question that were open: they wait until the page is closed.
    line: Option<Line>,
    asked: Option<Asked>,
}

impl Help {
    /// The keys of a screen; its open line and question wait meanwhile.
    pub fn over(of: Kind, desk: &mut Desk) -> Help {
        Help { of, list: List::default(), line: desk.line.take(), asked: desk.asked.take() }
    }

    /// What can be done there, group by group.
    pub fn keys(&self) -> Vec<&'static Row> {
        let groups = [Group::Go, Group::Do, Group::Move, Group::Line];
        let of = |group: Group| TABLE.iter().filter(move |row| row.group == group && row.is_on(self.of));
        groups.into_iter().flat_map(of).collect()
    }
}

impl Face for Help {
    fn kind(&self) -> Kind {
        Kind::Help
    }

    fn rows<'a>(&'a self, _desk: &'a Desk, _part: usize) -> Rows<'a> {
        Rows::numbered(self.keys().len())
    }

    one_list!(list);

    fn height(&self, desk: &Desk, _part: usize) -> usize {
        // The last rows tell the whole sentence of the chosen key.
        desk.room(2).table_rows.saturating_sub(SENTENCE).max(1).into()
    }

    fn back(&mut self, desk: &mut Desk) -> bool {
        desk.line = self.line.take();
        desk.asked = self.asked.take();
        false
    }

    fn press(&mut self, _press: Press, _desk: &mut Desk) -> Result<(), No> {
        Err("This page only shows keys; Esc closes it, and the key works there.".to_owned())
    }
}
