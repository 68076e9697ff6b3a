//! A haul being written: its lines so far, the sum, and the line.

use super::canvas::{Canvas, cells};
use super::frame::heading_ruled;
use super::look::Role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::{HaulCard, HaulEntry, Sum};
use crate::tui::app::App;
use crate::tui::app::haul::Haul;
use crate::tui::app::room::Tier;
use crate::tui::app::screen::Face;

/// Draws a haul.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, haul: &Haul) {
    let desk = &app.desk;
    let room = desk.room(2);
    // Where there is little room, the open line takes all of it.
    let writing = desk.line.is_some() || desk.asked.is_some();
    let (title, status) = titles(app, haul);
    heading_ruled(canvas, &title, &status);
    let lines = haul.lines().map(|card| card.lines.as_slice()).unwrap_or_default();
    if room.tier >= Tier::Narrow || !writing {
        let place = Place {
            x: 1,
            y: room.table,
            width: room.size.w.saturating_sub(2),
            height: room.table_rows.saturating_sub(2),
            part: 0,
            in_hand: desk.line.is_none() && desk.asked.is_none(),
        };
        // In an opening count no price is missing.
        let open = if haul.is_opening() { "" } else { "open" };
        rows::draw(canvas, place, haul.list(0), lines.len(), |canvas, row, y| {
            entry(canvas, &lines[row], open, place, y);
        });
        if lines.is_empty() {
            let words = if haul.heading.is_empty() {
                "Nothing written for today yet.".to_owned()
            } else {
                format!("{}: its lines come next.", haul.heading.lines().collect::<Vec<_>>().join(" · "))
            };
            canvas.text(1, place.y, place.width, &words, Role::Text);
            let once = "The shop and the day, said once: at Mill Lane Market, yesterday";
            if haul.heading.is_empty() && cells(once) <= place.width {
                canvas.text(1, place.y + 1, place.width, once, Role::Text);
            }
        }
        if let Some(card) = haul.lines().filter(|card| !card.lines.is_empty() && !card.opening) {
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
    let status = if card.opening { lines } else { format!("{lines} · {} paid", sum_words(&card.total)) };
    (title, status)
}

/// Where the columns are: count ends, name, category, paid ends, each, tote.
fn columns(width: u16) -> (u16, u16, u16, u16) {
    let category = if width < 50 { width } else { width * 2 / 5 };
    let tote = width.saturating_sub(11);
    // Where there is little room the columns give way one by one: each, then the category.
    let paid = if width < 50 { tote.saturating_sub(2) } else { category + 18 };
    (category, paid, paid + 2, tote)
}

/// A line; `open` stands where it has no price.
fn entry(canvas: &mut Canvas<'_>, line: &HaulEntry, open: &str, place: Place, y: u16) {
    let (category, paid, each, tote) = columns(place.width);
    canvas.right(6, y, 4, &line.units.to_string(), Role::Text);
    canvas.text(8, y, category.min(paid.saturating_sub(8)).saturating_sub(9), &line.title, Role::Text);
    let words = line.category.as_ref().map_or("?", |category| category.words());
    if category < paid {
        canvas.text(category, y, 9, words, Role::Text);
    }
    let price = if line.paid.is_empty() { open } else { &line.paid };
    canvas.right(paid, y, 8, price, Role::Text);
    if line.units > 1 && !line.each.is_empty() && each + 11 < tote {
        canvas.text(each, y, 11, &format!("{} each", line.each), Role::Text);
    }
    canvas.text(tote, y, 11, &line.tote, Role::Text);
}

/// The sum, what came on top of it, and whether the receipt agrees.
fn sums(canvas: &mut Canvas<'_>, card: &HaulCard, y: u16, place: Place) {
    let (_, paid, ..) = columns(place.width);
    canvas.right(paid, y, 4, "────", Role::Quiet);
    let on_top: Vec<String> = card.on_top.iter().map(|(what, amount)| format!("{what} {amount}")).collect();
    canvas.text(8, y, paid.saturating_sub(13), &on_top.join(" · "), Role::Text);
    let receipt = match (card.receipt.as_str(), card.over.as_str()) {
        ("", _) => "no receipt yet".to_owned(),
        (receipt, "") => format!("adds up to the receipt, {receipt}"),
        (receipt, over) if over.starts_with('-') => format!("the receipt says {receipt}: {} less", &over[1..]),
        (receipt, over) => format!("the receipt says {receipt}: {over} more"),
    };
    let total = sum_words(&card.total);
    canvas.text(8, y + 1, paid.saturating_sub(9 + cells(&total)), &receipt, Role::Text);
    canvas.right(paid, y + 1, 24, &total, Role::Heading);
    if card.total.unpriced > 0 {
        let open = format!("{} unpriced", counted(card.total.unpriced, "thing", "things"));
        canvas.text(paid + 2, y + 1, place.width.saturating_sub(paid + 1), &open, Role::Text);
    }
}

/// A sum in a few words: what has no price is told beside it.
fn sum_words(sum: &Sum) -> String {
    let about = if sum.about { "~" } else { "" };
    let least = if sum.unpriced > 0 { "at least " } else { "" };
    format!("{least}{about}{}", sum.known)
}
