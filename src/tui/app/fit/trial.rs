//! What one can try with a thing of the box, and what is said of it.

use super::{Fit, FitThing, PICTURE, words};
use crate::model::id::{LotId, PlacementId};
use crate::season::SizeFrom;
use crate::tui::app::action::Action;
use crate::tui::app::asked::{Answer, Asked, Choice};
use crate::tui::app::desk::Desk;
use crate::tui::app::line::Purpose;
use crate::tui::app::screen::No;

/// How many things on hand are offered in place of another.
const OTHERS: usize = 3;

/// What is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trial {
    /// Left out, or back in.
    Out(PlacementId),
    /// On top, or no longer.
    Top(PlacementId),
    /// Its size is said.
    Size(PlacementId),
    /// Another batch instead; none: the thing itself again.
    Instead(PlacementId, Option<LotId>),
}

impl Fit {
    /// Asks what is tried with the chosen thing.
    pub(super) fn ask(&self, desk: &mut Desk) -> Result<(), No> {
        let thing = self.chosen_thing(desk)?;
        let placement = thing.placement;
        let choice = |label: String, trial| Choice::new(label, Answer::Try(trial));
        let out = if self.is_out(thing) { "put it back" } else { "leave it out" };
        let top = if thing.on_top { "no longer on top" } else { "keep it on top" };
        let mut choices = vec![
            choice(out.to_owned(), Trial::Out(placement)),
            choice(top.to_owned(), Trial::Top(placement)),
            choice("say its size".to_owned(), Trial::Size(placement)),
        ];
        if self.wish.instead.contains_key(&placement) {
            choices.push(choice("what was there before".to_owned(), Trial::Instead(placement, None)));
        }
        let fits = self.report.as_ref().is_some_and(|report| report.fits);
        let others = self.fitting().map(|fitting| fitting.instead_of(placement, !fits)).unwrap_or_default();
        let others = others.into_iter().filter(|other| other.name != thing.name).take(OTHERS);
        choices.extend(others.map(|other| {
            let label = format!("{} instead, {}", other.name, words::short_sides(other.size));
            choice(label, Trial::Instead(placement, Some(other.lot)))
        }));
        let nothing = Some(Choice::new("nothing", Answer::Nothing));
        desk.asked =
            Some(Asked::new(format!("{}: what is tried? Nothing is changed by it.", thing.name), choices, nothing));
        Ok(())
    }

    /// Does what a key does to the chosen thing.
    pub(super) fn on_thing(&mut self, action: Action, desk: &mut Desk) -> Result<(), No> {
        let thing = self.chosen_thing(desk)?.clone();
        match action {
            Action::Mend if thing.from == SizeFrom::Batch => {
                let find = desk.key(Action::Find);
                Err(format!("Its size was said when it was logged: {find} finds it, and its words are mended there."))
            }
            Action::Wow if !thing.inside.is_empty() => {
                let out = desk.key(Action::TakeOne);
                Err(format!("It is inside the {}; where it is packed, {out} takes it out first.", thing.inside))
            }
            Action::Mend => {
                self.carry_out(&Trial::Size(thing.placement), desk);
                Ok(())
            }
            Action::Away => {
                self.carry_out(&Trial::Out(thing.placement), desk);
                Ok(())
            }
            _ => {
                self.carry_out(&Trial::Top(thing.placement), desk);
                Ok(())
            }
        }
    }

    /// Tries it, and says that nothing is changed by that.
    pub(super) fn carry_out(&mut self, trial: &Trial, desk: &mut Desk) {
        let find = |placement: PlacementId| self.things.iter().find(|thing| thing.placement == placement).cloned();
        let (Trial::Out(placement) | Trial::Top(placement) | Trial::Size(placement) | Trial::Instead(placement, _)) =
            *trial;
        let Some(thing) = find(placement) else { return };
        match trial {
            Trial::Size(_) if thing.from == SizeFrom::Batch => {
                return desk.refuse(format!("The size of {} was said when it was logged.", thing.name));
            }
            Trial::Size(_) => return desk.open_line(Purpose::Size(thing.called)),
            Trial::Out(_) if self.wish.out.remove(&placement) => desk.say(format!("{} is back in.", thing.name)),
            Trial::Out(_) => {
                self.wish.out.insert(placement);
                let again = desk.key(Action::Away);
                desk.say(format!("Only tried here: the box stays as it is. {again} again: back in."));
            }
            Trial::Top(_) => self.turn_over(&thing, desk),
            Trial::Instead(_, Some(lot)) => {
                self.wish.instead.insert(placement, *lot);
                desk.say("Only tried here: the box stays as it is.");
            }
            Trial::Instead(_, None) => {
                self.wish.instead.remove(&placement);
                desk.say("What was there before is back in.");
            }
        }
        self.anew(desk);
    }

    /// On top, or no longer; what is so anyway is no wish.
    fn turn_over(&mut self, thing: &FitThing, desk: &mut Desk) {
        let anyway = self.before().iter().any(|before| before.placement == thing.placement && before.on_top);
        let on_top = !thing.on_top;
        if on_top == anyway {
            self.wish.top.remove(&thing.placement);
        } else {
            self.wish.top.insert(thing.placement, on_top);
        }
        let so = if on_top { "on top, with nothing on it" } else { "no longer on top" };
        desk.say(format!("Tried {so}; the box stays as it is."));
    }

    fn chosen_thing(&self, desk: &Desk) -> Result<&FitThing, No> {
        let to_things = || {
            let key = desk.key(Action::NextPart);
            if self.part == PICTURE && !self.things.is_empty() {
                format!("First {key} to the things, then this key.")
            } else {
                "Nothing in it yet.".to_owned()
            }
        };
        self.thing().ok_or_else(to_things)
    }
}
