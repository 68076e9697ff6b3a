//! Making something else of the chosen thing, and saying how much there is of what nobody counts.

use std::sync::Arc;

use super::App;
use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::desk::Desk;
use super::haul;
use super::line::{Line, Named, Purpose};
use super::screen::{No, Screen};
use crate::season::{Level, Remake, Ware};
use crate::tui::back::Deed;

impl App {
    /// Opens the line for what is made of the chosen thing, or asks about it.
    pub(super) fn make(&mut self, action: Action) -> Result<(), No> {
        let (_, lots) = self.top().chosen(&self.desk);
        let ware = lots.first().and_then(|lot| self.desk.seen.shelf.holding(*lot)).map(Arc::clone);
        let desk = &mut self.desk;
        if action == Action::Kit {
            desk.open_line(Purpose::Remake(Remake::Kit, Named { lots: Vec::new(), title: String::new() }));
            return Ok(());
        }
        let ware = ware.ok_or_else(|| "No thing is chosen here.".to_owned())?;
        let named = Named { lots: ware.lots.to_vec(), title: ware.title.to_string() };
        match action {
            Action::Level => ask_level(desk, &ware),
            _ if ware.on_hand == 0 => return Err(format!("None of the {} is on hand.", ware.title)),
            Action::Combine => desk.act(Deed::Combine(named.lots)),
            Action::Split => desk.open_line(Purpose::Remake(Remake::Split, named)),
            Action::PartOut => desk.open_line(Purpose::Remake(Remake::PartOut, named)),
            _ => desk.open_line(Purpose::Remake(Remake::Apart, named)),
        }
        Ok(())
    }
}

fn ask_level(desk: &mut Desk, ware: &Ware) {
    let choice = |words: &str, level| Choice::new(words, Answer::Do(Box::new(Deed::Level(ware.lots.to_vec(), level))));
    let mut choices =
        vec![choice("plenty", Some(Level::Plenty)), choice("low", Some(Level::Low)), choice("gone", Some(Level::Gone))];
    if ware.level.is_some() {
        choices.push(choice("count it again", None));
    }
    let leave = Choice::new("leave it as it is", Answer::Nothing);
    desk.asked = Some(Asked::new(format!("{}: how much is there?", ware.title), choices, Some(leave)));
}

/// Opens the line of a haul for a thing that goes back to the shop: what came back for it is left to say.
pub fn write_return(desk: &mut Desk, screens: &[Screen], title: &str) -> Result<(), No> {
    haul::open(desk, screens, false);
    let Some(line) = &mut desk.line else { return Ok(()) };
    if !line.words().trim().is_empty() {
        return Err("A half-written line waits here: save it or rub it out first.".to_owned());
    }
    *line = Line::new(Purpose::Bought, format!("returned 1 {title} "));
    desk.say("Write what came back for it, and how many: returned 2 … 1.00".to_owned());
    Ok(())
}
