//! One run of the beam: the best few loads of each depth, each judged by what a greedy end makes of it.

use super::load::{Choice, Hands, Load, Table};
use crate::model::stop::Stop;

/// A run of the beam, one greedy end at a time.
#[derive(Debug)]
pub struct Beam {
    width: usize,
    states: Vec<State>,
    children: Vec<Child>,
    /// The state whose children are being judged, and its choices not judged yet, the best last.
    at: usize,
    waiting: Vec<Choice>,
    /// How many choices that state has.
    choices: usize,
    hands: Hands,
    chosen: Vec<Choice>,
    trial: Load,
}

/// A load, and what the greedy end makes of it.
#[derive(Debug)]
struct State {
    load: Load,
    score: Option<f64>,
}

/// A load with one block more, to be made of its parent if it is among the best.
#[derive(Debug)]
struct Child {
    parent: usize,
    choice: Choice,
    score: f64,
    volume: i64,
}

/// What a step of the beam came to.
#[derive(Debug)]
pub enum Step<'a> {
    /// A load was filled up.
    Filled(&'a Load),
    /// The beam is at its end.
    Over,
}

impl Beam {
    /// A beam of some width, from the empty container.
    pub fn new(table: &Table, width: usize) -> Beam {
        Beam {
            width,
            states: vec![State { load: table.empty(), score: None }],
            children: Vec::new(),
            at: 0,
            waiting: Vec::new(),
            choices: 0,
            hands: Hands::default(),
            chosen: Vec::new(),
            trial: Load::default(),
        }
    }

    /// Goes on until one more load has been filled up.
    pub fn step(&mut self, table: &Table, score: impl Fn(&Load) -> f64, stop: &dyn Stop) -> Step<'_> {
        while let Some(choice) = self.next_choice(table) {
            let state = &self.states[self.at - 1];
            self.trial.clone_from(&state.load);
            table.place(&mut self.trial, &choice);
            let (parent, volume) = (self.at - 1, self.trial.volume);
            let first = self.waiting.len() + 1 == self.choices;
            if let (true, Some(score)) = (first, state.score) {
                // The best choice is the one that the greedy end of its parent began with.
                self.children.push(Child { parent, choice, score, volume });
                continue;
            }
            table.complete(&mut self.trial, &mut self.hands, &mut self.chosen, stop);
            self.children.push(Child { parent, choice, score: score(&self.trial), volume });
            return Step::Filled(&self.trial);
        }
        Step::Over
    }

    /// The next choice of any state; the children become states when all are judged.
    fn next_choice(&mut self, table: &Table) -> Option<Choice> {
        loop {
            if let Some(choice) = self.waiting.pop() {
                return Some(choice);
            }
            if self.at == self.states.len() {
                self.descend(table);
                if self.states.is_empty() {
                    return None;
                }
            }
            table.choose(&mut self.states[self.at].load, self.width, &mut self.hands, &mut self.waiting);
            self.choices = self.waiting.len();
            self.waiting.reverse();
            self.at += 1;
        }
    }

    /// The best children become the states.
    fn descend(&mut self, table: &Table) {
        self.children.sort_by(|one, other| other.score.total_cmp(&one.score).then(other.volume.cmp(&one.volume)));
        // Equal in both, they are nearly always the same load in another order.
        self.children.dedup_by_key(|child| (child.score.to_bits(), child.volume));
        self.children.truncate(self.width);
        let made = |child: &Child| {
            let mut load = self.states[child.parent].load.clone();
            table.place(&mut load, &child.choice);
            State { load, score: Some(child.score) }
        };
        let states = self.children.iter().map(made).collect();
        self.states = states;
        self.children.clear();
        self.at = 0;
    }
}
