//! Which boxes can be finished; and what one looks at from there: a box, all of them, a need, the shopping page.

use super::canvas::{Canvas, cells, lines_of};
use super::frame::{boxes_full, heading_ruled};
use super::lists::table;
use super::look::Role;
use super::offers::caution_role;
use super::rows::{self, Place};
use crate::model::text::counted;
use crate::season::{NeedLine, PlanThing, sign};
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::plan::{Plan, View, Walk};
use crate::tui::app::screen::Face;

/// Draws the plan.
pub fn draw(canvas: &mut Canvas<'_>, app: &App, plan: &Plan) {
    let room = app.desk.room(2);
    let place = table(app, &room);
    match &plan.view {
        View::Table => super::plan_table::draw(canvas, app, plan, place),
        View::Walk(walk) => one_box(canvas, app, plan, walk, place),
        View::Whole => all_boxes(canvas, app, plan, place),
        View::Behind(line) => behind(canvas, app, plan, line, place),
        View::Page => {
            heading_ruled(canvas, "Shopping page", "");
            text(canvas, plan, &plan.page_lines(), place);
        }
        View::Why => {
            heading_ruled(canvas, "Why no more boxes", &boxes_full(&app.desk));
            let reasons = plan.tonight.as_ref().map(|tonight| tonight.reasons.as_slice()).unwrap_or_default();
            text(canvas, plan, reasons, place);
        }
    }
    super::line::draw(canvas, app, &room);
}

/// A box with what would be set aside for it.
fn one_box(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, walk: &Walk, place: Place) {
    let giftbox = walk.giftbox();
    let line = app.desk.seen.giftbox(giftbox.giftbox);
    let title = line.map_or_else(|| format!("Box {}", giftbox.label), crate::season::BoxLine::heading);
    heading_ruled(canvas, &title, &walk.place());
    canvas.text(place.x + 2, place.y, place.width, "Would be set aside for it, to make it full:", Role::Heading);
    let foot = 3.min(place.height / 3);
    let list = Place { y: place.y + 1, height: place.height.saturating_sub(1 + foot), ..place };
    let ages = line.map(|line| line.facts.ages);
    rows::draw(canvas, list, plan.list(0), giftbox.things.len(), |canvas, row, y| {
        let thing = &giftbox.things[row];
        let held = thing.lots.first().and_then(|lot| app.desk.seen.shelf.holding(*lot));
        let level = held.zip(ages).and_then(|(ware, ages)| ware.careful(ages));
        let (caution, role) = level.map_or((String::new(), Role::Text), |level| {
            (format!("{} {}", sign(level), level.words()), caution_role(level))
        });
        thing_row(canvas, thing, list, y);
        let x = list.x + 2 + list.width * 2 / 3;
        canvas.text(x, y, (list.x + list.width).saturating_sub(x), &caution, role);
    });
    let after = list.y + u16::try_from(giftbox.things.len()).unwrap_or(u16::MAX).min(list.height);
    let holds = line.map(|line| format!("{} in it now, {} set aside.", line.things, line.aside)).unwrap_or_default();
    canvas.text(place.x + 2, after + 1, place.width, &holds, Role::Text);
    if walk.done() > 0 {
        let done = format!(
            "Set aside for {} so far; {} fetches it.",
            counted(walk.done() as u64, "box", "boxes"),
            app.desk.key(Action::Pull)
        );
        canvas.text(place.x + 2, after + 2, place.width, &done, Role::Text);
    }
}

/// `2 notebooks, teal    tote 4`.
fn thing_row(canvas: &mut Canvas<'_>, thing: &PlanThing, place: Place, y: u16) {
    let name = place.width / 2;
    canvas.text(place.x + 2, y, name.saturating_sub(1), &thing.words(), Role::Text);
    let tote = if thing.tote.is_empty() { "no tote said" } else { &thing.tote };
    canvas.text(place.x + name + 2, y, place.width / 6, tote, Role::Text);
}

/// The whole plan, a box a row.
fn all_boxes(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, place: Place) {
    let boxes: Vec<_> = plan.fillable().collect();
    let status = counted(boxes.len() as u64, "box", "boxes");
    heading_ruled(canvas, "All that would be set aside", &status);
    rows::draw(canvas, place, plan.list(0), boxes.len(), |canvas, row, y| {
        let whom = app.desk.seen.giftbox(boxes[row].giftbox).map(|line| format!("{} {}", line.for_whom, line.ages));
        canvas.right(place.x + 5, y, 4, &boxes[row].label, Role::Text);
        canvas.text(place.x + 7, y, 12, &whom.unwrap_or_default(), Role::Text);
        canvas.text(place.x + 20, y, place.width.saturating_sub(20), &boxes[row].words(), Role::Text);
    });
}

/// The boxes that need something, and what is on hand for it.
fn behind(canvas: &mut Canvas<'_>, app: &App, plan: &Plan, line: &NeedLine, place: Place) {
    let boxes = counted(line.boxes.len() as u64, "box needs", "boxes need");
    heading_ruled(canvas, &line.name(), &format!("{boxes} it"));
    let things: Vec<String> = line.things.iter().map(|(name, units)| format!("{units} {name}")).collect();
    let mut words = if things.is_empty() {
        "Nothing on hand suits.".to_owned()
    } else {
        format!("On hand for it: {}.", things.join("; "))
    };
    if !line.sizes.is_empty() {
        words.push_str(&format!(" Sizes that were for them: {}.", line.sizes.join(", ")));
    }
    let rows = u16::try_from(lines_of(&words, place.width.saturating_sub(2), 4).len()).unwrap_or(4);
    canvas.wrapped(place.x + 2, place.y, (place.width.saturating_sub(2), rows), &words, Role::Text);
    let list = Place { y: place.y + rows + 1, height: place.height.saturating_sub(rows + 1), ..place };
    rows::draw(canvas, list, plan.list(0), line.boxes.len(), |canvas, row, y| {
        let Some(giftbox) = app.desk.seen.giftbox(line.boxes[row]) else { return };
        let x = canvas.text(list.x + 2, y, list.width / 2, &giftbox.heading(), Role::Text);
        let x = x.max(list.x + list.width / 2) + 2;
        let lacks = crate::tui::app::common::lacks(giftbox);
        let lacks = lacks.split_once(' ').and_then(|(_, rest)| rest.split_once(' ')).map_or("", |(_, rest)| rest);
        canvas.text(x, y, (list.x + list.width).saturating_sub(x), lacks, Role::Text);
    });
}

/// Lines of text that one can scroll through.
fn text(canvas: &mut Canvas<'_>, plan: &Plan, lines: &[String], place: Place) {
    let place = Place { in_hand: false, ..place };
    let mut y = place.y;
    for line in lines.iter().skip(plan.list(0).row()) {
        let width = place.width.saturating_sub(2);
        let indent = cells(line) - cells(line.trim_start());
        for part in lines_of(line.trim_start(), width.saturating_sub(indent), 8)
            .into_iter()
            .chain(line.trim().is_empty().then_some(""))
        {
            if y >= place.y + place.height {
                return;
            }
            canvas.text(place.x + 2 + indent, y, width.saturating_sub(indent), part, Role::Text);
            y += 1;
        }
    }
}
