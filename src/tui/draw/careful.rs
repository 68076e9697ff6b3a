//! What to be careful of: a list, and beneath it the selected caution in full.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::lists::table;
use super::look::Role;
use super::offers::caution_role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::CautionRow;
use crate::tui::app::App;
use crate::tui::app::careful::{Careful, IN_FULL};
use crate::tui::app::screen::Face;

/// Draws cautions.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, careful: &Careful) {
    let room = app.desk.room(2);
    let whole = table(app, &room);
    let found = careful.cautions();
    heading_ruled(canvas, &careful.title(), &counted(found.len() as u64, "caution", "cautions"));
    let full = u16::try_from(IN_FULL).unwrap_or(0).min(whole.height.saturating_sub(1));
    let place = Place { height: whole.height - full, ..whole };
    if let (true, Some(known)) = (found.is_empty(), &careful.found) {
        canvas.text(1, place.y, place.width, "Nothing known to be careful of.", Role::Text);
        canvas.wrapped(1, place.y + 2, (place.width, 3), known.closing, Role::Text);
    }
    rows::draw(canvas, place, careful.list(0), found.len(), |canvas, row, y| line(canvas, &found[row], place, y));
    if let Some(row) = careful.caution() {
        in_full(canvas, careful, row, Place { y: place.y + place.height, height: full, ..whole });
    }
    super::line::draw(canvas, app, &room);
}

fn line(canvas: &mut Canvas<'_>, row: &CautionRow, place: Place, y: u16) {
    let role = if row.allowed.is_empty() { caution_role(row.level) } else { Role::Quiet };
    canvas.text(place.x + 2, y, 1, &row.sign().to_string(), role);
    let name = place.width / 3;
    canvas.text(place.x + 4, y, name, &row.thing, Role::Text);
    let x = place.x + name + 6;
    let whom = if row.label.is_empty() { format!("for {}", row.ages) } else { format!("box {}", row.label) };
    let x = canvas.text(x, y, 12, &whom, Role::Text).max(x + 10) + 1;
    let allowed = if row.allowed.is_empty() { "" } else { "; allowed" };
    let words = format!("{}{allowed}", row.level.words());
    canvas.text(x, y, (place.x + place.width).saturating_sub(x), &words, role);
}

/// Why, what to do, where it stands, and who decides.
fn in_full(canvas: &mut Canvas<'_>, careful: &Careful, row: &CautionRow, place: Place) {
    let closing = careful.found.as_ref().map(|found| found.closing).unwrap_or_default();
    let last = place.y + place.height;
    let allowed = match (row.allowed.as_str(), row.allowed_by.as_str()) {
        ("", _) => String::new(),
        (why, "") => format!("Allowed: {why}. "),
        (why, by) => format!("Allowed by {by}: {why}. "),
    };
    let text = format!("{allowed}{} To do: {}. Source: {}.", row.text, row.remedy, row.source);
    canvas.wrapped(place.x, place.y + 1, (place.width, place.height.saturating_sub(2)), &text, Role::Text);
    canvas.text(place.x, last.saturating_sub(1), place.width, closing, Role::Quiet);
}
