//! Lists: the rows in sight, the marker and the selection.

use super::canvas::Canvas;
use super::look::Role;
use crate::tui::app::key::Hit;
use crate::tui::app::list::List;

/// Where a list is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// Its first column.
    pub x: u16,
    /// Its first row.
    pub y: u16,
    /// Columns.
    pub width: u16,
    /// Rows.
    pub height: u16,
    /// Which part of the screen it is.
    pub part: usize,
    /// Whether it is in hand.
    pub in_hand: bool,
}

/// Draws the rows in sight by `row(canvas, index, y)`, marks the selected one and puts the cursor on it.
pub fn draw(
    canvas: &mut Canvas<'_>,
    place: Place,
    list: &List,
    count: usize,
    mut row: impl FnMut(&mut Canvas<'_>, usize, u16),
) {
    for index in (list.top..count).take(place.height.into()) {
        let y = place.y + u16::try_from(index - list.top).unwrap_or(0);
        row(canvas, index, y);
        mark(canvas, place, index == list.row(), y);
        canvas.zone(place.x, y, place.width, Hit::Row { part: place.part, row: index });
    }
}

/// Marks a row that is selected.
pub fn mark(canvas: &mut Canvas<'_>, place: Place, selected: bool, y: u16) {
    if !selected {
        return;
    }
    if place.in_hand {
        canvas.raw(place.x, y, 1, "▸", Role::Here);
        canvas.select(place.x, y, place.width);
        canvas.cursor(place.x + 2, y);
    } else {
        canvas.raw(place.x, y, 1, "▹", Role::Text);
        canvas.embolden(place.x, y, place.width);
    }
}
