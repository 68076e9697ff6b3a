//! What every screen has around its table: the heading, the line with what lies beneath it, the
//! sentence of what was done, and the keys that work now.

use super::canvas::{Canvas, cells};
use super::look::Role;
use crate::model::text::counted;
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::desk::{Desk, Tone};
use crate::tui::app::key::Hit;
use crate::tui::app::keymap::Gesture;
use crate::tui::app::table::{self, Row};

/// The title on the left and how it stands on the right.
pub fn heading(canvas: &mut Canvas<'_>, title: &str, status: &str) {
    let width = canvas.width();
    // How it stands gives way before the title is cut.
    if cells(title) + cells(status) + 3 < width {
        canvas.right(width - 1, 0, width, status, Role::Text);
    }
    canvas.text(1, 0, width.saturating_sub(2), title, Role::Heading);
}

/// The same with a rule beneath, where the screen is not too small for one.
pub fn heading_ruled(canvas: &mut Canvas<'_>, title: &str, status: &str) {
    heading(canvas, title, status);
    if canvas.width() >= 60 && canvas.height() >= 16 {
        canvas.rule(1, 1, canvas.width().saturating_sub(2), false);
    }
}

/// `24 boxes · 9 full`.
pub fn boxes_full(desk: &Desk) -> String {
    let boxes = desk.seen.boxes();
    let full = boxes.iter().filter(|line| line.full).count();
    format!("{} · {full} full", counted(boxes.len() as u64, "box", "boxes"))
}

/// The last two rows: what was said, and the keys.
pub fn foot(canvas: &mut Canvas<'_>, app: &App) {
    let (width, height) = (canvas.width(), canvas.height());
    said(canvas, &app.desk, app.gesture(), height.saturating_sub(2));
    let y = height.saturating_sub(1);
    let keys = keys(app);
    let all: u16 = keys.iter().map(|(_, label, name)| cells(name) + 1 + cells(label)).sum();
    let gaps = u16::try_from(keys.len()).unwrap_or(0);
    let gap = if all + 3 * gaps <= width { 3 } else { 2 };
    let mut x = 1;
    for (row, label, name) in &keys {
        let both = cells(name) + 1 + cells(label);
        if x + both > width {
            break;
        }
        let end = canvas.raw(x, y, both, name, Role::Here);
        canvas.raw(end + 1, y, both, label, Role::Text);
        if let Some(key) = app.desk.keys.first(row.action, app.gesture()) {
            canvas.zone(x, y, both, Hit::Press(key));
        }
        x += both + gap;
    }
}

/// The keys of the foot: their rows, their labels, and how the key is told.
fn keys(app: &App) -> Vec<(&'static Row, String, String)> {
    match app.gesture() {
        Gesture::Looking => {
            let rows = app.foot();
            let shown = |(row, label): (&'static Row, &str)| Some((row, label.to_owned(), looking(&app.desk, row)?));
            rows.filter_map(shown).collect()
        }
        Gesture::Writing => table::writing(app.desk.line.as_ref().map(|line| &line.purpose))
            .iter()
            .map(|(action, label)| {
                let row = table::row(*action);
                let label = if label.is_empty() { row.label } else { label };
                let key = row.writing.first().map(|(key, _)| key.to_string()).unwrap_or_default();
                (row, label.to_owned(), key)
            })
            .collect(),
        Gesture::Asked => asked(app),
    }
}

/// The first key, the digits told as a range; none where its keys were taken away.
fn looking(desk: &Desk, row: &'static Row) -> Option<String> {
    let key = desk.keys.first(row.action, Gesture::Looking)?;
    Some(if row.action == Action::Choose { desk.keys.names(row) } else { key.to_string() })
}

fn asked(app: &App) -> Vec<(&'static Row, String, String)> {
    let Some(asked) = &app.desk.asked else { return Vec::new() };
    let first = usize::from(asked.zero.is_none());
    let last = asked.choices.len();
    let digits = if first == last { first.to_string() } else { format!("{first}–{last}") };
    let back = if app.desk.line.is_some() { "back to the words" } else { "leave it" };
    vec![
        (table::row(Action::Choose), "answer".to_owned(), digits),
        (table::row(Action::Back), back.to_owned(), "Esc".to_owned()),
        (table::row(Action::Help), "help".to_owned(), "F1".to_owned()),
    ]
}

fn said(canvas: &mut Canvas<'_>, desk: &Desk, gesture: Gesture, y: u16) {
    let width = canvas.width().saturating_sub(2);
    let said = &desk.said;
    let role = match said.tone {
        Tone::Plain => Role::Text,
        Tone::Done | Tone::Undone => Role::Good,
        Tone::No => Role::Care,
    };
    let key = |action| match gesture {
        Gesture::Looking => desk.key(action),
        _ => desk.keys.first(action, Gesture::Writing).map(|key| key.to_string()).unwrap_or_default(),
    };
    let back = match said.tone {
        Tone::Done => format!("{} takes it back.", key(Action::Undo)),
        Tone::Undone => format!("{} brings it again.", key(Action::Redo)),
        Tone::Plain | Tone::No => {
            canvas.text(1, y, width, &said.text, role);
            return;
        }
    };
    // How to take it back is never cut off.
    let hint = format!(" {back} ");
    let room = width.saturating_sub(cells(&hint));
    let end = canvas.text(1, y, room, &said.text, role);
    let end = canvas.raw(end, y, width, &hint, Role::Text);
    canvas.text(end, y, (width + 1).saturating_sub(end), &said.notes, Role::Text);
}
