//! Boxes by what they lack: a row a box, a column a line of the checklist, the sums below.

use super::canvas::{Canvas, cells};
use super::frame::heading_ruled;
use super::home::role_of;
use super::look::Role;
use super::offers::caution_role;
use super::rows::{self, Place};
use crate::model::checklist::Met;
use crate::season::{BoxLine, Cell};
use crate::tui::app::App;
use crate::tui::app::review::{Review, cell, foot_rows};
use crate::tui::app::room::{Room, Tier};
use crate::tui::app::screen::Face;

/// Draws the review.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, review: &Review) {
    let desk = &app.desk;
    let room = desk.room(4);
    let columns = Review::columns(desk);
    let boxes = review.boxes(desk);
    let all = review.filter.boxes(desk).len();
    let lacks = review.lacks.and_then(|col| columns.get(col)).map(|column| format!("lacks {column} · "));
    let filter = review.filter.words();
    let status = format!("{}{filter} · {} of {all}", lacks.unwrap_or_default(), boxes.len());
    heading_ruled(canvas, "Which boxes lack what", &status);
    let shown = visible(&columns, review.col, &room);
    titles(canvas, &shown, review.col, &room);
    let foot = foot_rows(desk);
    let place = Place {
        x: 1,
        y: room.table,
        width: room.size.w.saturating_sub(2),
        height: room.table_rows.saturating_sub(foot),
        part: 0,
        in_hand: desk.line.is_none() && desk.asked.is_none(),
    };
    if boxes.is_empty() {
        let column = review.lacks.and_then(|col| columns.get(col)).copied().unwrap_or("thing");
        let words = format!("No box lacks a {} item.", column.trim_end_matches(" item"));
        canvas.text(3, place.y, place.width, &words, Role::Text);
    }
    rows::draw(canvas, place, review.list(0), boxes.len(), |canvas, row, y| {
        box_row(canvas, app, review, boxes[row], &shown, y);
        care(canvas, review, boxes[row], y);
    });
    if foot > 0 {
        sums(canvas, app, review, &shown, place.y + place.height);
    }
    super::line::draw(canvas, app, &room);
}

/// A column in sight: which, its words, where it begins, how wide it is.
struct Column<'a> {
    number: usize,
    line: &'a str,
    x: u16,
    width: u16,
}

/// The columns there is room for, the one in hand among them.
fn visible<'a>(columns: &[&'a str], col: usize, room: &Room) -> Vec<Column<'a>> {
    let first_x = names_end(room.size.w);
    let mut start = 0;
    loop {
        let mut x = first_x;
        let mut shown = Vec::new();
        for (number, line) in columns.iter().enumerate().skip(start) {
            let least = if room.tier >= Tier::Full { 9 } else { 6 };
            let width = if room.tier >= Tier::Full { cells(&heading(number, line)).max(least) } else { least };
            if x + width > room.size.w.saturating_sub(1) && number > start {
                break;
            }
            shown.push(Column { number, line, x, width });
            x += width + 1;
        }
        if start >= col || shown.last().is_none_or(|last| last.number >= col) {
            return shown;
        }
        start += 1;
    }
}

fn heading(number: usize, line: &str) -> String {
    format!("{} {}", number + 1, line.trim_end_matches(" item"))
}

/// The same in little room: `1 hyg`.
fn short_heading(number: usize, line: &str) -> String {
    heading(number, &line.chars().take(3).collect::<String>())
}

/// Where the boxes' own words end.
fn names_end(width: u16) -> u16 {
    match width {
        80.. => 28,
        60.. => 20,
        40.. => 18,
        _ => 8,
    }
}

fn titles(canvas: &mut Canvas<'_>, columns: &[Column<'_>], col: usize, room: &Room) {
    canvas.rule(1, 3, names_end(room.size.w).saturating_sub(2), false);
    for column in columns {
        let whole = heading(column.number, column.line);
        let words = if cells(&whole) <= column.width { whole } else { short_heading(column.number, column.line) };
        canvas.text(column.x, 2, column.width, &words, Role::Heading);
        canvas.rule(column.x, 3, column.width, column.number == col);
    }
}

fn box_row(canvas: &mut Canvas<'_>, app: &App, review: &Review, line: &BoxLine, columns: &[Column<'_>], y: u16) {
    let (desk, careful) = (&app.desk, review.careful(line.giftbox).is_some());
    let end = names_end(canvas.width());
    if desk.ticked.contains(&line.giftbox) {
        canvas.raw(2, y, 1, "✓", Role::Here);
    }
    canvas.right(6, y, 3, &line.label, Role::Text);
    canvas.text(7, y, 12.min(end.saturating_sub(7)), &format!("{} {}", line.for_whom, line.ages), Role::Text);
    let theme = if careful { 22 } else { 20 };
    canvas.text(19, y, end.saturating_sub(theme), &line.theme, Role::Text);
    for column in columns {
        if let Some(cell) = cell(line, column.line) {
            cell_words(canvas, cell, column, column.number == review.col, y);
        }
    }
}

/// The sign of the strictest caution on a thing in the box, before its first column.
fn care(canvas: &mut Canvas<'_>, review: &Review, line: &BoxLine, y: u16) {
    if let Some(row) = review.careful(line.giftbox) {
        let x = names_end(canvas.width()).saturating_sub(2);
        canvas.raw(x, y, 1, &row.sign().to_string(), caution_role(row.level));
    }
}

fn cell_words(canvas: &mut Canvas<'_>, cell: &Cell, column: &Column<'_>, in_hand: bool, y: u16) {
    let sign = cell.met.sign();
    let words = match (cell.met, column.width) {
        (Met::Full, _) => sign.to_string(),
        (Met::OnceIn, 9..) => format!("{sign} {} aside", cell.wanted.saturating_sub(cell.inside)),
        (Met::OnceIn, _) => format!("{sign} {}", cell.wanted.saturating_sub(cell.inside)),
        (_, 9..) => format!("{sign} needs {}", cell.needs),
        _ => format!("{sign} {}", cell.needs),
    };
    let role = if in_hand && cell.needs > 0 { Role::Here } else { role_of(cell.met) };
    canvas.raw(column.x, y, column.width, &words, role);
}

/// Below: how many of all boxes looked at lack it, how many things that is, and what the one in hand needs.
fn sums(canvas: &mut Canvas<'_>, app: &App, review: &Review, columns: &[Column<'_>], y: u16) {
    let desk = &app.desk;
    let boxes = review.filter.boxes(desk);
    canvas.text(2, y + 1, 24, &format!("Of {} boxes lack it", boxes.len()), Role::Text);
    canvas.text(2, y + 2, 24, "Things they need", Role::Text);
    for column in columns {
        let cells: Vec<&Cell> = boxes.iter().filter_map(|line| cell(line, column.line)).collect();
        let lack = cells.iter().filter(|cell| cell.needs > 0).count();
        let needs: u32 = cells.iter().map(|cell| cell.needs).sum();
        canvas.text(column.x, y + 1, column.width, &lack.to_string(), Role::Text);
        canvas.text(column.x, y + 2, column.width, &needs.to_string(), Role::Text);
    }
    if let Some(line) = review.giftbox(desk) {
        let mut words = crate::tui::app::common::lacks(line);
        if let Some(row) = review.careful(line.giftbox) {
            words.push_str(&format!(" {} {}: {}.", row.sign(), row.thing, row.level));
        }
        canvas.text(1, y + 4, canvas.width().saturating_sub(2), &words, Role::Text);
    }
}
