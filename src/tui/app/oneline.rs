//! Keys while the line is open, and the lines that mean the same on every screen.

use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::common::open_card;
use super::desk::Desk;
use super::keymap::Press;
use super::line::{Line, Named, Offered, Purpose, count_and_words};
use super::packing::Packing;
use super::screen::{No, Screen};
use super::tote::Tote;
use super::{App, hunting};
use crate::model::measure::Units;
use crate::season::BoxWords;
use crate::tui::back::Deed;

impl App {
    /// Takes a key while the line is open; tells whether it was one for the line.
    pub(super) fn press_line(&mut self, press: Press) -> Result<bool, No> {
        let Some(line) = &mut self.desk.line else { return Ok(false) };
        match press.action {
            Action::LineCaret => line.move_caret(press.n),
            Action::LineErase => line.erase(press.n),
            Action::LineTake => return self.take_words().map(|()| true),
            Action::LineDo => return self.do_line().map(|()| true),
            Action::MoveRow | Action::MovePage if line.offers.is_empty() => {
                // Out of an empty line one goes up to what is saved.
                if press.n < 0 && line.words().trim().is_empty() {
                    self.desk.shut_line();
                }
            }
            Action::MoveRow => line.mark(press.n.into()),
            Action::MovePage => line.mark(isize::from(press.n) * 5),
            _ => return Ok(false),
        }
        Ok(true)
    }

    /// The words of the offered row go into the line; nothing is saved.
    fn take_words(&mut self) -> Result<(), No> {
        let Some(line) = &mut self.desk.line else { return Ok(()) };
        let nothing = || "Nothing is offered.".to_owned();
        let offered = line.offered().cloned().ok_or_else(nothing)?;
        let words = match &offered {
            Offered::Thing(offer) => match line.purpose {
                Purpose::Bought | Purpose::MendLine(_) | Purpose::MendPasted(_) => {
                    hunting::with_known(line, &offer.ware)
                }
                Purpose::PutIn { .. } => {
                    let (count, _) = count_and_words(line.words());
                    if count > 1 { format!("{count} {}", offer.ware.title) } else { offer.ware.title.to_string() }
                }
                _ => offer.ware.title.to_string(),
            },
            Offered::Box(_, words) => words.split(' ').next().unwrap_or_default().to_owned(),
            Offered::Tote(tote, _) => tote.clone(),
            Offered::Action(action) => super::table::row(*action).label.to_owned(),
        };
        line.set(words);
        Ok(())
    }

    fn do_line(&mut self) -> Result<(), No> {
        let Some(line) = &self.desk.line else { return Ok(()) };
        if line.too_long() {
            return Err("It has over 500 letters.".to_owned());
        }
        let line = line.clone();
        match &line.purpose {
            Purpose::Bought | Purpose::PutIn { .. } | Purpose::MendPasted(_) | Purpose::MendRule(_) => {
                let App { desk, screens, .. } = self;
                match screens.last_mut() {
                    Some(screen) => screen.face_mut().line_do(desk),
                    None => Ok(()),
                }
            }
            Purpose::Actions => {
                let Some(Offered::Action(action)) = line.offered() else {
                    return Err(format!("Nothing is called \"{}\".", line.words().trim()));
                };
                let under = self.desk.under.take();
                self.desk.end_line();
                if *action == Action::Editor {
                    // It works on the words that were being written.
                    self.desk.line = under;
                }
                self.press(Press::named(*action));
                Ok(())
            }
            Purpose::Find => find(&line, &mut self.desk),
            _ => small_line(&line, &mut self.desk),
        }
    }
}

/// Opens what was found.
fn find(line: &Line, desk: &mut Desk) -> Result<(), No> {
    let words = line.words().trim().to_owned();
    let offered = line.offered().cloned();
    let offered = offered.ok_or_else(|| match words.as_str() {
        "" => "What is it called? A few letters will do.".to_owned(),
        words => format!("Nothing is called \"{words}\"."),
    })?;
    desk.sought = words;
    desk.end_line();
    match offered {
        Offered::Thing(offer) => return open_card(desk, &offer.ware.lots),
        Offered::Box(id, _) => desk.go_to(Screen::Packing(Packing::of(id))),
        Offered::Tote(tote, _) => desk.go_to(Screen::Tote(Tote::of(tote))),
        Offered::Action(_) => {}
    }
    Ok(())
}

/// Lines whose words are a box, a tote, a count or a reason.
fn small_line(line: &Line, desk: &mut Desk) -> Result<(), No> {
    let words = line.words().trim();
    let empty = words.is_empty();
    let deed = match &line.purpose {
        Purpose::Plan if empty => return Err("Which box? For example: 3 girl 6-8 ocean, teal.".to_owned()),
        Purpose::Plan => {
            BoxWords::from(words).map_err(|error| error.to_string())?;
            Deed::Plan(words.to_owned())
        }
        Purpose::MendBox(label) => Deed::Edit { label: label.clone(), words: words.to_owned() },
        Purpose::MendLine(lot) => Deed::MendLine { lot: *lot, words: words.to_owned(), sure: false },
        Purpose::Tote(named) => Deed::ToTote { lots: named.lots.clone(), tote: words.to_owned() },
        Purpose::Count(named) => {
            let found = words.parse().ok().and_then(Units::new);
            let found = found.ok_or_else(|| format!("How many {} are there? A number, 0 for none.", named.title))?;
            Deed::Count { lots: named.lots.clone(), found }
        }
        Purpose::Gone(named, lost) => {
            let (units, said) = count_and_words(words);
            let units = Units::new(units).unwrap_or(Units::ONE);
            Deed::Gone { lots: named.lots.clone(), units, words: said.to_owned(), lost: *lost }
        }
        Purpose::ToBox(named) => return to_box(line, named, desk),
        Purpose::Allow(deed) => super::careful::with_reason(deed, words)?,
        Purpose::Remake(way, named) => Deed::Remake { way: *way, lots: named.lots.clone(), words: words.to_owned() },
        Purpose::Why(named) => {
            let why = words.trim_matches(['(', ')']).to_owned();
            Deed::Note { label: box_label(desk)?, lots: named.lots.clone(), why }
        }
        Purpose::Size(_) if empty => {
            return Err("How long, wide and high is it? For example: 20 x 15 x 2 cm.".to_owned());
        }
        Purpose::Size(name) => Deed::Measure { name: name.clone(), sides: words.to_owned() },
        _ => return Ok(()),
    };
    desk.act(deed);
    Ok(())
}

fn box_label(desk: &Desk) -> Result<String, No> {
    desk.here
        .and_then(|id| desk.seen.giftbox(id))
        .map(|line| line.label.clone())
        .ok_or_else(|| "No box is open.".to_owned())
}

fn to_box(line: &Line, named: &Named, desk: &mut Desk) -> Result<(), No> {
    let from = box_label(desk)?;
    let words = line.words().trim().trim_start_matches("box ").to_lowercase();
    let by_name = desk.seen.boxes().iter().find(|giftbox| giftbox.label == words);
    let marked = match line.offered() {
        Some(Offered::Box(id, _)) => desk.seen.giftbox(*id),
        _ => None,
    };
    let to = by_name.or(marked).map(|giftbox| giftbox.label.clone());
    let to = to.ok_or_else(|| format!("There is no box \"{words}\"."))?;
    desk.act(Deed::Carry { from, to, lots: named.lots.clone(), units: Units::ONE });
    Ok(())
}

/// Asks whether fewer are meant, where not as many are there.
pub fn ask_fewer(desk: &mut Desk, left: u32, aside: bool, deed: Deed) {
    let words = if aside { format!("set {left} aside") } else { format!("put {left} in") };
    let put = Choice::new(words, Answer::Do(Box::new(deed)));
    desk.asked =
        Some(Asked::new(format!("Only {left} on hand."), vec![put], Some(Choice::new("none", Answer::Nothing))));
}
