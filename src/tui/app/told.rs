//! What the season and the search tell, taken in; and what is asked of them after each step.

use super::action::Action;
use super::asked::{Answer, Asked, Choice};
use super::desk::{Effect, Said, Tone};
use super::line::{Offered, Purpose};
use super::{App, Desk, Screen, hunting};
use crate::season::Shelf;
use crate::tui::back::{Ask, Deed, Job, News, Outcome, Reply, Request, Stocked, Window, Worked};

impl App {
    pub(super) fn told(&mut self, reply: Reply) {
        match reply {
            Reply::Started { board, first, draft, file } => {
                self.flight.answers = self.flight.answers.saturating_sub(1);
                self.desk.seen.file = file;
                self.desk.seen.board(board);
                if !self.desk.seen.whole {
                    self.desk.seen.stocked(Stocked::of(Shelf::of_few(first)));
                    self.desk.seen.whole = false;
                }
                self.take_draft(draft.unwrap_or_default());
            }
            Reply::Shelf(stocked) => self.desk.seen.stocked(stocked),
            Reply::Did(outcome, news) => self.did(&outcome, news),
            Reply::Shown(windows) => {
                self.flight.answers = self.flight.answers.saturating_sub(1);
                self.windows(&windows);
            }
            Reply::Changed(news) => {
                self.news(news);
                self.shown.clear();
            }
            Reply::Found { turn, offers } => self.found(turn, offers),
            Reply::Worked { turn, worked } => self.worked(turn, &worked),
            Reply::Trouble(why) => {
                self.flight.answers = self.flight.answers.saturating_sub(1);
                self.words_come_back();
                self.desk.refuse(why);
            }
            Reply::Aside(why) => self.desk.refuse(why),
        }
    }

    fn did(&mut self, outcome: &Outcome, news: News) {
        self.flight.answers = self.flight.answers.saturating_sub(1);
        self.news(news);
        let notes = outcome.notes.join(" ");
        match &outcome.said {
            Ok(said) => {
                if self.flight.serves {
                    self.desk.ticked.clear();
                }
                self.flight.line = None;
                let tone = if self.flight.undoing { Tone::Undone } else { Tone::Done };
                self.desk.said = Said { text: said.clone(), notes, tone };
            }
            Err(why) => {
                self.words_come_back();
                match (&outcome.again, &outcome.allow) {
                    (Some((label, deed)), _) => self.desk.asked = Some(all_the_same(why, label, deed)),
                    (None, Some(deed)) => self.desk.asked = Some(only_with_a_reason(why, deed)),
                    (None, None) => self.desk.refuse(why.clone()),
                }
            }
        }
        let App { desk, screens, .. } = self;
        if let Some(screen) = screens.last_mut() {
            screen.face_mut().did(outcome, desk);
        }
    }

    /// What couldn't be done comes back into the line; what was begun since comes after it. Keys that
    /// wait were not meant for it: it comes back behind them.
    fn words_come_back(&mut self) {
        let Some(mut line) = self.flight.line.take() else { return };
        line.sought.clear();
        if !self.waiting.is_empty() {
            self.flight.begun = Some(line);
            return;
        }
        let now = self.desk.line.replace(line);
        self.flight.begun = now.filter(|line| !line.words().trim().is_empty());
    }

    /// Once the line is free again, the words that wait for it are in it.
    pub(super) fn begun_comes_back(&mut self) {
        if self.waiting.is_empty()
            && self.desk.line.as_ref().is_none_or(|line| line.words().trim().is_empty())
            && let Some(begun) = self.flight.begun.take()
        {
            self.desk.line = Some(begun);
        }
    }

    fn worked(&mut self, turn: u64, worked: &Worked) {
        let App { desk, screens, .. } = self;
        if matches!(worked, Worked::Done) {
            desk.work_ended(turn);
        }
        for screen in screens {
            screen.face_mut().worked(turn, worked, desk);
        }
    }

    fn news(&mut self, news: News) {
        self.desk.seen.board(news.board);
        if let Some(stocked) = news.stocked {
            self.desk.seen.stocked(stocked);
        }
        self.windows(&news.windows);
    }

    fn windows(&mut self, windows: &[Window]) {
        let App { desk, screens, .. } = self;
        for window in windows {
            if let Window::Words(lot, words) = window
                && desk.mending.take_if(|mending| mending == lot).is_some()
            {
                desk.open_line_with(Purpose::MendLine(*lot), words.clone());
            }
            for screen in screens.iter_mut() {
                screen.face_mut().take(window, desk);
            }
        }
        if self.flight.answers == 0 {
            // The words of a batch that is gone never come.
            self.desk.mending = None;
        }
    }

    fn found(&mut self, turn: u64, offers: Vec<crate::season::Offer>) {
        if self.flight.search != Some(turn) {
            return;
        }
        self.flight.search = None;
        let Desk { line, seen, .. } = &mut self.desk;
        if let Some(line) = line {
            let things = hunting::in_order(offers, &line.purpose).into_iter().map(Offered::Thing);
            line.offers.retain(|offered| !matches!(offered, Offered::Thing(_)));
            // A box or a tote that is called just so comes before all things.
            let first = usize::from(hunting::is_exact(line, seen));
            line.offers.splice(first..first, things);
            line.mark(0);
        }
    }

    /// Sends on what a screen wants done, with the parts that are in sight to be shown afterwards.
    pub(super) fn send_deeds(&mut self) {
        for deed in std::mem::take(&mut self.desk.deeds) {
            let asks = self.wanted();
            self.flight.answers += 1;
            self.flight.undoing = matches!(deed, Deed::Undo);
            self.flight.serves = matches!(deed, Deed::Each { .. } | Deed::Best { .. });
            self.flight.line = self.desk.line.clone().filter(|_| says_the_line(&deed));
            if self.flight.line.is_some() {
                words_are_sent(&mut self.desk);
            }
            self.shown.clone_from(&asks);
            self.desk.out.push(Effect::Ask(Request::Do(Box::new(deed), asks)));
        }
    }

    pub(super) fn ask_for_windows(&mut self) {
        let wanted = self.wanted();
        let missing: Vec<Ask> = wanted.iter().filter(|ask| !self.shown.contains(ask)).cloned().collect();
        if !missing.is_empty() {
            self.flight.answers += 1;
            self.desk.out.push(Effect::Ask(Request::Show(missing)));
        }
        self.shown = wanted;
    }

    fn wanted(&self) -> Vec<Ask> {
        let mut wanted: Vec<Ask> = self.desk.mending.map(Ask::Words).into_iter().collect();
        for ask in self.screens.iter().flat_map(|screen| screen.face().wants(&self.desk)) {
            if !wanted.contains(&ask) {
                wanted.push(ask);
            }
        }
        wanted
    }

    /// Searches anew when the words, the place or the stock changed.
    pub(super) fn look_for_offers(&mut self) {
        let opening = matches!(self.screens.last(), Some(Screen::Haul(haul)) if haul.is_opening());
        let App { desk, screens, flight, .. } = self;
        let Some(line) = &mut desk.line else {
            flight.search = None;
            return;
        };
        let top = screens.last().map(Screen::face);
        let sought = hunting::key(line, &desk.seen, top, opening);
        if sought == line.sought {
            return;
        }
        line.sought = sought;
        hunting::read(line, &desk.seen, !opening);
        line.offers = hunting::at_hand(line, &desk.seen, top);
        flight.search = None;
        if let Some(hunt) = hunting::hunt(line, &desk.seen, top) {
            flight.turn += 1;
            flight.search = Some(flight.turn);
            let job = Job { turn: flight.turn, shelf: desk.seen.shelf.clone(), hunt, limit: hunting::MOST };
            desk.out.push(Effect::Ask(Request::Hunt(job)));
        }
        line.mark(0);
    }

    /// Half-written words are kept as they are written, so that nothing ends them.
    pub(super) fn keep_drafts(&mut self) {
        let text = draft(&self.desk);
        if text != self.drafted && self.desk.seen.board.is_some() {
            self.drafted.clone_from(&text);
            self.desk.out.push(Effect::Ask(Request::Draft(text)));
        }
    }

    fn take_draft(&mut self, text: String) {
        for line in text.lines() {
            if let Some((name, words)) = line.split_once('\t')
                && let Some(name) = KEPT.iter().find(|kept| **kept == name)
            {
                self.desk.kept.insert(name, words.replace('\u{1e}', "\n"));
            }
        }
        self.drafted = text;
        let a = self.desk.key(Action::Bought);
        if self.desk.kept.contains_key("bought") {
            self.desk.say(format!("A half-written line waits for you: {a} opens it."));
        } else if self.desk.kept.contains_key("pasted") {
            self.desk.say(format!("Pasted lines wait to be saved: {a} opens them."));
        }
    }
}

/// What was refused only to be looked at once more, and does no harm.
fn all_the_same(why: &str, label: &str, deed: &Deed) -> Asked {
    let save = Choice::new(label, Answer::Do(Box::new(deed.clone())));
    Asked::new(why, vec![save], Some(Choice::new("don't", Answer::Nothing)))
}

/// What a caution keeps out of a box: it goes in only with a reason.
fn only_with_a_reason(why: &str, deed: &Deed) -> Asked {
    let allow = Choice::new("allow it here, with a reason", Answer::Allow(Box::new(deed.clone())));
    Asked::new(why, vec![allow], Some(Choice::new("leave it out", Answer::Nothing)))
}

/// The names under which half-written words are kept.
const KEPT: &[&str] = &["bought", "box", "pasted", "heading"];

fn draft(desk: &Desk) -> String {
    let mut kept = desk.kept.clone();
    if let Some(line) = &desk.line
        && let Some(name) = line.purpose.kept_as()
        && !line.words().trim().is_empty()
    {
        kept.insert(name, line.words().to_owned());
    }
    kept.iter().map(|(name, words)| format!("{name}\t{}\n", words.replace('\n', "\u{1e}"))).collect()
}

/// Whether a deed does what the line says: all but those whose keys work beside it.
fn says_the_line(deed: &Deed) -> bool {
    !matches!(deed, Deed::Undo | Deed::Redo)
}

/// A line that goes on is empty now; one that has done its work is shut.
fn words_are_sent(desk: &mut Desk) {
    let Some(line) = &mut desk.line else { return };
    match line.purpose {
        Purpose::Bought | Purpose::PutIn { .. } => {
            line.set("");
            line.entry = None;
            desk.kept.remove("bought");
        }
        _ => desk.end_line(),
    }
}
