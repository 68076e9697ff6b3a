//! The plan at a glance: the answer, what is still needed as bars, what to buy, and what buying would change.

use super::canvas::{Canvas, lines_of};
use super::frame::{boxes_full, heading_ruled};
use super::look::Role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::{NeedLine, Tonight};
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::key::Hit;
use crate::tui::app::plan::{Plan, Row};
use crate::tui::app::room::Tier;
use crate::tui::app::screen::Face;

/// A row of the picture.
enum Line {
    /// Nothing.
    Blank,
    /// A part of the answer.
    Said(String),
    /// The heading of what is needed.
    Needed,
    /// The heading of what is to be bought.
    ToBuy,
    /// Something needed, by its place.
    Need(usize),
    /// All that there is enough of.
    Enough,
    /// Something to buy, by its place.
    Buy(usize),
    /// All that is to be bought.
    Total,
}

/// The rows of `what if`, under the table: with an answer, and without one.
const WHAT_IF: (u16, u16) = (3, 2);
/// The longest bar.
const BAR: u16 = 16;

/// Draws the table.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, place: Place) {
    heading_ruled(canvas, "Plan for tonight", &boxes_full(&app.desk));
    let Some(tonight) = &plan.tonight else {
        canvas.text(place.x + 2, place.y, place.width, "Looking at what is on hand…", Role::Text);
        return;
    };
    let wide = app.desk.size.tier() == Tier::Wide;
    let left = if wide { Place { width: place.width * 3 / 5, ..place } } else { place };
    let foot = match (place.height, plan.is_wishing()) {
        (..12, _) => 0,
        _ if tonight.lines.iter().all(|line| line.short == 0) => 0,
        (_, true) => WHAT_IF.0,
        (_, false) => WHAT_IF.1,
    };
    let rows = Place { height: left.height - foot, ..left };
    let lines = lines(app, plan, tonight, left.width.saturating_sub(2));
    scrolled(canvas, plan, &lines, rows);
    if foot > 0 {
        what_if(canvas, app, plan, Place { y: rows.y + rows.height, height: foot, ..left });
    }
    if wide {
        let x = left.x + left.width + 3;
        let width = (place.x + place.width).saturating_sub(x);
        box_by_box(canvas, app, plan, Place { x, width, ..place });
    }
}

/// All rows from the top, those that can be chosen with their number.
fn lines(app: &App, plan: &Plan, tonight: &Tonight, width: u16) -> Vec<(Option<usize>, Line)> {
    let mut lines: Vec<(Option<usize>, Line)> = Vec::new();
    for (at, said) in said(app, plan, tonight).iter().enumerate() {
        for (part, text) in lines_of(said, width, 3).into_iter().enumerate() {
            lines.push(((at == 0 && part == 0).then_some(0), Line::Said(text.to_owned())));
        }
    }
    let mut table = plan.table().into_iter().enumerate().skip(1).peekable();
    if table.peek().is_some() {
        lines.extend([(None, Line::Blank), (None, Line::Needed)]);
    }
    for (at, row) in table {
        let line = match row {
            Row::Answer => continue,
            Row::Need(need) => Line::Need(need),
            Row::Enough => Line::Enough,
            Row::Buy(need) => {
                if need == 0 {
                    lines.extend([(None, Line::Blank), (None, Line::ToBuy)]);
                }
                Line::Buy(need)
            }
        };
        lines.push((Some(at), line));
    }
    if !tonight.to_buy.is_empty() {
        lines.push((None, Line::Total));
    }
    lines
}

fn head(canvas: &mut Canvas<'_>, title: &str, heads: &[&str], columns: &Columns, y: u16) {
    canvas.text(columns.x - 2, y, columns.name, title, Role::Heading);
    columns.row(canvas, y, heads, Role::Quiet);
}

/// The sentences of the answer; while a better one is looked for, the first says so.
fn said(app: &App, plan: &Plan, tonight: &Tonight) -> Vec<String> {
    let mut said = tonight.answer.clone();
    if plan.still_looks(&app.desk)
        && let Some(first) = said.first_mut()
    {
        first.truncate(first.trim_end_matches('.').len());
        first.push_str("; still looking, Esc stops.");
    }
    said
}

/// Draws the rows in sight: the chosen one always is.
fn scrolled(canvas: &mut Canvas<'_>, plan: &Plan, lines: &[(Option<usize>, Line)], place: Place) {
    let chosen = plan.list(0).row();
    let height = usize::from(place.height);
    let at = lines.iter().position(|(row, _)| *row == Some(chosen)).unwrap_or(0);
    // The total under the last row comes into sight with it.
    let last = if at + 2 == lines.len() { at + 1 } else { at };
    let top = (last + 1).saturating_sub(height);
    for (index, (row, line)) in lines.iter().enumerate().skip(top).take(height) {
        let y = place.y + u16::try_from(index - top).unwrap_or(0);
        draw_line(canvas, plan, line, place, y);
        if let Some(row) = row {
            rows::mark(canvas, place, *row == chosen, y);
            canvas.zone(place.x, y, place.width, Hit::Row { part: 0, row: *row });
        }
    }
}

fn draw_line(canvas: &mut Canvas<'_>, plan: &Plan, line: &Line, place: Place, y: u16) {
    let tonight = plan.tonight.as_ref();
    match line {
        Line::Blank => {}
        Line::Said(text) => _ = canvas.text(place.x + 2, y, place.width.saturating_sub(2), text, Role::Text),
        Line::Needed => head(canvas, "Still needed", &["needed", "on hand", "short"], &Columns::of_needs(place), y),
        Line::ToBuy => head(canvas, "To buy", &["count", "each under", "about", "boxes"], &Columns::of_buys(place), y),
        Line::Need(at) => need(canvas, plan, &plan.lines()[*at], place, y),
        Line::Enough => {
            let over = tonight.map_or(0, |tonight| tonight.over);
            let fold = if plan.unfolded { "Enter folds it up" } else { "Enter shows it" };
            let words = match over {
                0 => format!("all the rest is on hand; {fold}"),
                over => {
                    format!("all the rest is on hand, with {} over; {fold}", counted(over.into(), "thing", "things"))
                }
            };
            canvas.text(place.x + 2, y, place.width.saturating_sub(2), &words, Role::Text);
        }
        Line::Buy(at) => buy(canvas, &plan.lines()[*at], place, y),
        Line::Total => {
            let words = tonight.map(|tonight| format!("in all {}", tonight.to_buy)).unwrap_or_default();
            canvas.text(place.x + 2, y, place.width.saturating_sub(10), &words, Role::Text);
            let gains: Option<u32> = plan.lines().iter().filter(|line| line.short > 0).map(|line| line.gains).sum();
            let gains = gains.map(|gains| format!("+{gains}")).unwrap_or_default();
            canvas.right(Columns::of_buys(place).ends[3], y, 6, &gains, Role::Text);
        }
    }
}

/// Where the figures of a table stand: the width of the names, and where each column ends.
struct Columns {
    x: u16,
    name: u16,
    ends: [u16; 4],
}

impl Columns {
    /// Of what is needed: three figures, and where there is room a bar.
    fn of_needs(place: Place) -> Columns {
        let bar = if has_bars(place) { BAR + 2 } else { 0 };
        let end = |back: u16| (place.x + place.width).saturating_sub(back + bar);
        Columns::ending([end(17), end(8), end(1), 0], place)
    }

    /// Of what to buy: count, price to stay under, sum, boxes.
    fn of_buys(place: Place) -> Columns {
        let end = |back: u16| (place.x + place.width).saturating_sub(back);
        Columns::ending([end(29), end(17), end(9), end(1)], place)
    }

    fn ending(ends: [u16; 4], place: Place) -> Columns {
        Columns { x: place.x + 2, name: ends[0].saturating_sub(place.x + 9), ends }
    }

    fn row(&self, canvas: &mut Canvas<'_>, y: u16, texts: &[impl AsRef<str>], role: Role) {
        for (text, end) in texts.iter().zip(self.ends) {
            canvas.right(end, y, 10, text.as_ref(), role);
        }
    }
}

fn has_bars(place: Place) -> bool {
    place.width >= 66
}

/// `clothing, girls 6–8   5   2   3   ██████░░░░░░░░░`.
fn need(canvas: &mut Canvas<'_>, plan: &Plan, line: &NeedLine, place: Place, y: u16) {
    let columns = Columns::of_needs(place);
    canvas.text(columns.x, y, columns.name, &line.name(), Role::Text);
    columns.row(canvas, y, &[line.needed, line.on_hand, line.short].map(|count| count.to_string()), Role::Text);
    if has_bars(place) {
        let role = if line.short > 0 { Role::Care } else { Role::Quiet };
        canvas.raw((place.x + place.width).saturating_sub(BAR), y, BAR, &bar(plan, line), role);
    }
}

/// As long as what is needed, empty as far as it is short; the longest one in sight fills all its room.
fn bar(plan: &Plan, line: &NeedLine) -> String {
    let shown = plan.lines().iter().filter(|line| plan.unfolded || line.short > 0);
    let most = shown.map(|line| line.needed).max().unwrap_or(1).max(1);
    let cells = |count: u32| (u64::from(count) * u64::from(BAR)).div_ceil(most.into());
    let (all, short) = (cells(line.needed), cells(line.short.min(line.needed)));
    let sign = |sign: &str, count: u64| sign.repeat(usize::try_from(count).unwrap_or(0));
    sign("█", all - short) + &sign("░", short)
}

/// `wow item, boys 9–12   2   3.10   6.00   +2`.
fn buy(canvas: &mut Canvas<'_>, line: &NeedLine, place: Place, y: u16) {
    let columns = Columns::of_buys(place);
    canvas.text(columns.x, y, columns.name, &line.sized_name(), Role::Text);
    let each = match (line.each.as_str(), line.pack) {
        ("", _) => "unknown".to_owned(),
        (each, 1) => each.to_owned(),
        (each, pack) => format!("{each}/{pack}"),
    };
    let cost = if line.cost.is_empty() { "?" } else { &line.cost };
    let gains = match line.gains {
        None => "…".to_owned(),
        Some(0) => "–".to_owned(),
        Some(gains) => format!("+{gains}"),
    };
    columns.row(canvas, y, &[&line.short.to_string(), &each, cost, &gains], Role::Text);
}

/// The question that + and − change, with its answer.
fn what_if(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, place: Place) {
    let (x, width) = (place.x + 2, place.width.saturating_sub(2));
    let keys = format!("{} and {}", app.desk.key(Action::PutOne), app.desk.key(Action::TakeOne));
    let now = plan.tonight.as_ref().map_or(0, |tonight| tonight.can_finish);
    match (&plan.what_if, plan.is_wishing()) {
        (Some(what_if), true) => {
            let words = format!("What if you buy {}?  {}", what_if.bought, what_if.words(now));
            canvas.wrapped(x, place.y, (width, 2), &words, Role::Text);
            canvas.text(
                x,
                place.y + 2,
                width,
                &format!("{keys} change it, and the answer follows. Nothing is kept."),
                Role::Quiet,
            );
        }
        (None, true) => _ = canvas.text(x, place.y + 1, width, "Looking…", Role::Quiet),
        (_, false) => {
            let what = plan.line().map(NeedLine::name).unwrap_or_default();
            let words = format!("What if you bought some? {keys} on {what} answer.");
            canvas.text(x, place.y + 1, width, &words, Role::Quiet);
        }
    }
}

/// Beside the table, where there is room: what each box would get.
fn box_by_box(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, place: Place) {
    canvas.text(place.x, place.y, place.width, "Box by box", Role::Heading);
    let boxes: Vec<_> = plan.fillable().collect();
    let mut y = place.y + 1;
    for (at, giftbox) in boxes.iter().enumerate() {
        let room = (place.y + place.height).saturating_sub(y);
        let words = format!("{} {}", giftbox.label, giftbox.words());
        let lines = lines_of(&words, place.width, 3);
        if room < u16::try_from(lines.len()).unwrap_or(u16::MAX) + 1 {
            let more = counted((boxes.len() - at) as u64, "more box", "more boxes");
            canvas.text(place.x, y, place.width, &more, Role::Quiet);
            return;
        }
        for line in lines {
            canvas.text(place.x, y, place.width, line, Role::Text);
            y += 1;
        }
    }
    if boxes.is_empty() {
        let pull = app.desk.key(Action::Pull);
        let words = format!("Nothing more to set aside; {pull} fetches what is.");
        canvas.wrapped(place.x, y, (place.width, 3), &words, Role::Text);
    }
}
