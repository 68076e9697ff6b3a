//! From what is on the screens to cells. Drawing changes nothing and asks nobody.

pub mod canvas;
pub mod look;

mod card;
mod careful;
mod first;
mod fit;
mod frame;
mod haul;
mod home;
mod layer;
mod line;
mod lists;
mod offers;
mod packing;
mod pasted;
mod plan;
mod plan_table;
mod review;
mod rows;
mod tiny;

use ratatui::buffer::Buffer;

use super::app::App;
use super::app::room::Tier;
use super::app::screen::Screen;
use canvas::{Canvas, Drawn};
use look::Look;

/// Draws the screen in sight, and tells where the cursor stands and what the mouse can hit.
pub fn draw(app: &App, look: Look, buffer: &mut Buffer) -> Drawn {
    let mut canvas = Canvas::new(buffer, look);
    if app.desk.size.tier() == Tier::Row {
        tiny::draw(&mut canvas, app);
        return canvas.done();
    }
    match app.screens.last() {
        Some(Screen::Home(home)) => home::draw(&mut canvas, app, home),
        Some(Screen::Haul(haul)) => haul::draw(&mut canvas, app, haul),
        Some(Screen::Pasted(pasted)) => pasted::draw(&mut canvas, app, pasted),
        Some(Screen::Packing(packing)) => packing::draw(&mut canvas, app, packing),
        Some(Screen::Review(review)) => review::draw(&mut canvas, app, review),
        Some(Screen::Card(card)) => card::draw(&mut canvas, app, card),
        Some(Screen::Tote(tote)) => lists::tote(&mut canvas, app, tote),
        Some(Screen::Pull(pull)) => lists::pull(&mut canvas, app, pull),
        Some(Screen::Hauls(hauls)) => lists::hauls(&mut canvas, app, hauls),
        Some(Screen::Plan(plan)) => plan::draw(&mut canvas, app, plan),
        Some(Screen::Careful(careful)) => careful::draw(&mut canvas, app, careful),
        Some(Screen::History(told)) => lists::history(&mut canvas, app, told),
        Some(Screen::DropOff(night)) => lists::night(&mut canvas, app, night),
        Some(Screen::Fit(fit)) => fit::draw(&mut canvas, app, fit),
        Some(Screen::Drive(drive)) => lists::drive(&mut canvas, app, drive),
        Some(Screen::Help(help)) => lists::help(&mut canvas, app, help),
        None => {}
    }
    frame::foot(&mut canvas, app);
    canvas.cursor_somewhere();
    canvas.done()
}
