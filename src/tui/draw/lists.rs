//! Screens that are one list: a tote, the pull list, the history, the last night, the rules, the keys.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::look::Role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::HaulLine;
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::drive::Drive;
use crate::tui::app::hauls::HaulList;
use crate::tui::app::help::{Help, SENTENCE};
use crate::tui::app::history::Told;
use crate::tui::app::list::Rows;
use crate::tui::app::night::Night;
use crate::tui::app::pull::Pull;
use crate::tui::app::room::Room;
use crate::tui::app::screen::Face;
use crate::tui::app::tote::Tote;

/// The whole table under a title and its rule.
pub(super) fn table(app: &App, room: &Room) -> Place {
    Place {
        x: 1,
        y: room.table,
        width: room.size.w.saturating_sub(2),
        height: room.table_rows,
        part: 0,
        in_hand: app.desk.line.is_none() && app.desk.asked.is_none(),
    }
}

/// What lies in a tote.
pub fn tote(canvas: &mut Canvas<'_>, app: &App, tote: &Tote) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let rows = tote.rows(&app.desk, 0);
    let (count, picked) = match &rows {
        Rows::Wares { picked, .. } => (picked.len(), *picked),
        Rows::Few(_) => (0, [].as_slice()),
    };
    heading_ruled(canvas, &tote.tote, &counted(count as u64, "thing", "things"));
    if count == 0 {
        canvas.text(1, place.y, place.width, &format!("Nothing lies in {}.", tote.tote), Role::Text);
    }
    rows::draw(canvas, place, tote.list(0), count, |canvas, row, y| {
        let Some(ware) = app.desk.seen.shelf.wares().get(picked[row]) else { return };
        let name = place.width / 2;
        canvas.text(3, y, name, &ware.title, Role::Text);
        canvas.right(name + 9, y, 5, &ware.on_hand.to_string(), Role::Text);
        let aside = if ware.aside > 0 { format!("{} set aside", ware.aside) } else { String::new() };
        canvas.text(name + 11, y, place.width.saturating_sub(name + 12), &aside, Role::Text);
    });
    super::line::draw(canvas, app, &room);
}

/// What to fetch, by tote.
pub fn pull(canvas: &mut Canvas<'_>, app: &App, pull: &Pull) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let things: u32 = pull.all().map(|row| row.units).sum();
    heading_ruled(
        canvas,
        "What to fetch from which tote",
        &format!("{} set aside", counted(things.into(), "thing", "things")),
    );
    let totes = pull.list.as_ref().map(|list| list.totes.as_slice()).unwrap_or_default();
    if totes.is_empty() && pull.list.is_some() {
        canvas.text(1, place.y, place.width, "Nothing is set aside.", Role::Text);
    }
    // Headings are no rows of the list; the window is moved by whole totes' heights.
    let mut lines: Vec<(Option<usize>, String)> = Vec::new();
    let mut index = 0;
    for tote in totes {
        let name = if tote.tote.is_empty() { "where it lies was not said" } else { &tote.tote };
        lines.push((None, name.to_owned()));
        for row in &tote.rows {
            lines.push((Some(index), format!("□ {}   {}", row.things(), row.for_boxes())));
            index += 1;
        }
    }
    headed(canvas, place, pull.list(0).row(), &lines);
    super::line::draw(canvas, app, &room);
}

/// Rows under headings: headings can't be selected.
fn headed(canvas: &mut Canvas<'_>, place: Place, selected: usize, lines: &[(Option<usize>, String)]) {
    let height = usize::from(place.height);
    let at = lines.iter().position(|(row, _)| *row == Some(selected)).unwrap_or(0);
    let top = (at + 2).saturating_sub(height).min(lines.len().saturating_sub(height));
    for (line, (row, words)) in lines.iter().enumerate().skip(top).take(height) {
        let y = place.y + u16::try_from(line - top).unwrap_or(0);
        match row {
            None => _ = canvas.text(place.x, y, place.width, words, Role::Heading),
            Some(row) => {
                canvas.text(place.x + 2, y, place.width.saturating_sub(2), words, Role::Text);
                rows::mark(canvas, place, *row == selected, y);
                let hit = crate::tui::app::key::Hit::Row { part: 0, row: *row };
                canvas.zone(place.x, y, place.width, hit);
            }
        }
    }
}

/// All hauls, newest first, and whether each adds up to its receipt.
pub fn hauls(canvas: &mut Canvas<'_>, app: &App, hauls: &HaulList) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let lines = hauls.lines();
    let open = lines.iter().filter(|(haul, _)| !haul.over.is_empty()).count() as u64;
    let status = if open == 0 { String::new() } else { format!("{open} to settle · ") };
    let count = counted(lines.len() as u64, "haul", "hauls");
    heading_ruled(canvas, "Which hauls add up", &format!("{status}{count}"));
    if lines.is_empty() && hauls.hauls.is_some() {
        canvas.text(1, place.y, place.width, "No haul is written yet.", Role::Text);
    }
    rows::draw(canvas, place, hauls.list(0), lines.len(), |canvas, row, y| haul(canvas, &lines[row].0, place, y));
    super::line::draw(canvas, app, &room);
}

/// Day, shop, lines, what was paid, and what the receipt says to that.
fn haul(canvas: &mut Canvas<'_>, haul: &HaulLine, place: Place, y: u16) {
    let after_day = canvas.text(3, y, 10, &haul.date, Role::Text) + 2;
    let lines_end = place.width * 45 / 100;
    canvas.text(after_day, y, lines_end.saturating_sub(after_day + 5), &haul.shop, Role::Text);
    canvas.right(lines_end, y, 4, &haul.lines.to_string(), Role::Text);
    canvas.right(lines_end + 11, y, 10, &haul.paid.short(), Role::Text);
    let (words, role) = match (haul.receipt.as_str(), haul.over.strip_prefix('-')) {
        ("", _) => ("no receipt".to_owned(), Role::Text),
        (_, None) if haul.over.is_empty() => ("✓ adds up".to_owned(), Role::Text),
        (_, Some(less)) => (format!("! receipt {less} less"), Role::Care),
        (_, None) => (format!("! receipt {} more", haul.over), Role::Care),
    };
    canvas.text(lines_end + 13, y, place.width.saturating_sub(lines_end + 13), &words, role);
}

/// What was done, newest first.
pub fn history(canvas: &mut Canvas<'_>, app: &App, told: &Told) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let steps = told.steps();
    heading_ruled(canvas, "What was done", &counted(steps.len() as u64, "act", "acts"));
    if steps.is_empty() && told.history.is_some() {
        canvas.text(1, place.y, place.width, "Nothing was done yet.", Role::Text);
    }
    rows::draw(canvas, place, told.list(0), steps.len(), |canvas, row, y| {
        let step = &steps[row];
        let x = canvas.text(3, y, 17, &step.when.here(), Role::Quiet) + 2;
        let by = if step.by.is_empty() { String::new() } else { format!("{}: ", step.by) };
        let back = if step.undone { "taken back: " } else { "" };
        canvas.text(x, y, place.width.saturating_sub(x), &format!("{back}{by}{}", step.what), Role::Text);
    });
    super::line::draw(canvas, app, &room);
}

/// What stops each box before the drop-off.
pub fn night(canvas: &mut Canvas<'_>, app: &App, night: &Night) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let days = match night.night.as_ref().and_then(|night| night.days_left) {
        Some(0) => "drop-off today".to_owned(),
        Some(1) => "drop-off tomorrow".to_owned(),
        Some(days) => format!("drop-off in {days} days"),
        None => String::new(),
    };
    let status = format!("{} · {days}", counted(night.boxes().len() as u64, "box", "boxes"));
    heading_ruled(canvas, "What stops which box", status.trim_end_matches(" · "));
    if night.boxes().is_empty() && night.night.is_some() {
        canvas.text(1, place.y, place.width, "Nothing stops any box.", Role::Text);
    }
    let mut lines: Vec<(Option<usize>, String)> = Vec::new();
    for (at, row) in night.boxes().iter().enumerate() {
        lines.push((Some(at), format!("{}: {}", row.heading, row.stops.join(", "))));
        lines.push((None, String::new()));
    }
    let fixes: Vec<&str> = night.boxes().iter().map(|row| row.fix.as_str()).collect();
    two_rows(canvas, place, night.list(0).row(), &lines, &fixes);
    super::line::draw(canvas, app, &room);
}

/// Each row has its remedy in the row beneath.
fn two_rows(canvas: &mut Canvas<'_>, place: Place, selected: usize, lines: &[(Option<usize>, String)], below: &[&str]) {
    let height = usize::from(place.height);
    let top = (selected * 2 + 2).saturating_sub(height);
    for (line, (row, words)) in lines.iter().enumerate().skip(top).take(height) {
        let y = place.y + u16::try_from(line - top).unwrap_or(0);
        let Some(row) = row else {
            let fix = below.get(line / 2).copied().unwrap_or_default();
            canvas.text(place.x + 5, y, place.width.saturating_sub(5), fix, Role::Quiet);
            continue;
        };
        canvas.text(place.x + 2, y, place.width.saturating_sub(2), words, Role::Text);
        rows::mark(canvas, place, *row == selected, y);
        canvas.zone(place.x, y, place.width, crate::tui::app::key::Hit::Row { part: 0, row: *row });
    }
}

/// The drive's rules.
pub fn drive(canvas: &mut Canvas<'_>, app: &App, drive: &Drive) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let change = format!("{} changes a row", app.desk.key(Action::Mend));
    heading_ruled(canvas, "How your drive does it", &change);
    let name = drive.rules.iter().map(|row| super::canvas::cells(&row.what)).max().unwrap_or(0).min(place.width / 2);
    rows::draw(canvas, place, drive.list(0), drive.rules.len(), |canvas, row, y| {
        let rule = &drive.rules[row];
        canvas.text(3, y, name, &rule.what, Role::Heading);
        let words = if rule.words.is_empty() { "not said" } else { &rule.words };
        canvas.text(5 + name, y, place.width.saturating_sub(5 + name), words, Role::Text);
    });
    super::line::draw(canvas, app, &room);
}

/// The keys of a screen.
pub fn help(canvas: &mut Canvas<'_>, app: &App, help: &Help) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    let keys = help.keys();
    heading_ruled(canvas, "Keys", "while you write, letters are letters; F1 to F5 still work");
    let narrow = place.width < 60;
    let place = Place { height: place.height.saturating_sub(SENTENCE).max(1), ..place };
    rows::draw(canvas, place, help.list(0), keys.len(), |canvas, row, y| {
        let row = keys[row];
        let mut names = app.desk.keys.names(row);
        if names.is_empty() {
            names = format!("{} by name", app.desk.key(Action::Actions));
        }
        canvas.text(3, y, 13, &names, Role::Here);
        if narrow {
            canvas.text(17, y, place.width.saturating_sub(17), row.label, Role::Text);
        } else {
            canvas.text(17, y, 15, row.label, Role::Text);
            canvas.text(33, y, place.width.saturating_sub(33), row.help, Role::Text);
        }
    });
    if let Some(chosen) = keys.get(help.list(0).row()) {
        canvas.wrapped(3, place.y + place.height + 1, (place.width.saturating_sub(3), 2), chosen.help, Role::Text);
    }
    super::line::draw(canvas, app, &room);
}
