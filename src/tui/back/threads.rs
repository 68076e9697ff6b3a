//! The threads behind the screens: one keeps the season, one searches, one reckons.

use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Duration;

use super::{Back, Job, Keeper, Reply, Request, Task, hunt, work};
use crate::season::Store;

/// How long the season's thread waits before it looks whether another program changed the file.
const IDLE: Duration = Duration::from_millis(500);

/// The threads.
pub struct Threads {
    season: Sender<Request>,
    search: Sender<Job>,
    work: Sender<Task>,
    keeper: Option<thread::JoinHandle<()>>,
}

impl Threads {
    /// Starts them. `tell` hands a reply to whoever draws.
    pub fn start<S, T>(keeper: Keeper<S>, tell: T) -> Threads
    where
        S: Store + Send + 'static,
        T: Fn(Reply) + Clone + Send + 'static,
    {
        let (season, requests) = channel();
        let (search, jobs) = channel();
        let (work, tasks) = channel();
        let (for_search, for_work) = (tell.clone(), tell.clone());
        thread::spawn(move || run_search(&jobs, &for_search));
        thread::spawn(move || run_work(&tasks, &for_work));
        let keeper = thread::spawn(move || run_season(keeper, &requests, &tell));
        Threads { season, search, work, keeper: Some(keeper) }
    }

    /// Lets the season finish what it was asked, and closes it.
    pub fn finish(mut self) {
        let (closed, _) = channel();
        self.season = closed;
        if let Some(keeper) = self.keeper.take() {
            // A thread that panicked has told so already.
            _ = keeper.join();
        }
    }
}

impl Back for Threads {
    fn ask(&mut self, request: Request) {
        // A thread that is gone has told why before it went.
        match request {
            Request::Hunt(job) => _ = self.search.send(job),
            Request::Work(task) => _ = self.work.send(task),
            request => _ = self.season.send(request),
        }
    }
}

/// Goes on until nobody can ask any more: what was asked before one leaves is still done.
fn run_season<S: Store>(mut keeper: Keeper<S>, requests: &Receiver<Request>, tell: &dyn Fn(Reply)) {
    let mut next = None;
    loop {
        match next.take().map_or_else(|| requests.recv_timeout(IDLE), Ok) {
            Ok(request) => {
                next = newer_draft(&request, requests);
                if !matches!((&request, &next), (Request::Draft(_), Some(Request::Draft(_)))) {
                    keeper.answer(request, &mut |reply| tell(reply));
                }
            }
            Err(RecvTimeoutError::Timeout) => keeper.idle(&mut |reply| tell(reply)),
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
}

/// What was asked behind a half-written line: of several such lines only the newest need be kept.
fn newer_draft(request: &Request, requests: &Receiver<Request>) -> Option<Request> {
    matches!(request, Request::Draft(_)).then(|| requests.try_recv().ok()).flatten()
}

fn run_search(jobs: &Receiver<Job>, tell: &dyn Fn(Reply)) {
    while let Ok(mut job) = jobs.recv() {
        // Only the newest search matters.
        while let Ok(newer) = jobs.try_recv() {
            job = newer;
        }
        tell(hunt(&job));
    }
}

/// Does one piece of work after another; one that was ended before its turn only says that it is done.
fn run_work(tasks: &Receiver<Task>, tell: &dyn Fn(Reply)) {
    while let Ok(task) = tasks.recv() {
        work(&task, &mut |reply| tell(reply));
    }
}
