//! The line, and what it understood, offers or asks beneath it.

use std::sync::Arc;

use super::canvas::{Canvas, cells};
use super::look::Role;
use crate::season::{Entry, Outcome, Reading, Remake, What, compare};
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::asked::Asked;
use crate::tui::app::hunting;
use crate::tui::app::key::Hit;
use crate::tui::app::line::{Line, Offered, Purpose};
use crate::tui::app::room::{Room, Tier};
use crate::tui::app::table;

/// The line with all that lies beneath it.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, room: &Room) {
    let desk = &app.desk;
    let bottom = room.line + room.line_rows;
    match (&desk.line, &desk.asked) {
        (None, None) => {
            let (bought, find) = (desk.key(Action::Bought), desk.key(Action::Find));
            let words = if room.size.w < 50 {
                format!("› {bought} bought, {find} find")
            } else {
                format!("› {bought} writes what you bought, {find} finds anything")
            };
            canvas.text(1, room.line, canvas.width(), &words, Role::Quiet);
            canvas.zone(0, room.line, canvas.width(), Hit::Line);
        }
        (None, Some(asked)) => question(canvas, asked, room.line, bottom),
        (Some(line), asked) => {
            words(canvas, line, (1, room.line), asked.is_none());
            let y = room.line + 1;
            match line.purpose {
                Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_) => {
                    purchase(canvas, app, line, y, bottom, room.tier);
                }
                Purpose::PutIn { .. } => super::offers::for_box(canvas, app, line, y, bottom, room),
                Purpose::Plan | Purpose::MendBox(_) => plan(canvas, line, y),
                Purpose::Remake(way, _) => remake(canvas, line, way, y),
                Purpose::Size(ref name) => {
                    let words = format!("For example: 20 x 15 x 2 cm. It holds for all that is called {name}.");
                    canvas.text(1, y, canvas.width().saturating_sub(2), &words, Role::Text);
                }
                _ => offers(canvas, app, line, y, bottom),
            }
            if let Some(asked) = asked.as_ref().filter(|_| !is_purchase(line)) {
                // A question takes the place of what is offered.
                for row in y..bottom {
                    canvas.text(0, row, canvas.width(), &" ".repeat(canvas.width().into()), Role::Text);
                }
                question(canvas, asked, y, bottom);
            }
        }
    }
}

fn is_purchase(line: &Line) -> bool {
    matches!(line.purpose, Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_))
}

/// The prompt and the words, scrolled so that the caret is in sight.
pub fn words(canvas: &mut Canvas<'_>, line: &Line, (x, y): (u16, u16), with_cursor: bool) {
    let prompt = format!("{} › ", line.purpose.prompt());
    let x = canvas.raw(x, y, canvas.width(), &prompt, Role::Here);
    let room = canvas.width().saturating_sub(x + 1).max(1);
    let before = cells(&line.words()[..line.caret()]);
    let hidden = before.saturating_sub(room - 1);
    canvas.raw(x, y, room, skip_cells(line.words(), hidden), Role::Text);
    if with_cursor {
        canvas.cursor(x + before - hidden, y);
    }
}

/// A text without its first cells.
fn skip_cells(text: &str, skipped: u16) -> &str {
    let mut used = 0;
    for (at, c) in text.char_indices() {
        if used >= skipped {
            return &text[at..];
        }
        used += cells(c.encode_utf8(&mut [0; 4]));
    }
    ""
}

/// Under a purchase: what each word was taken for, the sentence, a comparison, then offers or the question.
fn purchase(canvas: &mut Canvas<'_>, app: &App, line: &Line, y: u16, bottom: u16, tier: Tier) {
    let width = canvas.width().saturating_sub(2);
    let mut y = y;
    if tier >= Tier::Narrow {
        if let Some(reading) = hunting::reading(line) {
            marks(canvas, line, reading, y);
        }
        y += if tier == Tier::Narrow { 2 } else { 3 };
    }
    let told = told(app, line);
    canvas.text(1, y, width, &told, Role::Text);
    y += 1;
    if tier >= Tier::Narrow {
        let wares: Vec<_> = line.offers.iter().filter_map(thing).collect();
        if let Some(words) = hunting::reading(line).and_then(|reading| compare(reading, &wares)) {
            canvas.text(1, y, width, &words, Role::Text);
        }
        y += if tier >= Tier::Full { 2 } else { 1 };
    }
    match &app.desk.asked {
        Some(asked) => question(canvas, asked, y, bottom),
        None => offers(canvas, app, line, y, bottom),
    }
}

fn thing(offered: &Offered) -> Option<Arc<crate::season::Ware>> {
    match offered {
        Offered::Thing(offer) => Some(Arc::clone(&offer.ware)),
        _ => None,
    }
}

/// The sentence that says everything.
fn told(app: &App, line: &Line) -> String {
    match line.entry.as_deref() {
        None if line.words().trim().is_empty() => "For example: 12 toothbrushes 1.50 tote 4".to_owned(),
        None => String::new(),
        Some(Entry::Head(head)) => {
            app.desk.seen.reader.as_ref().map(|reader| reader.head_words(head)).unwrap_or_default()
        }
        Some(Entry::Line(Outcome::Refused(refused))) => refused.error.clone(),
        Some(Entry::Line(Outcome::Read(reading))) => reading.sentence(),
    }
}

/// Rules under the words, and one word for what each was taken for.
fn marks(canvas: &mut Canvas<'_>, line: &Line, reading: &Reading, y: u16) {
    let prompt = cells(&format!("{} › ", line.purpose.prompt())) + 1;
    // What was read is cleaned of signs that no terminal should get; then it no longer stands under the words.
    let Some(shift) = line.words().find(reading.line.as_str()) else { return };
    let column = |byte: usize| prompt + cells(line.words().get(..shift + byte).unwrap_or_default());
    let mut free = [0_u16; 2];
    for (span, what) in joined(reading) {
        let (from, to) = (column(span.start), column(span.end));
        if to >= canvas.width() {
            break;
        }
        let doubt = what == What::Doubt;
        let (sign, role) = if doubt { ("═", Role::Here) } else { ("─", Role::Quiet) };
        canvas.raw(from, y, to - from, &sign.repeat((to - from).into()), role);
        // A name that has no room beside its neighbour moves to the second row.
        let name = what.word();
        let row = usize::from(free[0] > from);
        if !name.is_empty() && free[row] <= from {
            let role = if doubt { Role::Here } else { Role::Text };
            free[row] = canvas.raw(from, y + 1 + u16::from(row == 1), canvas.width(), name, role) + 1;
        }
    }
}

/// Neighbouring words that were taken for the same thing are one stretch.
fn joined(reading: &Reading) -> Vec<(std::ops::Range<usize>, What)> {
    let mut spans: Vec<(std::ops::Range<usize>, What)> = Vec::new();
    let mut taken: Vec<_> = reading.taken.iter().filter(|taken| taken.what != What::Filler).collect();
    taken.sort_by_key(|taken| taken.span.start);
    for taken in taken {
        match spans.last_mut() {
            Some((span, what)) if *what == taken.what && taken.span.start <= span.end + 1 => span.end = taken.span.end,
            _ => spans.push((taken.span.clone(), taken.what)),
        }
    }
    spans
}

/// A question and its numbered answers.
pub fn question(canvas: &mut Canvas<'_>, asked: &Asked, y: u16, bottom: u16) {
    let width = canvas.width().saturating_sub(2);
    let text = format!("? {}", asked.question);
    let end = canvas.text(1, y, width, &text, Role::Here);
    canvas.cursor(end, y);
    let (mut x, mut y) = (3, y + 1);
    for (digit, label) in asked.told() {
        let answer = format!("{digit}  {label}");
        if x > 3 && x + cells(&answer) > width {
            (x, y) = (3, y + 1);
        }
        if y >= bottom {
            break;
        }
        let at = x;
        x = canvas.raw(x, y, 1, &digit.to_string(), Role::Here);
        x = canvas.text(x, y, width.saturating_sub(x), &format!("  {label}"), Role::Text);
        let key = char::from_digit(u32::try_from(digit).unwrap_or(0), 10).unwrap_or('0');
        canvas.zone(at, y, x.saturating_sub(at), Hit::Press(crate::tui::app::key::Key::Char(key)));
        x += 4;
    }
}

/// What a box in words comes to.
fn plan(canvas: &mut Canvas<'_>, line: &Line, y: u16) {
    let width = canvas.width().saturating_sub(2);
    let words = line.words().trim();
    let told = if words.is_empty() {
        "For example: 3 girl 6-8 ocean, teal and coral".to_owned()
    } else {
        crate::season::box_sentence(words)
    };
    canvas.text(1, y, width, &told, Role::Text);
}

/// What the words would make.
fn remake(canvas: &mut Canvas<'_>, line: &Line, way: Remake, y: u16) {
    let words = line.words().trim();
    let told = if words.is_empty() { format!("For example: {}", way.example()) } else { way.sentence(words) };
    canvas.text(1, y, canvas.width().saturating_sub(2), &told, Role::Text);
}

/// What is offered, the marked row first in sight.
fn offers(canvas: &mut Canvas<'_>, app: &App, line: &Line, y: u16, bottom: u16) {
    let mut rows = usize::from(bottom.saturating_sub(y));
    if let (Some(Offered::Action(action)), 4..) = (line.offered(), rows) {
        // The sentence of the marked action stands whole below the list.
        rows -= 2;
        canvas.text(1, bottom - 1, canvas.width().saturating_sub(2), table::row(*action).help, Role::Text);
    }
    if line.offers.is_empty() {
        if matches!(line.purpose, Purpose::Find) && !line.words().trim().is_empty() && !app.is_busy() {
            let words = format!("Nothing is called \"{}\".", line.words().trim());
            canvas.text(1, y, canvas.width(), &words, Role::Text);
        }
        return;
    }
    let top = (line.marked + 1).saturating_sub(rows.max(1));
    for (row, offered) in line.offers.iter().enumerate().skip(top).take(rows) {
        let y = y + u16::try_from(row - top).unwrap_or(0);
        let marked = row == line.marked;
        if marked {
            canvas.raw(1, y, 1, "▸", Role::Here);
        }
        offered_row(canvas, app, offered, y);
        if marked {
            canvas.select(1, y, canvas.width().saturating_sub(2));
        }
        canvas.zone(0, y, canvas.width(), Hit::Offer(row));
    }
}

fn offered_row(canvas: &mut Canvas<'_>, app: &App, offered: &Offered, y: u16) {
    let width = canvas.width();
    let name = (width / 2).saturating_sub(6);
    match offered {
        Offered::Thing(offer) => {
            let ware = &offer.ware;
            canvas.text(3, y, name, &ware.title, Role::Text);
            let last = ware.last_each(app.desk.seen.currency());
            let last = last.map(|(price, date)| match date {
                Some(date) => format!("last {price}, {}", date.strftime("%-d %b")),
                None => format!("last {price}"),
            });
            let left = format!("{} left", ware.free());
            let x = name + 4;
            canvas.text(x, y, 10, &left, Role::Text);
            canvas.text(x + 10, y, 13, &ware.tote, Role::Text);
            canvas.text(x + 24, y, width.saturating_sub(x + 25), &last.unwrap_or_default(), Role::Text);
        }
        Offered::Box(_, words) => _ = canvas.text(3, y, width.saturating_sub(4), &format!("box {words}"), Role::Text),
        Offered::Tote(tote, units) => {
            canvas.text(3, y, name, tote, Role::Text);
            canvas.text(name + 4, y, 20, &format!("{units} things"), Role::Text);
        }
        Offered::Action(action) => {
            let row = table::row(*action);
            canvas.text(3, y, 20, row.label, Role::Text);
            canvas.text(24, y, 12, &app.desk.keys.names(row), Role::Here);
            canvas.text(37, y, width.saturating_sub(38), row.help, Role::Text);
        }
    }
}
