//! The most that can flow through a network, in whole numbers, and what holds it back.
//!
//! E. A. Dinic, Algorithm for solution of a problem of maximum flow in a network with power estimation,
//! Soviet Math. Doklady 11 (1970): shortest ways first, a layer at a time.

use std::collections::VecDeque;

/// More than ever flows: a supply without end.
pub(super) const ENDLESS: i64 = i64::MAX / 4;

/// A network of points and arcs; every arc has its way back beside it (arc `a` and arc `a ^ 1`).
#[derive(Debug, Clone)]
pub(super) struct Flow {
    /// The arcs that leave each point.
    leaving: Vec<Vec<usize>>,
    /// Where each arc leads.
    to: Vec<usize>,
    /// How much more each arc can carry.
    left: Vec<i64>,
    depth: Vec<u32>,
    next: Vec<usize>,
}

/// No layer: the point can't be reached.
const FAR: u32 = u32::MAX;

impl Flow {
    pub fn new(points: usize) -> Flow {
        Flow {
            leaving: vec![Vec::new(); points],
            to: Vec::new(),
            left: Vec::new(),
            depth: vec![FAR; points],
            next: vec![0; points],
        }
    }

    /// A new arc; its number.
    pub fn arc(&mut self, from: usize, to: usize, room: i64) -> usize {
        let arc = self.to.len();
        self.to.extend([to, from]);
        self.left.extend([room, 0]);
        self.leaving[from].push(arc);
        self.leaving[to].push(arc + 1);
        arc
    }

    /// What an arc carries.
    pub fn carried(&self, arc: usize) -> i64 {
        self.left[arc ^ 1]
    }

    /// How much more an arc can carry.
    pub fn left(&self, arc: usize) -> i64 {
        self.left[arc]
    }

    /// Empties an arc and gives it this much room.
    pub fn reset(&mut self, arc: usize, room: i64) {
        self.left[arc] = room;
        self.left[arc ^ 1] = 0;
    }

    /// Gives an arc more room, or less by a negative amount, whatever it carries.
    pub fn widen(&mut self, arc: usize, by: i64) {
        self.left[arc] += by;
    }

    /// How much more each arc can carry, to be put back by [`Flow::restore`].
    pub fn state(&self) -> Vec<i64> {
        self.left.clone()
    }

    /// Puts back what [`Flow::state`] told.
    pub fn restore(&mut self, state: &[i64]) {
        self.left.copy_from_slice(state);
    }

    /// Sends as much more as can flow; how much that was.
    pub fn push(&mut self, source: usize, sink: usize) -> i64 {
        let mut sent = 0;
        while self.layer(source, sink) {
            self.next.fill(0);
            loop {
                let some = self.push_one(source, sink);
                if some == 0 {
                    break;
                }
                sent += some;
            }
        }
        sent
    }

    /// Whether more could flow from each point to the sink: the sink's side of what holds the flow back.
    pub fn reaching(&self, sink: usize) -> Vec<bool> {
        let mut reaching = vec![false; self.leaving.len()];
        reaching[sink] = true;
        let mut queue = vec![sink];
        while let Some(point) = queue.pop() {
            for &arc in &self.leaving[point] {
                let from = self.to[arc];
                if self.left[arc ^ 1] > 0 && !reaching[from] {
                    reaching[from] = true;
                    queue.push(from);
                }
            }
        }
        reaching
    }

    /// Numbers the points by their distance from the source, up to the sink; whether that is among them.
    fn layer(&mut self, source: usize, sink: usize) -> bool {
        self.depth.fill(FAR);
        self.depth[source] = 0;
        let mut queue = VecDeque::from([source]);
        while let Some(point) = queue.pop_front() {
            if point == sink {
                return true;
            }
            for &arc in &self.leaving[point] {
                let to = self.to[arc];
                if self.left[arc] > 0 && self.depth[to] == FAR {
                    self.depth[to] = self.depth[point] + 1;
                    queue.push_back(to);
                }
            }
        }
        false
    }

    /// One way from source to sink along the layers, filled; how much it took.
    fn push_one(&mut self, source: usize, sink: usize) -> i64 {
        let mut way: Vec<usize> = Vec::new();
        let mut point = source;
        while point != sink {
            let leaving = &self.leaving[point];
            let open = |&at: &usize| {
                let arc = leaving[at];
                self.left[arc] > 0 && self.depth[self.to[arc]] == self.depth[point] + 1
            };
            if let Some(at) = (self.next[point]..leaving.len()).find(open) {
                self.next[point] = at;
                way.push(leaving[at]);
                point = self.to[leaving[at]];
            } else {
                self.next[point] = leaving.len();
                let Some(arc) = way.pop() else { return 0 };
                point = self.to[arc ^ 1];
                self.next[point] += 1;
            }
        }
        let some = way.iter().map(|arc| self.left[*arc]).min().unwrap_or(0);
        for arc in way {
            self.left[arc] -= some;
            self.left[arc ^ 1] += some;
        }
        some
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crossed_network_by_hand() {
        // 0 → 1, 2 → 3, 4 → 5. The short way 0-1-3-5 must be taken back in part for the 5 that fit.
        let mut flow = Flow::new(6);
        for (from, to, room) in [(0, 1, 3), (0, 2, 2), (1, 3, 3), (1, 4, 1), (2, 3, 2), (3, 5, 4), (4, 5, 9)] {
            flow.arc(from, to, room);
        }
        assert_eq!(flow.push(0, 5), 5);
        assert_eq!(flow.push(0, 5), 0);
        // 4 → 5 has room left, and 4 is short of supply: only 1 → 4 would help, and that is full.
        assert_eq!(flow.reaching(5), [false, false, false, false, true, true]);
    }

    #[test]
    fn what_holds_it_back_is_before_the_sink() {
        // Everything passes 1 → 2, which takes 4: more could flow from 2 and 3 alone.
        let mut flow = Flow::new(4);
        flow.arc(0, 1, 9);
        let narrow = flow.arc(1, 2, 4);
        flow.arc(2, 3, 7);
        assert_eq!(flow.push(0, 3), 4);
        assert_eq!(flow.carried(narrow), 4);
        assert_eq!(flow.reaching(3), [false, false, true, true]);
    }
}
