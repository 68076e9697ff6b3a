//! A haul being written: its lines so far, the sum, and the line.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::look::Role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::{HaulCard, HaulEntry};
use crate::tui::app::App;
use crate::tui::app::haul::Haul;
use crate::tui::app::room::Tier;
use crate::tui::app::screen::Face;

/// Draws a haul.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, haul: &Haul) {
    let desk = &app.desk;
    let small = desk.size.tier() <= Tier::Small;
    let room = desk.room(if small { 1 } else { 2 });
    let (title, status) = titles(app, haul);
    heading_ruled(canvas, &title, &status);
    let lines = haul.lines().map(|card| card.lines.as_slice()).unwrap_or_default();
    if room.tier >= Tier::Narrow {
        let place = Place {
            x: 1,
            y: room.table,
            width: room.size.w.saturating_sub(2),
            height: room.table_rows.saturating_sub(2),
            part: 0,
            in_hand: desk.line.is_none() && desk.asked.is_none(),
        };
        rows::draw(canvas, place, haul.list(0), lines.len(), |canvas, row, y| entry(canvas, &lines[row], place, y));
        if lines.is_empty() {
            let words = if haul.heading.is_empty() {
                "Nothing written for today yet. The shop and the day can be said once: at Mill Lane Market, yesterday"
                    .to_owned()
            } else {
                format!("{}: its lines come next.", haul.heading.lines().collect::<Vec<_>>().join(" · "))
            };
            canvas.text(1, place.y, place.width, &words, Role::Text);
        }
        if let Some(card) = haul.lines().filter(|card| !card.lines.is_empty()) {
            let shown = u16::try_from(lines.len()).unwrap_or(u16::MAX).min(place.height);
            sums(canvas, card, place.y + shown, place);
        }
    }
    super::line::draw(canvas, app, &room);
}

fn titles(app: &App, haul: &Haul) -> (String, String) {
    let Some(card) = haul.lines() else {
        let title = if haul.is_opening() { "An opening count" } else { "A new haul" };
        let tote = haul.tote().map(|tote| format!("into {tote}")).unwrap_or_default();
        return (title.to_owned(), tote);
    };
    let today = app.desk.seen.board.as_ref().map(|board| board.today);
    let form = if today.is_some_and(|today| today.year() == card.date.year()) { "%a %-d %b" } else { "%a %-d %b %Y" };
    let shop = if card.shop.is_empty() { String::new() } else { format!(" · {}", card.shop) };
    let what = if card.opening { "Opening count" } else { "Haul" };
    let title = format!("{what} of {}{shop}", card.date.strftime(form));
    let lines = counted(card.lines.len() as u64, "line", "lines");
    let status = if card.opening { lines } else { format!("{lines} · {} paid", card.total.words()) };
    (title, status)
}

/// Where the columns are: count ends, name, category, paid ends, each, tote.
fn columns(width: u16) -> (u16, u16, u16, u16) {
    let category = (width * 2 / 5).max(18);
    (category, category + 18, category + 20, width.saturating_sub(11))
}

fn entry(canvas: &mut Canvas<'_>, line: &HaulEntry, place: Place, y: u16) {
    let (category, paid, each, tote) = columns(place.width);
    canvas.right(6, y, 4, &line.units.to_string(), Role::Text);
    canvas.text(8, y, category.saturating_sub(9), &line.title, Role::Text);
    let words = line.category.as_ref().map_or("?", |category| category.words());
    canvas.text(category, y, 9, words, Role::Text);
    let price = if line.paid.is_empty() { "open" } else { &line.paid };
    canvas.right(paid, y, 8, price, Role::Text);
    if line.units > 1 && !line.each.is_empty() {
        canvas.text(each, y, 11, &format!("{} each", line.each), Role::Text);
    }
    canvas.text(tote, y, 11, &line.tote, Role::Text);
}

/// The sum, what came on top of it, and whether the receipt agrees.
fn sums(canvas: &mut Canvas<'_>, card: &HaulCard, y: u16, place: Place) {
    let (_, paid, ..) = columns(place.width);
    canvas.right(paid, y, 4, "────", Role::Quiet);
    let on_top: Vec<String> = card.on_top.iter().map(|(what, amount)| format!("{what} {amount}")).collect();
    let receipt = match (card.receipt.as_str(), card.over.as_str()) {
        ("", _) => "no receipt yet".to_owned(),
        (receipt, "") => format!("adds up to the receipt, {receipt}"),
        (receipt, over) if over.starts_with('-') => format!("the receipt says {receipt}: {} less", &over[1..]),
        (receipt, over) => format!("the receipt says {receipt}: {over} more"),
    };
    let words = if card.opening { String::new() } else { [on_top, vec![receipt]].concat().join(" · ") };
    canvas.text(8, y + 1, paid.saturating_sub(18), &words, Role::Text);
    if !card.opening {
        canvas.right(paid, y + 1, 12, card.total.words(), Role::Heading);
    }
}
