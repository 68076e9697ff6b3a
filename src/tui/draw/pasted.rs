//! Pasted lines to look through: sign, reading, price, tote; behind them the row that keeps all.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::look::Role;
use super::rows::{self, Place};
use crate::model::money::Money;
use crate::season::{Entry, Outcome, Reading};
use crate::tui::app::App;
use crate::tui::app::pasted::{Pasted, PastedLine};
use crate::tui::app::screen::Face;

/// Draws pasted lines.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, pasted: &Pasted) {
    let desk = &app.desk;
    let room = desk.room(2);
    let (count, sum) = pasted.sum();
    let status = format!("{count} of {} lines · {}", pasted.lines.len(), sum.plain(desk.seen.currency()));
    heading_ruled(canvas, "Pasted lines, to look through", &status);
    let place = Place {
        x: 1,
        y: room.table,
        width: room.size.w.saturating_sub(2),
        height: room.table_rows,
        part: 0,
        in_hand: desk.asked.is_none() && desk.line.is_none(),
    };
    rows::draw(canvas, place, pasted.list(0), pasted.lines.len() + 1, |canvas, row, y| match pasted.lines.get(row) {
        Some(line) => line_row(canvas, app, line, pasted.is_clear(row, desk), place, y),
        None => _ = canvas.text(3, y, place.width, &pasted.save_words(desk), Role::Heading),
    });
    super::line::draw(canvas, app, &room);
}

fn line_row(canvas: &mut Canvas<'_>, app: &App, line: &PastedLine, clear: bool, place: Place, y: u16) {
    let (sign, role) = match (line.out, clear) {
        (true, _) => ("−", Role::Quiet),
        (false, true) => ("✓", Role::Quiet),
        (false, false) => ("?", Role::Here),
    };
    canvas.raw(3, y, 1, sign, role);
    let price = place.width.saturating_sub(14);
    match &line.entry {
        Some(Entry::Line(Outcome::Read(reading))) => {
            let left = if line.out { format!("left out: {}", reading.line) } else { what(reading) };
            canvas.text(5, y, price.saturating_sub(14), &left, Role::Text);
            canvas.right(price, y, 9, &paid(reading), Role::Text);
            let place_of = reading.place.as_deref().unwrap_or_default();
            canvas.text(price + 2, y, 13, place_of, Role::Text);
        }
        Some(Entry::Line(Outcome::Refused(refused))) => {
            canvas.text(5, y, place.width.saturating_sub(6), &refused.error, Role::Care);
        }
        Some(Entry::Head(head)) => {
            let told = app.desk.seen.reader.as_ref().map(|reader| reader.head_words(head)).unwrap_or_default();
            canvas.text(5, y, place.width.saturating_sub(6), &told, Role::Text);
        }
        None => _ = canvas.text(5, y, place.width.saturating_sub(6), &line.words, Role::Text),
    }
}

/// How many of what, without its price.
fn what(reading: &Reading) -> String {
    let units = reading.units.map_or("?".to_owned(), |units| units.to_string());
    let category = reading.category.as_ref().map(|category| format!(" · {}", category.words())).unwrap_or_default();
    format!("{units} {}{category}", reading.title())
}

fn paid(reading: &Reading) -> String {
    match reading.paid {
        Some(Money::ZERO) => "free".to_owned(),
        Some(paid) => paid.plain(reading.currency),
        None => "open".to_owned(),
    }
}
