//! The card of a thing: where it is, who it is for, what it cost. Only what is known is told.

use super::canvas::Canvas;
use super::frame::heading_ruled;
use super::look::Role;
use super::rows::{Place, mark};
use crate::model::text::counted;
use crate::season::{Prices, Ware};
use crate::tui::app::App;
use crate::tui::app::card::Card;
use crate::tui::app::key::Hit;
use crate::tui::app::room::Tier;
use crate::tui::app::screen::Face;

/// Draws a card.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, card: &Card) {
    let desk = &app.desk;
    let room = desk.room(2);
    let ware = &card.ware;
    heading_ruled(canvas, &ware.title, &kind_words(ware));
    let bottom = room.table + room.table_rows;
    let gap = u16::from(room.tier >= Tier::Full);
    let mut y = room.table;
    for (what, words) in facts(card) {
        y = fact(canvas, what, &words, y, bottom);
    }
    y += gap;
    y = boxes(canvas, app, card, y, bottom) + gap;
    if let Some(prices) = &card.prices {
        cost(canvas, prices, y, bottom);
    }
    super::line::draw(canvas, app, &room);
}

fn kind_words(ware: &Ware) -> String {
    let category = ware.category.as_ref().map_or("counts for nothing yet", |category| category.words());
    let whom = ware.for_whom.map(|whom| format!(" · for a {whom}")).unwrap_or_default();
    let ages = ware.ages.map(|ages| format!(" · ages {ages}")).unwrap_or_default();
    format!("{category}{whom}{ages}")
}

fn facts(card: &Card) -> Vec<(&'static str, String)> {
    let ware = &card.ware;
    let aside = if ware.aside > 0 { format!(", {} of them set aside", ware.aside) } else { String::new() };
    let place = if ware.tote.is_empty() { "no tote said".to_owned() } else { ware.tote.to_string() };
    let mut facts = vec![("Where", format!("{place}: {} on hand{aside}", ware.on_hand))];
    let size = ware.size.as_deref().map(|size| format!("size {size}"));
    let colours = (!ware.colours.is_empty()).then(|| ware.colours.join(" and "));
    let theme = ware.theme.as_deref().map(|theme| format!("theme {theme}"));
    let flags = (!ware.flags.is_empty()).then(|| ware.flags.join(", "));
    let said: Vec<String> = [size, colours, theme, flags].into_iter().flatten().collect();
    let said = if said.is_empty() { "size, colour and theme not said".to_owned() } else { said.join(" · ") };
    facts.push(("Said of it", said));
    facts
}

fn fact(canvas: &mut Canvas<'_>, what: &str, words: &str, y: u16, bottom: u16) -> u16 {
    if y >= bottom {
        return y;
    }
    canvas.text(1, y, 11, what, Role::Heading);
    canvas.text(12, y, canvas.width().saturating_sub(13), words, Role::Text);
    y + 1
}

/// The boxes that have it, one a row, to go to.
fn boxes(canvas: &mut Canvas<'_>, app: &App, card: &Card, y: u16, bottom: u16) -> u16 {
    let Some(place) = &card.place else { return y };
    if place.boxes.is_empty() {
        return fact(canvas, "In boxes", "in none yet", y, bottom);
    }
    let first = card.list(0).row().saturating_sub(5);
    let mut y = y;
    for (row, there) in place.boxes.iter().enumerate().skip(first).take(6) {
        let line = app.desk.seen.boxes().iter().find(|line| line.label == there.label);
        let about = line.map(|line| format!("{} {} {}", line.for_whom, line.ages, line.theme)).unwrap_or_default();
        let aside = if there.aside > 0 { format!(", {} set aside", there.aside) } else { String::new() };
        let words = format!("  box {}: {} in{aside}   {about}", there.label, there.units);
        let what = if row == first { "In boxes" } else { "" };
        let at = y;
        y = fact(canvas, what, &words, y, bottom);
        if y > at {
            let in_hand = app.desk.line.is_none() && app.desk.asked.is_none();
            let width = canvas.width().saturating_sub(13);
            let shown = Place { x: 12, y: at, width, height: 1, part: 0, in_hand };
            mark(canvas, shown, row == card.list(0).row(), at);
            canvas.zone(12, at, width, Hit::Row { part: 0, row });
        }
    }
    y
}

fn cost(canvas: &mut Canvas<'_>, prices: &Prices, y: u16, bottom: u16) {
    let Some(last) = prices.times.last() else {
        fact(canvas, "Cost", "never bought: no price is known", y, bottom);
        return;
    };
    let shop = if last.shop.is_empty() { String::new() } else { format!(", {}", last.shop) };
    let mut y = fact(canvas, "Cost", &format!("last {} each, {}{shop}", last.each, last.date), y, bottom);
    let all: u32 = prices.times.iter().map(|time| time.units).sum();
    let times = counted(prices.times.len() as u64, "time", "times");
    let words = format!("lowest {} · middle {} · {times}, {all} in all", prices.lowest, prices.middle);
    y = fact(canvas, "", &words, y, bottom);
    for time in prices.times.iter().rev().skip(1) {
        let shop = if time.shop.is_empty() { String::new() } else { format!("   {}", time.shop) };
        y = fact(canvas, "", &format!("{}   {} each, {} of them{shop}", time.date, time.each, time.units), y, bottom);
    }
}
