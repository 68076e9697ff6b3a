//! A terminal too small for a screen: the one row that matters most, and the keys still work.

use super::canvas::Canvas;
use super::look::Role;
use crate::tui::app::App;
use crate::tui::app::action::Action;
use crate::tui::app::common::lacks;
use crate::tui::app::line::Offered;
use crate::tui::app::screen::Screen;

/// Draws what fits.
pub fn draw(canvas: &mut Canvas<'_>, app: &App) {
    let width = canvas.width();
    let desk = &app.desk;
    let first = match (&desk.asked, &desk.line) {
        (Some(asked), _) => format!("? {}", asked.question),
        (None, Some(_)) => String::new(),
        (None, None) => here(app),
    };
    canvas.text(0, 0, width, &first, Role::Text);
    if let Some(asked) = &desk.asked {
        canvas.cursor(0, 0);
        let answers: Vec<String> = asked.told().map(|(digit, label)| format!("{digit} {label}")).collect();
        canvas.text(0, 1, width, &answers.join("  "), Role::Text);
    } else if let Some(line) = &desk.line {
        super::line::words(canvas, line, (0, 0), true);
        if let Some(Offered::Thing(offer)) = line.offered() {
            canvas.text(0, 1, width, &format!("▸ {}", offer.ware.title), Role::Text);
        }
    } else {
        canvas.cursor(0, 0);
        let second = if desk.said.text.is_empty() { "40×10 shows more" } else { &desk.said.text };
        canvas.text(0, 1, width, second, Role::Text);
    }
    canvas.text(0, 2, width, "40×10 shows more", Role::Quiet);
}

/// The selected thing, and what it lacks.
fn here(app: &App) -> String {
    let desk = &app.desk;
    match app.screens.last() {
        Some(Screen::Home(home)) if desk.seen.is_new() || home.giftbox(desk).is_none() => {
            let (bought, plan) = (desk.key(Action::Bought), desk.key(Action::PlanBox));
            format!("{bought} writes what you bought, {plan} plans a box.")
        }
        Some(Screen::Home(home)) => home.giftbox(desk).map(lacks).unwrap_or_default(),
        Some(Screen::Packing(packing)) => desk.seen.giftbox(packing.giftbox()).map(lacks).unwrap_or_default(),
        Some(Screen::Review(review)) => review.giftbox(desk).map(lacks).unwrap_or_default(),
        Some(Screen::Card(card)) => format!("{}: {} on hand, {}", card.ware.title, card.ware.on_hand, card.ware.tote),
        Some(Screen::Plan(plan)) => plan.tonight.as_ref().map(|it| it.answer.join(" ")).unwrap_or_default(),
        Some(Screen::Pasted(pasted)) => pasted.save_words(desk),
        Some(Screen::Fit(fit)) => fit.answer().1,
        _ => "Esc goes back.".to_owned(),
    }
}
