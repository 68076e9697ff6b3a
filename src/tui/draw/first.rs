//! The first start: an empty file greets with the few things to do first.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::look::Role;
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::desk::Desk;
use crate::tui::app::room::Tier;

const LONG: &[&str] = &[
    "",
    "The table is empty. Three things to begin with, in any order:",
    "",
    "  {bought}Write what you bought, in your own words, one thing a line:",
    "      12 toothbrushes 1.50 tote 4",
    "      3 pairs of socks girls 6-8 half off 2.40",
    "",
    "  {plan}Plan a box, or several:",
    "      3 girl 6-8 ocean, teal and coral",
    "",
    "  {mend}Say how your drive does it: ages, checklist, box size, dates.",
    "      Until then: ages 3–5, 6–8, 9–12; something from each of five kinds.",
    "",
    "",
    "  1   Look around in a made-up drive first. Yours stays empty and waits.",
    "",
    "Kept in one file on this computer only; {actions} \"where\" shows it.",
];

const SHORT: &[&str] = &[
    "The table is empty. To begin with:",
    " {bought}write it: 12 toothbrushes 1.50",
    " {plan}plan a box: girl 6-8 ocean",
    " {mend}say how your drive does it",
    " 1  look around in a made-up drive",
];

/// Draws the greeting.
pub fn draw(canvas: &mut Canvas<'_>, app: &App) {
    let room = app.desk.room(2);
    heading_ruled(canvas, "A new drive", "nothing kept yet");
    let enough = room.tier >= Tier::Narrow && usize::from(room.table_rows) + 1 >= LONG.len();
    let (lines, pad) = if enough { (LONG, 3) } else { (SHORT, 2) };
    for (row, line) in lines.iter().take(room.table_rows.into()).enumerate() {
        let line = with_keys(line, &app.desk, pad);
        canvas.text(1, room.table + u16::try_from(row).unwrap_or(0), room.size.w.saturating_sub(1), &line, Role::Text);
    }
    super::line::draw(canvas, app, &room);
    if app.desk.line.is_none() && app.desk.asked.is_none() {
        canvas.cursor(1, room.line);
    }
}

/// A line with the keys as they are set, and the words behind them in one column.
fn with_keys(line: &str, desk: &Desk, pad: usize) -> String {
    let key = |action| format!("{:<pad$} ", desk.key(action));
    let line = line.replace("{bought}", &key(Action::Bought)).replace("{plan}", &key(Action::PlanBox));
    line.replace("{mend}", &key(Action::Mend)).replace("{actions}", &desk.key(Action::Actions))
}
