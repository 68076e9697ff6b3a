//! Cells to write on: text cut by cells, rules, and which spot stands for what.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use unicode_segmentation::UnicodeSegmentation;

use super::look::{Look, Role};
use crate::tui::app::key::Hit;
pub use crate::tui::app::wrap::{cells, lines_of};

/// A spot that the mouse can hit.
#[derive(Debug, Clone, Copy)]
pub struct Zone {
    /// Where.
    pub area: Rect,
    /// What it stands for.
    pub hit: Hit,
}

/// What drawing comes to beside the cells.
#[derive(Debug, Default)]
pub struct Drawn {
    /// Where the cursor stands: column and row.
    pub cursor: Option<(u16, u16)>,
    /// What the mouse can hit.
    pub zones: Vec<Zone>,
}

impl Drawn {
    /// What a spot stands for.
    pub fn hit(&self, x: u16, y: u16) -> Option<Hit> {
        self.zones.iter().rev().find(|zone| zone.area.contains((x, y).into())).map(|zone| zone.hit)
    }
}

/// Cells to write on.
pub struct Canvas<'a> {
    buffer: &'a mut Buffer,
    look: Look,
    drawn: Drawn,
}

impl<'a> Canvas<'a> {
    /// All cells of a buffer.
    pub fn new(buffer: &'a mut Buffer, look: Look) -> Canvas<'a> {
        Canvas { buffer, look, drawn: Drawn::default() }
    }

    /// What drawing came to.
    pub fn done(self) -> Drawn {
        self.drawn
    }

    /// Columns.
    pub fn width(&self) -> u16 {
        self.buffer.area.width
    }

    /// Rows.
    pub fn height(&self) -> u16 {
        self.buffer.area.height
    }

    /// Writes a text in at most `width` cells, cut at a word; gives the column behind it.
    pub fn text(&mut self, x: u16, y: u16, width: u16, text: &str, role: Role) -> u16 {
        let text = cut(&self.look.text(text), width, self.look.cut_mark());
        self.put(x, y, width, &text, self.look.style(role))
    }

    /// Writes a text over so many rows, a word that has no room left going to the next one.
    pub fn wrapped(&mut self, x: u16, y: u16, (width, rows): (u16, u16), text: &str, role: Role) {
        for (row, line) in (0..rows).zip(lines_of(text, width, rows.into())) {
            self.text(x, y + row, width, line, role);
        }
    }

    /// Writes a text that ends before column `end`.
    pub fn right(&mut self, end: u16, y: u16, width: u16, text: &str, role: Role) {
        let text = cut(&self.look.text(text), width, self.look.cut_mark());
        let x = end.saturating_sub(cells(&text));
        self.put(x, y, width, &text, self.look.style(role));
    }

    /// Writes a text without cutting it at a word.
    pub fn raw(&mut self, x: u16, y: u16, width: u16, text: &str, role: Role) -> u16 {
        let text = self.look.text(text);
        self.put(x, y, width, &text, self.look.style(role))
    }

    fn put(&mut self, x: u16, y: u16, width: u16, text: &str, style: Style) -> u16 {
        let area = self.buffer.area;
        if x >= area.width || y >= area.height {
            return x;
        }
        let room = width.min(area.width - x);
        let (end, _) = self.buffer.set_stringn(x, y, text, room.into(), style);
        end
    }

    /// A rule; a heavy one under the part in hand.
    pub fn rule(&mut self, x: u16, y: u16, width: u16, heavy: bool) {
        let (sign, role) = if heavy { ("━", Role::Here) } else { ("─", Role::Quiet) };
        self.raw(x, y, width, &sign.repeat(width.into()), role);
    }

    /// Turns a stretch of a row into the selected one.
    pub fn select(&mut self, x: u16, y: u16, width: u16) {
        self.modify(x, y, width, Modifier::REVERSED);
    }

    /// Makes a stretch of a row bold.
    pub fn embolden(&mut self, x: u16, y: u16, width: u16) {
        self.modify(x, y, width, Modifier::BOLD);
    }

    fn modify(&mut self, x: u16, y: u16, width: u16, modifier: Modifier) {
        let row = Rect::new(x, y, width, 1).intersection(self.buffer.area);
        self.buffer.set_style(row, Style::new().add_modifier(modifier));
    }

    /// The mouse can hit this stretch of a row.
    pub fn zone(&mut self, x: u16, y: u16, width: u16, hit: Hit) {
        self.drawn.zones.push(Zone { area: Rect::new(x, y, width, 1), hit });
    }

    /// Where nothing is selected the cursor stands at the title: it is never hidden.
    pub fn cursor_somewhere(&mut self) {
        if self.drawn.cursor.is_none() {
            self.cursor(1, 0);
        }
    }

    /// The cursor stands here.
    pub fn cursor(&mut self, x: u16, y: u16) {
        let (last_x, last_y) = (self.width().saturating_sub(1), self.height().saturating_sub(1));
        self.drawn.cursor = Some((x.min(last_x), y.min(last_y)));
    }
}

/// A text cut to so many cells: at a word if little is lost by it, with a mark behind it.
fn cut(text: &str, width: u16, mark: &str) -> String {
    if cells(text) <= width {
        return text.to_owned();
    }
    let room = width.saturating_sub(cells(mark));
    let mut kept = String::new();
    let mut used = 0;
    for grapheme in text.graphemes(true) {
        used += cells(grapheme);
        if used > room {
            break;
        }
        kept.push_str(grapheme);
    }
    if let Some(word) = kept.rfind(' ').filter(|at| cells(&kept[..*at]) * 4 > room * 3) {
        kept.truncate(word);
    }
    format!("{}{mark}", kept.trim_end_matches([' ', ',']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_cut_at_a_word_by_cells() {
        assert_eq!(cut("soap dish, teal", 15, "…"), "soap dish, teal");
        assert_eq!(cut("soap dish, teal", 14, "…"), "soap dish…");
        assert_eq!(cut("activity books", 13, "…"), "activity boo…", "a word that would cost too much is cut");
        assert_eq!(cut("toothbrushes", 8, "…"), "toothbr…");
        assert_eq!(cut("日本の箱", 6, "…"), "日本…", "a wide letter takes two cells");
        assert_eq!(cut("e\u{301}e\u{301}e\u{301}", 2, "…"), "e\u{301}…", "an accent takes none");
        assert_eq!(cut("abc", 0, "…"), "…");
    }

    #[test]
    fn a_long_text_goes_on_in_the_next_row() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 8, 3));
        let mut canvas = Canvas::new(&mut buffer, Look::default());
        canvas.wrapped(0, 0, (8, 3), "needs 2 school and 1 toy, 4 things", Role::Text);
        let row = |y: u16| (0..8).map(|x| buffer[(x, y)].symbol()).collect::<String>();
        assert_eq!([row(0), row(1), row(2)], ["needs 2 ", "school  ", "and 1 t…"]);
    }

    #[test]
    fn nothing_is_written_beside_the_screen() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 3, 1));
        let mut canvas = Canvas::new(&mut buffer, Look::default());
        canvas.text(9, 0, 5, "x", Role::Text);
        canvas.text(0, 9, 5, "x", Role::Text);
        canvas.text(1, 0, 5, "abcdef", Role::Text);
        canvas.select(2, 0, 40);
        canvas.cursor(40, 40);
        assert_eq!(canvas.done().cursor, Some((2, 0)));
        assert_eq!(buffer[(0, 0)].symbol(), " ");
    }
}
