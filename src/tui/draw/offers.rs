//! What is on hand for a gap of a box, best first.

use super::canvas::Canvas;
use super::home::each_words;
use super::look::Role;
use crate::model::rules::Level;
use crate::season::{Offer, sign};
use crate::tui::app::App;
use crate::tui::app::key::Hit;
use crate::tui::app::line::{Line, Offered};
use crate::tui::app::room::{Room, Tier};

/// The drawer of a box being packed.
pub fn for_box(canvas: &mut Canvas<'_>, app: &App, line: &Line, y: u16, bottom: u16, room: &Room) {
    let width = canvas.width();
    let things: Vec<&Offer> = line.offers.iter().filter_map(thing).collect();
    let mut y = y;
    let wide = room.tier >= Tier::Full;
    let (left, each, place) = columns(width);
    if wide {
        canvas.right(left, y, 6, "left", Role::Heading);
        canvas.right(each, y, 8, "each", Role::Heading);
        canvas.text(place, y, 12, "where", Role::Heading);
        y += 1;
    }
    let why_rows = if wide { 3 } else { 0 };
    let rows = usize::from(bottom.saturating_sub(y + why_rows)).max(1);
    if things.is_empty() && !app.is_busy() {
        canvas.text(1, y, width.saturating_sub(2), &nothing(line), Role::Text);
    }
    let top = (line.marked + 1).saturating_sub(rows);
    for (row, offer) in things.iter().enumerate().skip(top).take(rows) {
        let y = y + u16::try_from(row - top).unwrap_or(0);
        let marked = row == line.marked;
        if marked {
            canvas.raw(1, y, 1, "▸", Role::Here);
        }
        offer_row(canvas, offer, y);
        if marked {
            canvas.select(1, y, width.saturating_sub(2));
        }
        canvas.zone(0, y, width, Hit::Offer(row));
    }
    if wide && bottom > y + 2 {
        let why = things.get(line.marked).map(|offer| why(offer)).unwrap_or_default();
        if !why.is_empty() {
            canvas.text(1, bottom - 2, width.saturating_sub(2), &format!("Why: {why}"), Role::Text);
        }
        let hint = "Type to find anything on hand, for any line. \"2 glue\" puts in two.";
        canvas.text(1, bottom - 1, width.saturating_sub(2), hint, Role::Quiet);
    }
}

/// Where the numbers end, and where the place begins.
fn columns(width: u16) -> (u16, u16, u16) {
    let place = width.saturating_sub(14);
    (place.saturating_sub(11), place.saturating_sub(3), place)
}

fn thing(offered: &Offered) -> Option<&Offer> {
    match offered {
        Offered::Thing(offer) => Some(offer),
        _ => None,
    }
}

/// Why it suits, after what speaks for keeping it.
fn why(offer: &Offer) -> String {
    let needed = format!("box {} can't be finished without it", offer.needed_by);
    let needed = (!offer.needed_by.is_empty()).then_some(needed);
    needed.into_iter().chain(offer.reasons.iter().cloned()).collect::<Vec<_>>().join(" · ")
}

fn offer_row(canvas: &mut Canvas<'_>, offer: &Offer, y: u16) {
    let width = canvas.width();
    let (left, each, place) = columns(width);
    let name = if width < 60 { left.saturating_sub(7) } else { (width / 3).clamp(12, 34) };
    canvas.text(3, y, name, &offer.ware.title, Role::Text);
    let here = if offer.aside_here > 0 { format!("{} set aside here", offer.aside_here) } else { String::new() };
    let careful = offer.careful.filter(|level| *level > Level::TellParent);
    let careful = careful.map(|level| (format!("{} {}", sign(level), level.words()), level));
    let needed = if offer.needed_by.is_empty() { String::new() } else { format!("box {} needs it", offer.needed_by) };
    let (remark, role) = match &careful {
        Some((words, level)) => (words, caution_role(*level)),
        None if !here.is_empty() => (&here, Role::Text),
        None if !needed.is_empty() => (&needed, Role::Care),
        None => (&offer.remark, Role::Text),
    };
    if width >= 60 {
        canvas.text(name + 4, y, left.saturating_sub(name + 10), remark, role);
    }
    canvas.right(left, y, 6, &(offer.ware.free() + offer.aside_here).to_string(), Role::Text);
    canvas.right(each, y, 8, each_words(&offer.ware.each), Role::Text);
    canvas.text(place, y, 13, &offer.ware.tote, Role::Text);
}

/// What may not go in stands out; what wants a look is care.
pub fn caution_role(level: Level) -> Role {
    if level >= Level::NotForAge { Role::Stop } else { Role::Care }
}

fn nothing(line: &Line) -> String {
    match line.words().trim() {
        "" => "Nothing on hand suits this line. Type to find anything else.".to_owned(),
        words => format!("Nothing on hand is called \"{words}\"."),
    }
}
