//! One box being packed: its checklist, what is in it, and the drawer of what is on hand.

use super::canvas::Canvas;
use super::frame::{self, heading_ruled};
use super::home::{content_words, gap_row};
use super::look::Role;
use super::offers::caution_role;
use super::rows::{self, Place};
use crate::model::rules::Level;
use crate::season::{BoxLine, Content, sign};
use crate::tui::app::App;
use crate::tui::app::common::lacks;
use crate::tui::app::packing::{CHECKLIST, CONTENTS, Packing};
use crate::tui::app::room::{Room, Tier};
use crate::tui::app::screen::Face;

/// Draws a box being packed.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, packing: &Packing) {
    let desk = &app.desk;
    let heading = if desk.size.tier() >= Tier::Narrow { 3 } else { 1 };
    let room = desk.room(heading);
    let Some(line) = desk.seen.giftbox(packing.giftbox()) else {
        heading_ruled(canvas, "This box is gone", "");
        return super::line::draw(canvas, app, &room);
    };
    if room.tier == Tier::Small {
        frame::heading(canvas, &title(line), &status(line));
    } else {
        heading_ruled(canvas, &title(line), &status(line));
    }
    let writing = desk.line.is_some() || desk.asked.is_some();
    let narrow = room.size.w < 60;
    let left = if narrow { room.size.w.saturating_sub(2) } else { 29 };
    let parts = if narrow || room.tier == Tier::Small { vec![packing.part()] } else { vec![CHECKLIST, CONTENTS] };
    for part in parts {
        let x = if part == CONTENTS && !narrow { 32 } else { 1 };
        let width = if part == CHECKLIST { left } else { room.size.w.saturating_sub(x + 1) };
        let in_hand = packing.part() == part && !writing;
        let place = Place { x, y: room.table, width, height: room.table_rows, part, in_hand };
        if part == CHECKLIST {
            checklist(canvas, packing, line, place, &room);
        } else {
            contents(canvas, packing, place, &room);
        }
    }
    if writing && room.tier >= Tier::Full {
        let words = still(packing, app);
        canvas.right(room.size.w.saturating_sub(1), room.line, 30, &words, Role::Text);
    }
    super::line::draw(canvas, app, &room);
}

fn title(line: &BoxLine) -> String {
    let theme = if line.theme.is_empty() { String::new() } else { format!(" · {}", line.theme) };
    let colours = if line.palette.is_empty() { String::new() } else { format!(" · {}", line.palette.join(", ")) };
    format!("Box {} · {} {}{theme}{colours}", line.label, line.for_whom, line.ages)
}

fn status(line: &BoxLine) -> String {
    let state = if line.standing.is_open() { String::new() } else { format!("{} · ", line.state) };
    let aside = if line.aside > 0 { format!(", {} aside", line.aside) } else { String::new() };
    format!("{state}{} in{aside} · {}", line.things, line.cost.short())
}

/// What the selected line still needs, on the right of the open drawer.
fn still(packing: &Packing, app: &App) -> String {
    match packing.cell(&app.desk.seen) {
        Some(cell) if cell.needs > 0 => format!("{} still needs {}", cell.line, cell.needs),
        Some(cell) => format!("{} is met", cell.line),
        None => "anything else".to_owned(),
    }
}

fn checklist(canvas: &mut Canvas<'_>, packing: &Packing, line: &BoxLine, place: Place, room: &Room) {
    if room.tier >= Tier::Narrow {
        canvas.text(place.x, place.y - 1, place.width, "Checklist", Role::Heading);
    }
    let cells = &line.checklist;
    // While one writes, the gap in hand stays marked.
    let shown = Place { in_hand: place.in_hand, ..place };
    rows::draw(canvas, shown, packing.list(CHECKLIST), cells.len() + 1, |canvas, row, y| match cells.get(row) {
        Some(cell) => gap_row(canvas, cell, place, y),
        None => _ = canvas.text(place.x + 4, y, place.width.saturating_sub(4), "anything else", Role::Text),
    });
    let after = place.y + u16::try_from(cells.len()).unwrap_or(0) + 1;
    let careful = packing.card.as_ref().map(|card| card.cautions.as_slice()).unwrap_or_default();
    if let (Some(first), true) = (careful.first(), after < place.y + place.height) {
        let (sign, role) = (first.sign(), caution_role(first.level));
        let words = format!("{sign} careful    {}", careful.len());
        canvas.text(place.x + 2, after, place.width.saturating_sub(2), &words, role);
    }
    let below = after + 1;
    let rows = (place.y + place.height).saturating_sub(below);
    if place.in_hand && rows > 0 {
        canvas.wrapped(place.x, below, (place.width, rows), &lacks(line), Role::Text);
    }
}

fn contents(canvas: &mut Canvas<'_>, packing: &Packing, place: Place, room: &Room) {
    let empty = Vec::new();
    let contents = packing.card.as_ref().map_or(&empty, |card| &card.contents);
    if room.tier >= Tier::Narrow {
        canvas.text(place.x, place.y - 1, place.width, "In the box", Role::Heading);
    }
    if contents.is_empty() {
        let words = "Nothing in it yet. Enter on a line of the checklist shows what is on hand.";
        canvas.wrapped(place.x, place.y, (place.width, place.height.min(3)), words, Role::Text);
        return;
    }
    if place.in_hand {
        rows::draw(canvas, place, packing.list(CONTENTS), contents.len(), |canvas, row, y| {
            content_row(canvas, &contents[row], care(packing, &contents[row]), place, y);
        });
        return;
    }
    in_columns(canvas, packing, contents, place, room);
}

/// The strictest caution on a thing in the box that nobody has allowed.
fn care(packing: &Packing, content: &Content) -> Option<Level> {
    let row = packing.card.as_ref()?.careful(content)?;
    row.allowed.is_empty().then_some(row.level)
}

/// In hand each thing has a row of its own, with where it is and why it was chosen.
fn content_row(canvas: &mut Canvas<'_>, content: &Content, care: Option<Level>, place: Place, y: u16) {
    let name = place.width.saturating_sub(20).max(12);
    canvas.text(place.x + 2, y, name, &content_words(content), Role::Text);
    let why = if content.why.is_empty() { content.tote.clone() } else { format!("({})", content.why) };
    let x = place.x + name + 3;
    let (words, role) = match care {
        Some(level) => (format!("{} {}", sign(level), level.words()), caution_role(level)),
        None => (why, Role::Text),
    };
    canvas.text(x, y, (place.x + place.width).saturating_sub(x), &words, role);
}

/// Not in hand: as many columns as fit, newest things last.
fn in_columns(canvas: &mut Canvas<'_>, packing: &Packing, contents: &[Content], place: Place, room: &Room) {
    let columns: u16 = if room.tier == Tier::Wide { 3 } else { 2 };
    let columns = if place.width < 40 { 1 } else { columns };
    let width = place.width / columns;
    let rows = usize::from(place.height.max(1));
    let room_for = rows * usize::from(columns);
    let hidden = contents.len().saturating_sub(room_for);
    for (at, content) in contents.iter().skip(hidden).enumerate() {
        let (column, row) = (at / rows, at % rows);
        let x = place.x + u16::try_from(column).unwrap_or(0) * width;
        let y = place.y + u16::try_from(row).unwrap_or(0);
        let care = care(packing, content);
        let beside = if care.is_some() { 3 } else { 1 };
        let end = canvas.text(x, y, width.saturating_sub(beside), &content_words(content), Role::Text);
        if let Some(level) = care {
            canvas.text(end + 1, y, 1, &sign(level).to_string(), caution_role(level));
        }
    }
    if hidden > 0 {
        canvas.right(place.x + place.width, place.y - 1, 20, &format!("{hidden} more, Tab"), Role::Text);
    }
}
