//! Home: items, boxes, and the checklist of the chosen box.
//!
//! ```text
//! drive                                    drop-off
//! ■■■□□□                            1 of 6 boxes full
//!
//! Items        Boxes                hsctw  Checklist
//! ───────      ━━━━━━━━━━━━━━━━━━━━━━━━━  ──────────
//! ```

use super::canvas::{Canvas, cells};
use super::frame::heading;
use super::look::Role;
use super::offers::caution_role;
use super::rows::{self, Place};
use crate::model::checklist::Met;
use crate::model::rules::Level;
use crate::season::{BoxLine, Cell, Content, sign};
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::common::lacks;
use crate::tui::app::desk::Desk;
use crate::tui::app::filter::Filter;
use crate::tui::app::home::{BOXES, CHECKLIST, Home, ITEMS, heading_rows};
use crate::tui::app::room::{Room, Tier};
use crate::tui::app::screen::Face;

/// More boxes than this are told in words alone.
const MOST_SQUARES: usize = 60;
/// More checklist lines than this are told as a number of gaps.
const MOST_SIGNS: usize = 7;

/// Draws home.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, home: &Home) {
    let desk = &app.desk;
    if desk.seen.is_new() {
        return super::first::draw(canvas, app);
    }
    let room = desk.room(heading_rows(desk));
    if room.tier >= Tier::Narrow {
        top(canvas, desk);
    }
    for (part, x, width) in parts(&room, home.part()) {
        let place = Place {
            x,
            y: room.table + 2,
            width,
            height: u16::try_from(home.height(desk, part)).unwrap_or(0),
            part,
            in_hand: part == home.part() && desk.line.is_none() && desk.asked.is_none(),
        };
        match part {
            ITEMS => items(canvas, desk, home, place),
            BOXES => boxes(canvas, desk, home, place),
            _ => checklist(canvas, desk, home, place),
        }
        // The checklist's marker stands in the gap before it.
        let gap = if part == CHECKLIST && room.tier > Tier::Small { 2 } else { 0 };
        canvas.rule(x + gap, room.table + 1, width - gap, place.in_hand);
    }
    if room.tier == Tier::Small {
        let sentence = home.giftbox(desk).map(lacks).unwrap_or_default();
        canvas.text(1, room.line.saturating_sub(1), room.size.w, &sentence, Role::Text);
    }
    super::line::draw(canvas, app, &room);
}

/// Which parts there is room for: part, first column, columns.
fn parts(room: &Room, in_hand: usize) -> Vec<(usize, u16, u16)> {
    let w = room.size.w;
    match room.tier {
        Tier::Wide => {
            let items = w / 3;
            let checklist = w / 4;
            let boxes = w - items - checklist - 7;
            vec![(ITEMS, 1, items), (BOXES, items + 3, boxes), (CHECKLIST, items + boxes + 4, checklist + 2)]
        }
        Tier::Full => {
            let boxes = 32 + (w - 80) / 2;
            vec![(ITEMS, 1, 20), (BOXES, 23, boxes), (CHECKLIST, 24 + boxes, w - 25 - boxes)]
        }
        Tier::Narrow => {
            let left = if in_hand == ITEMS { ITEMS } else { BOXES };
            vec![(left, 1, 31), (CHECKLIST, 33, w - 34)]
        }
        Tier::Small | Tier::Row => vec![(in_hand, 1, w.saturating_sub(2))],
    }
}

fn top(canvas: &mut Canvas<'_>, desk: &Desk) {
    let Some(board) = &desk.seen.board else { return };
    let days = match (board.drop_off, board.days_left) {
        (Some(day), Some(0)) => format!("drop-off {}, today", day.strftime("%a %-d %b")),
        (Some(day), Some(1)) => format!("drop-off {}, tomorrow", day.strftime("%a %-d %b")),
        (Some(day), Some(days)) => format!("drop-off {}, {days} days", day.strftime("%a %-d %b")),
        _ => String::new(),
    };
    heading(canvas, &board.profile.name, &days);
    let boxes = desk.seen.boxes();
    let full = boxes.iter().filter(|line| line.full).count();
    let words = match boxes.len() {
        0 => "no box planned yet".to_owned(),
        1 => format!("{full} of 1 box full"),
        all => format!("{full} of {all} boxes full"),
    };
    let width = canvas.width();
    canvas.right(width - 1, 1, width, &words, Role::Text);
    if boxes.len() <= MOST_SQUARES.min(usize::from(width).saturating_sub(words.len() + 4)) {
        let squares: String = boxes.iter().map(square).collect();
        canvas.raw(1, 1, width, &squares, Role::Text);
    }
}

fn square(line: &BoxLine) -> char {
    match (line.standing.is_open(), line.full) {
        (false, _) => '▣',
        (true, true) => '■',
        (true, false) => '□',
    }
}

fn title(canvas: &mut Canvas<'_>, place: Place, words: &str, status: &str) {
    let y = place.y - 2;
    canvas.text(place.x, y, place.width, words, Role::Heading);
    canvas.right(place.x + place.width, y, place.width, status, Role::Text);
}

fn items(canvas: &mut Canvas<'_>, desk: &Desk, home: &Home, place: Place) {
    let on_hand = desk.seen.board.as_ref().map_or(0, |board| board.on_hand);
    title(canvas, place, &numbered("Items", place, desk), &format!("{on_hand} on hand"));
    let picked = &desk.seen.on_hand;
    if picked.is_empty() {
        canvas.text(place.x + 2, place.y, place.width.saturating_sub(2), "Nothing on hand.", Role::Text);
        let bought = format!("{} writes what you bought.", desk.key(Action::Bought));
        canvas.text(place.x + 2, place.y + 1, place.width.saturating_sub(2), &bought, Role::Text);
    }
    let end = place.x + place.width;
    let wide = place.width > 34;
    // A sign tells what wants care in the box that is chosen.
    let ages = home.giftbox(desk).map(|line| line.facts.ages);
    rows::draw(canvas, place, home.list(ITEMS), picked.len(), |canvas, row, y| {
        let Some(ware) = picked.get(row).and_then(|at| desk.seen.shelf.wares().get(*at)) else { return };
        let more = if wide { 19 } else { 0 };
        let number = ware.level.map_or_else(|| ware.on_hand.to_string(), |level| level.word().to_owned());
        // A word needs more room than the four digits that numbers are given.
        let beside = 3 + cells(&number).max(4) + more;
        canvas.text(place.x + 2, y, place.width.saturating_sub(beside), &ware.title, Role::Text);
        let careful = ages.and_then(|ages| ware.careful(ages)).filter(|level| *level > Level::TellParent);
        if let Some(level) = careful {
            canvas.raw(place.x + 1, y, 1, &sign(level).to_string(), caution_role(level));
        }
        canvas.right(end - more, y, 6, &number, Role::Text);
        if wide {
            canvas.text(end - 18, y, 10, &ware.tote, Role::Text);
            canvas.right(end - 1, y, 7, each_words(&ware.each), Role::Text);
        }
    });
}

/// What one costs: nothing is told as a word.
pub fn each_words(each: &str) -> &str {
    if each == "0.00" || each == "0" { "free" } else { each }
}

/// On a small screen the title tells that there are more parts.
fn numbered(title: &str, place: Place, desk: &Desk) -> String {
    if desk.size.tier() == Tier::Small { format!("{title}  {} of 3, Tab", place.part + 1) } else { title.to_owned() }
}

fn boxes(canvas: &mut Canvas<'_>, desk: &Desk, home: &Home, place: Place) {
    let shown = home.filter.boxes(desk);
    let open = shown.iter().filter(|line| line.standing.is_open()).count();
    let ticked = desk.seen.boxes().iter().filter(|line| desk.ticked.contains(&line.giftbox)).count();
    let words = match (ticked, home.filter == Filter::default()) {
        (0, true) => format!("{}  {open} open", numbered("Boxes", place, desk)),
        (0, false) => format!("Boxes  {}", home.filter.words()),
        (ticked, _) => format!("Boxes  {ticked} ticked"),
    };
    let signs = shown.first().map(|line| initials(line)).unwrap_or_default();
    title(canvas, place, &words, &signs);
    if shown.is_empty() {
        canvas.text(place.x + 2, place.y, place.width.saturating_sub(2), "No box planned.", Role::Text);
        let plan = format!("{} plans one: 3 girl 6-8 ocean", desk.key(Action::PlanBox));
        canvas.text(place.x + 2, place.y + 1, place.width.saturating_sub(2), &plan, Role::Text);
    }
    rows::draw(canvas, place, home.list(BOXES), shown.len(), |canvas, row, y| {
        box_row(canvas, desk, shown[row], place, y);
    });
}

fn box_row(canvas: &mut Canvas<'_>, desk: &Desk, line: &BoxLine, place: Place, y: u16) {
    let (x, end) = (place.x, place.x + place.width);
    if desk.ticked.contains(&line.giftbox) {
        canvas.raw(x + 1, y, 1, "✓", Role::Here);
    }
    canvas.right(x + 4, y, 3, &line.label, Role::Text);
    canvas.text(x + 5, y, 12, &format!("{} {}", line.for_whom, line.ages), Role::Text);
    let signs = signs(line);
    let width = u16::try_from(signs.iter().map(|(sign, _)| sign.chars().count()).sum::<usize>()).unwrap_or(0);
    let lacking = if place.width > 50 { short_lacks(line) } else { String::new() };
    let lacking_width = if place.width > 50 { place.width.saturating_sub(27 + width) } else { 0 };
    let theme = place.width.saturating_sub(17 + width + 1 + lacking_width + u16::from(lacking_width > 0));
    canvas.text(x + 17, y, theme, &line.theme, Role::Text);
    canvas.text(x + 17 + theme + 1, y, lacking_width, &lacking, Role::Text);
    let mut at = end.saturating_sub(width);
    for (sign, role) in signs {
        at = canvas.raw(at, y, width, &sign, role);
    }
}

fn short_lacks(line: &BoxLine) -> String {
    let needs = line.checklist.iter().filter(|cell| cell.needs > 0).map(|cell| format!("{} {}", cell.needs, cell.line));
    needs.collect::<Vec<_>>().join(", ")
}

/// The first letters of the checklist's lines.
fn initials(line: &BoxLine) -> String {
    if line.checklist.len() > MOST_SIGNS {
        return String::new();
    }
    line.checklist.iter().filter_map(|cell| cell.line.chars().next()).collect()
}

fn signs(line: &BoxLine) -> Vec<(String, Role)> {
    if line.checklist.len() > MOST_SIGNS {
        let gaps = line.checklist.iter().filter(|cell| cell.needs > 0).count();
        let words = if gaps == 0 { "full".to_owned() } else { format!("{gaps} gaps") };
        return vec![(words, Role::Text)];
    }
    line.checklist.iter().map(|cell| (cell.met.sign().to_string(), role_of(cell.met))).collect()
}

/// How a sign looks: what is met goes quiet, what still needs something is seen first.
pub fn role_of(met: Met) -> Role {
    match met {
        Met::Full => Role::Quiet,
        Met::OnceIn => Role::Text,
        Met::Partly | Met::NothingYet => Role::Care,
    }
}

/// A line of a checklist in a few words: `full, 3`, `needs 2 of 4`, `1 set aside`; in fewer where
/// there is little room.
fn cell_words(cell: &Cell, room: u16) -> String {
    let waiting = cell.wanted.saturating_sub(cell.inside);
    match (cell.met, room) {
        (Met::OnceIn, 12..) => format!("{waiting} set aside"),
        (Met::OnceIn, _) => format!("{waiting} aside"),
        (Met::Full, _) => format!("full, {}", cell.inside),
        (_, 12..) => format!("needs {} of {}", cell.needs, cell.wanted),
        _ => format!("needs {}", cell.needs),
    }
}

fn checklist(canvas: &mut Canvas<'_>, desk: &Desk, home: &Home, place: Place) {
    let Some(line) = home.giftbox(desk) else {
        title(canvas, place, &numbered("Checklist", place, desk), "");
        return;
    };
    let words =
        if desk.size.tier() == Tier::Small { numbered("Checklist", place, desk) } else { "Checklist".to_owned() };
    let shift = if desk.size.tier() == Tier::Small { 0 } else { 2 };
    let inner = Place { x: place.x + shift, width: place.width - shift, ..place };
    title(canvas, inner, &format!("{words} of box {}", line.label), "");
    let bottom = place.y + place.height;
    let mut y = place.y;
    if place.height > 12 {
        let theme = if line.theme.is_empty() { String::new() } else { format!(", {}", line.theme) };
        canvas.text(inner.x, y, inner.width, &format!("{} {}{theme}", line.for_whom, line.ages), Role::Text);
        canvas.text(inner.x, y + 1, inner.width, &line.palette.join(", "), Role::Text);
        y += 3;
    }
    let of = Place { y, height: bottom.saturating_sub(y), ..place };
    rows::draw(canvas, of, home.list(CHECKLIST), line.checklist.len(), |canvas, row, y| {
        gap_row(canvas, &line.checklist[row], of, y);
    });
    y += u16::try_from(line.checklist.len()).unwrap_or(0) + 1;
    let aside = if line.aside > 0 { format!(", {} aside", line.aside) } else { String::new() };
    let sum = if line.things + line.aside == 0 {
        "nothing in it yet".to_owned()
    } else {
        format!("{} in{aside}, {}", line.things, line.cost.short())
    };
    if y < bottom {
        canvas.text(inner.x, y, inner.width, &sum, Role::Text);
    }
    if let Some(card) = home.card.as_ref().filter(|card| card.line.giftbox == line.giftbox) {
        if let (Some(first), true) = (card.cautions.first(), y + 1 < bottom) {
            y += 1;
            let words = format!("{} careful {}", first.sign(), card.cautions.len());
            canvas.text(inner.x, y, inner.width, &words, caution_role(first.level));
        }
        contents(canvas, &card.contents, Place { y: y + 1, height: bottom.saturating_sub(y + 1), ..inner });
    }
}

/// A line of the checklist: sign, name, how it stands.
pub fn gap_row(canvas: &mut Canvas<'_>, cell: &Cell, place: Place, y: u16) {
    let name = if place.width > 30 { 14 } else { 10 };
    canvas.raw(place.x + 2, y, 1, &cell.met.sign().to_string(), role_of(cell.met));
    canvas.text(place.x + 4, y, name, &cell.line, Role::Text);
    let x = place.x + 4 + name + 1;
    let quiet = if cell.met == Met::Full { Role::Quiet } else { Role::Text };
    let room = (place.x + place.width).saturating_sub(x);
    canvas.text(x, y, room, &cell_words(cell, room), quiet);
}

fn contents(canvas: &mut Canvas<'_>, contents: &[Content], place: Place) {
    let rows = usize::from(place.height);
    let cut = contents.len() > rows;
    let shown = if cut { rows.saturating_sub(1) } else { contents.len() };
    for (row, content) in contents.iter().take(shown).enumerate() {
        let y = place.y + u16::try_from(row).unwrap_or(0);
        canvas.text(place.x + 2, y, place.width.saturating_sub(2), &content_words(content), Role::Text);
    }
    if cut && rows > 0 {
        let more = format!("{} more", contents.len() - shown);
        canvas.text(place.x + 2, place.y + place.height - 1, place.width.saturating_sub(2), &more, Role::Text);
    }
}

/// A thing in a box: `2 combs`, `socks, aside`, `  inside: soap`.
pub fn content_words(content: &Content) -> String {
    let units = content.units + content.aside;
    let count = if units > 1 { format!("{units} ") } else { String::new() };
    let aside = match (content.aside, content.units) {
        (0, _) => String::new(),
        (_, 0) => ", aside".to_owned(),
        (aside, _) => format!(", {aside} aside"),
    };
    let inside = if content.inside.is_empty() { "" } else { "  inside: " };
    let wow = if content.wow { ", wow item" } else { "" };
    format!("{inside}{count}{}{wow}{aside}", content.name)
}
