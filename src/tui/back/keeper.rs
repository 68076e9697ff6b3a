//! Who keeps the season for the screens: does what they ask, one by one, and tells what came of it.

use std::sync::Arc;

use super::{Ask, News, OfWhat, Reply, Request, Stocked, Window, hunt, work};
use crate::season::{ActError, Basis, Moment, PlanWish, Season, Shelf, Store};

/// How many acts a history shows.
const HISTORY: usize = 500;
/// How many things the first window has: more than any screen shows.
const FIRST: usize = 100;

/// Tells the time.
pub type Clock = Box<dyn Fn() -> Moment + Send>;

/// The season at work for the screens.
pub struct Keeper<S> {
    season: Season<S>,
    shelf: Option<Shelf>,
    clock: Clock,
    file: String,
}

impl<S: Store> Keeper<S> {
    /// A season, the time, and where its file is.
    pub fn new(season: Season<S>, clock: Clock, file: String) -> Keeper<S> {
        Keeper { season, shelf: None, clock, file }
    }

    /// The season, to look at.
    pub fn season(&self) -> &Season<S> {
        &self.season
    }

    /// Does what is asked, and tells what came of it.
    pub fn answer(&mut self, request: Request, tell: &mut dyn FnMut(Reply)) {
        self.season.at((self.clock)());
        let told = match request {
            Request::Start => self.start(tell),
            Request::Do(deed, asks) => {
                let shelf = self.shelf.get_or_insert_with(Shelf::default);
                let outcome = deed.run(&mut self.season, shelf);
                self.news(&asks).map(|news| tell(Reply::Did(outcome, news)))
            }
            Request::Show(asks) => self.windows(&asks).map(|windows| tell(Reply::Shown(windows))),
            Request::Draft(text) => {
                // Nobody waits for this: what is awaited is another answer.
                if let Err(error) = self.season.keep_draft(&text) {
                    tell(Reply::Aside(error.to_string()));
                }
                Ok(())
            }
            Request::Hunt(job) => {
                tell(hunt(&job));
                Ok(())
            }
            Request::Work(task) => {
                work(&task, tell);
                Ok(())
            }
        };
        if let Err(error) = told {
            tell(Reply::Trouble(error.to_string()));
        }
    }

    /// When nothing is asked: looks whether another program changed the file.
    pub fn idle(&mut self, tell: &mut dyn FnMut(Reply)) {
        match self.season.changed_elsewhere() {
            Ok(false) => {}
            Ok(true) => {
                self.shelf = None;
                self.season.at((self.clock)());
                let news = self.season.shelf().and_then(|shelf| {
                    self.shelf = Some(shelf);
                    self.news(&[])
                });
                tell(news.map_or_else(|error| Reply::Aside(error.to_string()), Reply::Changed));
            }
            Err(error) => tell(Reply::Aside(error.to_string())),
        }
    }

    fn start(&mut self, tell: &mut dyn FnMut(Reply)) -> Result<(), ActError> {
        let board = Arc::new(self.season.board()?);
        let (first, draft, file) = (self.season.first_wares(FIRST)?, self.season.kept_draft()?, self.file.clone());
        tell(Reply::Started { board, first, draft, file });
        match self.season.shelf() {
            Ok(shelf) => {
                self.shelf = Some(shelf.clone());
                tell(Reply::Shelf(Stocked::of(shelf)));
            }
            Err(error) => tell(Reply::Aside(error.to_string())),
        }
        Ok(())
    }

    fn news(&mut self, asks: &[Ask]) -> Result<News, ActError> {
        let touched = self.season.take_touched();
        if let Some(shelf) = &self.shelf {
            self.shelf = Some(self.season.restock(shelf, &touched)?);
        }
        let board = Arc::new(self.season.board()?);
        Ok(News { board, stocked: self.shelf.clone().map(Stocked::of), windows: self.windows(asks)? })
    }

    fn windows(&self, asks: &[Ask]) -> Result<Vec<Window>, ActError> {
        let mut windows = Vec::new();
        for ask in asks {
            match self.window(ask) {
                Ok(window) => windows.push(window),
                Err(ActError::Store(error)) => return Err(error.into()),
                // What it is about is gone: taken back, perhaps.
                Err(_) => {}
            }
        }
        Ok(windows)
    }

    fn window(&self, ask: &Ask) -> Result<Window, ActError> {
        Ok(match ask {
            Ask::Card(giftbox) => Window::Card(Arc::new(self.season.box_card_of(*giftbox)?)),
            Ask::Haul(haul) => Window::Haul(self.season.haul_card(*haul)?),
            Ask::Thing(lots) => Window::Thing {
                lots: lots.clone(),
                place: self.season.places_of(lots)?,
                prices: self.season.prices_of(lots)?,
            },
            Ask::Pull => Window::Pull(self.season.pull_list()?),
            Ask::Hauls => Window::Hauls(self.season.hauls_to_settle()?),
            Ask::History => Window::History(self.season.history(HISTORY)?),
            Ask::LastNight => Window::LastNight(self.season.last_night()?),
            Ask::Rules => Window::Rules(self.season.rule_rows()?),
            Ask::Cautions(of) => {
                let found = match of {
                    OfWhat::All => self.season.cautions_in(None, false)?,
                    OfWhat::Box(giftbox) => self.season.cautions_in_box(*giftbox)?,
                    OfWhat::Thing(lots) => self.season.cautions_with(lots.as_slice())?,
                };
                Window::Cautions(of.clone(), found)
            }
            Ask::Planning => Window::Planning(self.basis(true)?),
            Ask::Needs => Window::Needs(self.basis(false)?),
            Ask::Fitting(giftbox) => {
                let shelf = self.shelf.clone().map_or_else(|| self.season.shelf(), Ok)?;
                match self.season.fitting_of(*giftbox, &shelf) {
                    Ok(fitting) => Window::Fitting(*giftbox, Ok(Arc::new(fitting))),
                    Err(ActError::Store(error)) => return Err(error.into()),
                    Err(error) => Window::Fitting(*giftbox, Err(error.to_string())),
                }
            }
            Ask::Words(lot) => Window::Words(*lot, self.season.line_words(*lot)?),
        })
    }

    fn basis(&self, priced: bool) -> Result<Arc<Basis>, ActError> {
        let shelf = self.shelf.clone().map_or_else(|| self.season.shelf(), Ok)?;
        Ok(Arc::new(self.season.basis(&PlanWish::default(), shelf, priced)?))
    }
}
