//! How much room there is, and what of the screen it goes to.

/// The terminal's size in cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Columns.
    pub w: u16,
    /// Rows.
    pub h: u16,
}

/// How much of the screen can be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tier {
    /// One row tells what matters most.
    Row,
    /// One part of the screen at a time.
    Small,
    /// Side panes give way.
    Narrow,
    /// All of it.
    Full,
    /// All of it, with fewer steps.
    Wide,
}

/// The rows of the screen, from the top: heading, table, line, what was said, keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    /// How much can be shown.
    pub tier: Tier,
    /// All of it.
    pub size: Size,
    /// The first row of the table.
    pub table: u16,
    /// Rows of the table.
    pub table_rows: u16,
    /// The row of the line.
    pub line: u16,
    /// Rows of the line with what lies beneath it.
    pub line_rows: u16,
}

impl Size {
    /// How much can be shown in it.
    pub fn tier(self) -> Tier {
        match (self.w, self.h) {
            (120.., 36..) => Tier::Wide,
            (80.., 24..) => Tier::Full,
            (60.., 16..) => Tier::Narrow,
            (40.., 10..) => Tier::Small,
            _ => Tier::Row,
        }
    }
}

impl Room {
    /// The screen with a line that would like so many rows (1: it is closed), under so many heading rows.
    pub fn of(size: Size, heading: u16, wished: u16) -> Room {
        let tier = size.tier();
        let foot = if tier == Tier::Row { 0 } else { 2 };
        // Never more than half the height and two rows, and the table keeps a row if there is one.
        let most = (size.h / 2 + 2).min(size.h.saturating_sub(foot + heading + 1)).max(1);
        let line_rows = wished.clamp(1, most);
        let line = size.h.saturating_sub(foot + line_rows);
        let table = heading.min(line);
        Room { tier, size, table, table_rows: line - table, line, line_rows }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_of_a_screen_fill_it_and_never_overlap() {
        for w in 1..150 {
            for h in 1..60 {
                for wished in 1..14 {
                    let room = Room::of(Size { w, h }, 2, wished);
                    let foot = if room.tier == Tier::Row { 0 } else { 2 };
                    assert_eq!(room.table + room.table_rows, room.line);
                    assert_eq!(room.line + room.line_rows + foot, h.max(room.line_rows + foot), "{w}×{h}, {wished}");
                }
            }
        }
        let room = Room::of(Size { w: 80, h: 24 }, 2, 11);
        assert_eq!((room.table, room.table_rows, room.line), (2, 9, 11));
    }
}
