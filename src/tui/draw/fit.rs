//! Does it fit: the answer, a layer from above with what its letters are, and what is to be done and what is left.

use super::canvas::{Canvas, cells};
use super::frame::{heading, heading_ruled};
use super::layer::{Picture, picture};
use super::lists::table;
use super::look::Role;
use super::rows::{self, Place};
use crate::season::{BoxLine, FitCount, FitStage, FitThing};
use crate::tui::app::App;
use crate::tui::app::fit::{Fit, IN_FULL, PAGE, PICTURE, Plot, THINGS, View, words};
use crate::tui::app::room::Tier;
use crate::tui::app::screen::Face;

/// Draws a box packed on trial.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, fit: &Fit) {
    let desk = &app.desk;
    let line = desk.seen.giftbox(fit.giftbox());
    if fit.view == View::Box {
        let inside = fit.inside().map(|inside| format!("{} inside", words::sides(inside))).unwrap_or_default();
        heading(canvas, &title(line, "does it fit?"), &inside);
        let plot = fit.plot(desk);
        answer(canvas, fit, plot);
        match desk.size.tier() {
            Tier::Wide | Tier::Full => whole(canvas, app, fit, plot),
            Tier::Narrow => narrow(canvas, app, fit, plot),
            _ => list(canvas, app, fit, Place { height: plot.middle, ..part(app, fit, plot) }),
        }
    } else {
        page(canvas, app, fit, line);
    }
    let room = desk.room(1);
    if desk.line.is_some() || desk.asked.is_some() {
        for row in room.line..room.line + room.line_rows {
            canvas.text(0, row, canvas.width(), &" ".repeat(canvas.width().into()), Role::Text);
        }
    }
    super::line::draw(canvas, app, &room);
}

fn title(line: Option<&BoxLine>, what: &str) -> String {
    let Some(line) = line else { return "This box is gone".to_owned() };
    let theme = if line.theme.is_empty() { String::new() } else { format!(" · {}", line.theme) };
    format!("Box {} · {} {}{theme} · {what}", line.label, line.for_whom, line.ages)
}

/// The order or the reasons, as a list of rows.
fn page(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, line: Option<&BoxLine>) {
    let what = if fit.view == View::Order { "in which order" } else { "why" };
    heading_ruled(canvas, &title(line, what), "");
    let place = Place { part: PAGE, ..table(app, &app.desk.room(2)) };
    let lines = fit.lines(&app.desk);
    rows::draw(canvas, place, fit.list(PAGE), lines.len(), |canvas, row, y| {
        canvas.text(place.x + 2, y, place.width.saturating_sub(2), &lines[row], Role::Text);
    });
}

fn answer(canvas: &mut Canvas<'_>, fit: &Fit, plot: Plot) {
    let (sign, told) = fit.answer();
    let role = match sign {
        '✓' => Role::Good,
        '✗' => Role::Stop,
        '!' | '◒' => Role::Care,
        _ => Role::Text,
    };
    canvas.raw(1, 1, 1, &sign.to_string(), role);
    let width = canvas.width().saturating_sub(4).max(8);
    canvas.wrapped(3, 1, (width, plot.answer), &told, role);
}

/// The part in hand over the whole width.
fn part(app: &App, fit: &Fit, plot: Plot) -> Place {
    let in_hand = app.desk.line.is_none() && app.desk.asked.is_none();
    let width = app.desk.size.w.saturating_sub(2);
    Place { x: 1, y: plot.top, width, height: plot.middle, part: fit.part(), in_hand }
}

/// The rows of a part as they can be seen beside an open line.
fn seen(app: &App, place: Place) -> Place {
    Place { height: place.height.min(app.desk.room(1).line.saturating_sub(place.y)), ..place }
}

/// Room enough: pictures on the left, on the right what the letters are, or the things; below what is to be done.
fn whole(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, plot: Plot) {
    let place = part(app, fit, plot);
    if app.desk.size.tier() == Tier::Wide && fit.part() == PICTURE {
        side_by_side(canvas, fit, place);
    } else {
        let drawn = layer_picture(canvas, fit, fit.layer(), Place { width: place.width * 3 / 5, ..place });
        if fit.part() == THINGS {
            things(canvas, app, fit, behind(&drawn, place));
        } else {
            beside(canvas, fit, &drawn, behind(&drawn, place));
        }
    }
    below(canvas, app, fit, plot);
}

/// Two layers with their legends below them.
fn side_by_side(canvas: &mut Canvas<'_>, fit: &Fit, place: Place) {
    let half = place.width / 2;
    let first = fit.layer().min(fit.layers().len().saturating_sub(2));
    for (at, layer) in (first..fit.layers().len()).take(2).enumerate() {
        let x = place.x + u16::try_from(at).unwrap_or(0) * (half + 1);
        let own = Place { x, y: place.y + 1, width: half.saturating_sub(1), ..place };
        let rows = place.height.saturating_sub(7).max(place.height / 2);
        layer_title(canvas, fit, layer, Place { y: place.y, ..own });
        let drawn = layer_picture(canvas, fit, layer, Place { height: rows, ..own });
        let bottom = own.y + u16::try_from(drawn.rows.len()).unwrap_or(0);
        let height = (place.y + place.height).saturating_sub(bottom);
        legend(canvas, fit, layer, &drawn, Place { y: bottom, height, ..own });
    }
}

/// A layer from above.
fn layer_picture(canvas: &mut Canvas<'_>, fit: &Fit, layer: usize, place: Place) -> Picture {
    let (Some(shown), Some([length, width, _])) = (fit.layers().get(layer), fit.inside()) else {
        return Picture::default();
    };
    let drawn = picture(&shown.pieces, [length, width], place.width, place.height);
    for (row, text) in (0..).zip(&drawn.rows) {
        canvas.raw(place.x, place.y + row, place.width, text, Role::Text);
    }
    let chosen = fit.thing().and_then(|thing| fit.place(thing)?.letter);
    for (x, y, letter) in &drawn.letters {
        canvas.embolden(place.x + x, place.y + y, 1);
        if chosen == Some(letter.to_ascii_uppercase()) {
            canvas.select(place.x + x, place.y + y, 1);
        }
    }
    drawn
}

/// What is left of a place behind a picture.
fn behind(drawn: &Picture, place: Place) -> Place {
    let x = place.x + drawn.rows.first().map_or(0, |row| cells(row)) + 2;
    Place { x, width: (place.x + place.width).saturating_sub(x), ..place }
}

/// Which layer it is; the one in hand is marked.
fn layer_title(canvas: &mut Canvas<'_>, fit: &Fit, layer: usize, place: Place) {
    let Some(shown) = fit.layers().get(layer) else { return };
    let words = format!("Layer {} of {}   {}", layer + 1, fit.layers().len(), words::height(shown));
    canvas.text(place.x + 2, place.y, place.width.saturating_sub(2), &words, Role::Heading);
    if fit.part() == PICTURE && layer == fit.layer() {
        let width = cells(&words) + 3;
        rows::mark(canvas, Place { width: width.min(place.width), ..place }, true, place.y);
    }
}

/// Beside a picture: which layer it is, what the letters are, and how full the box is.
fn beside(canvas: &mut Canvas<'_>, fit: &Fit, drawn: &Picture, place: Place) {
    if fit.layers().is_empty() {
        return;
    }
    let layer = fit.layer();
    layer_title(canvas, fit, layer, place);
    let gauge = fit.report.as_ref().and_then(|report| words::filled(report)).filter(|_| place.height > 8);
    let bottom = place.y + place.height - if gauge.is_some() { 4 } else { 0 };
    // The blank row under the title goes to the legend where that needs it.
    let rows = fit.layers().get(layer).map_or(0, |stage| legend_rows(stage, drawn).len());
    let above = if rows + 2 > usize::from(bottom.saturating_sub(place.y)) { 1 } else { 2 };
    let height = bottom.saturating_sub(place.y + above);
    legend(canvas, fit, layer, drawn, Place { y: place.y + above, height, ..place });
    for (y, words) in (bottom + 1..).zip(gauge.iter().flatten()) {
        canvas.text(place.x, y, place.width, words, Role::Text);
    }
}

/// What the letters are, what is inside holders below them; what has no room is counted.
fn legend(canvas: &mut Canvas<'_>, fit: &Fit, layer: usize, drawn: &Picture, place: Place) {
    let Some(shown) = fit.layers().get(layer) else { return };
    let rows = legend_rows(shown, drawn);
    let height = usize::from(place.height);
    let shown = if rows.len() > height { height.saturating_sub(1) } else { rows.len() };
    for (y, (letter, words)) in (place.y..).zip(rows.iter().take(shown)) {
        canvas.text(place.x, y, 1, letter, Role::Heading);
        canvas.text(place.x + 2, y, place.width.saturating_sub(2), words, Role::Text);
    }
    if rows.len() > shown && height > 0 {
        let more = rows[shown..].iter().filter(|(letter, _)| !letter.is_empty()).count();
        let words = format!("and {more} more: Tab lists all");
        canvas.text(place.x + 2, place.y + place.height - 1, place.width.saturating_sub(2), &words, Role::Text);
    }
}

/// What was there before is told only where one sees it.
fn legend_rows(stage: &FitStage, drawn: &Picture) -> Vec<(String, String)> {
    let is_seen = |letter: char| drawn.letters.iter().any(|(_, _, shown)| *shown == letter);
    let mut rows: Vec<(String, String)> = Vec::new();
    for sign in stage.signs.iter().filter(|sign| !sign.from_below || is_seen(sign.letter)) {
        rows.push((sign.letter.to_string(), words::sign_words(sign)));
        if !sign.inside.is_empty() && !sign.from_below {
            rows.push((String::new(), format!("  {}", words::inside(sign))));
        }
    }
    rows
}

/// What is to be done for the layer, what room is left, what it weighs, and how the search goes.
fn below(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, plot: Plot) {
    let Some(report) = &fit.report else { return };
    let width = canvas.width().saturating_sub(2);
    let y = plot.top + plot.middle;
    let now = plot.below.saturating_sub(3);
    canvas.wrapped(1, y, (width, now), &words::now(report, fit.layer()), Role::Text);
    canvas.text(1, y + now, width, &words::room(report), Role::Text);
    let role = if report.too_heavy.is_empty() { Role::Text } else { Role::Care };
    canvas.text(1, y + now + 1, width, &words::weighs(report), role);
    canvas.text(1, y + now + 2, width, &fit.progress(&app.desk), Role::Text);
}

/// The things one by one, and below them the chosen one in full.
fn things(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, place: Place) {
    canvas.text(place.x + 2, place.y, place.width.saturating_sub(2), "In the box or for it", Role::Heading);
    let height = place.height.saturating_sub(1 + IN_FULL);
    list(canvas, app, fit, Place { y: place.y + 1, height, ..place });
    in_full(canvas, fit, Place { y: place.y + place.height - IN_FULL, height: IN_FULL, ..place });
}

/// The layers in words, or the things.
fn list(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, place: Place) {
    let place = seen(app, place);
    if fit.part() == THINGS {
        let things = fit.things();
        rows::draw(canvas, place, fit.list(THINGS), things.len(), |canvas, row, y| {
            thing_row(canvas, fit, &things[row], place, y);
        });
        return;
    }
    let layers = fit.layers();
    rows::draw(canvas, place, fit.list(PICTURE), layers.len(), |canvas, row, y| {
        let words = format!("{}  {}", row + 1, words::layer(&layers[row]));
        canvas.text(place.x + 2, y, place.width.saturating_sub(2), &words, Role::Text);
    });
}

fn thing_row(canvas: &mut Canvas<'_>, fit: &Fit, thing: &FitThing, place: Place, y: u16) {
    let (status, role) = status(fit, thing);
    let letter = fit.place(thing).filter(|place| !place.stages.is_empty()).and_then(|place| place.letter);
    canvas.text(place.x + 2, y, 1, &letter.map(String::from).unwrap_or_default(), Role::Heading);
    let name = place.width.saturating_sub(cells(&status) + 6);
    let count = FitCount { thing: thing.name.clone(), count: thing.count };
    canvas.text(place.x + 4, y, name, &count.words(), Role::Text);
    canvas.right(place.x + place.width, y, 12, &status, role);
}

/// Where a thing is, in a word or two.
fn status(fit: &Fit, thing: &FitThing) -> (String, Role) {
    let place = fit.place(thing);
    match place {
        _ if fit.is_out(thing) => ("left out".to_owned(), Role::Here),
        _ if thing.size.is_none() => ("? size".to_owned(), Role::Care),
        Some(place) if place.left_out > 0 => ("no room".to_owned(), Role::Care),
        Some(place) if !place.inside.is_empty() => ("inside".to_owned(), Role::Text),
        Some(place) => {
            let layers: Vec<String> = place.stages.iter().map(|layer| (layer + 1).to_string()).collect();
            let top = if thing.on_top { "top, " } else { "" };
            (format!("{top}layer {}", layers.join(", ")), Role::Text)
        }
        None => (String::new(), Role::Text),
    }
}

/// The chosen thing: its name, its size and where that is from, and how it is put in.
fn in_full(canvas: &mut Canvas<'_>, fit: &Fit, place: Place) {
    let Some(thing) = fit.thing() else { return };
    let width = place.width.saturating_sub(2);
    canvas.text(place.x + 2, place.y, width, &thing.name, Role::Heading);
    canvas.text(place.x + 2, place.y + 1, width, &words::size(thing), Role::Text);
    canvas.text(place.x + 2, place.y + 2, width, &where_words(fit, thing), Role::Text);
}

fn where_words(fit: &Fit, thing: &FitThing) -> String {
    let place = fit.place(thing);
    match place {
        _ if fit.is_out(thing) => "left out here, only to try".to_owned(),
        Some(place) if place.left_out > 0 && thing.count > 1 => {
            format!("{} of {} found no room", place.left_out, thing.count)
        }
        Some(place) if place.left_out > 0 => "found no room".to_owned(),
        Some(place) if !place.inside.is_empty() => format!("inside {}", place.inside),
        Some(_) => {
            let steps = fit.report.iter().flat_map(|report| &report.order);
            let step = steps.filter(|step| step.into.is_empty()).find(|step| step.thing == thing.name);
            step.map(|step| step.place.clone()).unwrap_or_default()
        }
        None => String::new(),
    }
}

/// Little room: the layers in words with the chosen one in full, a picture, or the things.
fn narrow(canvas: &mut Canvas<'_>, app: &App, fit: &Fit, plot: Plot) {
    let place = part(app, fit, plot);
    let last = plot.top + plot.middle;
    match fit.part() {
        PICTURE if fit.picture => {
            let drawn = layer_picture(canvas, fit, fit.layer(), Place { width: place.width * 3 / 5, ..place });
            beside(canvas, fit, &drawn, behind(&drawn, place));
        }
        PICTURE => {
            let height = place.height.saturating_sub(IN_FULL);
            list(canvas, app, fit, Place { height, ..place });
            if let Some(layer) = fit.layers().get(fit.layer()) {
                let words = format!("Layer {}, {}: {}", fit.layer() + 1, words::height(layer), words::layer(layer));
                canvas.wrapped(1, place.y + height, (place.width, IN_FULL), &words, Role::Text);
            }
        }
        _ => {
            let height = place.height.saturating_sub(IN_FULL);
            list(canvas, app, fit, Place { height, ..place });
            in_full(canvas, fit, Place { y: place.y + height, height: IN_FULL, ..place });
        }
    }
    if let Some(report) = &fit.report {
        let searching = fit.progress(&app.desk);
        let words = if searching.is_empty() { words::weighs(report) } else { searching };
        canvas.text(1, last, place.width, &words, Role::Text);
    }
}
